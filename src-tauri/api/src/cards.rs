//! Step cards of the day: the operation and its messages.

use mastwright_engine::cards::{CardsPlan, Deck, WaysLooked, planned_around};
use mastwright_engine::drawing::lead_map::lead_map;
use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::stages_picture::stage_picture;
use mastwright_engine::drawing::tilt_picture::tilt_picture;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, CardsReport};
use mastwright_engine::{job, judge};
use serde::{Deserialize, Serialize};

/// The cards as data, in words, and what is drawn for them of this yard.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CardsAnswer {
    pub deck: Deck,
    pub report: CardsReport,
    /// The mast turning up; none where nobody has said how, or a weight is not known.
    pub tilt: Option<Scene>,
    /// The lights' lead; none while nobody knows where it lies.
    pub lead: Option<Scene>,
    /// Before and after each stage of the cranking.
    pub stages: Vec<Scene>,
}

/// A request for the cards of the day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CardsRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// What `raise_ways` found of the same job; nothing where nobody looked.
    #[serde(default)]
    pub looked: WaysLooked,
}

pub fn cards(request: &CardsRequest) -> Result<CardsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = judge::judged(&job)?;
    let CardsPlan { deck, stages, tilt, lead } = planned_around(&job, &computed, request.looked)?;
    let report = report::cards(&job, &deck);
    let tilt = tilt.map(|it| tilt_picture(&it, job.units).rounded());
    let lead = lead.map(|lead| lead_map(&job, &computed, &lead).rounded());
    let numbers = 0..stages.stages.len();
    let stages = numbers.filter_map(|number| stage_picture(&stages, number, job.units)).map(Scene::rounded);
    Ok(CardsAnswer { deck, report, tilt, lead, stages: stages.collect() })
}
