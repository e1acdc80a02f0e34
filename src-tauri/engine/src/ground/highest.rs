//! The highest and the lowest ground along a line and over an area, exactly.

use super::Ground;
use super::profile::profile;
use crate::numerics::outline::{contains, sides};
use crate::numerics::real::{cos_deg, hypot};
use crate::quantity::bearing::unit;

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
pub struct Range {
    pub lowest_m: f64,
    pub highest_m: f64,
}

impl Range {
    const NONE: Range = Range { lowest_m: f64::INFINITY, highest_m: f64::NEG_INFINITY };

    fn take(&mut self, height_m: f64) {
        self.lowest_m = self.lowest_m.min(height_m);
        self.highest_m = self.highest_m.max(height_m);
    }

    fn found(self) -> Option<Range> {
        (self.lowest_m <= self.highest_m).then_some(self)
    }
}

/// The ground's range over the area inside an outline; none without a corner.
pub fn range_within(ground: &Ground, outline: &[[f64; 2]]) -> Option<Range> {
    let mut range = Range::NONE;
    breaks_within(ground, outline, &mut |_, height_m| range.take(height_m));
    range.found()
}

/// Sides of the polygon that stands for a circle. It lies round it, so that nothing is missed, and reaches at most
/// 1/cos(π/36) − 1 = 0.4 % of the radius beyond it.
const ROUND_SIDES: u32 = 36;

/// The ground's range over a circle, never narrower than it is: exactly on a plane, else over a polygon round it.
pub fn range_round(ground: &Ground, centre: [f64; 2], radius_m: f64) -> Range {
    let middle_m = ground.height(centre);
    let mut range = Range { lowest_m: middle_m, highest_m: middle_m };
    if ground.surface.is_none() {
        let rise_m = radius_m * hypot(ground.plane.gradient[0], ground.plane.gradient[1]);
        return Range { lowest_m: middle_m - rise_m, highest_m: middle_m + rise_m };
    }
    if radius_m > 0.0 {
        let step_deg = 360.0 / f64::from(ROUND_SIDES);
        let out_m = radius_m / cos_deg(step_deg / 2.0);
        let outline: Vec<[f64; 2]> = (0..ROUND_SIDES)
            // Anticlockwise, as outlines are.
            .map(|i| unit(-step_deg * f64::from(i)))
            .map(|way| [centre[0] + out_m * way[0], centre[1] + out_m * way[1]])
            .collect();
        breaks_within(ground, &outline, &mut |_, height_m| range.take(height_m));
    }
    range
}

fn bounds(outline: &[[f64; 2]]) -> [[f64; 2]; 2] {
    let nothing = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    outline.iter().fold(nothing, |[low, high], at| {
        [[low[0].min(at[0]), low[1].min(at[1])], [high[0].max(at[0]), high[1].max(at[1])]]
    })
}
