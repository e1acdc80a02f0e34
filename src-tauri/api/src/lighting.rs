//! The lights' current: labels added up, the lead on the map, strands with their numbers.

use mastwright_engine::drawing::lead_map::lead_map;
use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::lighting::{self, LightsPlan};
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, LightsReport};
use mastwright_engine::workshop::bench_work;
use mastwright_engine::{job, judge};
use serde::Serialize;

use crate::messages::JobRequest;

/// The lights' current as data, in words, and the lead on its part of the map.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LightsAnswer {
    pub plan: LightsPlan,
    pub report: LightsReport,
    /// None while nobody knows where the lead lies.
    pub lead: Option<Scene>,
}

pub fn lights(request: &JobRequest) -> Result<LightsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = judge::judged(&job)?;
    let stages = bench_work(&job, &computed)?.stages;
    let lights = lighting::lights(&job, &computed, &stages);
    let report = report::lights(&job, lights.as_ref());
    let lead = lights.as_ref().and_then(|work| work.lead.as_ref());
    let lead = lead.map(|lead| lead_map(&job, &computed, lead).rounded());
    Ok(LightsAnswer { plan: LightsPlan { lights }, report, lead })
}
