//! What to move so that a mast that leans stands plumb: ropes by how much, blocks under the base by how much.

use crate::finding::mast::{MastRemedy, MastRule, Plumb};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::numerics::real::{atan_deg, hypot, tan_deg};
use crate::plan::Plan;
use crate::quantity::bearing::unit;
use crate::source::SourceKey;
use crate::survey::plumb::Lean;

/// A guyed mast is plumb within 1 part in 400. ANSI/TIA-222 13.3.2 as quoted in a Planning Advisory Notice.
const PLUMB_RATIO: f64 = 1.0 / 400.0;

/// Up to this lean a guyed mast is plumb.
pub fn tolerance_deg() -> f64 {
    atan_deg(PLUMB_RATIO)
}

/// By how much a rope is taken in (positive) or let out.
#[derive(Debug, Clone, PartialEq)]
pub struct RopeMove {
    pub guy_id: String,
    pub name: String,
    pub take_in_m: f64,
    pub sigma_m: f64,
}

/// By how much the block or foot under a leg is made higher (positive) or lower.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockMove {
    pub leg_id: String,
    pub raise_m: f64,
    pub sigma_m: f64,
}

/// How to plumb the mast.
#[derive(Debug, Clone, PartialEq)]
pub struct Plumbing {
    /// How far the top stands to the side.
    pub top_aside_m: f64,
    pub ropes: Vec<RopeMove>,
    /// While no rope is tight yet.
    pub blocks: Vec<BlockMove>,
    pub verdict: Finding,
}

/// The moves that take a lean out, and whether it needs any.
///
/// A rope's end at height h over the foot moves by −h·tan(lean) towards the lean; the rope is taken in by what its
/// chord gets shorter. A leg of reach r is raised by r·tan of the lean along it.
///
/// # Accuracy
/// The tube is taken as straight. Only the chord's change is reckoned, not that of sag and stretch: set the
/// tension afterwards.
pub fn plumbing(plan: &Plan, lean: &Lean) -> Plumbing {
    let [east, north] = unit(lean.towards_deg);
    let back = -tan_deg(lean.lean_deg);
    let sigma = tan_deg(lean.sigma_deg);
    let ropes = plan.guys.iter().map(|guy| {
        let height = guy.attach[2] - plan.mast.foot_m;
        let [x, y, z] = [0, 1, 2].map(|axis| guy.attach[axis] - guy.eye[axis]);
        let moved = hypot(hypot(x + height * back * east, y + height * back * north), z);
        RopeMove {
            guy_id: guy.id.clone(),
            name: guy.name.clone(),
            take_in_m: hypot(hypot(x, y), z) - moved,
            sigma_m: height * sigma * hypot(x, y) / hypot(hypot(x, y), z).max(f64::MIN_POSITIVE),
        }
    });
    let blocks = plan.base.legs.iter().map(|leg| BlockMove {
        leg_id: leg.id.clone(),
        raise_m: leg.reach_m * tan_deg(lean.along_deg(leg.bearing_deg)),
        sigma_m: leg.reach_m * sigma,
    });
    Plumbing {
        top_aside_m: plan.mast.raised_height_m * tan_deg(lean.lean_deg),
        ropes: ropes.collect(),
        blocks: blocks.collect(),
        verdict: verdict(lean),
    }
}

/// Two sigma either way, the habit of 95 %: a phone can show a lean, but seldom that there is none.
fn verdict(lean: &Lean) -> Finding {
    let limit_deg = tolerance_deg();
    let half = 2.0 * lean.sigma_deg;
    let (severity, shown, remedy) = if lean.lean_deg + half <= limit_deg {
        (Severity::Note, Plumb::Plumb, MastRemedy::Nothing)
    } else if lean.lean_deg - half > limit_deg {
        (Severity::Caution, Plumb::Leans, MastRemedy::MoveWhatIsNamed)
    } else {
        (Severity::Unchecked, Plumb::CannotTell, MastRemedy::HangAPlumbLine)
    };
    Finding {
        measured: Some(Quantity::AngleDeg { value: lean.lean_deg }),
        measured_half_width_95: Some(half),
        limit: Limit::at_most(Quantity::AngleDeg { value: limit_deg }),
        source: SourceKey::TiaGuys,
        ..Finding::rule_of_thumb(severity, MastRule::Plumb { shown }, Subject::Mast, remedy)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, plan};

    fn leaning(lean_deg: f64, towards_deg: f64) -> Lean {
        Lean { lean_deg, sigma_deg: 0.1, towards_deg, scatter_deg: 0.2, phone_error_deg: [0.0; 2] }
    }

    #[test]
    fn ropes_behind_the_lean_are_taken_in_and_those_before_it_let_out() {
        let job = demo::yardstick();
        let plan = plan::compute(&job).unwrap().plan;
        let towards = plan.guys[0].azimuth_deg;
        let found = plumbing(&plan, &leaning(1.0, towards));
        for (rope, guy) in found.ropes.iter().zip(&plan.guys) {
            let [east, north] = unit(towards);
            let [e, n] = unit(guy.azimuth_deg);
            let facing = east * e + north * n;
            assert!(rope.take_in_m * facing < 0.0 || facing.abs() < 0.1, "{rope:?}");
            // Never more than the end of the rope moves.
            let height = guy.attach[2] - plan.mast.foot_m;
            assert!(rope.take_in_m.abs() < height * tan_deg(1.0) + 1e-3);
        }
    }

    #[test]
    fn a_leg_is_raised_by_reach_times_tangent() {
        let job = demo::yardstick();
        let plan = plan::compute(&job).unwrap().plan;
        let front = &plan.base.legs[0];
        let found = plumbing(&plan, &leaning(0.8, front.bearing_deg));
        let by_hand = front.reach_m * tan_deg(0.8);
        assert!((found.blocks[0].raise_m - by_hand).abs() < 1e-9);
    }

    #[test]
    fn the_verdict_is_no_surer_than_the_phone() {
        let of = |lean_deg| verdict(&leaning(lean_deg, 0.0)).severity;
        assert_eq!(of(1.0), Severity::Caution);
        // 1 in 400 is 0.143°: with ± 0.2° nobody can say.
        assert_eq!(of(0.1), Severity::Unchecked);
        let sure = Lean { sigma_deg: 0.01, ..leaning(0.05, 0.0) };
        assert_eq!(verdict(&sure).severity, Severity::Note);
    }
}
