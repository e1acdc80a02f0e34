//! One guy, from its anchor to the mast. Site frame: metres, x east, y north, z up from the ground at the origin.

use serde::{Deserialize, Serialize};

use super::MadeFast;
use crate::quantity::estimate::Estimate;
use crate::survey::Ellipse;

/// One guy with its anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyResult {
    /// Level id and number, such as `upper-1`.
    pub id: String,
    pub level_id: String,
    pub name: String,
    /// Guys that are made fast to the same anchor, by their ids.
    pub shared_with: Vec<String>,
    /// The thing of the yard that it is made fast to; none where its anchor is in the ground.
    pub made_fast: Option<MadeFast>,
    /// Anchor on the ground.
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    /// True bearing from the mast.
    pub azimuth_deg: f64,
    /// The same as a compass or baseline reading.
    pub reading_deg: f64,
    /// Turn from the front leg, clockwise, in [0, 360).
    pub turn_from_front_deg: f64,
    pub radius_m: f64,
    /// A taut tape from the ground at the mast to the anchor: over humps, across hollows.
    pub tape_m: f64,
    /// Anchor's ground above (positive) or below the ground at the mast.
    pub height_difference_m: f64,
    /// Upper end of the rope.
    pub attach: [f64; 3],
    /// Lower end of the rope.
    pub eye: [f64; 3],
    pub chord_m: f64,
    /// Angle of the chord to the horizontal.
    pub angle_deg: f64,
    /// Unstressed rope between its two ends.
    pub unstressed_m: Estimate,
    /// Rope to cut: unstressed, with both ends' allowances.
    pub cut_m: Estimate,
    /// Largest distance of the rope below its chord, measured vertically.
    pub sag_m: f64,
    pub tension_top_n: f64,
    pub tension_bottom_n: f64,
    pub horizontal_n: f64,
    /// First sideways frequency of the taut rope, for setting its tension by ear or phone.
    pub natural_frequency_hz: f64,
    /// 95 % ellipse of where the anchor lands when pegged out by its bearing and tape.
    pub landing_95: Ellipse,
    /// The hanging rope from eye to attachment, for drawing and clearances.
    pub rope: Vec<[f64; 3]>,
}

impl GuyResult {
    /// The share of its pull with which it draws the mast down: by its chord, taken straight.
    pub fn down_share(&self) -> f64 {
        (self.attach[2] - self.eye[2]) / self.chord_m.max(1e-9)
    }
}
