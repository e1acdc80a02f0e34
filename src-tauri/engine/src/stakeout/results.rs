//! How to find each point on the ground.

use serde::{Deserialize, Serialize};

use crate::finding::Subject;
use crate::job::Side;
use crate::survey::Ellipse;

/// How to find a point on the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Peg {
    pub subject: Subject,
    pub name: String,
    /// An anchor's guys, by their ids; none for other pegs.
    pub guys: Vec<String>,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    /// No peg is driven: a guy is made fast to a thing of the yard so high above the ground here.
    pub fixing_height_m: Option<f64>,
    /// Offsets from the mast's axis: none for the mast itself.
    pub from_mast: Option<PolarTape>,
    /// Tapes from two marks; none where no pair of marks serves.
    pub ties: Option<SwingTies>,
}

/// A bearing with a tape.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PolarTape {
    pub bearing_deg: f64,
    pub reading_deg: f64,
    pub plan_m: f64,
    pub tape_m: f64,
    pub height_difference_m: f64,
}

/// Tapes from two marks that cross at the point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SwingTies {
    pub mark_a: String,
    pub plan_a_m: f64,
    pub tape_a_m: f64,
    pub mark_b: String,
    pub plan_b_m: f64,
    pub tape_b_m: f64,
    /// Which side of the line A → B, walking from A to B.
    pub side: Side,
    /// Angle at which the tapes cross; good between 30° and 150°.
    pub crossing_deg: f64,
    pub good: bool,
    /// 95 % ellipse of the point as pegged out by these tapes.
    pub landing_95: Ellipse,
}
