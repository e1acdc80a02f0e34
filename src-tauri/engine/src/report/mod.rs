//! The plan as sections of rows in the words and units of the user: what the command line prints and the
//! screens show. Numbers are put into words here and nowhere else.

#[allow(dead_code)] // the report's sections use the rest
pub(crate) mod say;

use serde::{Deserialize, Serialize};

use crate::finding::{Severity, Subject};

/// A whole report.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Report {
    /// The first few numbers anybody wants.
    pub headline: Vec<Row>,
    pub sections: Vec<Section>,
    pub findings: Vec<FindingText>,
}

/// Rows under one heading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS), ts(rename = "ReportSection"))]
pub struct Section {
    /// Stable id: `ground`, `mast`, `base`, `guy`, `peg`, `clearance`, `ring`.
    pub id: String,
    pub title: String,
    pub subject: Option<Subject>,
    pub rows: Vec<Row>,
    /// The usual caution for this part of the work; empty where none is needed.
    pub caution: String,
}

/// One value with its name.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Row {
    /// Stable id within the section, such as `foot_centre`.
    pub id: String,
    pub label: String,
    /// In the user's unit and fraction.
    pub value: String,
    /// `± …` where the interval matters, else empty.
    pub interval: String,
}

/// A finding in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FindingText {
    pub severity: Severity,
    pub rule: String,
    pub subject: Subject,
    pub against: Option<Subject>,
    pub sentence: String,
    /// `measured 0.42 m ± 0.05 m, needed 0.60 m`; empty where there is no number.
    pub numbers: String,
    /// Citation, with `(from memory)` where nobody confirmed it.
    pub source: String,
    pub remedy: String,
}
