//! Strands with their numbers: as the plan numbers them, clockwise, and how far round each is from where the cone faces.

use super::results::NumberedStrand;
use crate::job::{Lights, Placement, Strands};
use crate::numerics::vector::{norm, subtract};
use crate::quantity::bearing::{of_vector, wrap_360};
use crate::strands::RingResult;
use crate::tube::MastResult;

/// True bearing of the middle of the part of the ring in use.
pub(super) fn view_bearing_deg(
    placement: &Placement,
    strands: &Strands,
    mast: &MastResult,
    ring: &RingResult,
) -> f64 {
    // The ring stands where the plan has put it, as built too: a full one begins at that bearing, a part is even to both sides.
    let first = ring.points.first().map(|at| of_vector(at[0] - mast.east_m, at[1] - mast.north_m));
    let is_full = strands.sweep_deg >= 360.0 || strands.count == 1;
    let half_deg = if is_full { 0.0 } else { strands.sweep_deg / 2.0 };
    wrap_360(first.map_or(placement.front_bearing_deg + strands.facing_turn_deg, |first| first + half_deg))
}

pub(super) fn numbered(
    strands: &Strands,
    ring: &RingResult,
    mast: &MastResult,
    view_deg: f64,
    lights: &Lights,
) -> Vec<NumberedStrand> {
    let is_full = strands.sweep_deg >= 360.0;
    let count = ring.points.len();
    let next = |index: usize| {
        let next = (index + 1) % count.max(1);
        (next != index && (is_full || next > index)).then(|| ring.points.get(next)).flatten()
    };
    let strand = |(index, (at, length_m)): (usize, (&[f64; 3], &f64))| {
        let bearing_deg = of_vector(at[0] - mast.east_m, at[1] - mast.north_m);
        let number = index as u32 + 1;
        let turn_deg = wrap_360(bearing_deg - view_deg);
        let tested = lights.tested.iter().find(|test| test.strand == number.to_string());
        NumberedStrand {
            number,
            bearing_deg,
            turn_from_view_deg: if turn_deg > 180.0 { turn_deg - 360.0 } else { turn_deg },
            length_m: *length_m,
            to_next_m: next(index).map(|next| norm(subtract(*at, *next))),
            lit: tested.map(|test| test.lit),
        }
    };
    ring.points.iter().zip(&ring.strand_lengths_m).enumerate().map(strand).collect()
}
