//! `mastwright peg-out`: the way from peg to peg, and what check tapes tell.

use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::pegging::{PegChecked, StakeOutState};
use mastwright_engine::report;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read};

/// Exit code 0 where every peg is checked and none doubted, 1 where the tapes do not agree, 4 where they do not tell yet.
pub fn peg_out(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let answer = run::peg_out(&JobRequest { job })?;
    if json {
        print_json(&answer.guide)?
    } else {
        print(&report::peg_out_text(&answer.report))?
    };
    let all = answer.guide.steps.iter().all(|step| step.as_built || step.checked == PegChecked::Agrees);
    Ok(match answer.guide.test.state {
        StakeOutState::Named | StakeOutState::OneOfSeveral | StakeOutState::Unexplained => Outcome::Stop,
        StakeOutState::Agrees if all => Outcome::Done,
        _ => Outcome::NotKnown,
    })
}
