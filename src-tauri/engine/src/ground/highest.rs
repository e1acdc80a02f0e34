//! The highest and the lowest ground along a line and over an area, exactly.

use super::Ground;
use super::profile::profile;
use super::surface::gradient_of;
use crate::numerics::outline::{contains, sides};
use crate::numerics::real::hypot;

/// Shows `visit` every place that can be the highest or the lowest of the ground along a line.
///
/// Both ground models are flat in pieces, so these are the line's points and wherever it crosses from one piece to
/// the next; where it crosses the edge of the surface, both heights of the step.
pub fn breaks_along(ground: &Ground, from: [f64; 2], to: [f64; 2], visit: &mut dyn FnMut([f64; 2], f64)) {
    if ground.surface.is_none() {
        visit(from, ground.height(from));
        return visit(to, ground.height(to));
    }
    let breaks = profile(ground, from, to);
    let length_m = breaks.last().map_or(0.0, |last| last[0]);
    for [distance_m, height_m] in breaks {
        let share = if length_m > 0.0 { distance_m / length_m } else { 0.0 };
        visit([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])], height_m);
    }
}

/// Shows `visit` every place that can be the highest or the lowest of the ground over the area inside an outline:
/// those along its sides, and the surface's vertices inside it. At a corner of the surface's hull the plane begins,
/// so its height there counts as well.
pub fn breaks_within(ground: &Ground, outline: &[[f64; 2]], visit: &mut dyn FnMut([f64; 2], f64)) {
    for (from, to) in sides(outline) {
        breaks_along(ground, from, to, visit);
    }
    let Some(surface) = &ground.surface else { return };
    let [low, high] = bounds(outline);
    let is_inside = |at: [f64; 2]| {
        (0..2).all(|axis| low[axis] <= at[axis] && at[axis] <= high[axis]) && contains(outline, at)
    };
    for &[east, north, height_m] in surface.vertices() {
        if is_inside([east, north]) {
            visit([east, north], height_m);
        }
    }
    for &corner in surface.hull() {
        if is_inside(corner) {
            visit(corner, ground.plane.height(corner));
        }
    }
}

/// Lowest and highest ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeightRange {
    pub lowest_m: f64,
    pub highest_m: f64,
}

impl HeightRange {
    const NONE: HeightRange = HeightRange { lowest_m: f64::INFINITY, highest_m: f64::NEG_INFINITY };

    fn take(&mut self, height_m: f64) {
        self.lowest_m = self.lowest_m.min(height_m);
        self.highest_m = self.highest_m.max(height_m);
    }

    fn found(self) -> Option<HeightRange> {
        (self.lowest_m <= self.highest_m).then_some(self)
    }
}

/// The ground's range over the area inside an outline; none without a corner.
pub fn range_within(ground: &Ground, outline: &[[f64; 2]]) -> Option<HeightRange> {
    let mut range = HeightRange::NONE;
    breaks_within(ground, outline, &mut |_, height_m| range.take(height_m));
    range.found()
}

/// The ground's range over a circle, exactly: the ground is flat in pieces, and over the part of a piece inside the circle
/// a slope is highest and lowest at a corner of the piece, where a side of it crosses the circle, or where the circle
/// itself lies furthest up and down the slope.
pub fn range_round(ground: &Ground, centre: [f64; 2], radius_m: f64) -> HeightRange {
    let middle_m = ground.height(centre);
    let mut range = HeightRange { lowest_m: middle_m, highest_m: middle_m };
    let circle = Circle { centre, radius_m };
    let Some(surface) = &ground.surface else {
        circle.up_and_down(ground.plane.gradient).for_each(|at| range.take(ground.plane.height(at)));
        return range;
    };
    for corners in surface.triangles().iter().map(|&triangle| surface.corners(triangle)) {
        if !circle.is_near(corners) {
            continue;
        }
        for (a, b) in [(0, 1), (1, 2), (2, 0)].map(|(a, b)| (corners[a], corners[b])) {
            if circle.holds([a[0], a[1]]) {
                range.take(a[2]);
            }
            circle.crossings([a[0], a[1]], [b[0], b[1]]).for_each(|t| range.take(a[2] + t * (b[2] - a[2])));
        }
        let [[x, y, z], ..] = corners;
        let slope = gradient_of(corners);
        let outline = corners.map(|[x, y, _]| [x, y]);
        for at in circle.up_and_down(slope).filter(|at| contains(&outline, *at)) {
            range.take(z + slope[0] * (at[0] - x) + slope[1] * (at[1] - y));
        }
    }
    // Outside the surface the plane.
    for (a, b) in sides(surface.hull()) {
        if circle.holds(a) {
            range.take(ground.plane.height(a));
        }
        circle.crossings(a, b).for_each(|t| {
            range.take(ground.plane.height([a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]))
        });
    }
    let furthest = circle.up_and_down(ground.plane.gradient);
    furthest.filter(|at| surface.footing(*at).is_none()).for_each(|at| range.take(ground.plane.height(at)));
    range
}

struct Circle {
    centre: [f64; 2],
    radius_m: f64,
}

impl Circle {
    fn holds(&self, at: [f64; 2]) -> bool {
        hypot(at[0] - self.centre[0], at[1] - self.centre[1]) <= self.radius_m
    }

    /// Whether the boxes round both meet.
    fn is_near(&self, corners: [[f64; 3]; 3]) -> bool {
        (0..2).all(|axis| {
            let low = corners.iter().fold(f64::INFINITY, |low, corner| low.min(corner[axis]));
            let high = corners.iter().fold(f64::NEG_INFINITY, |high, corner| high.max(corner[axis]));
            low <= self.centre[axis] + self.radius_m && self.centre[axis] - self.radius_m <= high
        })
    }

    /// Its places furthest up and down a slope; none on the level.
    fn up_and_down(&self, [east, north]: [f64; 2]) -> impl Iterator<Item = [f64; 2]> {
        let grade = hypot(east, north);
        let (centre, out) = (self.centre, self.radius_m / grade);
        let signs = if grade > 0.0 { &[1.0, -1.0][..] } else { &[] };
        signs.iter().map(move |sign| [centre[0] + sign * out * east, centre[1] + sign * out * north])
    }

    /// Where a segment crosses it, as shares of the way.
    fn crossings(&self, a: [f64; 2], b: [f64; 2]) -> impl Iterator<Item = f64> {
        let (run, from) = ([b[0] - a[0], b[1] - a[1]], [a[0] - self.centre[0], a[1] - self.centre[1]]);
        let square = run[0] * run[0] + run[1] * run[1];
        let half = run[0] * from[0] + run[1] * from[1];
        let rest = from[0] * from[0] + from[1] * from[1] - self.radius_m * self.radius_m;
        let root = (half * half - square * rest).sqrt(); // not a number where they do not meet
        [(-half - root) / square, (-half + root) / square].into_iter().filter(|t| (0.0..=1.0).contains(t))
    }
}

fn bounds(outline: &[[f64; 2]]) -> [[f64; 2]; 2] {
    let nothing = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    outline.iter().fold(nothing, |[low, high], at| {
        [[low[0].min(at[0]), low[1].min(at[1])], [high[0].max(at[0]), high[1].max(at[1])]]
    })
}
