//! What labels keep clear of, in a grid, so that a label among thousands of contours looks at those beside it alone. Sums
//! over them come out alike on every machine, as the grid shows things in one order.

use std::cell::Cell;

use crate::numerics::real::hypot;

use super::geometry::clip;
use super::scene::Bounds;

/// A line's piece with what a label minds lying across it.
pub(crate) type Segment = ([f64; 2], [f64; 2], f64);

/// Boxes and lines of a drawing.
#[derive(Debug, Clone)]
pub struct Blockers {
    boxes: Vec<Bounds>,
    segments: Vec<Segment>,
    box_grid: Grid,
    segment_grid: Grid,
}

/// So many lines' pieces has the map of a yard with a dozen things in it.
const MANY_SEGMENTS: usize = 1024;

impl Blockers {
    /// For a drawing of a part of the plane, lettered so high.
    pub fn new(bounds: &Bounds, text_m: f64) -> Self {
        let box_grid = Grid::over(bounds, text_m);
        let mut segment_grid = box_grid.clone();
        // Room for a usual map: a list that grows is copied each time.
        let (boxes, segments) = (Vec::with_capacity(64), Vec::with_capacity(MANY_SEGMENTS));
        segment_grid.seen.reserve(MANY_SEGMENTS);
        segment_grid.entries.reserve(2 * MANY_SEGMENTS);
        Self { boxes, segments, box_grid, segment_grid }
    }

    pub fn box_around(&mut self, at: [f64; 2], half_m: f64) {
        self.block_box(Bounds::around(at, half_m));
    }

    pub fn block_box(&mut self, bounds: Bounds) {
        self.box_grid.insert_box(&bounds);
        self.boxes.push(bounds);
    }

    pub fn line(&mut self, points: &[[f64; 2]], weight: f64) {
        for pair in points.windows(2) {
            self.segment_grid.insert_segment(pair[0], pair[1]);
            self.segments.push((pair[0], pair[1], weight));
        }
    }

    /// How much lies in a box already, for choosing a free one. Where it is no less than `least`, any number that is not.
    pub fn crowding(&self, own: &Bounds, least: f64) -> f64 {
        let mut cost = 0.0;
        self.each_box(own, |b| cost += covered_cost(5.0, 20.0, shared(own, b)));
        self.each_segment(own, |segment| {
            cost += segment_cost(segment, own);
            cost < least
        });
        cost
    }

    /// Shows the boxes that may lie within some bounds, always in the same order.
    pub(crate) fn each_box(&self, around: &Bounds, mut see: impl FnMut(&Bounds)) {
        self.box_grid.visit(around, |i| {
            see(&self.boxes[i]);
            true
        });
    }

    /// The same of the lines' pieces, as long as `see` goes on. Most of what shares a cell passes by: it is left out here.
    pub(crate) fn each_segment(&self, around: &Bounds, mut see: impl FnMut(&Segment) -> bool) {
        self.segment_grid.visit(around, |i| {
            let segment = &self.segments[i];
            !segment_near(&segment.0, &segment.1, around) || see(segment)
        });
    }
}

/// Nothing for no cover, a step for any, and more for more.
pub(crate) fn covered_cost(step: f64, slope: f64, share: f64) -> f64 {
    if share > 0.0 { step + slope * share } else { 0.0 }
}

pub(crate) fn area(b: &Bounds) -> f64 {
    b.width() * b.height()
}

pub(crate) fn overlap(a: &Bounds, b: &Bounds) -> bool {
    a.min[0] < b.max[0] && a.max[0] > b.min[0] && a.min[1] < b.max[1] && a.max[1] > b.min[1]
}

/// The part of `own` that `other` covers.
pub(crate) fn shared(own: &Bounds, other: &Bounds) -> f64 {
    if !overlap(own, other) {
        return 0.0;
    }
    own.intersection(*other).map_or(0.0, |inner| area(&inner) / area(own).max(1e-12))
}

