//! The units on the user's tape.

use serde::{Deserialize, Serialize};

use super::whole;

/// How quantities are shown to the user.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Units {
    pub system: UnitSystem,
    /// The finest mark read on the tape, as a part of an inch: 4, 8 or 16.
    #[serde(default = "sixteenths")]
    #[cfg_attr(feature = "typegen", schemars(extend("enum" = [4, 8, 16])))]
    #[serde(deserialize_with = "whole::read")]
    pub inch_fraction: u8,
}

fn sixteenths() -> u8 {
    16
}

/// The units on the user's tape.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum UnitSystem {
    /// Metres and millimetres.
    #[default]
    Metric,
    /// Feet, inches and fractions.
    Imperial,
}
