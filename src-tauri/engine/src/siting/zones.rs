//! Ground that a point of the work may not come to, looked up in no time: a grid over the yard says of each of its cells
//! whether it is free, closed throughout, or which few zones have to be asked.

use crate::finding::Subject;
use crate::yard::flat::{P2, Patch, contains, point_to_edge, sides};

/// What a point is refused by, as a number of the index's zones; the boundary's is one beyond the last.
pub(super) type ZoneNumber = u32;

/// All that is nearer to a patch than a distance.
#[derive(Debug, Clone)]
pub(super) struct Zone {
    pub patch: Patch,
    pub reach_m: f64,
    pub by: Subject,
}

impl Zone {
    fn holds(&self, p: P2, slack_m: f64) -> bool {
        self.patch.near_point(p).distance_m < self.reach_m - slack_m
    }
}

/// The box around all that is nearer to a patch than a distance.
fn bounds(patch: &Patch, more_m: f64) -> [P2; 2] {
    let (ends, more_m): ([P2; 2], f64) = match patch {
        Patch::Strip { a, b, half_m } => ([*a, *b], half_m + more_m),
        Patch::Area(outline) => (corners(outline), more_m),
    };
    let [lo, hi] = corners(&ends);
    [lo.map(|x| x - more_m), hi.map(|x| x + more_m)]
}

/// The lower and the upper corner of the box around points.
fn corners(points: &[P2]) -> [P2; 2] {
    let lo = points.iter().fold([f64::INFINITY; 2], |lo, p| [lo[0].min(p[0]), lo[1].min(p[1])]);
    let hi = points.iter().fold([f64::NEG_INFINITY; 2], |hi, p| [hi[0].max(p[0]), hi[1].max(p[1])]);
    [lo, hi]
}

/// Square cells over a yard.
#[derive(Debug, Clone, Copy)]
pub(super) struct YardGrid {
    pub lo: P2,
    pub cell_m: f64,
    pub columns: usize,
    pub rows: usize,
}

impl YardGrid {
    /// Over the box around an outline.
    pub fn over(outline: &[P2], cell_m: f64) -> Self {
        let [lo, hi] = corners(outline);
        let count = |axis: usize| (((hi[axis] - lo[axis]) / cell_m).ceil() as usize).max(1);
        Self { lo, cell_m, columns: count(0), rows: count(1) }
    }

    pub fn cells(&self) -> usize {
        self.columns * self.rows
    }

    pub fn centre(&self, column: usize, row: usize) -> P2 {
        let at = |axis: usize, index: usize| self.lo[axis] + self.cell_m * (index as f64 + 0.5);
        [at(0, column), at(1, row)]
    }

    fn cell_of(&self, p: P2) -> Option<usize> {
        let [column, row] = [0, 1].map(|axis| (p[axis] - self.lo[axis]) / self.cell_m);
        let inside = column >= 0.0 && row >= 0.0 && column < self.columns as f64 && row < self.rows as f64;
        inside.then(|| row as usize * self.columns + column as usize)
    }

    /// The columns and rows of the cells that a box touches.
    fn touched(&self, [lo, hi]: [P2; 2]) -> [std::ops::Range<usize>; 2] {
        let range = |axis: usize, count: usize| {
            let from = ((lo[axis] - self.lo[axis]) / self.cell_m).floor().clamp(0.0, count as f64);
            let to = ((hi[axis] - self.lo[axis]) / self.cell_m).floor() + 1.0;
            from as usize..to.clamp(from, count as f64) as usize
        };
        [range(0, self.columns), range(1, self.rows)]
    }

    /// From a cell's middle to its corner.
    fn half_diagonal_m(&self) -> f64 {
        self.cell_m * std::f64::consts::FRAC_1_SQRT_2
    }
}

/// Which of many things come near enough to each cell to be measured there.
#[derive(Debug, Clone)]
pub(super) struct Nearby {
    grid: YardGrid,
    /// Where each cell's own begin in `numbers`; one more than cells.
    from: Vec<u32>,
    numbers: Vec<u32>,
}

impl Nearby {
    /// Of patches with the distance from which each matters.
    pub fn new(grid: YardGrid, things: &[(&Patch, f64)]) -> Self {
        let half_m = grid.half_diagonal_m();
        let mut pairs: Vec<(u32, u32)> = Vec::new();
        for (number, (patch, reach_m)) in things.iter().enumerate() {
            let [columns, rows] = grid.touched(bounds(patch, reach_m + half_m));
            for row in rows {
                for column in columns.clone() {
                    let distance_m = patch.near_point(grid.centre(column, row)).distance_m;
                    if distance_m < reach_m + half_m {
                        pairs.push(((row * grid.columns + column) as u32, number as u32));
                    }
                }
            }
        }
        pairs.sort_unstable();
        let before = |cell: usize| pairs.partition_point(|pair| (pair.0 as usize) < cell) as u32;
        let from = (0..=grid.cells()).map(before).collect();
        Self { grid, from, numbers: pairs.into_iter().map(|(_, number)| number).collect() }
    }

