//! Reads a document into a Job, with every error named.

use serde::Deserialize;
use serde_json::Value;

use super::{FORMAT_VERSION, Job, Placement, check, schema, syntax, wording};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors, UnitSystem, Units};

/// Reads a job from JSON text.
///
/// # Errors
/// Everything that is wrong, all at once: each field by its JSON pointer and in words, what was given, and what
/// is allowed in the document's and in the user's unit.
pub fn read_job(text: &str) -> Result<Job, FieldErrors> {
    read_job_value(&syntax::parse(text)?)
}

/// Reads a job from a JSON value.
///
/// # Errors
/// As for `read_job`.
pub fn read_job_value(value: &Value) -> Result<Job, FieldErrors> {
    if let Some(other) = other_version(value) {
        return Err(other.into());
    }
    if let Some(departures) = schema::departures(value, units_of(value)) {
        return Err(departures);
    }
    // The walk leaves nothing for serde to find; should they ever differ, that is an error too and no panic.
    let job = Job::deserialize(value)
        .map_err(|rest| FieldError::new("", rest.to_string(), "a job as its schema has it"))?;
    let errors = check::check_job(&job);
    if errors.is_empty() { Ok(job) } else { Err(errors.into()) }
}

/// Puts a placement, as a JSON value, into a job that was read before. What is wrong leaves the job as it was.
///
/// # Errors
/// As for `read_job`.
pub fn place(job: &mut Job, value: &Value) -> Result<(), FieldErrors> {
    if let Some(departures) = schema::departures_of("placement", value, job.units) {
        return Err(departures);
    }
    let placement = Placement::deserialize(value).map_err(|rest| {
        FieldError::new(pointer!(placement), rest.to_string(), "a placement as its schema has it")
    })?;
    let before = std::mem::replace(&mut job.placement, placement);
    let errors = check::check_job(job);
    if errors.is_empty() {
        return Ok(());
    }
    job.placement = before;
    Err(errors.into())
}

/// Reads a job that was kept while it was being worked on: it has the shape of a job of this version, while what it
/// says may still be wrong, as an edit under way is.
///
/// # Errors
/// Where it is no JSON, of another version, or of another shape.
pub fn read_kept_job(text: &str) -> Result<Job, FieldErrors> {
    let value = syntax::parse(text)?;
    if let Some(other) = other_version(&value) {
        return Err(other.into());
    }
    Job::deserialize(&value)
        .map_err(|error| FieldError::new("", error.to_string(), "a job as its schema has it").into())
}

/// Reads JSON text without asking what it means.
///
/// # Errors
/// Where it is not JSON: the line and column, and what was found there.
pub fn read_document(text: &str) -> Result<Value, FieldErrors> {
    syntax::parse(text)
}

/// Writes a job as readable JSON.
pub fn write_job(job: &Job) -> String {
    let mut text = serde_json::to_string_pretty(job).unwrap_or_default();
    text.push('\n');
    text
}

/// A document of another version is told so, and nothing else: its fields may be named otherwise.
fn other_version(document: &Value) -> Option<FieldError> {
    const NAME: &str = "mastwright_job";
    let reads =
        format!("version {FORMAT_VERSION}: \"{NAME}\": {FORMAT_VERSION} (the only one this program reads)");
    let Some(members) = document.as_object() else {
        return Some(FieldError::new("", wording::given(document), format!("a job document of {reads}")));
    };
    let given = members.get(NAME);
    if given.and_then(Value::as_f64) == Some(f64::from(FORMAT_VERSION)) {
        return None;
    }
    Some(FieldError::new(format!("/{NAME}"), given.map_or("nothing".to_owned(), wording::given), reads))
}

/// The user's units, as far as the document states them: errors are told in these.
fn units_of(document: &Value) -> Units {
    let units = document.get("units");
    units
        .and_then(|units| Units::deserialize(units).ok())
        .filter(|units| [4, 8, 16].contains(&units.inch_fraction))
        .unwrap_or(Units { system: UnitSystem::Metric, inch_fraction: 16 })
}
