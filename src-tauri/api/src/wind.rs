//! Messages and work of the operations about wind.

use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::job;
use mastwright_engine::plan::Computed;
use mastwright_engine::quantity::range::allowed;
use mastwright_engine::quantity::{FieldError, FieldErrors, format};
use mastwright_engine::report::Report;
use mastwright_engine::report::wind::DirectionText;
use mastwright_engine::wind_capacity::{
    self, MastHeight, WindCapacity, WindChanges, WindQuestion, WindTable,
};
use mastwright_engine::{drawing, plan, report};
use serde::{Deserialize, Serialize};

use crate::messages::Progress;
use crate::operations::Watch;

/// A request for what wind a mast can take.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WindCapacityRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
}

/// What wind the mast can take, in numbers, words and a picture.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindCapacityAnswer {
    pub limit: WindCapacity,
    /// Shown with it wherever it is shown, also while it is being found.
    pub cautions: Vec<String>,
    /// Empty while the limit is being found.
    pub report: Report,
    /// The directions of both roses in words, in their order.
    pub directions: WindDirections,
    /// Round the mast in the yard's metres: it may lie on the staking map.
    pub rose: Scene,
}

/// Each direction's gust limit and weakest part, in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindDirections {
    pub raised: Vec<DirectionText>,
    pub lowered: Vec<DirectionText>,
}

/// What `mastwright wind --json` prints.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema))]
pub struct Withstood {
    pub limit: WindCapacity,
    /// One gust; none where the mast can't be made a structure of.
    pub table: Option<WindTable>,
    pub changes: Option<WindChanges>,
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
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindTableAnswer {
    pub table: WindTable,
    /// Shown with it wherever it is shown, also while it is being found.
    pub cautions: Vec<String>,
    pub report: Report,
    /// The mast seen from the side.
    pub bent: Scene,
}

/// What to change first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindChangesAnswer {
    pub changes: WindChanges,
    /// Shown with it wherever it is shown, also while it is being found.
    pub cautions: Vec<String>,
    pub report: Report,
}

/// An answer so far is told after so many directions: often enough to see the rose grow.
const TOLD_EVERY: u32 = 12;

pub fn wind_capacity(
    request: &WindCapacityRequest,
    watch: &mut Watch<'_, WindCapacityAnswer>,
) -> Result<WindCapacityAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let Computed { plan, layout, .. } = plan::compute(&job)?;
    let answer = |limit: WindCapacity, report| {
        let rose = drawing::wind_rose(&job, &plan, &limit).rounded();
        let said = |rose| report::wind::of_directions(rose, job.units);
        let directions = WindDirections { raised: said(&limit.raised), lowered: said(&limit.lowered) };
        WindCapacityAnswer { limit, cautions: cautions(), report, directions, rose }
    };
    let mut progress = |done: u32, of: u32, limit: &WindCapacity| {
        let told = done.is_multiple_of(TOLD_EVERY) && done < of;
        let partial = told.then(|| answer(limit.clone(), report::Report::default()));
        watch(Progress { done, of, partial })
    };
    let limit = wind_capacity::withstand(&job, &layout, &mut progress);
    let report = report::wind::of_limit(&job, &limit);
    Ok(answer(limit, report))
}

pub fn wind_table(request: &WindTableRequest) -> Result<WindTableAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let gust_m_per_s = request.gust_m_per_s.unwrap_or(job.wind.asked_gust_m_per_s);
    for (name, value, most) in [
        ("gust_m_per_s", gust_m_per_s, wind_capacity::search::MOST_M_PER_S),
        ("from_deg", request.from_deg.unwrap_or(0.0), 360.0),
    ] {
        if !(0.0..=most).contains(&value) {
            let (given, allowed) =
                (format::field(name, value, job.units), allowed(name, Some(0.0), Some(most), job.units));
            return Err(FieldError::new(format!("/{name}"), given, allowed).into());
        }
    }
    let Computed { plan, layout, .. } = plan::compute(&job)?;
    let question = WindQuestion { height: request.height, gust_m_per_s, from_deg: request.from_deg };
    let table = wind_capacity::wind_table(&job, &layout, &question).map_err(no_structure)?;
    let report = report::wind::of_table(&job, &table);
    let bent = drawing::bent_mast(&job, &plan, &table).rounded();
    Ok(WindTableAnswer { table, cautions: cautions(), report, bent })
}

pub fn wind_changes(
    request: &WindCapacityRequest,
    watch: &mut Watch<'_, WindChangesAnswer>,
) -> Result<WindChangesAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let surveyed = plan::survey(&job.yard, job.units)?;
    let layout = plan::compute_on(&surveyed, &job)?.layout;
    let mut progress = |done, of| watch(Progress { done, of, partial: None });
    let changes =
        wind_capacity::wind_changes(&job, &surveyed, &layout, &mut progress).map_err(no_structure)?;
    let report = report::wind::of_changes(&job, &changes);
    Ok(WindChangesAnswer { changes, cautions: cautions(), report })
}

