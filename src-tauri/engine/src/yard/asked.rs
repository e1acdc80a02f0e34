//! Whether anybody asked what lies underground, and looked up for wires. A list without an entry is no answer: not
//! knowing never counts as better than knowing that there is nothing.

use chrono::{DateTime, Days, FixedOffset};

use super::PlacedYard;
use super::clearance::Log;
use super::parts::Parts;
use super::say::{Measure, Rule};
use crate::finding::{Finding, Severity, Subject};
use crate::habits::{feet_or_metres, rounded_up, rounded_up_roughly};
use crate::job::{Job, Located, Overhead, Underground};
use crate::source::SourceKey;

/// What was asked, and how late the job itself shows that it is.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Asked {
    pub underground: Underground,
    pub overhead: Overhead,
    /// The latest moment that stands in the job: the engine has no clock.
    pub latest_at: Option<DateTime<FixedOffset>>,
}

impl Asked {
    pub fn of(job: &Job) -> Self {
        let read = job.log.iter().map(|entry| entry.taken_at);
        Self {
            underground: job.yard.underground.clone(),
            overhead: job.yard.overhead,
            latest_at: read.chain(job.yard.surveyed_at).max(),
        }
    }
}

/// A locate notice holds at least this long in most places: ten working days, which are fourteen days.
/// Source: CGA Best Practices 20.0, 5.23 (`cga-ticket-life`): ideally 10 working days, no more than 20.
const USUALLY_HOLDS_DAYS: u64 = 14;

pub(super) const CALL_FIRST: &str = "Call the one-call service (811 in the US; elsewhere its local equivalent) and wait \
     for the marks before driving anything. Private lines, such as those to a shed, a pool or a septic tank, are not \
     marked: ask whoever laid them.";

const DIG_BY_HAND: &str = "Private lines, such as those to a shed, a pool or a septic tank, are not in their answer: ask \
     whoever laid them, and dig the first part of every hole by hand.";

pub(super) fn underground(yard: &PlacedYard, log: &mut Log) {
    let of_utilities = yard.buried_services.iter().any(|line| line.located == Located::MarkedByUtility);
    match &yard.asked.underground {
        Underground::NotAsked if yard.buried_services.is_empty() => log.findings.push(nobody_asked(
            "Nobody has said what lies underground; private lines are not marked.",
            CALL_FIRST.to_owned(),
        )),
        Underground::NotAsked if !of_utilities => log.findings.push(nobody_asked(
            "Nobody has asked the utilities what else lies underground than the lines entered.",
            CALL_FIRST.to_owned(),
        )),
        Underground::NotAsked => {}
        Underground::Marked if yard.buried_services.is_empty() => log.findings.push(nobody_asked(
            "The utilities marked lines, and none is entered: nothing keeps clear of them.",
            "Enter each line as it is marked on the ground.".to_owned(),
        )),
        Underground::Marked => {}
        Underground::NoneThere { answered_at: None, .. } => log.findings.push(nobody_asked(
            "The utilities' answer that nothing of theirs lies here has no date: nobody can tell whether it still holds.",
            format!("Enter when they answered. {DIG_BY_HAND}"),
        )),
        Underground::NoneThere { answered_at: Some(at), holds_until, reference } => {
            log.findings.push(answered(yard, *at, *holds_until, reference));
        }
    }
}

fn nobody_asked(sentence: &str, remedy: String) -> Finding {
    let rule = Rule {
        severity: Severity::Unchecked,
        name: "buried_services_unknown",
        subject: Subject::Job,
        against: None,
        source: SourceKey::CgaTolerance,
    };
    rule.finding(None, sentence.to_owned(), remedy)
}

/// An answer holds for a time. Within it, it is worth a note; what the job shows to be later than that is to be thought
/// of, and stops nothing by itself.
fn answered(
    yard: &PlacedYard,
    at: DateTime<FixedOffset>,
    holds_until: Option<DateTime<FixedOffset>>,
    reference: &str,
) -> Finding {
    let usual = at.checked_add_days(Days::new(USUALLY_HOLDS_DAYS)).unwrap_or(at);
    let until = holds_until.unwrap_or(usual);
    let is_old = yard.asked.latest_at.is_some_and(|latest| latest > until);
    let date = |moment: DateTime<FixedOffset>| moment.format("%-d %B %Y");
    let notice = if reference.is_empty() { String::new() } else { format!(" (notice {})", reference.trim()) };
    let holds = match (holds_until, is_old) {
        (Some(until), false) => format!("It holds until {}.", date(until)),
        (Some(until), true) => format!("It held until {}, and this job goes on after that.", date(until)),
        (None, false) => format!(
            "How long it holds differs by place, 14 to 30 days in those that were looked up: count on {} at most.",
            date(usual)
        ),
        (None, true) => format!(
            "How long it holds differs by place, and this job goes on after {}, when the first of them ends.",
            date(usual)
        ),
    };
    let remedy = if is_old {
        format!("Ask them again before anything is driven. {DIG_BY_HAND}")
    } else {
        format!("Ask again if anything is driven later than that. {DIG_BY_HAND}")
    };
    let rule = Rule {
        severity: if is_old { Severity::Caution } else { Severity::Note },
        name: if is_old { "buried_answer_old" } else { "buried_answer_none" },
        subject: Subject::Job,
        against: None,
        source: SourceKey::CgaTicketLife,
    };
    let sentence = format!(
        "The utilities answered on {}{notice} that none of their lines lies in the work area. {holds}",
        date(at)
    );
    rule.finding(None, sentence, remedy)
}

/// How far round the mast, the anchors and the ring a wire matters: the mast falls as far as it is high, a loose rope or
/// strand swings as far as it is long, and both keep off what any line up to 50 kV asks for (29 CFR 1926.1408,
/// Table A).
pub(super) fn overhead_reach_m(parts: &Parts) -> f64 {
    let loose = parts.ropes.iter().chain(&parts.strands).map(|chain| chain.loose_m);
    loose.fold(parts.fall_radius_m, f64::max) + feet_or_metres(10.0, parts.system)
}

pub(super) fn overhead(yard: &PlacedYard, parts: &Parts, log: &mut Log) {
    if !yard.overhead_lines.is_empty() {
        return;
    }
    let reach_m = rounded_up_roughly(overhead_reach_m(parts), parts.system);
    let rule = Rule {
        severity: Severity::Unchecked,
        name: "overhead_lines_unknown",
        subject: Subject::Job,
        against: None,
        source: SourceKey::Cfr1926_1408,
    };
    let look = format!(
        "Stand where the mast, each anchor and the ring will be, and look up and round, {} far at least. Enter each wire, \
         or that there is none. {}",
        rounded_up(reach_m, parts.system),
        super::overhead::KEEP_AWAY
    );
    log.findings.extend(match yard.asked.overhead {
        Overhead::NotLooked => {
            let sentence = "Nobody has said whether a wire hangs over the work or within reach of it.";
            Some(rule.finding(None, sentence.to_owned(), look))
        }
        Overhead::NoneWithin { distance_m } if !reaches(distance_m, reach_m) => {
            let looked = Measure { value_m: distance_m, half_width_95_m: 0.0, limit_m: reach_m };
            let sentence =
                "Somebody looked up for wires, but not as far as this mast and its ropes reach if they come loose.";
            Some(rule.finding(Some(&looked), sentence.to_owned(), look))
        }
        Overhead::NoneWithin { .. } => None,
    });
}

/// Whether a look went far enough; one millimetre is no reason to look again.
fn reaches(distance_m: f64, reach_m: f64) -> bool {
    distance_m > reach_m - 1e-3
}
