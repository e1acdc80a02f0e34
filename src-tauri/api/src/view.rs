//! What is seen from a standpoint: asked once for each place of the eyes, and then for each way that they look.

use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::seen::{PictureWish, picture};
use mastwright_engine::job::{self, Job};
use mastwright_engine::plan;
use mastwright_engine::pointer;
use mastwright_engine::quantity::bearing::of_vector;
use mastwright_engine::quantity::{FieldError, FieldErrors, Units};
use mastwright_engine::report::{self, ViewReport};
use mastwright_engine::view::{Look, Seen, USUAL_FIELD_DEG, ViewSeen, YardToSee, eyes_of};
use serde::{Deserialize, Serialize};

use crate::messages::JobRequest;
use crate::session::Session;

/// Which way to look, and how the picture is drawn.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LookWish {
    /// True bearing; none: the standpoint's own, or towards the mast.
    #[serde(default)]
    pub toward_deg: Option<f64>,
    /// Above the horizontal; none: level, or so that the mast is in the picture.
    #[serde(default)]
    pub pitch_deg: Option<f64>,
    /// From the left edge to the right one.
    #[serde(default)]
    pub field_deg: Option<f64>,
    /// Width over height.
    pub aspect: f64,
    #[serde(default)]
    pub night: bool,
    /// Height of the lettering in hundredths of the width.
    pub text: f64,
}

/// Asks what is seen from one of the job's standpoints.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct StandRequest {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: serde_json::Value,
    /// The standpoint's id.
    pub standpoint: String,
    /// Names what is kept: another one for every state of the job and every standpoint.
    pub name: String,
    pub look: LookWish,
}

/// What is seen from there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StandAnswer {
    pub report: ViewReport,
    pub picture: PictureAnswer,
    /// Where the mast is: to look at it.
    pub mast_bearing_deg: f64,
}

/// The job's standpoints as the map shows them.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StandpointsAnswer {
    /// Those that can be placed.
    pub places: Vec<StandpointPlace>,
}

/// A standpoint on the map, with what of the map one sees from there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StandpointPlace {
    /// In the job's list.
    pub index: u32,
    pub name: String,
    pub east_m: f64,
    pub north_m: f64,
    /// True bearing along which one looks first: its own, or towards the mast.
    pub toward_deg: f64,
    /// From the left edge of the picture to the right one.
    pub field_deg: f64,
}

/// Where the job's standpoints are.
///
/// # Errors
/// A job that can't be planned.
pub fn standpoints(request: &JobRequest) -> Result<StandpointsAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let surveyed = plan::survey(&job.yard, job.units)?;
    let mast = plan::lay_out(&surveyed, &job.rig, &job.placement)?.mast;
    let place = |(index, at): (usize, &job::Standpoint)| {
        let eyes = eyes_of(&surveyed, at, &pointer!(standpoints[index].at)).ok()?;
        let to_mast = || of_vector(mast.east_m - eyes.east_m, mast.north_m - eyes.north_m);
        Some(StandpointPlace {
            index: index as u32,
            name: at.name.clone(),
            east_m: eyes.east_m,
            north_m: eyes.north_m,
            toward_deg: at.toward_deg.unwrap_or_else(to_mast),
            field_deg: USUAL_FIELD_DEG,
        })
    };
    Ok(StandpointsAnswer { places: job.standpoints.iter().enumerate().filter_map(place).collect() })
}

/// Asks for the picture of the standpoint that is kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LookRequest {
    /// As `stand` named it.
    pub held: String,
    pub look: LookWish,
}

/// A picture, and which way it looks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PictureAnswer {
    pub scene: Scene,
    pub look: Look,
}

/// A standpoint with what shows from it.
pub(crate) struct Standing {
    name: String,
    seen: Seen,
    units: Units,
    /// Bearing that the standpoint looks along first.
    toward_deg: Option<f64>,
}

impl Standing {
    fn look(&self, wish: &LookWish) -> Result<Look, FieldErrors> {
        let field_deg = wish.field_deg.unwrap_or(USUAL_FIELD_DEG);
        // Checked before it is used for the pitch that it leaves open.
        let asked = Look {
            toward_deg: wish.toward_deg.unwrap_or(0.0),
            pitch_deg: wish.pitch_deg.unwrap_or(0.0),
            field_deg,
            aspect: wish.aspect,
        };
        asked.checked()?;
        self.seen.look(wish.toward_deg.or(self.toward_deg), wish.pitch_deg, field_deg, wish.aspect).checked()
    }

    fn picture(&self, wish: &LookWish) -> Result<PictureAnswer, FieldErrors> {
        if !(0.5..=12.0).contains(&wish.text) {
            return Err(FieldError::new(
                "/look/text",
                wish.text.to_string(),
                "0.5 to 12 hundredths of the width",
            )
            .into());
        }
        let look = self.look(wish)?;
        let drawn = PictureWish { night: wish.night, text: wish.text };
        Ok(PictureAnswer { scene: picture(&self.seen, &look, &drawn, self.units), look })
    }
}

fn standing(job: &Job, standpoint: &str, name: &str) -> Result<Standing, FieldErrors> {
    let found = job.standpoints.iter().enumerate().find(|(_, at)| at.id == standpoint);
    let Some((index, at)) = found else {
        let known: Vec<&str> = job.standpoints.iter().map(|at| at.id.as_str()).collect();
        let allowed = match known.as_slice() {
            [] => "the id of a standpoint: this job has none yet".to_owned(),
            known => format!("the id of a standpoint: {}", known.join(", ")),
        };
        return Err(FieldError::new("/standpoint", format!("text “{standpoint}”"), allowed).into());
    };
    let surveyed = plan::survey(&job.yard, job.units)?;
    let computed = plan::compute_on(&surveyed, job)?;
    let eyes = eyes_of(&surveyed, at, &pointer!(standpoints[index].at))?;
    let seen = YardToSee::of(job, &computed).seen_from(&eyes);
    Ok(Standing { name: name.to_owned(), seen, units: job.units, toward_deg: at.toward_deg })
}