/// What it costs that a segment near a box runs through it, by how many heights of the box.
pub(crate) fn segment_cost((a, b, weight): &Segment, own: &Bounds) -> f64 {
    let inside = clip(*a, *b, own)
        .map_or(0.0, |[a, b]| 0.3 + hypot(b[0] - a[0], b[1] - a[1]) / own.height().max(1e-9));
    weight * inside
}

#[inline]
fn segment_near(a: &[f64; 2], b: &[f64; 2], around: &Bounds) -> bool {
    a[0].min(b[0]) < around.max[0]
        && a[0].max(b[0]) > around.min[0]
        && a[1].min(b[1]) < around.max[1]
        && a[1].max(b[1]) > around.min[1]
}

/// Numbers of things by the cells that they reach into. What lies outside the grid lies in its outermost cells.
#[derive(Debug, Clone)]
pub(crate) struct Grid {
    origin: [f64; 2],
    cell_m: f64,
    count: [usize; 2],
    /// Where the list of each cell begins, in `entries`.
    heads: Vec<u32>,
    /// A thing's number, and where the cell's list goes on.
    entries: Vec<(u32, u32)>,
    /// The number of the visit in which each thing was seen last, so that none is seen twice in one.
    seen: Vec<Cell<u32>>,
    visits: Cell<u32>,
}

/// Ends a cell's list.
const END: u32 = u32::MAX;

/// A cell holds about one label.
const CELL_EM: f64 = 3.0;
const MOST_CELLS_ACROSS: f64 = 48.0;

impl Grid {
    pub(crate) fn over(bounds: &Bounds, text_m: f64) -> Self {
        let span_m = bounds.width().max(bounds.height());
        let cell_m = (CELL_EM * text_m).max(span_m / MOST_CELLS_ACROSS).max(1e-6);
        // Cast and clamped: a size that is no number makes one cell.
        let across = |size_m: f64| ((size_m / cell_m).ceil() as usize).clamp(1, MOST_CELLS_ACROSS as usize);
        let count = [across(bounds.width()), across(bounds.height())];
        Self {
            origin: bounds.min,
            cell_m,
            count,
            heads: vec![END; count[0] * count[1]],
            entries: Vec::new(),
            seen: Vec::new(),
            visits: Cell::new(0),
        }
    }

    fn cell(&self, axis: usize, at: f64) -> usize {
        // A cast holds at nought, and makes nought of what is no number.
        (((at - self.origin[axis]) / self.cell_m) as usize).min(self.count[axis] - 1)
    }

    fn next(&mut self) -> usize {
        self.seen.push(Cell::new(0));
        self.seen.len() - 1
    }

    fn add(&mut self, number: usize, column: usize, row: usize) {
        let Some(head) = self.heads.get_mut(row * self.count[0] + column) else { return };
        self.entries.push((number as u32, *head));
        *head = (self.entries.len() - 1) as u32;
    }

    /// The next thing, a box.
    pub(crate) fn insert_box(&mut self, bounds: &Bounds) {
        let number = self.next();
        for row in self.cell(1, bounds.min[1])..=self.cell(1, bounds.max[1]) {
            for column in self.cell(0, bounds.min[0])..=self.cell(0, bounds.max[0]) {
                self.add(number, column, row);
            }
        }
    }

    /// Row by row the cells that a segment runs through, with a hair more on either side for what lies on an edge.
    fn insert_segment(&mut self, a: [f64; 2], b: [f64; 2]) {
        let number = self.next();
        let (low, high) = if a[1] <= b[1] { (a, b) } else { (b, a) };
        let rise = high[1] - low[1];
        let rows = self.cell(1, low[1])..=self.cell(1, high[1]);
        let (first, last) = (*rows.start(), *rows.end());
        for row in rows {
            // The outermost rows hold all that lies outside, and a level segment has one row.
            let at = |y: f64| low[0] + (high[0] - low[0]) * ((y - low[1]) / rise).clamp(0.0, 1.0);
            let edge = |row: usize| self.origin[1] + row as f64 * self.cell_m;
            let from = if row == first || rise <= 0.0 { low[0] } else { at(edge(row)) };
            let to = if row == last || rise <= 0.0 { high[0] } else { at(edge(row + 1)) };
            let hair_m = 1e-6 * self.cell_m;
            for column in self.cell(0, from.min(to) - hair_m)..=self.cell(0, from.max(to) + hair_m) {
                self.add(number, column, row);
            }
        }
    }

