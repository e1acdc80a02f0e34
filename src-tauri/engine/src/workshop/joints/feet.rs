//! Feet: blocks whose lower end is sawn to the ground, a plane under the level timber.

use super::FootBlock;
use crate::job::{Base, Job};
use crate::numerics::real::tan_deg;
use crate::plan::{LegResult, Plan, Support};
use crate::quantity::UnitSystem;
use crate::round_figures::shop;
use crate::workshop::key;

/// The saw cut of a foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FootCut {
    centre_mm: f64,
    /// How much lower the gap gets by each millimetre outwards, and to the right.
    along: f64,
    across: f64,
}

impl FootCut {
    pub fn of(leg: &LegResult) -> Self {
        Self {
            centre_mm: 1000.0 * leg.gap_centre_m.value,
            // The bevels are the ground's rise.
            along: tan_deg(leg.bevel_along_deg),
            across: tan_deg(leg.bevel_across_deg),
        }
    }

    /// Height of the foot so far outwards and to the right of its centre.
    pub fn height_mm(&self, out_mm: f64, right_mm: f64) -> f64 {
        self.centre_mm - self.along * out_mm - self.across * right_mm
    }

    /// The block's four edges, seen from outside from left to right: outer right, outer left, inner left, inner right.
    pub fn edges_mm(&self, base: &Base) -> [f64; 4] {
        let (out, side) = (base.foot_thickness_mm / 2.0, base.foot_width_mm / 2.0);
        [(out, side), (out, -side), (-out, -side), (-out, side)]
            .map(|(out, right)| self.height_mm(out, right).max(0.0))
    }
}

fn on_feet(plan: &Plan) -> impl Iterator<Item = (usize, &LegResult)> {
    plan.base.legs.iter().enumerate().filter(|(_, leg)| leg.support == Support::Foot)
}

/// Every foot that somebody can saw.
pub(super) fn feet(job: &Job, plan: &Plan) -> Vec<FootBlock> {
    let known = on_feet(plan).filter(|(_, leg)| plan.knows_under(&leg.id));
    known.map(|(index, leg)| block(job, index, leg)).collect()
}

/// The legs of the others.
pub(super) fn not_measured(plan: &Plan) -> Vec<String> {
    on_feet(plan).filter(|(_, leg)| !plan.knows_under(&leg.id)).map(|(_, leg)| leg.id.clone()).collect()
}

fn block(job: &Job, index: usize, leg: &LegResult) -> FootBlock {
    let base = &job.rig.base;
    let edges_mm = FootCut::of(leg).edges_mm(base);
    FootBlock {
        part: key("foot", index),
        leg: leg.id.clone(),
        thickness_mm: base.foot_thickness_mm,
        width_mm: base.foot_width_mm,
        edges_mm,
        bevel_along_deg: leg.bevel_along_deg,
        bevel_across_deg: leg.bevel_across_deg,
        strap_mm: strap_mm(base, &edges_mm, job.units.system),
    }
}

/// A strap reaches so far over timber and block, as far as they go: common practice.
fn strap_mm(base: &Base, edges_mm: &[f64; 4], system: UnitSystem) -> Option<f64> {
    let shortest_mm = edges_mm.iter().copied().fold(f64::INFINITY, f64::min);
    let hold_mm = shop::STRAP_HOLDS.of(system);
    (shortest_mm >= 0.5 * hold_mm).then(|| hold_mm.min(base.timber_depth_mm) + hold_mm.min(shortest_mm))
}
