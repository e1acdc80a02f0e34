//! `mastwright cards`: the step cards of the day.

use mastwright_api::cards::CardsRequest;
use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::cards::{CardPhase, WaysLooked};
use mastwright_engine::report;

use crate::arguments::{DayPhase, JobSource};
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, progress, read};

/// Exit code 1 where a phase that was asked for has a stop, 4 where something of it is not known yet.
pub fn cards(
    source: &JobSource,
    phase: Option<DayPhase>,
    [down, all_round]: [bool; 2],
    json: bool,
) -> Result<Outcome, Failure> {
    let mut job = read(source)?;
    if down && let Some(job) = job.as_object_mut() {
        let cards = job.entry("cards").or_insert_with(|| serde_json::json!({}));
        if let Some(cards) = cards.as_object_mut() {
            cards.insert("comes_down".to_owned(), true.into());
        }
    }
    let phase = phase.map(|phase| match phase {
        DayPhase::Base => CardPhase::Base,
        DayPhase::Raise => CardPhase::Raise,
        DayPhase::Crank => CardPhase::Crank,
        DayPhase::Lights => CardPhase::Lights,
        DayPhase::Lower => CardPhase::Lower,
        DayPhase::LayDown => CardPhase::LayDown,
    });
    let looked = if all_round {
        let mut line = progress::Line::new("looking all round");
        run::raise_ways(&JobRequest { job: job.clone() }, &mut |told| line.tell(&told))?.looked
    } else {
        WaysLooked::NotYet
    };
    let answer = run::cards(&CardsRequest { job, looked })?;
    if json {
        print_json(&answer.deck)?
    } else {
        print(&report::cards_text(&answer.report, phase))?
    };
    let asked = || answer.report.phases.iter().filter(|it| phase.is_none_or(|phase| phase == it.phase));
    Ok(if asked().any(|it| !it.stops.is_empty()) {
        Outcome::Stop
    } else if asked().any(|it| !it.not_known.is_empty() || !it.wind_known) {
        Outcome::NotKnown
    } else {
        Outcome::Done
    })
}
