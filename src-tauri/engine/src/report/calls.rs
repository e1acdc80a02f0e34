//! Whom to call or ask first, in words.

use chrono::NaiveDate;
use serde::Serialize;

use super::clearances::name;
use super::{Source, format, words};
use crate::calls::{CallKind, CallList, CallState};
use crate::job::{CallMade, Job};
use crate::plan::Computed;

/// The calls, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CallsReport {
    /// What the list waits for; empty where it waits for nothing.
    pub waits_for: String,
    /// The first to be made first.
    pub calls: Vec<CallText>,
    pub caution: String,
}

/// A call in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CallText {
    pub title: String,
    pub says: String,
    /// Its last day as people write it; empty where nobody knows it.
    pub by: String,
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub by_date: Option<NaiveDate>,
    pub state: CallState,
    pub state_says: String,
    pub ticked_as: Option<CallMade>,
}

/// Puts a list of calls into words. `computed` names the lines.
pub fn calls(job: &Job, computed: &Computed, list: &CallList) -> CallsReport {
    let source = Source { job, computed };
    let texts = list.calls.iter().map(|call| {
        let line = match &call.what {
            CallKind::LineOwner { line } => name(&source, line),
            _ => String::new(),
        };
        let height = match call.what {
            CallKind::BuildingOffice { height_m } => format::length_short(height_m, job.units),
            _ => String::new(),
        };
        let until = match call.what {
            CallKind::LocateServiceAgain { holds_until, .. } => day(holds_until),
            _ => String::new(),
        };
        CallText {
            title: words::calls::title(&call.what, &line),
            says: words::calls::says(&call.what, &height, &until),
            by: call.by.map(day).unwrap_or_default(),
            by_date: call.by,
            state: call.state,
            state_says: words::calls::state(call.state).to_owned(),
            ticked_as: call.ticked_as,
        }
    });
    let waits_for = if list.digging_on.is_none() { words::calls::UNDATED } else { "" };
    CallsReport {
        waits_for: waits_for.to_owned(),
        calls: texts.collect(),
        caution: words::calls::CAUTION.to_owned(),
    }
}

fn day(day: NaiveDate) -> String {
    day.format("%A %-d %B %Y").to_string()
}
