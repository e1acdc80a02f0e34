//! `mastwright lights`: what the strands take, what the circuit gives, the lead, every strand by its number.

use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::report::{self, LightsStanding};

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read};

/// Exit code 0 where nothing says stop and all labels are read, 1 where something says stop, 4 where something is not known yet.
pub fn lights(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let answer = run::lights(&JobRequest { job: read(source)? })?;
    if json {
        print_json(&answer.plan)?
    } else {
        print(&report::lights_text(&answer.report))?
    };
    Ok(match answer.report.standing {
        LightsStanding::Stop => Outcome::Stop,
        LightsStanding::NotKnown => Outcome::NotKnown,
        LightsStanding::Look => Outcome::Done,
    })
}
