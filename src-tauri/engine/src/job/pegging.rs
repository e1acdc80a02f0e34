//! What was done and read while pegging out.

use serde::{Deserialize, Serialize};

/// Pegs that were set, and tapes read from peg to peg afterwards.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Pegging {
    #[cfg_attr(feature = "typegen", schemars(length(max = 60)))]
    pub done: Vec<PegDone>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 300)))]
    pub tapes: Vec<PegTape>,
}

impl super::unread::Filled for Pegging {
    const TEMPLATE: &'static str = r#"{ "done": [], "tapes": [] }"#;
}

/// A peg that was set. No time stands beside it: who ticks off what another ticked off has nothing to be asked about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PegDone {
    /// `mast`, `leg:front`, `guy:upper-1`, `stake:front-right`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub peg: String,
}

/// A tape along the ground, read between two pegs or a peg and a mark to check the stake-out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PegTape {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 130)))]
    pub id: String,
    /// As a peg is named, or `mark:A`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub from: String,
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub to: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 1000)))]
    pub tape_m: f64,
}
