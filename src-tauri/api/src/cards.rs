//! Step cards of the day: the operation and its messages.

use mastwright_engine::cards::{CardsPlan, Deck, planned};
use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::stages_picture::stage_picture;
use mastwright_engine::drawing::tilt_picture::tilt_picture;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, CardsReport};
use mastwright_engine::{job, judge};
use serde::Serialize;

use crate::messages::JobRequest;

/// The cards as data, in words, and what is drawn for them of this yard.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardsAnswer {
    pub deck: Deck,
    pub report: CardsReport,
    /// The mast turning up; none where nobody has said how, or a weight is not known.
    pub tilt: Option<Scene>,
    /// Before and after each stage of the cranking.
    pub stages: Vec<Scene>,
}

pub fn cards(request: &JobRequest) -> Result<CardsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = judge::judged(&job)?;
    let CardsPlan { deck, stages, tilt } = planned(&job, &computed)?;
    let report = report::cards(&job, &deck);
    let tilt = tilt.map(|it| tilt_picture(&it, job.units).rounded());
    let numbers = 0..stages.stages.len();
    let stages = numbers.filter_map(|number| stage_picture(&stages, number, job.units)).map(Scene::rounded);
    Ok(CardsAnswer { deck, report, tilt, stages: stages.collect() })
}