    /// Shows the numbers of all things that may reach into some bounds, each once and always in the same order, as long
    /// as `see` goes on.
    pub(crate) fn visit(&self, around: &Bounds, mut see: impl FnMut(usize) -> bool) {
        let visit = self.visits.get().wrapping_add(1);
        self.visits.set(visit);
        let columns = self.cell(0, around.min[0])..=self.cell(0, around.max[0]);
        for row in self.cell(1, around.min[1])..=self.cell(1, around.max[1]) {
            for column in columns.clone() {
                let mut next = self.heads[row * self.count[0] + column];
                while let Some(&(number, after)) = self.entries.get(next as usize) {
                    next = after;
                    let number = number as usize;
                    if self.seen[number].replace(visit) != visit && !see(number) {
                        return;
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A spread of numbers in [0, 1) without a random generator: fractional parts of multiples of √2 and such.
    fn spread(i: usize, k: usize) -> f64 {
        ([2.0_f64, 3.0, 5.0, 7.0][k].sqrt() * (i as f64 + 1.0)).fract()
    }

    fn boxed(i: usize) -> Bounds {
        let at = [24.0 * spread(i, 0) - 7.0, 24.0 * spread(i, 1) - 7.0];
        Bounds { min: at, max: [at[0] + 5.0 * spread(i, 2), at[1] + 2.0 * spread(i, 3)] }
    }

    /// Half of what is in the way lies outside the drawing, and some of what is asked for.
    #[test]
    fn a_grid_leaves_out_nothing_that_costs() {
        let (mut boxes, mut segments): (Vec<Bounds>, Vec<Segment>) = (Vec::new(), Vec::new());
        let mut blockers = Blockers::new(&Bounds { min: [0.0, 0.0], max: [10.0, 7.0] }, 0.3);
        for i in 0..200 {
            let bounds = boxed(i);
            blockers.block_box(bounds);
            boxes.push(bounds);
            let long = boxed(i + 500);
            let ends = if i % 2 == 0 { [long.min, long.max] } else { [bounds.min, long.max] };
            blockers.line(&ends, 1.0 + i as f64);
            segments.push((ends[0], ends[1], 1.0 + i as f64));
        }
        for level in [[[0.0, 3.0], [9.0, 3.0]], [[3.0, 9.0], [3.0, -9.0]], [[2.0, 2.0], [2.0, 2.0]]] {
            blockers.line(&level, 1.0);
            segments.push((level[0], level[1], 1.0));
        }
        for own in (1000..1200).map(boxed) {
            let of_boxes: f64 = boxes.iter().map(|b| covered_cost(5.0, 20.0, shared(&own, b))).sum();
            let of_segments: f64 = segments
                .iter()
                .filter(|s| segment_near(&s.0, &s.1, &own))
                .map(|s| segment_cost(s, &own))
                .sum();
            let all = of_boxes + of_segments;
            // They are added up in another order.
            assert!((blockers.crowding(&own, f64::INFINITY) - all).abs() <= 1e-12 * all, "{own:?}");
            assert!(blockers.crowding(&own, 0.7 * all) >= 0.7 * all, "{own:?}");
        }
    }

    #[test]
    fn odd_bounds_make_one_cell() {
        for bounds in [Bounds::around([0.0, 0.0], f64::NAN), Bounds::around([f64::INFINITY, 0.0], 1.0)] {
            let mut blockers = Blockers::new(&bounds, 0.3);
            blockers.line(&[[0.0, 0.0], [2.0, 1.0]], 1.0);
            assert!(blockers.crowding(&Bounds::around([1.0, 0.5], 0.5), 1e9) > 0.0);
        }
    }
}
