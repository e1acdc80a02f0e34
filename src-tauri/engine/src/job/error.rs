//! What is wrong with a document, field by field.

use serde::{Deserialize, Serialize};

/// One field that can't be used.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FieldError {
    /// JSON pointer (RFC 6901) of the field, such as `/rig/tubes/0/length_m`; empty for the whole document.
    pub path: String,
    /// The field in words, such as `rig › tubes › 1st › length`.
    pub field: String,
    /// What was given, shortened where long.
    pub given: String,
    /// What is allowed, in the user's unit.
    pub allowed: String,
}

/// Everything that is wrong with a document; never empty.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[error("{}", self.sentence())]
pub struct FieldErrors {
    pub errors: Vec<FieldError>,
}

impl FieldErrors {
    fn sentence(&self) -> String {
        let lines: Vec<String> = self.errors.iter().map(FieldError::sentence).collect();
        lines.join("\n")
    }
}

impl FieldError {
    /// The error as one line.
    pub fn sentence(&self) -> String {
        let path = if self.path.is_empty() { "document" } else { &self.path };
        format!("{path}: given {}; allowed: {}", self.given, self.allowed)
    }
}
