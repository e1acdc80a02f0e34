//! `mastwright calls`: whom to call or ask first.

use std::path::Path;

use chrono::{DateTime, FixedOffset, Local};
use mastwright_api::messages::DatedRequest;
use mastwright_api::run;
use mastwright_engine::calls::CallState;
use mastwright_engine::report;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read, write};

/// Exit code 4 where nobody has said when the digging begins, 1 where a call is late, else 0.
pub fn calls(
    source: &JobSource,
    calendar: Option<&Path>,
    now: Option<DateTime<FixedOffset>>,
    json: bool,
) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let now = now.unwrap_or_else(|| Local::now().fixed_offset());
    let request = DatedRequest { job, now };
    let answer = run::calls(&request)?;
    if let Some(path) = calendar {
        write(&run::calls_calendar(&request)?.text, Some(path))?;
    } else if json {
        print_json(&answer.list)?;
    } else {
        print(&report::calls_text(&answer.report))?;
    }
    Ok(match answer.list.digging_on {
        None => Outcome::NotKnown,
        Some(_) if answer.list.calls.iter().any(|call| call.state == CallState::Late) => Outcome::Stop,
        Some(_) => Outcome::Done,
    })
}
