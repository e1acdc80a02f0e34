//! The list of calls of a job, each with its last day.

use chrono::{Days, NaiveDate};
use serde::Serialize;

use crate::finding::Subject;
use crate::finding::buried::BuriedRule;
use crate::finding::overhead::OverheadRule;
use crate::finding::yard::YardRule;
use crate::finding::{Finding, Rule, Severity};
use crate::job::{CallMade, Job, Underground};
use crate::plan::Plan;

use super::working_days::{last_call_before, working_day_before};

/// Whole working days that a locate service is given where nobody has said what it asks for: the longest of those found
/// (South Carolina 3; Alabama and Illinois 2). Source: `one-call-notice`.
pub const USUAL_NOTICE_WORKING_DAYS: u8 = 3;
/// A private line's owner, a neighbour, the owner of a wire: a week (common practice).
const A_WEEK_DAYS: u64 = 7;
/// A building office: three weeks (common practice; its own time goes before).
const THREE_WEEKS_DAYS: u64 = 21;

/// Whom, and what about.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum CallKind {
    /// Whether a mast of this height may stand there for a while.
    BuildingOffice { height_m: f64 },
    /// Whoever laid lines that no locate service marks.
    PrivateLines,
    /// The owner of an overhead line whose voltage nobody knows.
    LineOwner { line: Subject },
    /// Somebody has to look up.
    LookUp,
    /// Neighbours over whose ground the mast could fall.
    Neighbours,
    /// The locate service.
    LocateService { whole_working_days: u8, notice_stated: bool },
    /// The locate service once more: its answer ends before the digging.
    LocateServiceAgain { whole_working_days: u8, notice_stated: bool, holds_until: NaiveDate },
    /// The forecast of wind for the days of the work.
    Forecast,
}

/// How it stands with a call.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CallState {
    /// To be made.
    Open,
    /// Its last day is past.
    Late,
    /// Made, without an answer in the job yet, or with none to be expected there.
    Made,
    /// The job shows an answer.
    Answered,
}

/// One call.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Call {
    pub what: CallKind,
    /// What is ticked off once it is made; none where the job itself shows it.
    pub ticked_as: Option<CallMade>,
    /// Its last day; none where nobody has said when the digging begins.
    #[cfg_attr(feature = "typegen", schemars(with = "Option<String>"), ts(type = "string | null"))]
    pub by: Option<NaiveDate>,
    pub state: CallState,
}

/// Every call of a job, the first to be made first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CallList {
    /// None: the list waits for it.
    #[cfg_attr(feature = "typegen", schemars(with = "Option<String>"), ts(type = "string | null"))]
    pub digging_on: Option<NaiveDate>,
    pub calls: Vec<Call>,
}

/// The calls that a planned job asks for, as seen on a day.
pub fn calls(job: &Job, plan: &Plan, today: NaiveDate) -> CallList {
    let digging_on = job.yard.digging.begins_at.map(|at| at.date_naive());
    let in_days = |days: u64| digging_on.and_then(|day| day.checked_sub_days(Days::new(days)));
    let (a_week, three_weeks) = (in_days(A_WEEK_DAYS), in_days(THREE_WEEKS_DAYS));
    let office = CallKind::BuildingOffice { height_m: plan.mast.top_above_ground_m };
    let mut asked = vec![
        Asked { ticked_as: Some(CallMade::BuildingOffice), ..Asked::new(office, three_weeks) },
        Asked { ticked_as: Some(CallMade::PrivateLines), ..Asked::new(CallKind::PrivateLines, a_week) },
    ];
    asked.extend(line_owners(job).map(|owner| Asked::new(owner, a_week)));
    if plan.findings.iter().any(nobody_looked_up) {
        asked.push(Asked::new(CallKind::LookUp, a_week));
    }
    if plan.findings.iter().any(|it| matches!(it.rule, Rule::Yard(YardRule::FallReachesOverBoundary))) {
        asked.push(Asked {
            ticked_as: Some(CallMade::Neighbours),
            ..Asked::new(CallKind::Neighbours, a_week)
        });
    }
    asked.push(locate_service(job, plan, digging_on));
    let forecast = Asked::new(CallKind::Forecast, digging_on.and_then(working_day_before));
    asked.push(Asked { ticked_as: Some(CallMade::Forecast), ..forecast });
    let mut calls: Vec<Call> = asked.into_iter().map(|it| it.call(job, today)).collect();
    // Of one day the order above.
    calls.sort_by_key(|call| call.by);
    CallList { digging_on, calls }
}

/// A call before anybody knows how it stands with it.
struct Asked {
    what: CallKind,
    by: Option<NaiveDate>,
    ticked_as: Option<CallMade>,
    answered: bool,
}

impl Asked {
    fn new(what: CallKind, by: Option<NaiveDate>) -> Self {
        Self { what, by, ticked_as: None, answered: false }
    }

    fn call(self, job: &Job, today: NaiveDate) -> Call {
        let Self { what, by, ticked_as, answered } = self;
        let made = ticked_as.is_some_and(|tick| job.yard.digging.calls_made.contains(&tick));
        let state = if answered {
            CallState::Answered
        } else if made {
            CallState::Made
        } else if by.is_some_and(|by| by < today) {
            CallState::Late
        } else {
            CallState::Open
        };
        Call { what, ticked_as, by, state }
    }
}

fn line_owners(job: &Job) -> impl Iterator<Item = CallKind> {
    let unknown = job.yard.overhead_lines.iter().filter(|line| line.voltage_kv.is_none());
    unknown.map(|line| CallKind::LineOwner { line: Subject::OverheadLine { id: line.id.clone() } })
}

/// An answer that ends before the digging begins has to be asked for again.
fn locate_service(job: &Job, plan: &Plan, digging_on: Option<NaiveDate>) -> Asked {
    let stated = job.yard.digging.notice_working_days;
    let notice_stated = stated.is_some();
    let whole_working_days = stated.unwrap_or(USUAL_NOTICE_WORKING_DAYS);
    let by = digging_on.and_then(|day| last_call_before(day, whole_working_days));
    if let Some(holds_until) = ends_before(job, digging_on) {
        return Asked::new(
            CallKind::LocateServiceAgain { whole_working_days, notice_stated, holds_until },
            by,
        );
    }
    Asked {
        ticked_as: Some(CallMade::LocateService),
        answered: is_dated(job) && !plan.findings.iter().any(nobody_asked),
        ..Asked::new(CallKind::LocateService { whole_working_days, notice_stated }, by)
    }
}

/// Marks on the ground wear off and their notice ends, and the job holds no day of either: nobody can tell whether they still
/// hold when the digging begins, so they count as no answer. Only an answer whose day is known does.
fn is_dated(job: &Job) -> bool {
    matches!(job.yard.underground, Underground::NoneThere { answered_at: Some(_), .. })
}

/// The last day of an answer that ends before the digging begins.
fn ends_before(job: &Job, digging_on: Option<NaiveDate>) -> Option<NaiveDate> {
    let Underground::NoneThere { answered_at: Some(at), holds_until, .. } = &job.yard.underground else {
        return None;
    };
    let until = crate::yard::notice_holds_until(*at, *holds_until).date_naive();
    digging_on.filter(|day| until < *day).map(|_| until)
}

fn nobody_asked(finding: &Finding) -> bool {
    matches!(finding.rule, Rule::Buried(BuriedRule::ServicesUnknown { .. }))
}

fn nobody_looked_up(finding: &Finding) -> bool {
    matches!(finding.rule, Rule::Overhead(OverheadRule::LinesUnknown { .. }))
        && finding.severity == Severity::Unchecked
}
