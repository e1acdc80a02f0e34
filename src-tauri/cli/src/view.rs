//! `mastwright view`: what is seen from a standpoint.

use std::path::Path;

use mastwright_api::view::{LookWish, seen};
use mastwright_engine::drawing::{self, SvgStyle};
use mastwright_engine::job;
use mastwright_engine::quantity::{FieldErrors, entry};
use mastwright_engine::report;
use serde_json::{Value, json};

use crate::arguments::JobSource;
use crate::outcome::{Failure, Outcome};
use crate::{print, print_json, read, write};

/// Of the picture: as wide as a page of A4 between its margins.
const WIDTH_MM: f64 = 190.0;
const ASPECT: f64 = 1.5;
const TEXT_MM: f64 = 2.5;

/// The standpoint that the command line makes.
const HERE: &str = "here";

/// Where one stands and which way one looks.
pub struct Asked {
    pub from: String,
    pub toward: Option<f64>,
    pub pitch: Option<f64>,
    pub field: Option<f64>,
    pub eye_height: Option<String>,
    pub floor: Option<String>,
    pub night: bool,
}

pub fn view(source: &JobSource, asked: &Asked, out: Option<&Path>, json: bool) -> Result<Outcome, Failure> {
    let job = with_standpoint(read(source)?, asked)?;
    let text = 100.0 * TEXT_MM / WIDTH_MM;
    let look = LookWish {
        toward_deg: asked.toward,
        pitch_deg: asked.pitch,
        field_deg: asked.field,
        aspect: ASPECT,
        night: asked.night,
        text,
    };
    let (told, report, scene) = seen(&job, HERE, &look)?;
    let on_screen = out == Some(Path::new("-"));
    if out.is_some() {
        write(&drawing::svg(&scene, &SvgStyle::fitted(WIDTH_MM, WIDTH_MM / ASPECT, TEXT_MM)), out)?;
    }
    match (json, on_screen) {
        (true, false) => print_json(&told),
        (false, false) => print(&report::view_text(&report)),
        (_, true) => Ok(Outcome::Done),
    }
}

/// The job with the standpoint that is meant under one name: one of its own with what is said otherwise of it, one of its
/// marks, or a place.
fn with_standpoint(mut job: Value, asked: &Asked) -> Result<Value, Failure> {
    let read = job::read_job_value(&job)?;
    let known = read.standpoints.iter().find(|at| at.id == asked.from).map(|at| json!(at));
    let mut here = match (known, coordinates(&asked.from)) {
        (Some(known), _) => known,
        (None, Some([east_m, north_m])) => json!({
            "name": format!("the place {}", asked.from),
            "at": { "by": "coordinates", "east_m": east_m, "north_m": north_m },
        }),
        // A mark, or nothing: then the job's reader says which marks there are.
        (None, None) => json!({
            "name": format!("mark {}", asked.from),
            "at": { "by": "bearing_tape", "from": asked.from, "bearing_deg": 0.0, "tape_m": 0.0 },
        }),
    };
    here["id"] = json!(HERE);
    for (field, text) in [("eye_height_m", &asked.eye_height), ("floor_height_m", &asked.floor)] {
        if let Some(text) = text {
            let value = entry::read_quantity(field, text, read.units).map_err(FieldErrors::from)?;
            here[field] = json!(value);
        }
    }
    job["standpoints"] = json!([here]);
    Ok(job)
}

/// `3.5,-12`.
fn coordinates(text: &str) -> Option<[f64; 2]> {
    let (east, north) = text.split_once(',')?;
    Some([east.trim().parse().ok()?, north.trim().parse().ok()?])
}
