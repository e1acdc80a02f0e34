//! Reads a document into a Job, with every error named.

use serde::Deserialize;
use serde_json::Value;

use super::{Document, Job, Placement, check, schema, syntax};
use crate::pointer;
use crate::quantity::{FieldError, FieldErrors};

/// Reads a job from JSON text.
///
/// # Errors
/// As for [`Document::of`].
pub fn read_job(text: &str) -> Result<Job, FieldErrors> {
    Document::read(text).map(Document::into_job)
}

/// Reads a job from a JSON value.
///
/// # Errors
/// As for [`Document::of`].
pub fn read_job_value(value: &Value) -> Result<Job, FieldErrors> {
    Document::of(value).map(Document::into_job)
}

/// Puts a placement, as a JSON value, into a job that was read before. What is wrong leaves the job as it was.
///
/// # Errors
/// As for `read_job`.
pub fn place(job: &mut Job, value: &Value) -> Result<(), FieldErrors> {
    let mut known = value.clone();
    if job.has_newer_fields() {
        schema::take_unknown_of("placement", &mut known);
    }
    if let Some(departures) = schema::departures_of("placement", &known, job.units) {
        return Err(departures);
    }
    let placement = Placement::deserialize(&known).map_err(|rest| {
        FieldError::new(pointer!(placement), rest.to_string(), "a placement as its schema has it")
    })?;
    let before = std::mem::replace(&mut job.placement, placement);
    let errors = check::check_placement(job);
    if errors.is_empty() {
        return Ok(());
    }
    job.placement = before;
    Err(errors.into())
}

/// Reads JSON text without asking what it means.
///
/// # Errors
/// Where it is not JSON: the line and column, and what was found there.
pub fn read_document(text: &str) -> Result<Value, FieldErrors> {
    syntax::parse(text)
}

/// Writes a job as readable JSON. What its document holds beside it is written by [`Document::text`] alone.
pub fn write_job(job: &Job) -> String {
    let mut text = serde_json::to_string_pretty(job).unwrap_or_default();
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;

    /// A placement put into a job in hand is refused by the same errors as the whole job with it, and then leaves the job as
    /// it was; what the one lets through, the other does.
    #[test]
    fn a_placement_alone_is_looked_at_as_the_whole_job_with_it() {
        let job = yardstick();
        let [a, b] = [&job.yard.marks[0].id, &job.yard.marks[1].id];
        let tape = |from: &str| serde_json::json!({"by": "bearing_tape", "from": from, "bearing_deg": 200, "tape_m": 9});
        let two = |from_b: &str| {
            serde_json::json!({
                "by": "two_tapes", "from_a": a, "tape_a_m": 20, "from_b": from_b, "tape_b_m": 18, "side": "left"
            })
        };
        for (mast, is_right) in [
            (tape(a), true),
            (two(b), true),
            // A mark that is not there; one mark for two.
            (tape("nobody"), false),
            (two("nobody"), false),
            (two(a), false),
        ] {
            let mut document = serde_json::to_value(&job).unwrap();
            document["placement"]["mast"] = mast.clone();
            let mut placed = job.clone();
            let alone = place(&mut placed, &document["placement"]);
            match read_job_value(&document) {
                Ok(whole) => {
                    assert!(is_right && alone.is_ok(), "{mast}");
                    assert_eq!(placed, whole);
                }
                Err(errors) => {
                    assert_eq!(alone, Err(errors), "{mast}");
                    assert!(!is_right && placed == job, "{mast}");
                }
            }
        }
    }
}
