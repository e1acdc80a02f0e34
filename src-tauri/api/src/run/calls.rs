//! Whom to call or ask first, as a list and for a calendar.

use chrono::Utc;
use mastwright_engine::calls::{CallState, calls as list_of};
use mastwright_engine::exchange::calendar::{CalendarDay, CalendarOf, calendar};
use mastwright_engine::job::Job;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, CallText};
use mastwright_engine::{job, plan};
use serde_json::json;

use crate::messages::{CallsAnswer, DatedRequest, TextAnswer};

pub fn calls(request: &DatedRequest) -> Result<CallsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    answer(&job, request)
}

/// A day for every call that is still to be made and has a last day.
pub fn calls_calendar(request: &DatedRequest) -> Result<TextAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let report = answer(&job, request)?.report;
    let to_do = report.calls.iter().filter(|it| matches!(it.state, CallState::Open | CallState::Late));
    let days: Vec<CalendarDay> = to_do.filter_map(|call| day_of(call, &job.name, &report.caution)).collect();
    Ok(TextAnswer { text: calendar(CalendarOf::Calls, &job.name, &days, request.now.with_timezone(&Utc)) })
}

fn answer(job: &Job, request: &DatedRequest) -> Result<CallsAnswer, FieldErrors> {
    let computed = plan::compute(job)?;
    let list = list_of(job, &computed.plan, request.now.date_naive());
    let report = report::calls(job, &computed, &list);
    Ok(CallsAnswer { list, report })
}

/// None where nobody knows its day.
fn day_of(call: &CallText, job_name: &str, caution: &str) -> Option<CalendarDay> {
    Some(CalendarDay {
        uid: format!("{}@mastwright", job::check_sum(&json!([job_name, call.title]))),
        day: call.by_date?,
        title: format!("{} ({job_name})", call.title),
        text: format!("{}\n\n{caution}", call.says),
    })
}
