//! `mastwright tension`: how tight the guys were found, what to take in, how long twenty swings take.

use chrono::{DateTime, Utc};
use mastwright_api::messages::JobRequest;
use mastwright_api::ringing::{Listened, RingRequest};
use mastwright_api::run;
use mastwright_engine::job::SwingPlane;
use mastwright_engine::report;
use mastwright_engine::ringing::TensionStanding;

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read};

/// Swings of one guy by a watch.
pub struct Timed {
    pub guy: String,
    pub swings: u16,
    pub seconds: f64,
}

/// Exit code 0 where every guy is as tight as planned, 1 where one surely is not, 4 where one is not known or cannot be told.
pub fn tension(source: &JobSource, timed: Option<Timed>, json: bool) -> Result<Outcome, Failure> {
    let job = read(source)?;
    if let Some(timed) = timed {
        return one(job, timed, json);
    }
    let answer = run::tensions(&JobRequest { job })?;
    if json {
        print_json(&answer.tensions)?
    } else {
        print(&report::tensions_text(&answer.report))?
    };
    Ok(outcome(answer.report.standing))
}

fn one(job: serde_json::Value, timed: Timed, json: bool) -> Result<Outcome, Failure> {
    let answer = run::ring(&RingRequest {
        job,
        guy: timed.guy,
        id: "by-watch".to_owned(),
        // Nothing is kept of it here: any day does.
        taken_at: DateTime::<Utc>::UNIX_EPOCH.fixed_offset(),
        plane: SwingPlane::Sideways,
        listened: Listened::Watch { swings: timed.swings, seconds: timed.seconds },
    })?;
    if json {
        print_json(&answer)?
    } else {
        print(&report::ring_text(&answer.report))?
    };
    Ok(outcome(answer.report.standing))
}

fn outcome(standing: TensionStanding) -> Outcome {
    match standing {
        TensionStanding::AsPlanned => Outcome::Done,
        TensionStanding::Slacker | TensionStanding::Tighter => Outcome::Stop,
        TensionStanding::NotKnown | TensionStanding::CannotTell => Outcome::NotKnown,
    }
}
