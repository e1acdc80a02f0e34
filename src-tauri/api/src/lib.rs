//! The one list of operations. Every face (the app's commands, the browser's worker, the command line) calls
//! these and nothing else; requests and answers are JSON, and the TypeScript types are generated from here.

#[cfg(feature = "typegen")]
pub mod typegen;

use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::job::{FieldErrors, Job, UnitSystem, Units};
use mastwright_engine::plan::Plan;
use mastwright_engine::report::Report;
use serde::{Deserialize, Serialize};

/// Paper for a printed sheet (ISO 216 A4, ANSI/ASME Y14.1 A).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Paper {
    A4,
    Letter,
}

/// What to compute and draw for a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlanRequest {
    pub job: Job,
    /// Height of the map's lettering in metres at its present scale; the labels keep clear of each other at
    /// that size. None leaves the map out.
    #[serde(default)]
    pub map_text_m: Option<f64>,
    /// Whether to draw the profile along the front leg.
    #[serde(default)]
    pub profile: bool,
    /// Whether to write the report and the shown texts (left out while a finger drags).
    #[serde(default)]
    pub report: bool,
}

/// The answer to a `PlanRequest`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PlanAnswer {
    pub plan: Plan,
    pub map: Option<Scene>,
    pub profile: Option<Scene>,
    pub report: Option<Report>,
    /// For every number of the job, by its JSON pointer: how the user would write it.
    pub shown: std::collections::BTreeMap<String, String>,
}

/// A request to read what the user typed into a field.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct EntryRequest {
    /// The field's JSON pointer or name; its unit suffix (`_m`, `_mm`, `_deg`, …) says what is read.
    pub field: String,
    pub text: String,
    pub units: Units,
}

/// A motion sample of a phone: gravity with any movement, in the device's axes (W3C Device Orientation).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct MotionSample {
    pub time_ms: f64,
    /// accelerationIncludingGravity x, y, z in m/s².
    pub acceleration: [f64; 3],
}

#[allow(dead_code)]
fn _uses(_: FieldErrors, _: UnitSystem) {}
