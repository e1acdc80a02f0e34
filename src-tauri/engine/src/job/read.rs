//! Reads a document into a Job, with every error named.

use super::{FieldErrors, Job};

/// Reads a job from JSON text.
pub fn read_job(_text: &str) -> Result<Job, FieldErrors> {
    todo!()
}

/// Reads a job from a JSON value.
pub fn read_job_value(_value: &serde_json::Value) -> Result<Job, FieldErrors> {
    todo!()
}

/// Writes a job as readable JSON.
pub fn write_job(_job: &Job) -> String {
    todo!()
}
