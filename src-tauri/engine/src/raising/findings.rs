//! How a finding about turning up is made.

use crate::finding::raising::{RaisingQuestion, RaisingRemedy, RaisingRule};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::source::SourceKey;
use crate::yard::measure::Measure;
pub(super) use crate::yard::measure::YardFinding;

impl YardFinding {
    /// YardFinding the mast against a thing, by the trade's habit.
    pub(super) fn mast(severity: Severity, against: Subject) -> Self {
        Self { severity, subject: Subject::Mast, against: Some(against), source: SourceKey::CommonPractice }
    }
}

pub(super) fn found(
    about: YardFinding,
    rule: RaisingRule,
    measure: Option<&Measure>,
    remedy: RaisingRemedy,
) -> Finding {
    about.finding(rule, measure, remedy)
}

/// YardFinding the mast alone, without a number.
pub(super) fn of_mast(severity: Severity, rule: RaisingRule, remedy: RaisingRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
}

/// What nobody has said: a check that could not be made.
pub(super) fn not_said(open: Vec<RaisingQuestion>) -> Option<Finding> {
    let rule = || RaisingRule::NotSaid { open: open.clone() };
    (!open.is_empty()).then(|| of_mast(Severity::Unchecked, rule(), RaisingRemedy::SayHowItTurnsUp))
}

/// Whether the 95 % interval of what was measured reaches below its limit: such a way is not clear.
pub(super) fn in_doubt(finding: &Finding) -> bool {
    let (Some(Quantity::LengthM { value }), Some(half_width), Some(limit)) =
        (finding.measured, finding.measured_half_width_95, finding.limit)
    else {
        return false;
    };
    matches!(limit.quantity, Quantity::LengthM { value: bound } if value - half_width < bound)
}
