//! Short ways to write a row.

use super::{Row, RowSource};
use crate::source::{Confidence, SourceKey};

/// A row without an interval.
pub(super) fn row(id: &str, label: &str, value: impl Into<String>) -> Row {
    with_interval(id, label, value, String::new())
}

/// A row with `± …`.
pub(super) fn with_interval(id: &str, label: &str, value: impl Into<String>, interval: String) -> Row {
    Row { id: id.into(), label: label.into(), value: value.into(), interval, source: None }
}

/// The row with whose rule stands behind it.
pub(super) fn sourced(row: Row, key: SourceKey, confidence: Confidence) -> Row {
    let citation = key.source().citation.to_owned();
    Row { source: Some(RowSource { citation, confidence }), ..row }
}
