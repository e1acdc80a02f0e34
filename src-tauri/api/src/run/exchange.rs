//! Points out and shapes in.

use std::collections::BTreeSet;

use mastwright_engine::drawing;
use mastwright_engine::exchange::csv::points_csv;
use mastwright_engine::exchange::geojson::{
    Import, Imported, ImportedShape, origin, points_geojson, read_geojson,
};
use mastwright_engine::job::{self, Document, Job, PointFix};
use mastwright_engine::plan::{self, Computed};
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::report;
use serde_json::{Value, json};

use crate::messages::*;

pub fn points_file(request: &PointsFileRequest) -> Result<TextAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let text = match request.format {
        PointsFormat::Csv => points_csv(&computed.plan.points, job.units),
        PointsFormat::Geojson => {
            points_geojson(&origin(&job, &computed.yard, &request.mark)?, &computed.plan, &computed.yard)?
        }
    };
    Ok(TextAnswer { text })
}

pub fn look_into_geojson(request: &GeojsonRequest) -> Result<GeojsonAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let shape = |it: Imported| GeojsonShape {
        says: report::imported(&it.shape, job.units),
        kind: kind_of(&it.shape),
        name: it.name,
    };
    let Import { shapes, skipped, skipped_unlisted } = read(&job, &computed, &request.text, &request.mark)?;
    let picture = drawing::import_preview(&shapes, &computed).rounded();
    let shapes = shapes.into_iter().map(shape).collect();
    Ok(GeojsonAnswer {
        shapes,
        skipped,
        skipped_unlisted,
        picture,
        north: report::north_from(&computed.plan.north.from),
    })
}

/// Puts what was chosen into the job.
///
/// # Errors
/// As [`look_into_geojson`]; a use that does not suit its shape, by `/uses/N`; and whatever the new job's own fields
/// do not allow.
pub fn import_geojson(request: &ImportRequest) -> Result<OpenedJob, FieldErrors> {
    let before = Document::of(&request.job)?;
    let job = before.job();
    let Import { shapes, .. } = read(job, &plan::compute(job)?, &request.text, &request.mark)?;
    if shapes.len() != request.uses.len() {
        let (given, allowed) = (request.uses.len(), shapes.len());
        return Err(
            FieldError::new("/uses", given.to_string(), format!("one for each of {allowed} shapes")).into()
        );
    }
    let mut document = before.value();
    let mut things = Things::of(&mut document, id_stem("thing", &request.device));
    for (i, (shape, usage)) in shapes.iter().zip(&request.uses).enumerate() {
        put_in(&mut document, &mut things, &shape.shape, usage, &format!("/uses/{i}"))?;
    }
    set(&mut document, "/yard", "obstacles", Value::Array(things.list));
    Ok(OpenedJob(Document::of(&document)?.value()))
}

fn read(job: &Job, computed: &Computed, text: &str, mark: &str) -> Result<Import, FieldErrors> {
    read_geojson(text, &origin(job, &computed.yard, mark)?)
}

/// How ids begin that are made on a device: two devices in one yard never make the same.
pub(super) fn id_stem(kind: &str, device: &str) -> String {
    let device: String = device.chars().filter(char::is_ascii_alphanumeric).take(12).collect();
    if device.is_empty() { kind.to_owned() } else { format!("{kind}-{device}") }
}

/// The things of a yard on their way in, taken out of the document so that each new one costs the same.
struct Things {
    stem: String,
    list: Vec<Value>,
    ids: BTreeSet<String>,
    number: usize,
}

impl Things {
    fn of(document: &mut Value, stem: String) -> Self {
        let taken = document.pointer_mut("/yard/obstacles").and_then(Value::as_array_mut);
        let list = taken.map(std::mem::take).unwrap_or_default();
        let id = |thing: &Value| Some(thing.get("id")?.as_str()?.to_owned());
        Self { stem, ids: list.iter().filter_map(id).collect(), number: list.len(), list }
    }

    fn push(&mut self, name: &str, shape: &Value) {
        let id = loop {
            self.number += 1;
            let id = format!("{}-{}", self.stem, self.number);
            if self.ids.insert(id.clone()) {
                break id;
            }
        };
        self.list.push(json!({ "id": id, "name": name, "shape": shape }));
    }
}

fn put_in(
    document: &mut Value,
    things: &mut Things,
    shape: &ImportedShape,
    usage: &ImportAs,
    path: &str,
) -> Result<(), FieldErrors> {
    match usage {
        ImportAs::LeaveOut => {}
        ImportAs::Boundary => {
            let outline = points_for("outline", shape, path)?;
            set(document, "/yard", "boundary", json!({ "outline": outline }));
        }
        ImportAs::Thing { name, shape: wanted } => {
            let kind = wanted.get("kind").and_then(Value::as_str).unwrap_or_default();
            let field = match kind {
                "tree" | "post" => "at",
                "building" | "keep_off" => "outline",
                _ => "line",
            };
            let mut wanted = wanted.clone();
            set(&mut wanted, "", field, points_for(field, shape, path)?);
            things.push(name, &wanted);
        }
    }
    Ok(())
}

