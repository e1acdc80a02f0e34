//! What the guy collars come to.

use serde::Serialize;

use crate::finding::Finding;
use crate::job::CollarHeld;

/// All of them.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Collars {
    pub levels: Vec<CollarWork>,
    pub findings: Vec<Finding>,
}

/// The collar of a level of guys.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CollarWork {
    /// What is ticked off.
    pub part: String,
    pub level: String,
    pub name: String,
    /// The tube that it sits on.
    pub tube: String,
    /// Counted from 0 at the bottom.
    pub tube_index: u32,
    /// Above the mast's foot.
    pub height_m: f64,
    pub held: CollarHeld,
    /// So wide that it goes over the tube, the widest there is of that size.
    pub bore_mm: f64,
    pub bolt_mm: Option<f64>,
    pub bolt_hole_mm: Option<f64>,
    pub bolt_length_mm: Option<f64>,
    /// From the mast's axis to where the ropes leave.
    pub eye_radius_mm: f64,
    /// Of each guy's eye from the first one's, clockwise seen from above.
    pub eye_turns_deg: Vec<f64>,
    /// How far below level the ropes leave: the least and the most of them.
    pub rope_down_deg: [f64; 2],
    /// What pulls it down, in still air and with every guy of it at its limit; the latter none where the rope's is not known.
    pub still_n: f64,
    pub at_limit_n: Option<f64>,
    /// None where nobody has measured it, or where no rule shows it.
    pub carries_n: Option<f64>,
    /// The thinnest bolt of the shop's that carries the guys at their limit in these walls.
    pub thinnest_bolt_mm: Option<f64>,
    /// How round the steel is under the rope; none where nobody has measured it.
    pub edge_mm: Option<f64>,
    pub least_edge_mm: f64,
    pub thimble: bool,
}
