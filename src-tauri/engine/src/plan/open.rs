//! What the plan says of points that wait for a side to be named.

use super::OpenPoint;
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
    let (rule, sentence, remedy) = if point.candidates.is_empty() {
        (
            "hangs_on_open_point",
            format!(
                "{}: it is measured from a point that is not placed yet, so it is left out of the plan and nothing \
                 keeps clear of it.",
                name_of(point)
            ),
            "Answer the other point's question, left or right; then this one is placed too.",
        )
    } else {
        (
            "side_not_known",
            format!(
                "{}: two places fit its two tapes, one on each side of the line between the marks. Until you say \
                 which, it is left out of the plan and nothing keeps clear of it.",
                name_of(point)
            ),
            "Look at the two places on the map, and choose left or right where the point was measured.",
        )
    };
    Finding {
        severity: Severity::Unchecked,
        rule: rule.to_owned(),
        subject: point.subject.clone(),
        against: None,
        sentence,
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::Ghilani,
        remedy: remedy.to_owned(),
    }
}

/// The point's name as the start of a sentence.
fn name_of(point: &OpenPoint) -> String {
    let name = point.name.trim();
    if name.is_empty() { "A point".to_owned() } else { name.to_owned() }
}
