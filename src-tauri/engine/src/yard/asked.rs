//! Whether anybody asked what lies underground, and looked up for wires. A list without an entry is no answer: not
//! knowing never counts as better than knowing that there is nothing.

use chrono::{DateTime, Days, FixedOffset};

use super::PlacedYard;
use super::clearance::Log;
use super::measure::{Measure, YardFinding};
use super::parts::Parts;
use crate::finding::buried::{BuriedRemedy, BuriedRule, NotAsked, ServiceAnswer};
use crate::finding::overhead::{OverheadRemedy, OverheadRule};
use crate::finding::{Finding, Severity, Subject};
use crate::job::{Job, Located, Overhead, Underground};
use crate::round_figures::{feet_or_metres, rounded_up_roughly};
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

pub(super) fn underground(yard: &PlacedYard, log: &mut Log) {
    let of_utilities = yard.buried_services.iter().any(|line| line.located == Located::MarkedByUtility);
    let none_entered = yard.buried_services.is_empty();
    let because = match &yard.asked.underground {
        Underground::NotAsked if none_entered => NotAsked::NobodySaid,
        Underground::NotAsked if !of_utilities => NotAsked::NotTheUtilities,
        Underground::Marked if none_entered => NotAsked::NoneEntered,
        Underground::NotAsked | Underground::Marked => return,
        Underground::NoneThere { answered_at: None, .. } => NotAsked::AnswerWithoutDate,
        Underground::NoneThere { answered_at: Some(at), holds_until, reference } => {
            return log.findings.push(answered(yard, *at, *holds_until, reference));
        }
    };
    log.findings.push(nobody_asked(because));
}

fn nobody_asked(because: NotAsked) -> Finding {
    let remedy = match because {
        NotAsked::NobodySaid | NotAsked::NotTheUtilities => BuriedRemedy::CallFirst,
        NotAsked::NoneEntered => BuriedRemedy::EnterTheMarkedLines,
        NotAsked::AnswerWithoutDate => BuriedRemedy::EnterWhenTheyAnswered,
    };
    let rule = BuriedRule::ServicesUnknown { because };
    let finding = Finding::rule_of_thumb(Severity::Unchecked, rule, Subject::Job, remedy);
    Finding { source: SourceKey::CgaTolerance, ..finding }
}

fn usually_until(at: DateTime<FixedOffset>) -> DateTime<FixedOffset> {
    at.checked_add_days(Days::new(USUALLY_HOLDS_DAYS)).unwrap_or(at)
}

/// Until when an answer of the utilities holds: as it says itself, else for the usual time.
pub fn notice_holds_until(
    answered_at: DateTime<FixedOffset>,
    stated: Option<DateTime<FixedOffset>>,
) -> DateTime<FixedOffset> {
    stated.unwrap_or_else(|| usually_until(answered_at))
}

/// An answer holds for a time. Within it, it is worth a note; what the job shows to be later than that is to be thought
/// of, and stops nothing by itself.
fn answered(
    yard: &PlacedYard,
    at: DateTime<FixedOffset>,
    holds_until: Option<DateTime<FixedOffset>>,
    reference: &str,
) -> Finding {
    let usually_until = usually_until(at);
    let until = notice_holds_until(at, holds_until);
    let is_old = yard.asked.latest_at.is_some_and(|latest| latest > until);
    let (severity, remedy) = if is_old {
        (Severity::Caution, BuriedRemedy::AskAgainFirst)
    } else {
        (Severity::Note, BuriedRemedy::AskAgainLater)
    };
    let answer = ServiceAnswer { at, notice: reference.to_owned(), holds_until, usually_until, is_old };
    let finding = Finding::rule_of_thumb(severity, BuriedRule::Answer(answer), Subject::Job, remedy);
    Finding { source: SourceKey::CgaTicketLife, ..finding }
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
    let about = YardFinding {
        severity: Severity::Unchecked,
        subject: Subject::Job,
        against: None,
        source: SourceKey::Cfr1926_1408,
    };
    let rule = |looked| OverheadRule::LinesUnknown { looked };
    let remedy = OverheadRemedy::LookUp { reach_m };
    log.findings.extend(match yard.asked.overhead {
        Overhead::NotLooked => Some(about.finding(rule(false), None, remedy)),
        Overhead::NoneWithin { distance_m } if !reaches(distance_m, reach_m) => {
            let looked = Measure { value_m: distance_m, half_width_95_m: 0.0, limit_m: reach_m };
            Some(about.finding(rule(true), Some(&looked), remedy))
        }
        Overhead::NoneWithin { .. } => None,
    });
}

/// Whether a look went far enough; one millimetre is no reason to look again.
fn reaches(distance_m: f64, reach_m: f64) -> bool {
    distance_m > reach_m - 1e-3
}
