//! A job in hand: what a face keeps between calls, so that a drag pays only for what moved.
//!
//! The engine keeps nothing. A face that has one job on its screen holds a [`Session`]: the job as it was read and its
//! yard as it was surveyed stay there, and a request names the state that it means.

use mastwright_engine::job::{self, Job};
use mastwright_engine::plan::{FixedPoints, Surveyed, compute_on_points, compute_placed, survey};
use mastwright_engine::quantity::{FieldError, FieldErrors};

use crate::messages::{HoldJobRequest, Nothing, PlaceAnswer, PlaceRequest};
use crate::run;
use crate::view::Standing;

/// What a face keeps of the job on its screen.
#[derive(Default)]
pub struct Session {
    held: Option<Held>,
    pub(crate) standing: Option<Standing>,
}

struct Held {
    name: String,
    job: Job,
    surveyed: Surveyed,
    points: FixedPoints,
}

impl Session {
    pub(crate) fn hold_job(&mut self, request: &HoldJobRequest) -> Result<Nothing, FieldErrors> {
        // What was held is of no more use, whatever comes of this.
        self.held = None;
        let job = job::read_job_value(&request.job)?;
        let surveyed = survey(&job.yard, job.units)?;
        let points = FixedPoints::of(&surveyed, &job);
        self.held = Some(Held { name: request.name.clone(), job, surveyed, points });
        Ok(Nothing {})
    }

    pub(crate) fn place(&mut self, request: &PlaceRequest) -> Result<PlaceAnswer, FieldErrors> {
        let Some(held) = self.held.as_mut().filter(|held| held.name == request.held) else {
            let allowed = "the name of the job in hand: hand it over first, with hold_job";
            return Err(FieldError::new("/held", request.held.clone(), allowed).into());
        };
        job::place(&mut held.job, &request.placement)?;
        let Held { surveyed, points, job, .. } = held;
        // A point's ties are drawn from its peg.
        let ties = request.map.as_ref().is_some_and(|map| map.ties_for.is_some());
        let compute = if ties { compute_on_points } else { compute_placed };
        let computed = compute(surveyed, points, job)?;
        Ok(run::place_answer(job, computed, request.map.as_ref()))
    }
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    fn demo() -> Value {
        serde_json::from_str::<Value>(&crate::call("demo", "{}")).unwrap()["ok"].take()
    }

    fn holding(job: &Value) -> Session {
        let mut session = Session::default();
        let answer = session.call("hold_job", &json!({ "job": job, "name": "first" }).to_string());
        assert_eq!(answer, "{\"ok\":{}}");
        session
    }

    fn moved(job: &Value) -> Value {
        let mut job = job.clone();
        job["placement"]["mast"] = json!({ "by": "coordinates", "east_m": 1.25, "north_m": -2.5 });
        job["placement"]["front_bearing_deg"] = json!(200.0);
        job
    }

    fn turned(job: &Value) -> Value {
        let mut job = job.clone();
        let front_deg = job["placement"]["front_bearing_deg"].as_f64().unwrap();
        job["placement"]["front_bearing_deg"] = json!(front_deg + 7.5);
        job
    }

    fn place(session: &mut Session, held: &str, job: &Value) -> String {
        let request = json!({ "held": held, "placement": job["placement"], "map": { "text_m": 0.4 } });
        session.call("place", &request.to_string())
    }

    /// As text, so that not even a digit may differ.
    #[test]
    fn a_job_in_hand_answers_as_one_that_is_sent_whole() {
        let job = demo();
        let mut session = holding(&job);
        for job in [moved(&job), turned(&job), job] {
            for map in [json!({ "text_m": 0.4 }), json!({ "text_m": 0.4, "ties_for": { "kind": "mast" } })] {
                let whole = crate::call("plan", &json!({ "job": job, "map": map }).to_string());
                let request = json!({ "held": "first", "placement": job["placement"], "map": map });
                let placed = session.call("place", &request.to_string());
                let [whole, placed] =
                    [whole, placed].map(|text| serde_json::from_str::<Value>(&text).unwrap());
                let (whole, placed) = (&whole["ok"], &placed["ok"]);
                for part in ["map", "map_static", "front_foot", "verdict_says"] {
                    assert!(!placed[part].is_null());
                    assert_eq!(placed[part].to_string(), whole[part].to_string(), "{part}");
                }
                assert_eq!(placed["mast"].to_string(), whole["plan"]["mast"].to_string());
                assert_eq!(placed["verdict"].to_string(), whole["plan"]["verdict"].to_string());
                assert_eq!(placed["contour"].to_string(), whole["plan"]["base"]["contour"].to_string());
            }
        }
    }

    /// What of the map stays is sent once.
    #[test]
    fn static_shapes_are_left_out_where_they_are_kept() {
        let job = demo();
        let mut session = holding(&job);
        let mut ask = |job: &Value, kept: &Value| {
            let map = json!({ "text_m": 0.4, "static_kept": kept });
            let request = json!({ "held": "first", "placement": job["placement"], "map": map });
            serde_json::from_str::<Value>(&session.call("place", &request.to_string())).unwrap()["ok"].take()
        };
        let first = ask(&job, &Value::Null);
        let moving = ask(&turned(&job), &first["map_static"]);
        let whole = ask(&turned(&job), &Value::Null);
        assert_eq!(moving["map_static"], first["map_static"]);
        let count = whole["map"]["static_count"].as_u64().unwrap() as usize;
        assert!(count > 10);
        assert_eq!(
            moving["map"]["shapes"].as_array().unwrap()[..],
            whole["map"]["shapes"].as_array().unwrap()[count..]
        );
    }

    #[test]
    fn only_the_state_that_was_named_is_in_hand() {
        let job = demo();
        let mut session = holding(&job);
        assert!(place(&mut session, "second", &job).contains("\"path\":\"/held\""));
        // A job that can't be used is not kept, and the one before it is gone.
        let refused = session.call("hold_job", &json!({ "job": {}, "name": "second" }).to_string());
        assert!(refused.starts_with("{\"error\""));
        assert!(place(&mut session, "first", &job).contains("\"path\":\"/held\""));
        assert!(
            crate::call("place", &json!({ "held": "first", "placement": {} }).to_string()).contains("/held")
        );
    }

    #[test]
    fn a_placement_that_cannot_be_used_is_named_and_changes_nothing() {
        let job = demo();
        let mut session = holding(&job);
        let before = place(&mut session, "first", &job);
        for (field, value, path) in [
            ("front_bearing_deg", json!(400.0), "/placement/front_bearing_deg"),
            (
                "mast",
                json!({ "by": "bearing_tape", "from": "nobody", "bearing_deg": 0.0, "tape_m": 3.0 }),
                "/placement/mast",
            ),
        ] {
            let mut wrong = job.clone();
            wrong["placement"][field] = value;
            let answer = place(&mut session, "first", &wrong);
            assert!(answer.starts_with("{\"error\"") && answer.contains(path), "{answer}");
        }
        assert_eq!(place(&mut session, "first", &job), before);
    }
}
