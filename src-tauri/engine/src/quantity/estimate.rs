//! A value with its uncertainty.

use serde::{Deserialize, Serialize};

/// Half-width of the central 95 % interval of a normal distribution, in standard deviations.
/// Source: ISO/IEC Guide 98-3 (GUM) 2008, Table G.1: coverage factor 1.960 for 95 %.
pub const COVERAGE_95: f64 = 1.959_963_984_540_054;

/// A computed value and the half-width of its 95 % interval, in the unit that the field's name states.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Estimate {
    pub value: f64,
    pub half_width_95: f64,
}

impl Estimate {
    /// From a value and its standard uncertainty.
    pub fn from_sigma(value: f64, sigma: f64) -> Self {
        Self { value, half_width_95: COVERAGE_95 * sigma }
    }

    /// The standard uncertainty.
    pub fn sigma(&self) -> f64 {
        self.half_width_95 / COVERAGE_95
    }
}
