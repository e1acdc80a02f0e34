//! What is made in the workshop before anything goes into the yard.

use serde::{Deserialize, Serialize};

/// What was bought, cut, turned and drilled already, and what it measures as made.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Workshop {
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub done: Vec<WorkDone>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub made: Vec<WorkMade>,
}

impl Workshop {
    /// What a part measures as made; none where nobody has measured it, and then it is as planned.
    pub fn made_mm(&self, part: &str) -> Option<f64> {
        self.made.iter().find(|made| made.part == part).map(|made| made.measured_mm)
    }

    pub fn is_done(&self, part: &str) -> bool {
        self.done.iter().any(|done| done.part == part)
    }
}

/// A part that is made. No time stands beside it: who ticks off what another ticked off has nothing to be asked about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkDone {
    /// Such as `tube:0`: what it is, and which of them.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
}

/// A part as it came out: the plan of the workshop goes on from that.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkMade {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20000)))]
    pub measured_mm: f64,
}
