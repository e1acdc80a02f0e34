//! What can be wrong where one tube stands in another.

use super::telescope::Joint;
use crate::finding::mast::{MastRemedy, MastRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::quantity::UnitSystem;
use crate::round_figures::rule;

/// Least overlap in outside diameters of the inner tube: 1.5 to 2 is the habit, no standard was found. Common
/// practice.
pub const LEAST_OVERLAP_DIAMETERS: f64 = 2.0;
/// Lean by play that the eye notices: about 1 in 100. Common practice.
pub const PLAY_DEG: f64 = 0.6;

/// Whatever is wrong where a tube stands in the one below.
pub(super) fn of_joint(joint: &Joint, system: UnitSystem) -> Vec<Finding> {
    if joint.loosest_gap_mm < 0.0 {
        return vec![does_not_go_in(joint)];
    }
    [overlap(joint), may_not_go_in(joint), fit(joint, system)].into_iter().flatten().collect()
}

/// About a joint, by its upper tube's name.
fn about(joint: &Joint, severity: Severity, rule: fn(String) -> MastRule, remedy: MastRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule(joint.tube.name.to_owned()), Subject::Mast, remedy)
}

fn does_not_go_in(joint: &Joint) -> Finding {
    let rule = |tube| MastRule::DoesNotGoIn { tube };
    Finding {
        measured: Some(length_mm(joint.loosest_gap_mm)),
        limit: Limit::at_least(length_mm(0.0)),
        source: joint.tube.section.source,
        ..about(joint, Severity::Stop, rule, MastRemedy::ThinnerTube)
    }
}

/// Some pairs of tubes within their limits go in, not every one does.
fn may_not_go_in(joint: &Joint) -> Option<Finding> {
    let rule = |tube| MastRule::MayNotGoIn { tube };
    (joint.tightest_gap_mm < 0.0).then(|| Finding {
        measured: Some(length_mm(joint.tightest_gap_mm)),
        limit: Limit::at_least(length_mm(0.0)),
        source: joint.tube.section.source,
        ..about(joint, Severity::Caution, rule, MastRemedy::TryTheRealTubes)
    })
}

fn overlap(joint: &Joint) -> Option<Finding> {
    let least_m = LEAST_OVERLAP_DIAMETERS * joint.tube.section.outside_mm / 1000.0;
    let overlap_m = joint.tube.overlap_m;
    let severity = if overlap_m > 0.0 { Severity::Caution } else { Severity::Stop };
    let rule = |tube| MastRule::OverlapShort { tube };
    (overlap_m < least_m).then(|| Finding {
        measured: Some(Quantity::LengthM { value: overlap_m }),
        limit: Limit::at_least(Quantity::LengthM { value: least_m }),
        ..about(joint, severity, rule, MastRemedy::MoreInside)
    })
}

fn fit(joint: &Joint, system: UnitSystem) -> Option<Finding> {
    let [loose_mm, tight_mm] = [rule::LOOSE_GAP, rule::TIGHT_GAP].map(|gap| gap.of(system));
    let (rule, measured, limit, remedy): (fn(String) -> MastRule, _, _, _) = if joint.radial_gap_mm > loose_mm
    {
        let limit = Limit::at_most(length_mm(loose_mm));
        (|tube| MastRule::FitLoose { tube }, length_mm(joint.radial_gap_mm), limit, MastRemedy::FillTheGap)
    } else if joint.tightest_gap_mm < 0.0 {
        return None;
    } else if joint.tightest_gap_mm < tight_mm {
        let limit = Limit::at_least(length_mm(tight_mm));
        let remedy = MastRemedy::TryOverWholeLength;
        (|tube| MastRule::FitTight { tube }, length_mm(joint.tightest_gap_mm), limit, remedy)
    } else if joint.tube.overlap_m > 0.0 && joint.wander_deg() > PLAY_DEG {
        let limit = Limit::at_most(Quantity::AngleDeg { value: PLAY_DEG });
        let lean = Quantity::AngleDeg { value: joint.wander_deg() };
        (|tube| MastRule::LeansByPlay { tube }, lean, limit, MastRemedy::MoreInsideOrFill)
    } else {
        return None;
    };
    Some(Finding { measured: Some(measured), limit, ..about(joint, Severity::Caution, rule, remedy) })
}

fn length_mm(value_mm: f64) -> Quantity {
    Quantity::LengthM { value: value_mm / 1000.0 }
}