fn set(document: &mut Value, within: &str, field: &str, value: Value) {
    if let Some(Value::Object(members)) = document.pointer_mut(within) {
        members.insert(field.to_owned(), value);
    }
}

/// The points of a shape as the field of a thing wants them.
fn points_for(field: &str, shape: &ImportedShape, path: &str) -> Result<Value, FieldErrors> {
    let all = |points: &[[f64; 2]]| points.iter().map(|at| json!(fix(*at))).collect::<Vec<_>>();
    Ok(match (field, shape) {
        ("at", ImportedShape::Point(at)) => json!(fix(*at)),
        ("line", ImportedShape::Line(points)) | ("outline", ImportedShape::Outline(points)) => {
            Value::Array(all(points))
        }
        _ => {
            let allowed = match kind_of(shape) {
                GeojsonKind::Point => "something at a point: a tree, a post",
                GeojsonKind::Line => "something along a line: a hedge, a wall, a path",
                GeojsonKind::Outline => {
                    "something with an outline: the boundary, a building, ground to stay off"
                }
            };
            return Err(FieldError::new(path, "a use that does not suit the shape", allowed).into());
        }
    })
}

/// To the millimetre: a seventh decimal of a degree is a centimetre.
fn fix([east_m, north_m]: [f64; 2]) -> PointFix {
    let millimetre = |m: f64| (m * 1000.0).round() / 1000.0;
    PointFix::Coordinates { east_m: millimetre(east_m), north_m: millimetre(north_m) }
}

fn kind_of(shape: &ImportedShape) -> GeojsonKind {
    match shape {
        ImportedShape::Point(_) => GeojsonKind::Point,
        ImportedShape::Line(_) => GeojsonKind::Line,
        ImportedShape::Outline(_) => GeojsonKind::Outline,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use mastwright_engine::demo;

    const POND: &str = r#"{"type":"FeatureCollection","features":[
        {"type":"Feature","properties":{"name":"Pond"},"geometry":{"type":"Polygon","coordinates":
            [[[-72.9,44.1],[-72.8999,44.1],[-72.8999,44.1001],[-72.9,44.1]]]}},
        {"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[-72.9001,44.1]}}]}"#;

    fn request(uses: Vec<ImportAs>) -> ImportRequest {
        let job = serde_json::to_value(demo::lantern_green()).unwrap();
        ImportRequest { job, text: POND.to_owned(), mark: "A".to_owned(), uses, device: String::new() }
    }

    fn thing(kind: &str) -> ImportAs {
        ImportAs::Thing { name: "Pond".to_owned(), shape: json!({ "kind": kind }) }
    }

    #[test]
    fn what_was_chosen_comes_in_and_the_rest_stays_out() {
        let before = demo::lantern_green();
        let import = |uses| job::read_job_value(&import_geojson(&request(uses)).unwrap().0).unwrap();
        let after = import(vec![thing("keep_off"), ImportAs::LeaveOut]);
        assert_eq!(after.yard.obstacles.len(), before.yard.obstacles.len() + 1);
        assert_eq!(after.yard.obstacles.last().unwrap().name, "Pond");
        assert_eq!(after.yard.boundary, before.yard.boundary);
        let after = import(vec![ImportAs::Boundary, ImportAs::LeaveOut]);
        assert_eq!(after.yard.boundary.unwrap().outline.len(), 3);
    }

    #[test]
    fn fields_of_a_newer_minor_version_stay() {
        let mut request = request(vec![thing("keep_off"), ImportAs::LeaveOut]);
        request.job["mastwright_minor"] = json!(900);
        request.job["yard"]["obstacles"][1]["paint"] = json!({ "colour": "green" });
        let after = import_geojson(&request).unwrap().0;
        assert_eq!(after["yard"]["obstacles"][1]["paint"], json!({ "colour": "green" }));
    }

    #[test]
    fn what_does_not_suit_is_refused_by_its_field() {
        let path = |uses| import_geojson(&request(uses)).unwrap_err().errors[0].path.clone();
        assert_eq!(path(vec![ImportAs::LeaveOut]), "/uses");
        assert_eq!(path(vec![ImportAs::LeaveOut, ImportAs::Boundary]), "/uses/1");
        assert_eq!(path(vec![thing("tree"), ImportAs::LeaveOut]), "/uses/0");
        // A building without its height.
        let obstacles = demo::lantern_green().yard.obstacles.len();
        let missing = path(vec![thing("building"), ImportAs::LeaveOut]);
        assert!(missing.starts_with(&format!("/yard/obstacles/{obstacles}/shape")), "{missing}");
    }

    #[test]
    fn both_formats_are_written() {
        let job = serde_json::to_value(demo::lantern_green()).unwrap();
        let text = |format| {
            let request = PointsFileRequest { job: job.clone(), format, mark: "A".to_owned() };
            points_file(&request).unwrap().text
        };
        assert!(text(PointsFormat::Csv).starts_with("name,"));
        assert!(text(PointsFormat::Geojson).contains("FeatureCollection"));
    }
}
