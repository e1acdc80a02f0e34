//! Cross-field checks.

use super::{FieldError, Job};

/// What is wrong with a job whose every field is right by itself.
pub fn check_job(_job: &Job) -> Vec<FieldError> {
    Vec::new()
}
