//! `mastwright workshop`: what is cut, turned, drilled and lifted.

use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::finding::Severity;
use mastwright_engine::report;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read};

/// Exit code 0 where nothing speaks against it, 1 where something does, 4 where nobody can say yet.
pub fn workshop(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let answer = run::workshop(&JobRequest { job })?;
    if json {
        print_json(&answer.plan)?
    } else {
        print(&report::workshop_text(&answer.report))?
    };
    Ok(match answer.plan.worst {
        Some(Severity::Stop) => Outcome::Stop,
        Some(Severity::Unchecked) => Outcome::NotKnown,
        _ => Outcome::Done,
    })
}