    /// The things that may matter at a point, in their order; none outside the grid.
    pub fn at(&self, p: P2) -> &[u32] {
        let range = self.grid.cell_of(p).and_then(|cell| {
            let (from, to) = (self.from.get(cell)?, self.from.get(cell + 1)?);
            self.numbers.get(*from as usize..*to as usize)
        });
        range.unwrap_or_default()
    }
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum GridCell {
    Free,
    Closed(ZoneNumber),
    /// The boundary's edge runs through it or near by, and these of the asked zones hold a part of it.
    Asked {
        edge: bool,
        from: u32,
        to: u32,
    },
}

/// Zones and a boundary over a grid.
#[derive(Debug, Clone)]
pub(super) struct ZoneIndex {
    grid: YardGrid,
    zones: Vec<Zone>,
    outline: Vec<P2>,
    cells: Vec<GridCell>,
    asked: Vec<ZoneNumber>,
    /// Points are known to this only: what holds them by less does not refuse them.
    slack_m: f64,
}

impl ZoneIndex {
    /// For points that have to keep out of every zone and within an outline, both but for `slack_m`.
    pub fn new(grid: YardGrid, zones: Vec<Zone>, outline: &[P2], slack_m: f64) -> Self {
        let beyond = zones.len() as ZoneNumber;
        let mut cells = by_boundary(&grid, outline, beyond, slack_m);
        let mut pairs: Vec<(u32, ZoneNumber)> = Vec::new();
        for (number, zone) in zones.iter().enumerate() {
            mark(&grid, zone, number as ZoneNumber, slack_m, &mut cells, &mut pairs);
        }
        let asked = listed(pairs, &mut cells);
        Self { grid, zones, outline: outline.to_vec(), cells, asked, slack_m }
    }

    /// Which zone, or the boundary, refuses a point; the first of several.
    pub fn refusing(&self, p: P2) -> Option<ZoneNumber> {
        let Some(cell) = self.grid.cell_of(p).and_then(|at| self.cells.get(at)) else {
            // Outside the box around the outline.
            return self.is_outside(p).then_some(self.zones.len() as ZoneNumber);
        };
        match *cell {
            GridCell::Free => None,
            GridCell::Closed(number) => Some(number),
            GridCell::Asked { edge, from, to } => {
                if edge && self.is_outside(p) {
                    return Some(self.zones.len() as ZoneNumber);
                }
                let near = self.asked.get(from as usize..to as usize).unwrap_or_default();
                near.iter().copied().find(|&number| {
                    self.zones.get(number as usize).is_some_and(|zone| zone.holds(p, self.slack_m))
                })
            }
        }
    }

    /// What each number stands for, the boundary last.
    pub fn subjects(&self) -> impl Iterator<Item = Subject> + '_ {
        self.zones.iter().map(|zone| zone.by.clone()).chain(std::iter::once(Subject::Boundary))
    }

    #[cfg(test)]
    fn by(&self, number: ZoneNumber) -> Subject {
        self.zones.get(number as usize).map_or(Subject::Boundary, |zone| zone.by.clone())
    }

    fn is_outside(&self, p: P2) -> bool {
        !contains(&self.outline, p) && point_to_edge(p, &self.outline).distance_m > self.slack_m
    }
}

/// Cells along the outline are asked; of all others the one before in the row tells, as no edge lies between.
fn by_boundary(grid: &YardGrid, outline: &[P2], beyond: ZoneNumber, slack_m: f64) -> Vec<GridCell> {
    let mut cells = vec![GridCell::Free; grid.cells()];
    let reach_m = grid.half_diagonal_m() + slack_m;
    for (a, b) in sides(outline) {
        let edge = Patch::Strip { a, b, half_m: 0.0 };
        let [columns, rows] = grid.touched(bounds(&edge, reach_m));
        for row in rows {
            for column in columns.clone() {
                if edge.near_point(grid.centre(column, row)).distance_m <= reach_m {
                    cells[row * grid.columns + column] = GridCell::Asked { edge: true, from: 0, to: 0 };
                }
            }
        }
    }
    for row in 0..grid.rows {
        let mut before: Option<GridCell> = None;
        for column in 0..grid.columns {
            let cell = &mut cells[row * grid.columns + column];
            if *cell != GridCell::Free {
                before = None;
                continue;
            }
            let known = before.unwrap_or_else(|| {
                if contains(outline, grid.centre(column, row)) {
                    GridCell::Free
                } else {
                    GridCell::Closed(beyond)
                }
            });
            *cell = known;
            before = Some(known);
        }
    }
    cells
}

