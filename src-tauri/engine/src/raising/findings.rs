//! How a finding about turning up is made.

use crate::finding::raising::{RaisingQuestion, RaisingRemedy, RaisingRule};
use crate::finding::{Finding, Severity, Subject};
use crate::source::SourceKey;
pub(super) use crate::yard::measure::YardFinding;

impl YardFinding {
    /// About the mast against a thing, by the trade's habit.
    pub(super) fn mast(severity: Severity, against: Subject) -> Self {
        Self { severity, subject: Subject::Mast, against: Some(against), source: SourceKey::CommonPractice }
    }
}

/// About the mast alone, without a number.
pub(super) fn of_mast(severity: Severity, rule: RaisingRule, remedy: RaisingRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
}

/// What nobody has said: a check that could not be made.
pub(super) fn not_said(open: Vec<RaisingQuestion>) -> Option<Finding> {
    let rule = || RaisingRule::NotSaid { open: open.clone() };
    (!open.is_empty()).then(|| of_mast(Severity::Unchecked, rule(), RaisingRemedy::SayHowItTurnsUp))
}
