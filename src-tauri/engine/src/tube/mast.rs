//! The mast of tubes as it stands. Site frame: metres, x east, y north, z up from the ground at the origin.

use serde::{Deserialize, Serialize};

/// The mast.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MastResult {
    pub east_m: f64,
    pub north_m: f64,
    /// Ground under the mast's axis.
    pub ground_m: f64,
    /// Foot of the mast (lower end of the bottom tube).
    pub foot_m: f64,
    /// Top of the mast above its foot, fully raised.
    pub raised_height_m: f64,
    /// Top of the mast above its foot, all tubes run down.
    pub lowered_height_m: f64,
    /// Top above the ground at the mast, raised: the radius of the fall circle is reckoned from it.
    pub top_above_ground_m: f64,
    pub fall_radius_m: f64,
    pub mass_kg: f64,
    pub stages: Vec<Stage>,
}

/// One tube as it stands when raised.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Stage {
    pub name: String,
    pub outside_mm: f64,
    pub wall_mm: f64,
    pub bottom_height_m: f64,
    pub top_height_m: f64,
    pub mass_kg: f64,
    /// Radial gap to the tube below; negative where it does not go in. None for the bottom tube and one screwed on.
    pub radial_gap_mm: Option<f64>,
}
