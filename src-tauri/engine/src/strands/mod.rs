//! The cone of strands: the ring on the ground and the straight length of each strand.

use crate::ground::Ground;
use crate::job::{Placement, Strands};
use crate::plan::RingResult;
use crate::quantity::bearing::unit;

/// The ring points at equal turns over the part of the ring in use, on the ground, and each strand from the
/// topper on the mast's axis down to its point.
///
/// A full ring has as many gaps as strands; a part has a strand at each of its ends (common practice).
pub fn ring(
    strands: &Strands,
    placement: &Placement,
    mast_at: [f64; 2],
    foot_m: f64,
    ground: &Ground,
) -> RingResult {
    let count = usize::from(strands.count);
    let is_full = strands.sweep_deg >= 360.0;
    let gaps = if is_full { count } else { count.saturating_sub(1).max(1) };
    let step_deg = strands.sweep_deg / gaps as f64;
    let middle_deg = placement.front_bearing_deg + strands.facing_turn_deg;
    let first_deg = if is_full || count == 1 { middle_deg } else { middle_deg - strands.sweep_deg / 2.0 };
    let points: Vec<[f64; 3]> = (0..count)
        .map(|index| {
            let [east, north] = unit(first_deg + step_deg * index as f64);
            let at = [mast_at[0] + strands.ring_radius_m * east, mast_at[1] + strands.ring_radius_m * north];
            [at[0], at[1], ground.height(at)]
        })
        .collect();
    let top_m = foot_m + strands.top_height_m;
    let length = |point: &[f64; 3]| {
        let drop_m = top_m - point[2];
        (strands.ring_radius_m * strands.ring_radius_m + drop_m * drop_m).sqrt()
    };
    RingResult {
        radius_m: strands.ring_radius_m,
        strand_lengths_m: points.iter().map(length).collect(),
        points,
    }
}
