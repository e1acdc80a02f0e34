//! What to buy, how to cut it, and the two circles of the strands.

use chrono::NaiveDate;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, CirclesReport, ShoppingReport};
use mastwright_engine::workshop::bench_work;
use mastwright_engine::workshop::circle::{self, Circles};
use mastwright_engine::workshop::shopping::{self, ShoppingList};
use mastwright_engine::{job, plan};
use serde::{Deserialize, Serialize};

use crate::messages::{JobRequest, TextAnswer};

/// A request for what to buy and cut.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ShoppingRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The day on which the work in the shop begins; the steps have no days without it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub begin: Option<NaiveDate>,
}

/// What to buy and how to cut it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ShoppingAnswer {
    pub list: ShoppingList,
    pub report: ShoppingReport,
}

/// Topper, ring and strands as bought.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CirclesAnswer {
    pub circles: Circles,
    pub report: CirclesReport,
}

pub fn shopping(request: &ShoppingRequest) -> Result<ShoppingAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let list = shopping::list(&job, &computed, &bench_work(&job, &computed)?, request.begin);
    let report = report::shopping(&job, &list);
    Ok(ShoppingAnswer { list, report })
}

pub fn shopping_csv(request: &ShoppingRequest) -> Result<TextAnswer, FieldErrors> {
    let units = job::read_job_value(&request.job)?.units;
    let answer = shopping(request)?;
    Ok(TextAnswer { text: report::shopping_csv(&answer.report, &answer.list, units) })
}

pub fn circles(request: &JobRequest) -> Result<CirclesAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let circles = circle::circles(&job, &computed);
    let report = report::circles(&job, &circles);
    Ok(CirclesAnswer { circles, report })
}
