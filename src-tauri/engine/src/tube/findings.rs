//! What can be wrong where one tube stands in another.

use super::telescope::Joint;
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::habits::rule;
use crate::quantity::UnitSystem;
use crate::source::SourceKey;

/// Least overlap in outside diameters of the inner tube: 1.5 to 2 is the habit, no standard was found. Common
/// practice.
const LEAST_OVERLAP_DIAMETERS: f64 = 2.0;
/// Lean by play that the eye notices: about 1 in 100. Common practice.
const PLAY_DEG: f64 = 0.6;

/// Whatever is wrong where a tube stands in the one below.
pub(super) fn of_joint(joint: &Joint, system: UnitSystem) -> Vec<Finding> {
    if joint.radial_gap_mm < 0.0 {
        return vec![does_not_go_in(joint)];
    }
    [overlap(joint), may_not_go_in(joint), fit(joint, system)].into_iter().flatten().collect()
}

fn does_not_go_in(joint: &Joint) -> Finding {
    Finding {
        severity: Severity::Stop,
        rule: "tube_does_not_go_in".into(),
        subject: Subject::Mast,
        against: None,
        sentence: format!("The tube {} does not go into the tube below: it is too thick.", joint.tube.name),
        measured: Some(length_mm(joint.radial_gap_mm)),
        measured_half_width_95: None,
        limit: Some(length_mm(0.0)),
        source: joint.tube.section.source,
        remedy: "Choose a thinner tube, or a wider one below it.".into(),
    }
}

/// By the sizes listed it goes in, but not every pair of tubes within the tables' tolerances does.
fn may_not_go_in(joint: &Joint) -> Option<Finding> {
    (joint.tightest_gap_mm < 0.0).then(|| Finding {
        severity: Severity::Caution,
        rule: "tube_may_not_go_in".into(),
        subject: Subject::Mast,
        against: None,
        sentence: format!(
            "The tube {} may not go into the tube below: both may be off by their standards' tolerances.",
            joint.tube.name
        ),
        measured: Some(length_mm(joint.tightest_gap_mm)),
        measured_half_width_95: None,
        limit: Some(length_mm(0.0)),
        source: joint.tube.section.source,
        remedy: "Try the two real tubes before you buy, or measure both with a calliper and enter that."
            .into(),
    })
}

fn overlap(joint: &Joint) -> Option<Finding> {
    let least_m = LEAST_OVERLAP_DIAMETERS * joint.tube.section.outside_mm / 1000.0;
    let overlap_m = joint.tube.overlap_m;
    (overlap_m < least_m).then(|| Finding {
        severity: if overlap_m > 0.0 { Severity::Caution } else { Severity::Stop },
        rule: "tube_overlap_short".into(),
        subject: Subject::Mast,
        against: None,
        sentence: format!("Too little of the tube {} stays inside the tube below.", joint.tube.name),
        measured: Some(Quantity::LengthM { value: overlap_m }),
        measured_half_width_95: None,
        limit: Some(Quantity::LengthM { value: least_m }),
        source: SourceKey::CommonPractice,
        remedy: "Leave more of it inside: twice its outside diameter at the very least, more in wind.".into(),
    })
}

fn fit(joint: &Joint, system: UnitSystem) -> Option<Finding> {
    let [loose_mm, tight_mm] = [rule::LOOSE_GAP, rule::TIGHT_GAP].map(|gap| gap.of(system));
    let name = joint.tube.name;
    let (rule, sentence, measured, limit, remedy) = if joint.radial_gap_mm > loose_mm {
        (
            "tube_fit_loose",
            format!("The tube {name} stands loose in the tube below and its top wanders."),
            length_mm(joint.radial_gap_mm),
            length_mm(loose_mm),
            "Fill the gap with a bushing at both ends of the overlap.",
        )
    } else if joint.tightest_gap_mm < 0.0 {
        return None;
    } else if joint.tightest_gap_mm < tight_mm {
        (
            "tube_fit_tight",
            format!(
                "The tube {name} may jam in the tube below: the gap is hardly more than paint and dents."
            ),
            length_mm(joint.tightest_gap_mm),
            length_mm(tight_mm),
            "Try the two real tubes in each other over their whole length before relying on it.",
        )
    } else if joint.tube.overlap_m > 0.0 && joint.wander_deg() > PLAY_DEG {
        (
            "tube_leans_by_play",
            format!(
                "The play lets the tube {name} lean noticeably in the tube below until the guys hold it."
            ),
            Quantity::AngleDeg { value: joint.wander_deg() },
            Quantity::AngleDeg { value: PLAY_DEG },
            "Leave more of it inside, or fill the gap with a bushing.",
        )
    } else {
        return None;
    };
    Some(Finding {
        severity: Severity::Caution,
        rule: rule.into(),
        subject: Subject::Mast,
        against: None,
        sentence,
        measured: Some(measured),
        measured_half_width_95: None,
        limit: Some(limit),
        source: SourceKey::CommonPractice,
        remedy: remedy.into(),
    })
}

fn length_mm(value_mm: f64) -> Quantity {
    Quantity::LengthM { value: value_mm / 1000.0 }
}
