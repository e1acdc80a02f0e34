//! `mastwright shop`, `cut`, `circles`: what to buy, how to cut it, the two circles of the strands.

use std::path::Path;

use chrono::NaiveDate;
use mastwright_api::messages::JobRequest;
use mastwright_api::workshop::buying::{self, ShoppingRequest};
use mastwright_engine::report::{self, CutState, ShoppingReport};

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read, write};

/// Exit code 1 where a piece is longer than every length or the like, 4 where something is not known yet, else 0.
fn outcome(report: &ShoppingReport, complete: bool) -> Outcome {
    if report.lots.iter().any(|lot| lot.state == CutState::Stop) {
        Outcome::Stop
    } else if complete {
        Outcome::Done
    } else {
        Outcome::NotKnown
    }
}

pub fn shop(
    source: &JobSource,
    csv: Option<&Path>,
    begin: Option<NaiveDate>,
    json: bool,
) -> Result<Outcome, Failure> {
    let request = ShoppingRequest { job: read(source)?, begin };
    let answer = buying::shopping(&request)?;
    if let Some(path) = csv {
        write(&buying::shopping_csv(&request)?.text, Some(path))?;
    } else if json {
        print_json(&answer.list)?;
    } else {
        print(&report::shop_text(&answer.report))?;
    }
    Ok(outcome(&answer.report, answer.list.complete))
}

/// The same list; here by what is cut from what, and the verdict is that of the cutting plans alone.
pub fn cut(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let answer = buying::shopping(&ShoppingRequest { job: read(source)?, begin: None })?;
    if json {
        print_json(&answer.list)?;
    } else {
        print(&report::cut_text(&answer.report))?;
    }
    let proven = answer.report.lots.iter().all(|lot| lot.state == CutState::Proven);
    Ok(outcome(&answer.report, proven))
}

pub fn circles(source: &JobSource, json: bool) -> Result<Outcome, Failure> {
    let answer = buying::circles(&JobRequest { job: read(source)? })?;
    if json {
        print_json(&answer.circles)?;
    } else {
        print(&report::circles_text(&answer.report))?;
    }
    let any = |of: fn(&report::CircleText) -> bool| answer.report.cards.iter().any(of);
    Ok(if any(|card| !card.stops.is_empty()) {
        Outcome::Stop
    } else if answer.circles.ring.is_none() || any(|card| !card.missing.is_empty()) {
        Outcome::NotKnown
    } else {
        Outcome::Done
    })
}
