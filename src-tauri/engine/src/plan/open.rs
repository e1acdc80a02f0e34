//! What the plan says of points that wait for a side to be named.

use super::OpenPoint;
use crate::finding::points::{PointRemedy, PointRule};
use crate::finding::{Finding, Severity, Subject};
use crate::source::SourceKey;

/// One finding for each thing that is left out of the plan.
pub fn findings(open: &[OpenPoint]) -> Vec<Finding> {
    let mut told: Vec<&Subject> = Vec::new();
    let mut found = Vec::new();
    // What can be answered first: that answer places what hangs on it, too.
    let (asked, hanging): (Vec<&OpenPoint>, Vec<&OpenPoint>) =
        open.iter().partition(|point| !point.candidates.is_empty());
    for point in asked.into_iter().chain(hanging) {
        if told.contains(&&point.subject) {
            continue;
        }
        told.push(&point.subject);
        found.push(finding(point));
    }
    found
}

fn finding(point: &OpenPoint) -> Finding {
    let name = point.name.clone();
    let (rule, remedy) = if point.candidates.is_empty() {
        (PointRule::HangsOnOpenPoint { name }, PointRemedy::AnswerTheOtherPoint)
    } else {
        (PointRule::SideNotKnown { name }, PointRemedy::ChooseASide)
    };
    let finding = Finding::rule_of_thumb(Severity::Unchecked, rule, point.subject.clone(), remedy);
    Finding { source: SourceKey::Ghilani, ..finding }
}
