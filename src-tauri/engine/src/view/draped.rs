//! Lines on the ground.

use super::camera::P3;
use crate::ground::Ground;
use crate::ground::highest::breaks_along;
use crate::numerics::outline::sides;
use crate::numerics::real::{cos_deg, sin_deg};

/// So that a line on the ground lies on it, and not in it.
const OVER_GROUND_M: f64 = 0.005;

/// A straight line on the ground, over every edge of it.
pub(super) fn draped(ground: &Ground, from: [f64; 2], to: [f64; 2]) -> Vec<P3> {
    let mut points = Vec::new();
    breaks_along(ground, from, to, &mut |[x, y], z| points.push([x, y, z + OVER_GROUND_M]));
    points
}

/// A chain of them.
pub(super) fn draped_line(ground: &Ground, line: &[[f64; 2]]) -> Vec<P3> {
    line.windows(2).flat_map(|ends| draped(ground, ends[0], ends[1])).collect()
}

/// A closed one.
pub(super) fn draped_outline(ground: &Ground, outline: &[[f64; 2]]) -> Vec<P3> {
    sides(outline).flat_map(|(a, b)| draped(ground, a, b)).collect()
}

/// Corners round a point, anticlockwise.
pub(super) fn round(middle: [f64; 2], radius_m: f64, corners: u32) -> Vec<[f64; 2]> {
    let turn = |i: u32| 360.0 * f64::from(i) / f64::from(corners);
    let at = |deg: f64| [middle[0] + radius_m * cos_deg(deg), middle[1] + radius_m * sin_deg(deg)];
    (0..corners).map(|i| at(turn(i))).collect()
}
