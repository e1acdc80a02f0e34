//! `mastwright siting`: where the mast can stand.

use mastwright_api::messages::SitingRequest;
use mastwright_api::run;
use mastwright_engine::quantity::{FieldError, FieldErrors, entry};
use mastwright_engine::siting::{SitingEnd, SitingMerit, SitingWeights, SitingWishes};
use mastwright_engine::{job, report};

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, progress, read};

/// What the command line says of a place; nothing stands for the usual.
pub struct Wished {
    pub step: Option<String>,
    pub guy_turns: Option<u32>,
    pub base_turns: Option<u32>,
    pub clear_of_fall: bool,
    pub best: Option<u32>,
    pub weigh: Vec<String>,
}

/// The usual weights with those that were given.
///
/// # Errors
/// What is no `MARK=NUMBER`, or names no mark; how large a weight may be the search says.
fn weights(given: &[String]) -> Result<SitingWeights, FieldErrors> {
    let mut weights = SitingWeights::default();
    for text in given {
        let refused = |allowed: String| FieldError::new("/siting/weights", text.clone(), allowed);
        let (name, number) = text.split_once('=').unwrap_or((text, ""));
        let named = SitingMerit::ALL.into_iter().find(|merit| merit.name() == name.trim().replace('-', "_"));
        let merit = named.ok_or_else(|| {
            refused(format!("one of {}", SitingMerit::ALL.map(SitingMerit::name).join(", ")))
        })?;
        let weight = number.trim().parse();
        weights.set(merit, weight.map_err(|_| refused(format!("a number after {}=", merit.name())))?);
    }
    Ok(weights)
}

/// Exit code 0 where there is a good place, 1 where there is none, 4 where nobody can say yet.
pub fn siting(source: &JobSource, wished: &Wished, plans: u32, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let units = job::read_job_value(&job)?.units;
    let step = wished.step.as_deref().map(|text| entry::read_quantity("step_m", text, units));
    let step_m = step.transpose().map_err(FieldErrors::from)?;
    let usual = SitingWishes::default();
    let wishes = SitingWishes {
        step_m,
        guy_turns: wished.guy_turns.unwrap_or(usual.guy_turns),
        base_turns: wished.base_turns.unwrap_or(usual.base_turns),
        clear_of_fall: wished.clear_of_fall,
        best: wished.best.unwrap_or(usual.best),
        weights: weights(&wished.weigh)?,
        ..usual
    };
    let mut line = progress::Line::new("planning places");
    let answer = run::siting(&SitingRequest { job, wishes, plans }, &mut |told| line.tell(&told))?;
    drop(line);
    if json {
        print_json(&answer.siting)?
    } else {
        print(&report::siting_text(&answer.report))?
    };
    let unknown = answer.siting.end == SitingEnd::Waits || !answer.siting.waits_for.is_empty();
    Ok(match (unknown, answer.siting.best.is_empty()) {
        (true, _) => Outcome::NotKnown,
        (false, true) => Outcome::Stop,
        (false, false) => Outcome::Done,
    })
}