impl Session {
    pub(crate) fn stand(&mut self, request: &StandRequest) -> Result<StandAnswer, FieldErrors> {
        // What was kept is of no more use, whatever comes of this.
        self.standing = None;
        let job = job::read_job_value(&request.job)?;
        let standing = standing(&job, &request.standpoint, &request.name)?;
        let picture = standing.picture(&request.look)?;
        let told = standing.seen.told(&picture.look);
        let answer = StandAnswer {
            report: report::view(&told, standing.units),
            mast_bearing_deg: standing.seen.mast_deg[2],
            picture,
        };
        self.standing = Some(standing);
        Ok(answer)
    }

    pub(crate) fn look(&mut self, request: &LookRequest) -> Result<PictureAnswer, FieldErrors> {
        let standing = self.standing.as_ref().filter(|standing| standing.name == request.held);
        standing
            .ok_or_else(|| {
                let allowed = "the name of what was seen last: ask it first, with stand";
                FieldError::new("/held", request.held.clone(), allowed)
            })?
            .picture(&request.look)
    }
}

/// What is seen, for a face that asks once: in numbers, in words, and its picture.
///
/// # Errors
/// As the job's, and a standpoint or a look that is none.
pub fn seen(
    job: &serde_json::Value,
    standpoint: &str,
    wish: &LookWish,
) -> Result<(ViewSeen, ViewReport, Scene), FieldErrors> {
    let job = job::read_job_value(job)?;
    let standing = standing(&job, standpoint, "")?;
    let PictureAnswer { scene, look } = standing.picture(wish)?;
    let told = standing.seen.told(&look);
    Ok((told.clone(), report::view(&told, standing.units), scene))
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    fn with_standpoints(standpoints: Value) -> Value {
        let mut job = serde_json::from_str::<Value>(&crate::call(
            "blank",
            r#"{"units":{"system":"metric","inch_fraction":16}}"#,
        ))
        .unwrap()["ok"]
            .take();
        job["standpoints"] = standpoints;
        job
    }

    fn door() -> Value {
        json!([{ "id": "door", "name": "the door", "at": { "by": "coordinates", "east_m": 6.0, "north_m": -4.0 } }])
    }

    const LOOK: &str = r#"{"aspect":1.5,"text":3.0}"#;

    fn look() -> Value {
        serde_json::from_str(LOOK).unwrap()
    }

    /// As text, so that not even a digit may differ.
    #[test]
    fn turning_back_gives_the_picture_that_was_there_before() {
        let mut session = Session::default();
        let request =
            json!({ "job": with_standpoints(door()), "standpoint": "door", "name": "1", "look": look() });
        let first: Value = serde_json::from_str(&session.call("stand", &request.to_string())).unwrap();
        let picture = &first["ok"]["picture"];
        let mut ask = |toward_deg: f64| {
            let mut wish = look();
            wish["toward_deg"] = json!(toward_deg);
            wish["pitch_deg"] = picture["look"]["pitch_deg"].clone();
            let answer = session.call("look", &json!({ "held": "1", "look": wish }).to_string());
            serde_json::from_str::<Value>(&answer).unwrap()["ok"].take()
        };
        let ahead = picture["look"]["toward_deg"].as_f64().unwrap();
        assert_ne!(ask(ahead + 30.0)["scene"], picture["scene"]);
        assert_eq!(ask(ahead).to_string(), picture.to_string());
    }

    #[test]
    fn what_can_not_be_seen_says_which_field_and_what_is_allowed() {
        let mut session = Session::default();
        let mut stand = |job: &Value, standpoint: &str, look: Value| {
            session.call(
                "stand",
                &json!({ "job": job, "standpoint": standpoint, "name": "1", "look": look }).to_string(),
            )
        };
        let job = with_standpoints(door());
        assert!(stand(&job, "roof", look()).contains("door"));
        for (field, value) in [
            ("pitch_deg", 89.0),
            ("field_deg", 170.0),
            ("aspect", 0.0),
            ("text", 40.0),
            ("toward_deg", 900.0),
        ] {
            let mut wrong = look();
            wrong[field] = json!(value);
            let answer = stand(&job, "door", wrong);
            assert!(answer.contains(&format!("\"path\":\"/look/{field}\"")), "{answer}");
        }
        for (at, path) in [
            (
                json!({ "by": "bearing_tape", "from": "Z", "bearing_deg": 0.0, "tape_m": 0.0 }),
                "/standpoints/0/at/from",
            ),
            (json!({ "by": "coordinates", "east_m": 1e9, "north_m": 0.0 }), "/standpoints/0/at/east_m"),
        ] {
            let answer = stand(&with_standpoints(json!([{ "id": "a", "name": "a", "at": at }])), "a", look());
            assert!(answer.contains(path), "{answer}");
        }
        let twice = json!([door()[0], door()[0]]);
        assert!(stand(&with_standpoints(twice), "door", look()).contains("/standpoints/1/id"));
        // And nothing is kept of what was refused.
        assert!(session.call("look", &json!({ "held": "1", "look": look() }).to_string()).contains("/held"));
    }
}
