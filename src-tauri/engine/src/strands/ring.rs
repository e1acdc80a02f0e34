//! The ring of the strands' lower ends. Site frame: metres, x east, y north, z up from the ground at the origin.

use serde::{Deserialize, Serialize};

/// The ring of the strands' lower ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RingResult {
    pub radius_m: f64,
    pub points: Vec<[f64; 3]>,
    /// Radius of the circle at the top from which the strands hang.
    pub top_radius_m: f64,
    /// Upper end of each strand, on that circle.
    pub tops: Vec<[f64; 3]>,
    /// Straight length of each strand, from the circle at the top to the ring.
    pub strand_lengths_m: Vec<f64>,
}
