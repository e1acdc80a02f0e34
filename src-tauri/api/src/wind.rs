//! Messages and work of the operations about wind.

use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::job::{self, FieldError, FieldErrors};
use mastwright_engine::limit::{self, GustLimit, MastHeight, WindChanges, WindQuestion, WindTable};
use mastwright_engine::report::{Report, Row};
use mastwright_engine::{drawing, plan, report};
use serde::{Deserialize, Serialize};

use crate::messages::Progress;
use crate::operations::Watch;

/// A request for what wind a mast can take.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GustLimitRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
}

/// What wind the mast can take, in numbers, words and a picture.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GustLimitAnswer {
    pub limit: GustLimit,
    /// Empty while the limit is being found.
    pub report: Report,
    /// The directions of both roses in words, in their order.
    pub directions: WindDirections,
    /// Round the mast in the yard's metres: it may lie on the staking map.
    pub rose: Scene,
}

/// Each direction's gust limit and weakest part, in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindDirections {
    pub raised: Vec<Row>,
    pub lowered: Vec<Row>,
}

/// A request for what one gust does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WindTableRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(as = "Option<MastHeight>", optional))]
    pub height: MastHeight,
    /// The gust; the job's own where nothing is said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(optional))]
    pub gust_m_per_s: Option<f64>,
    /// Bearing that the wind comes from; the worst where nothing is said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(optional))]
    pub from_deg: Option<f64>,
}

/// What one gust does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindTableAnswer {
    pub table: WindTable,
    pub report: Report,
    /// The mast seen from the side.
    pub bent: Scene,
}

/// What to change first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindChangesAnswer {
    pub changes: WindChanges,
    pub report: Report,
}

/// An answer so far is told after so many directions: often enough to see the rose grow.
const TOLD_EVERY: u32 = 12;

pub fn gust_limit(
    request: &GustLimitRequest,
    watch: &mut Watch<'_, GustLimitAnswer>,
) -> Result<GustLimitAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    let answer = |limit: GustLimit, report| {
        let rose = drawing::wind_rose(&job, &plan, &limit).rounded();
        let said = |rose| report::wind::of_directions(rose, job.units);
        let directions = WindDirections { raised: said(&limit.raised), lowered: said(&limit.lowered) };
        GustLimitAnswer { limit, report, directions, rose }
    };
    let mut progress = |done: u32, of: u32, limit: &GustLimit| {
        let told = done.is_multiple_of(TOLD_EVERY) && done < of;
        let partial = told.then(|| answer(limit.clone(), report::Report::default()));
        watch(Progress { done, of, partial })
    };
    let limit = limit::gust_limit(&job, &plan, &mut progress);
    let report = report::wind::of_limit(&job, &limit);
    Ok(answer(limit, report))
}

pub fn wind_table(request: &WindTableRequest) -> Result<WindTableAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let gust_m_per_s = request.gust_m_per_s.unwrap_or(job.wind.asked_gust_m_per_s);
    for (path, value, most) in [
        ("/gust_m_per_s", gust_m_per_s, limit::search::MOST_M_PER_S),
        ("/from_deg", request.from_deg.unwrap_or(0.0), 360.0),
    ] {
        if !(0.0..=most).contains(&value) {
            return Err(FieldError::new(path, value.to_string(), format!("0 to {most}")).into());
        }
    }
    let plan = plan::compute(&job)?.plan;
    let question = WindQuestion { height: request.height, gust_m_per_s, from_deg: request.from_deg };
    let table = limit::wind_table(&job, &plan, &question).map_err(no_structure)?;
    let report = report::wind::of_table(&job, &table);
    let bent = drawing::bent_mast(&job, &plan, &table).rounded();
    Ok(WindTableAnswer { table, report, bent })
}

pub fn wind_changes(
    request: &GustLimitRequest,
    watch: &mut Watch<'_, WindChangesAnswer>,
) -> Result<WindChangesAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let plan = plan::compute(&job)?.plan;
    let mut progress = |done, of| watch(Progress { done, of, partial: None });
    let changes = limit::wind_changes(&job, &plan, &mut progress).map_err(no_structure)?;
    let report = report::wind::of_changes(&job, &changes);
    Ok(WindChangesAnswer { changes, report })
}

/// A mast that can't be made a structure of, such as one whose guy is too heavy for its tension.
fn no_structure(error: impl ToString) -> FieldErrors {
    FieldError::new("/rig", error.to_string(), "tubes and guys that can stand as told").into()
}
