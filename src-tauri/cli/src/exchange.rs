//! Points out for other programs, outlines in from them.

use std::path::Path;

use mastwright_api::messages::{
    GeojsonKind, GeojsonRequest, GeojsonShape, ImportAs, ImportRequest, JobRequest, PointsFileRequest,
    PointsFormat,
};
use mastwright_api::run;
use mastwright_engine::quantity::visible::visible_json;
use serde_json::{Value, json};

use crate::arguments::{JobSource, PointsFile};
use crate::outcome::{Failure, Outcome, say};
use crate::{file_text, outcome_of, print_document, read, write};

pub fn points(
    source: &JobSource,
    format: PointsFile,
    mark: Option<String>,
    out: Option<&Path>,
) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let format = match format {
        PointsFile::Csv => PointsFormat::Csv,
        PointsFile::Geojson => PointsFormat::Geojson,
    };
    let mark = mark.unwrap_or_else(|| first_mark(&job));
    let outcome = outcome_of(&job)?;
    let text = run::points_file(&PointsFileRequest { job, format, mark })?.text;
    // Escapes keep JSON the same document; in a table of values a sign stands in.
    let text = if format == PointsFormat::Geojson { visible_json(&text) } else { text };
    write(&text, out)?;
    Ok(outcome)
}

pub fn import(
    source: &JobSource,
    geojson: &Path,
    mark: Option<String>,
    boundary: Option<String>,
) -> Result<Outcome, Failure> {
    let job = read(source)?;
    let text = file_text(geojson)?;
    let mark = mark.unwrap_or_else(|| first_mark(&job));
    let request = GeojsonRequest { job, text, mark };
    let found = run::look_into_geojson(&request)?;
    for skipped in &found.skipped {
        say(&format!("skipped {}", skipped.sentence()));
    }
    if found.skipped_unlisted > 0 {
        say(&format!("skipped {} more", found.skipped_unlisted));
    }
    let uses = found.shapes.iter().map(|shape| used_as(shape, boundary.as_deref())).collect();
    let GeojsonRequest { job, text, mark } = request;
    let job = run::import_geojson(&ImportRequest { job, text, mark, uses, device: String::new() })?;
    say(&format!("The job's north: {}", found.north));
    print_document(&run::job_text(&JobRequest { job: job.0 })?.text)
}

/// Sizes are not in the document, so only what has none can come in; what is left out is said.
fn used_as(shape: &GeojsonShape, boundary: Option<&str>) -> ImportAs {
    let GeojsonShape { name, kind, says } = shape;
    let called = if name.is_empty() { "without a name" } else { name };
    let (usage, what) = match kind {
        GeojsonKind::Outline if boundary == Some(name) => (ImportAs::Boundary, "the boundary"),
        GeojsonKind::Outline => {
            let shape = json!({ "kind": "keep_off" });
            (ImportAs::Thing { name: name.clone(), shape }, "ground to stay off")
        }
        GeojsonKind::Point | GeojsonKind::Line => (ImportAs::LeaveOut, "left out: its sizes are not known"),
    };
    say(&format!("{called} ({says}): {what}"));
    usage
}

/// Of a document that is not checked yet.
fn first_mark(job: &Value) -> String {
    job.pointer("/yard/marks/0/id").and_then(Value::as_str).unwrap_or_default().to_owned()
}
