//! How tight the guys are: what was tapped, timed, felt, heard or pulled, and what all readings together say.

use chrono::{DateTime, FixedOffset};
use mastwright_engine::job::{self, SwingPlane, TensionReading, TensionWay};
use mastwright_engine::plan;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::report::{self, RingReport, TensionsReport};
use mastwright_engine::ringing::recording::{Recorded, felt, heard};
use mastwright_engine::ringing::rhythm::{tapped, timed};
use mastwright_engine::ringing::{GuyTensions, NoNote, Note, levels};
use mastwright_engine::survey::hold::Sample;
use serde::{Deserialize, Serialize};

use crate::messages::JobRequest;

/// What was read of a guy.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(tag = "way", rename_all = "snake_case", deny_unknown_fields)]
pub enum Listened {
    /// Once for each swing, in order.
    Tapped {
        times_ms: Vec<f64>,
    },
    Watch {
        swings: u16,
        seconds: f64,
    },
    /// A phone on the rope, so far from its lower end.
    Felt {
        samples: Vec<Sample>,
        phone_at_m: f64,
    },
    /// A microphone; samples of any scale.
    Heard {
        rate_hz: f64,
        samples: Vec<f64>,
    },
    /// With a scale at the middle.
    PulledAside {
        pull_n: f64,
        aside_m: f64,
    },
}

/// One guy, and what was read of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct RingRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The guy's id.
    pub guy: String,
    /// The id of the reading, should it be kept.
    pub id: String,
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    pub plane: SwingPlane,
    pub listened: Listened,
}

/// What it comes to.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RingAnswer {
    pub note: Option<Note>,
    pub no_note: Option<NoNote>,
    /// To be kept in the job; none where nothing can be trusted.
    pub reading: Option<TensionReading>,
    pub report: RingReport,
}

/// All guys, as data and in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TensionsAnswer {
    pub tensions: GuyTensions,
    pub report: TensionsReport,
}

pub fn tensions(request: &JobRequest) -> Result<TensionsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    let levels = levels(&job, &plan.guys);
    let report = report::tensions(&job, &levels);
    Ok(TensionsAnswer { tensions: GuyTensions { levels }, report })
}

pub fn ring(request: &RingRequest) -> Result<RingAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    let guy = plan.guys.iter().find(|guy| guy.id == request.guy).ok_or_else(|| unknown(request, &plan))?;
    let recorded = request.listened.recorded();
    let note = request.listened.note(recorded.as_ref());
    let reading = match note {
        Some(Err(_)) => None,
        Some(Ok(note)) => Some(request.reading(Some(note))),
        None => Some(request.reading(None)),
    };
    let said = report::ring(&job, guy, note, reading.as_ref(), recorded.as_ref());
    // What no tension of this rope gives is said, and not kept.
    let reading = reading.filter(|_| !said.tension.is_empty());
    Ok(RingAnswer {
        note: note.and_then(Result::ok),
        no_note: note.and_then(Result::err),
        reading,
        report: said,
    })
}

fn unknown(request: &RingRequest, plan: &plan::Plan) -> FieldErrors {
    let known: Vec<&str> = plan.guys.iter().map(|guy| guy.id.as_str()).collect();
    FieldError::new("guy", request.guy.clone(), format!("one of the guys: {}", known.join(", "))).into()
}

impl Listened {
    fn recorded(&self) -> Option<Recorded> {
        match self {
            Self::Felt { samples, .. } => Some(felt(samples)),
            Self::Heard { rate_hz, samples } => Some(heard(samples, *rate_hz)),
            _ => None,
        }
    }

    /// None for a pull aside, where nothing swings.
    fn note(&self, recorded: Option<&Recorded>) -> Option<Result<Note, NoNote>> {
        match self {
            Self::Tapped { times_ms } => Some(tapped(times_ms)),
            Self::Watch { swings, seconds } => Some(timed(*swings, *seconds)),
            Self::Felt { .. } | Self::Heard { .. } => recorded.map(|recorded| recorded.note),
            Self::PulledAside { .. } => None,
        }
    }

    fn way(&self) -> TensionWay {
        match self {
            Self::Tapped { .. } => TensionWay::Tapped,
            Self::Watch { .. } => TensionWay::Watch,
            Self::Felt { .. } => TensionWay::Felt,
            Self::Heard { .. } => TensionWay::Heard,
            Self::PulledAside { .. } => TensionWay::PulledAside,
        }
    }
}

impl RingRequest {
    fn reading(&self, note: Option<Note>) -> TensionReading {
        let mut reading = TensionReading {
            id: self.id.clone(),
            guy: self.guy.clone(),
            taken_at: self.taken_at,
            who: String::new(),
            way: self.listened.way(),
            hz: note.map(|note| note.hz),
            sigma_hz: note.map(|note| note.sigma_hz),
            swings: None,
            plane: self.plane,
            phone_at_m: None,
            pull_n: None,
            aside_m: None,
        };
        match &self.listened {
            Listened::Watch { swings, .. } => reading.swings = Some(*swings),
            Listened::Tapped { times_ms } => {
                reading.swings = u16::try_from(times_ms.len().saturating_sub(1)).ok()
            }
            Listened::Felt { phone_at_m, .. } => reading.phone_at_m = Some(*phone_at_m),
            Listened::PulledAside { pull_n, aside_m } => {
                (reading.pull_n, reading.aside_m) = (Some(*pull_n), Some(*aside_m));
            }
            Listened::Heard { .. } => {}
        }
        reading
    }
}
