//! What goes into the ground at a peg: how deep, leaning how far and which way, and which way it is pulled.

use super::{Driven, IntoGround};
use crate::finding::Subject;
use crate::finding::yard::Thing;
use crate::job::{AnchorKind, Job};
use crate::plan::{GuyResult, Plan};
use crate::quantity::bearing::wrap_360;
use crate::survey::north::NorthCorrection;

/// Pickets lean so far away from the pull, and are driven so deep: NAVEDTRA 14251, figs. 6-45 to 6-47 (`navedtra14251`), 15°
/// and 3 to 4 ft.
const PICKET_BATTER_DEG: f64 = 15.0;
const PICKET_DEPTH_M: f64 = 3.0 * 0.3048;

/// None for a peg that only marks a place.
pub(super) fn into_ground(
    job: &Job,
    plan: &Plan,
    north: &NorthCorrection,
    subject: &Subject,
) -> Option<IntoGround> {
    match subject {
        Subject::Guy { id } => {
            let guy = plan.guys.iter().find(|guy| guy.id == *id)?;
            let level = job.rig.guy_levels.iter().find(|level| level.id == guy.level_id)?;
            Some(anchor(&level.anchor, guy, north))
        }
        Subject::Stake { id } => Some(base_stake(job, plan, id)),
        _ => None,
    }
}

/// Of an anchor that several guys share the steepest counts, at which it is told of.
fn anchor(kind: &AnchorKind, guy: &GuyResult, north: &NorthCorrection) -> IntoGround {
    let pull_deg = wrap_360(guy.azimuth_deg + 180.0);
    let plain = IntoGround {
        what: Driven::NotChosen,
        depth_m: None,
        above_ground_m: None,
        batter_deg: None,
        leans_toward_deg: None,
        leans_reading_deg: None,
        pull_toward_deg: Some(pull_deg),
        pull_reading_deg: Some(north.reading_from_true(pull_deg)),
        pull_rises_deg: Some(guy.angle_deg),
    };
    let leaning = |what, batter_deg: f64, toward_deg: f64| IntoGround {
        what,
        batter_deg: Some(batter_deg),
        leans_toward_deg: Some(toward_deg),
        leans_reading_deg: Some(north.reading_from_true(toward_deg)),
        ..plain.clone()
    };
    if let Some(fast) = &guy.made_fast {
        let what = if fast.kind == Thing::Tree { Driven::FixingOnTree } else { Driven::Fixing };
        return IntoGround { what, above_ground_m: Some(fast.height_m), ..plain };
    }
    match *kind {
        AnchorKind::Unknown => plain,
        // In line with the guy: its head leans towards the mast by what the guy lacks of plumb. Common practice.
        AnchorKind::Screw { depth_m, .. } => {
            IntoGround { depth_m, ..leaning(Driven::Screw, 90.0 - guy.angle_deg, pull_deg) }
        }
        AnchorKind::Plate { depth_m, .. } => {
            IntoGround { what: Driven::Plate, depth_m: Some(depth_m), ..plain }
        }
        AnchorKind::Deadman { depth_m, .. } => {
            IntoGround { what: Driven::Deadman, depth_m: Some(depth_m), ..plain }
        }
        AnchorKind::Pickets { .. } => IntoGround {
            depth_m: Some(PICKET_DEPTH_M),
            ..leaning(Driven::Pickets, PICKET_BATTER_DEG, wrap_360(pull_deg + 180.0))
        },
        // The rule of its hold is that of a plumb bar (`anchor::stake`).
        AnchorKind::Stake { driven_m, .. } => {
            IntoGround { what: Driven::Bar, depth_m: Some(driven_m), batter_deg: Some(0.0), ..plain }
        }
        AnchorKind::Ballast { .. } => IntoGround { what: Driven::Ballast, depth_m: Some(0.0), ..plain },
    }
}

/// Plumb beside the timber, its head flush with the timber's top: as the base's hold is reckoned (`wind_capacity`). A stake
/// outside the hinge's edge stands free: as deep as its length less a timber's depth.
fn base_stake(job: &Job, plan: &Plan, id: &str) -> IntoGround {
    let leg = id.split('-').next().and_then(|leg| plan.base.legs.iter().find(|it| it.id == leg));
    let gap_m = leg.map_or(0.0, |leg| leg.gap_centre_m.value.max(0.0));
    let depth_m = job.rig.stakes.length_m - gap_m - job.rig.base.timber_depth_mm / 1000.0;
    IntoGround {
        what: Driven::BaseStake,
        depth_m: Some(depth_m.max(0.0)),
        above_ground_m: None,
        batter_deg: Some(0.0),
        leans_toward_deg: None,
        leans_reading_deg: None,
        pull_toward_deg: None,
        pull_reading_deg: None,
        pull_rises_deg: None,
    }
}
