//! What is wrong with a document, field by field.

use serde::{Deserialize, Serialize};

use crate::quantity::visible::visible;

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

/// More errors than this at once help nobody, and would take more room than the document.
pub(crate) const MOST_ERRORS: usize = 50;

/// What is wrong with a document, the first fifty errors; never empty.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, thiserror::Error)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[error("{}", self.sentence())]
pub struct FieldErrors {
    pub errors: Vec<FieldError>,
    /// How many more there are.
    #[serde(default)]
    pub unlisted: usize,
}

impl From<FieldError> for FieldErrors {
    fn from(error: FieldError) -> Self {
        Self { errors: vec![error], unlisted: 0 }
    }
}

impl From<Vec<FieldError>> for FieldErrors {
    fn from(mut errors: Vec<FieldError>) -> Self {
        let unlisted = errors.len().saturating_sub(MOST_ERRORS);
        errors.truncate(MOST_ERRORS);
        Self { errors, unlisted }
    }
}

impl FieldErrors {
    fn sentence(&self) -> String {
        let lines: Vec<String> = self.errors.iter().map(FieldError::sentence).chain(self.rest()).collect();
        lines.join("\n")
    }

    /// How many errors are not listed, in words; none where all are.
    pub fn rest(&self) -> Option<String> {
        (self.unlisted > 0).then(|| format!("and {} more", self.unlisted))
    }
}

impl FieldError {
    /// An error at a JSON pointer; the field's name in words follows from the pointer.
    pub fn new(path: impl Into<String>, given: impl Into<String>, allowed: impl Into<String>) -> Self {
        let path = path.into();
        let field = words(&path);
        Self { path, field, given: given.into(), allowed: allowed.into() }
    }

    /// The error as one line.
    pub fn sentence(&self) -> String {
        let path = if self.path.is_empty() { "document" } else { self.path.as_str() };
        // A path holds the document's own field names, whatever stands in them.
        format!("{}: given {}; allowed: {}", visible(path), self.given, self.allowed)
    }
}

/// Unit suffixes of field names, longest first, so that `_mm_per_m` is not taken for `_m`.
pub(crate) const UNIT_SUFFIXES: [&str; 16] = [
    "_mm_per_m",
    "_m_per_s",
    "_g_per_m",
    "_percent",
    "_watts",
    "_volts",
    "_amps",
    "_deg",
    "_mpa",
    "_mm",
    "_kv",
    "_kg",
    "_nm",
    "_m",
    "_n",
    "_c",
];

/// A field's name split into the name proper and its unit suffix (empty where it has none).
pub(crate) fn split_unit(name: &str) -> (&str, &str) {
    for suffix in UNIT_SUFFIXES {
        if let Some(stem) = name.strip_suffix(suffix).filter(|stem| !stem.is_empty()) {
            return (stem, suffix);
        }
    }
    (name, "")
}

/// A JSON pointer in words: `/rig/tubes/0/length_m` becomes `rig › tubes › 1st › length`.
fn words(path: &str) -> String {
    if path.is_empty() {
        return "the document".to_owned();
    }
    let steps: Vec<String> = path.trim_start_matches('/').split('/').map(step_in_words).collect();
    steps.join(" › ")
}

fn step_in_words(step: &str) -> String {
    if let Ok(index) = step.parse::<u32>() {
        return ordinal(u64::from(index) + 1);
    }
    // RFC 6901, clause 4: `~1` is a slash and `~0` a tilde, in this order.
    let name = step.replace("~1", "/").replace("~0", "~");
    if name.is_empty() {
        return "a field without a name".to_owned();
    }
    split_unit(&name).0.replace('_', " ")
}

fn ordinal(number: u64) -> String {
    let ending = match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pointer_reads_as_words() {
        let check = |path: &str, expected: &str| assert_eq!(FieldError::new(path, "", "").field, expected);
        check("", "the document");
        check("/rig/tubes/0/length_m", "rig › tubes › 1st › length");
        check("/rig/guy_levels/1/rope/mass_g_per_m", "rig › guy levels › 2nd › rope › mass");
        check("/yard/instruments/tape_sigma_mm_per_m", "yard › instruments › tape sigma");
        check("/yard/slopes/10/slope_deg", "yard › slopes › 11th › slope");
        check("/yard/slopes/111/id", "yard › slopes › 112th › id");
        // A document may have a member of an empty name; found by `cargo xtask fuzz`.
        check("/", "a field without a name");
        check("/a~1b", "a/b");
        check("/_m", " m");
    }
}