/// A zone closes the cells that it holds whole, and is asked in those that it holds in part.
fn mark(
    grid: &YardGrid,
    zone: &Zone,
    number: ZoneNumber,
    slack_m: f64,
    cells: &mut [GridCell],
    pairs: &mut Vec<(u32, ZoneNumber)>,
) {
    let half_m = grid.half_diagonal_m();
    if zone.reach_m <= slack_m {
        return;
    }
    let [columns, rows] = grid.touched(bounds(&zone.patch, zone.reach_m));
    for row in rows {
        for column in columns.clone() {
            let at = row * grid.columns + column;
            if matches!(cells[at], GridCell::Closed(_)) {
                continue;
            }
            let distance_m = zone.patch.near_point(grid.centre(column, row)).distance_m;
            // The distance to a patch changes by no more than the way from the middle.
            if distance_m + half_m < zone.reach_m - slack_m {
                cells[at] = GridCell::Closed(number);
            } else if distance_m - half_m < zone.reach_m {
                pairs.push((at as u32, number));
            }
        }
    }
}

/// Puts the zones of each cell one after another, and tells each cell where its own stand.
fn listed(mut pairs: Vec<(u32, ZoneNumber)>, cells: &mut [GridCell]) -> Vec<ZoneNumber> {
    pairs.sort_unstable();
    let mut asked = Vec::with_capacity(pairs.len());
    for group in pairs.chunk_by(|a, b| a.0 == b.0) {
        let Some(cell) = group.first().and_then(|(at, _)| cells.get_mut(*at as usize)) else { continue };
        let edge = match *cell {
            GridCell::Closed(_) => continue,
            GridCell::Free => false,
            GridCell::Asked { edge, .. } => edge,
        };
        let from = asked.len() as u32;
        asked.extend(group.iter().map(|(_, number)| *number));
        *cell = GridCell::Asked { edge, from, to: asked.len() as u32 };
    }
    asked
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::random::Random;

    const YARD: [P2; 5] = [[0.0, 0.0], [20.0, 1.0], [18.0, 15.0], [9.0, 8.0], [-1.0, 14.0]];

    fn zones() -> Vec<Zone> {
        let named = |id: &str| Subject::Obstacle { id: id.into() };
        vec![
            Zone {
                patch: Patch::Strip { a: [5.0, 4.0], b: [5.0, 4.0], half_m: 0.3 },
                reach_m: 1.0,
                by: named("tree"),
            },
            Zone {
                patch: Patch::Area(vec![[10.0, 2.0], [14.0, 2.0], [14.0, 6.0], [10.0, 6.0]]),
                reach_m: 0.5,
                by: named("shed"),
            },
            Zone {
                patch: Patch::Strip { a: [-2.0, 3.0], b: [22.0, 9.0], half_m: 0.05 },
                reach_m: 0.6,
                by: named("pipe"),
            },
        ]
    }

    /// Every point is answered as all zones asked one by one answer it, whatever the cells' size.
    #[test]
    fn the_index_says_what_all_zones_say() {
        let mut random = Random::seeded(7);
        for cell_m in [0.1, 0.4, 1.7, 30.0] {
            let index = ZoneIndex::new(YardGrid::over(&YARD, cell_m), zones(), &YARD, 0.0);
            let mut refused = 0;
            for _ in 0..4000 {
                let p = [26.0 * random.even() - 3.0, 20.0 * random.even() - 2.0];
                let by_hand = zones().iter().any(|zone| zone.patch.near_point(p).distance_m < zone.reach_m)
                    || !contains(&YARD, p);
                assert_eq!(index.refusing(p).is_some(), by_hand, "{p:?} in cells of {cell_m}");
                refused += u32::from(by_hand);
            }
            assert!((800..3600).contains(&refused), "{refused}");
        }
    }

    /// What is known to a hand's breadth only is refused only where all of the hand's breadth is.
    #[test]
    fn slack_refuses_less() {
        let index = |slack_m| ZoneIndex::new(YardGrid::over(&YARD, 0.5), zones(), &YARD, slack_m);
        let (exact, slack) = (index(0.0), index(0.1));
        // 0.3 m trunk and 1.0 m to keep: 1.25 m from its middle is refused, but not if it may be 1.35 m.
        assert!(exact.refusing([5.0, 2.75]).is_some());
        assert!(slack.refusing([5.0, 2.75]).is_none());
        assert!(slack.refusing([5.0, 2.85]).is_some());
        // 0.05 m over the south side, which rises 1 in 20.
        assert!(exact.refusing([2.0, 0.05]).is_some());
        assert!(slack.refusing([2.0, 0.05]).is_none());
        assert!(slack.refusing([2.0, -0.2]).is_some());
    }

    #[test]
    fn a_refused_point_names_what_refuses_it() {
        let index = ZoneIndex::new(YardGrid::over(&YARD, 0.5), zones(), &YARD, 0.0);
        let by = |p| index.refusing(p).map(|number| index.by(number));
        assert_eq!(by([12.0, 3.0]), Some(Subject::Obstacle { id: "shed".into() }));
        assert_eq!(by([40.0, 3.0]), Some(Subject::Boundary));
        assert_eq!(by([3.0, 8.0]), None);
    }
}