fn cautions() -> Vec<String> {
    report::cautions::WIND.map(str::to_owned).to_vec()
}

/// A mast that can't be made a structure of, such as one whose guy is too heavy for its tension.
fn no_structure(error: impl ToString) -> FieldErrors {
    FieldError::new("/rig", error.to_string(), "tubes and guys that can stand as told").into()
}

#[cfg(test)]
mod tests {
    use crate::operations::{call, call_watched};
    use serde_json::{Value, json};

    fn demo() -> Value {
        serde_json::from_str::<Value>(&call("demo", "{}")).unwrap()["ok"].take()
    }

    fn ok(answer: &str) -> Value {
        let mut answer: Value = serde_json::from_str(answer).unwrap();
        assert!(answer["error"].is_null(), "{}", answer["error"]);
        answer["ok"].take()
    }

    fn refused_at(operation: &str, request: &Value) -> String {
        let answer: Value = serde_json::from_str(&call(operation, &request.to_string())).unwrap();
        answer["error"]["errors"][0]["path"].as_str().expect("it is refused").to_owned()
    }

    /// Every caution of the engine stands in the answer and in its words.
    fn is_cautioned(answer: &Value) {
        let words = answer["report"].to_string();
        assert!(answer["cautions"].as_array().unwrap().len() >= 5);
        for caution in answer["cautions"].as_array().unwrap() {
            assert!(words.contains(caution.as_str().unwrap()), "{caution}");
        }
    }

    #[test]
    fn the_roses_grow_while_they_are_watched_and_a_stop_keeps_them() {
        let request = json!({ "job": demo() }).to_string();
        let mut grown = Vec::new();
        let answer = call_watched("wind_capacity", &request, &mut |told| {
            assert_eq!(told.of, 144);
            if let Some(partial) = &told.partial {
                let raised = partial["limit"]["raised"]["directions"].as_array().unwrap().len();
                assert_eq!(partial["directions"]["raised"].as_array().unwrap().len(), raised);
                assert!(!partial["rose"]["shapes"].as_array().unwrap().is_empty());
                grown.push((told.done, raised));
            }
            told.done < 30
        });
        assert_eq!(grown, [(12, 12), (24, 24)]);
        let answer = ok(&answer);
        assert_eq!(answer["limit"]["stopped"], true);
        assert_eq!(answer["limit"]["raised"]["directions"].as_array().unwrap().len(), 30);
        // Half a rose tells nobody when to act.
        assert!(answer["limit"]["lower_at_m_per_s"].is_null());
        is_cautioned(&answer);
    }

    #[test]
    fn one_gust_is_the_jobs_own_or_the_one_asked_for() {
        let job = demo();
        let table = |request: Value| ok(&call("wind_table", &request.to_string()));
        let own = table(json!({ "job": job, "from_deg": 200 }));
        assert_eq!(own["table"]["gust_m_per_s"], job["wind"]["asked_gust_m_per_s"]);
        is_cautioned(&own);
        let asked = table(json!({ "job": job, "from_deg": 200, "gust_m_per_s": 5, "height": "lowered" }));
        let moves = |answer: &Value| answer["table"]["top_movement_m"].as_f64().unwrap();
        assert!(moves(&asked) < moves(&own));
        assert!(!asked["bent"]["shapes"].as_array().unwrap().is_empty());
    }

    #[test]
    fn changes_are_told_one_by_one_and_stop_when_told() {
        let request = json!({ "job": demo() }).to_string();
        let answer = ok(&call_watched("wind_changes", &request, &mut |told| told.done < 2));
        assert_eq!(answer["changes"]["stopped"], true);
        assert_eq!(answer["changes"]["changes"].as_array().unwrap().len(), 2);
        is_cautioned(&answer);
    }

    #[test]
    fn a_refusal_names_the_field() {
        let mut job = demo();
        let table = |job: &Value, field: &str, value: f64| json!({ "job": job, field: value });
        assert_eq!(refused_at("wind_table", &table(&job, "gust_m_per_s", -1.0)), "/gust_m_per_s");
        assert_eq!(refused_at("wind_table", &table(&job, "from_deg", 361.0)), "/from_deg");
        job["wind"]["asked_gust_m_per_s"] = json!(-3);
        for operation in ["wind_capacity", "wind_table", "wind_changes"] {
            assert_eq!(refused_at(operation, &json!({ "job": job })), "/wind/asked_gust_m_per_s");
        }
        // Guys too heavy for their tension can't be made a structure of; the limit says so as a finding.
        let mut heavy = demo();
        heavy["rig"]["guy_levels"][0]["rope"]["mass_g_per_m"] = json!(9000);
        heavy["rig"]["guy_levels"][0]["tension_n"] = json!(5);
        for operation in ["wind_table", "wind_changes"] {
            assert_eq!(refused_at(operation, &json!({ "job": heavy })), "/rig");
        }
    }
}
