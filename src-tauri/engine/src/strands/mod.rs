//! The cone of strands: the circle at the top, the ring on the ground and the straight length of each strand.

mod ring;

use crate::ground::Ground;
use crate::job::{Placement, Rig, Strands};
use crate::quantity::bearing::unit;
use crate::tube::MastResult;

pub use ring::RingResult;

/// The ring points at equal turns over the part of the ring in use, on the ground, and each strand straight from the
/// circle at the top down to its point, both on one bearing from the mast.
///
/// A full ring has as many gaps as strands; a part has a strand at each of its ends (common practice).
pub fn ring(
    rig: &Rig,
    strands: &Strands,
    placement: &Placement,
    mast: &MastResult,
    ground: &Ground,
) -> RingResult {
    let count = usize::from(strands.count);
    let is_full = strands.sweep_deg >= 360.0;
    let gaps = if is_full { count } else { count.saturating_sub(1).max(1) };
    let step_deg = strands.sweep_deg / gaps as f64;
    let middle_deg = placement.front_bearing_deg + strands.facing_turn_deg;
    let first_deg = if is_full || count == 1 { middle_deg } else { middle_deg - strands.sweep_deg / 2.0 };
    let out = |index: usize, radius_m: f64| {
        let [east, north] = unit(first_deg + step_deg * index as f64);
        [mast.east_m + radius_m * east, mast.north_m + radius_m * north]
    };
    let (top_radius_m, top_m) = (top_radius_m(rig, strands, mast), mast.foot_m + strands.top_height_m);
    let on_ground = |index| {
        let at = out(index, strands.ring_radius_m);
        [at[0], at[1], ground.height(at)]
    };
    let on_top = |index| {
        let at = out(index, top_radius_m);
        [at[0], at[1], top_m]
    };
    let points: Vec<[f64; 3]> = (0..count).map(on_ground).collect();
    let tops: Vec<[f64; 3]> = (0..count).map(on_top).collect();
    let length = |(top, point): (&[f64; 3], &[f64; 3])| {
        let way: [f64; 3] = std::array::from_fn(|axis| top[axis] - point[axis]);
        way.iter().map(|part| part * part).sum::<f64>().sqrt()
    };
    RingResult {
        radius_m: strands.ring_radius_m,
        strand_lengths_m: tops.iter().zip(&points).map(length).collect(),
        points,
        top_radius_m,
        tops,
    }
}

/// As the user gave it; else the strands hang from the topper's edge, or lie on the tube that stands there.
fn top_radius_m(rig: &Rig, strands: &Strands, mast: &MastResult) -> f64 {
    let by_topper = || rig.topper.as_ref().map(|topper| topper.width_m / 2.0);
    let at = strands.top_height_m;
    let by_tube = || {
        let there = mast.stages.iter().find(|stage| at <= stage.top_height_m).or(mast.stages.last());
        there.map(|stage| stage.outside_mm / 2000.0)
    };
    strands.top_radius_m.or_else(by_topper).or_else(by_tube).unwrap_or(0.0)
}
