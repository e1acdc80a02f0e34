//! What the ground can hold: screw anchors, plates, deadmen, pickets, stakes, ballast, the footing.
//!
//! Every capacity names its soil, its factor and its publication. Where the soil is unknown nothing is shown to hold,
//! and [`proof_pull`] says what load to pull with instead.

pub mod ballast;
pub mod deadman;
pub mod footing;
pub mod picket;
pub mod plate;
pub mod proof_pull;
pub mod screw;
pub mod soil;
pub mod stake;

pub use soil::{Soil, Strength};

/// Factor of safety of an anchor against its ultimate holding power: 2.0 (ANSI/TIA-222-F on uplift; ICC-ES AC358 on
/// helical anchors; both from memory).
pub const ANCHOR_FACTOR: f64 = 2.0;

/// Said wherever a formula needs a soil that nobody has looked at.
pub(crate) const SOIL_UNKNOWN: &str =
    "The soil is not known, so this is not shown to hold: dig and feel it, or make the proof pull.";
