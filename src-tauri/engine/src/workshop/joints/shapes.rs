//! Which shapes of a base this ground takes, each turned as the base is.

use super::{BaseShape, ShapeOnGround};
use crate::base::{BaseInput, base_without_intervals};
use crate::job::{Base, BasePattern, Job};
use crate::plan::{Computed, Support};

/// A foot taller than so many times its thinner side tips before it is nailed: common practice.
const SLENDEST: f64 = 4.0;

pub(super) fn shapes(job: &Job, computed: &Computed) -> Vec<ShapeOnGround> {
    let base = &job.rig.base;
    if !computed.plan.knows_under("front") {
        return Vec::new();
    }
    let tee = Base { pattern: BasePattern::T, back_reach_m: None, ..base.clone() };
    let back_reach_m = Some(base.back_reach_m.unwrap_or(base.front_reach_m));
    let cross = Base { pattern: BasePattern::X, back_reach_m, ..base.clone() };
    // As wide one way as the other, as boxes are.
    let reach_m = base.front_reach_m.max(base.side_reach_m);
    let level =
        Base { front_reach_m: reach_m, side_reach_m: reach_m, back_reach_m: Some(reach_m), ..cross.clone() };
    let foot_mm = SLENDEST * base.foot_thickness_mm.min(base.foot_width_mm);
    [
        (BaseShape::Tee, tee, foot_mm),
        (BaseShape::Cross, cross, foot_mm),
        (BaseShape::LevelBox, level, base.shim_up_to_mm),
    ]
    .into_iter()
    .map(|(shape, base, most_mm)| on_ground(job, computed, shape, (&base, most_mm)))
    .collect()
}

fn on_ground(
    job: &Job,
    computed: &Computed,
    shape: BaseShape,
    (base, most_mm): (&Base, f64),
) -> ShapeOnGround {
    let plan = &computed.plan;
    let front = plan.base.legs.iter().find(|leg| leg.id == "front");
    let placed = base_without_intervals(&BaseInput {
        base,
        stakes: &job.rig.stakes,
        ground: &computed.ground,
        mast_at: [plan.mast.east_m, plan.mast.north_m],
        front_bearing_deg: front.map_or(job.placement.front_bearing_deg, |leg| leg.bearing_deg),
        turning_sigma_deg: 0.0,
        fall_bearing_deg: None,
    });
    let count = |support| placed.legs.iter().filter(|leg| leg.support == support).count() as u32;
    let gaps = placed.legs.iter().map(|leg| 1000.0 * leg.gap_centre_m.value);
    let highest_mm = gaps.fold(0.0, f64::max);
    let chosen = match job.rig.base.pattern {
        BasePattern::T => shape == BaseShape::Tee,
        BasePattern::X => shape == BaseShape::Cross,
    };
    ShapeOnGround {
        shape,
        chosen,
        feet: count(Support::Foot),
        shims: count(Support::Shim),
        highest_mm,
        most_mm,
        fits: highest_mm <= most_mm,
    }
}
