//! What the readings say of the ground.

use serde::{Deserialize, Serialize};

use crate::quantity::estimate::Estimate;

/// What the readings say of the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GroundResult {
    pub model: GroundModelKind,
    pub slope_deg: Estimate,
    pub grade_percent: f64,
    /// True bearing in which water runs; none where the 95 % region of the slope holds level ground.
    pub fall_bearing_deg: Option<f64>,
    /// The same as a compass or baseline reading.
    pub fall_reading_deg: Option<f64>,
    /// Half-width of the 95 % interval of the fall bearing; 180 where any bearing is possible.
    pub fall_half_width_95_deg: f64,
    /// Slope components dz/dx (east) and dz/dy (north), and their covariance.
    pub gradient_east: f64,
    pub gradient_north: f64,
    pub gradient_covariance: [[f64; 2]; 2],
    pub readings: Vec<ReadingResidual>,
    /// Triangles of the surface (indices into `surface_vertices`), where the surface is used.
    pub surface_triangles: Vec<[u32; 3]>,
    pub surface_vertices: Vec<[f64; 3]>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GroundModelKind {
    /// Nothing was measured: level ground assumed, with a finding that says so.
    AssumedLevel,
    Plane,
    /// Triangles between spot heights, the plane outside them.
    Surface,
}

/// How far a reading lies from what all of them together say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ReadingResidual {
    pub id: String,
    /// Read minus computed: degrees for a slope, metres for a spot height.
    pub residual: f64,
    /// Residual in units of its own standard deviation.
    pub standardised: f64,
}
