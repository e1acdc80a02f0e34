//! Stakes at the legs' tips: beside the timber, or through it at a slant.

use super::{StakeHole, StakeWork};
use crate::job::Job;
use crate::numerics::real::{cos_deg, tan_deg};
use crate::round_figures::shop;

/// From a bore's middle to the timber's end, and from bore to bore, in thicknesses of the stake: 4 (NDS 2018, tables 12.5.1A and B,
/// from memory).
pub const END: f64 = 4.0;
/// From a bore's rim to the timber's side, in thicknesses: 1, so that 1.5 lie between the middle and the edge (NDS 2018, table
/// 12.5.1C, from memory).
pub const BESIDE: f64 = 1.0;

pub(super) fn stakes(job: &Job) -> StakeWork {
    let (base, stakes) = (&job.rig.base, &job.rig.stakes);
    if stakes.per_leg == 0 {
        return StakeWork::NoStakes;
    }
    let Some(slant_deg) = job.workshop.base.stake_slant_deg else {
        return StakeWork::Beside {
            per_leg: u32::from(stakes.per_leg),
            from_tip_m: stakes.inset_m,
            off_face_mm: 0.5 * stakes.diameter_mm,
        };
    };
    let hole_mm = stakes.diameter_mm + shop::BORED_PLAY.of(job.units.system);
    // Its head leans towards the mast, so that it comes out of the timber where the plan has it.
    let back_m = base.timber_depth_mm / 1000.0 * tan_deg(slant_deg);
    let apart_m = END * stakes.diameter_mm / 1000.0;
    let hole = |which: u8| {
        let underneath_m = stakes.inset_m + f64::from(which) * apart_m;
        StakeHole { on_top_m: underneath_m + back_m, underneath_m }
    };
    StakeWork::Through {
        holes: (0..stakes.per_leg).map(hole).collect(),
        slant_deg,
        hole_mm,
        mouth_mm: hole_mm / cos_deg(slant_deg),
        left_beside_mm: 0.5 * (base.timber_width_mm - hole_mm),
    }
}
