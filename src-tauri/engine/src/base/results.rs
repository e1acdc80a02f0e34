//! The base on the ground: its legs with what stands under them, its stakes, its turn onto the contour.

use serde::{Deserialize, Serialize};

use crate::quantity::estimate::Estimate;

/// The base on the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BaseResult {
    /// Level of the underside of the timbers.
    pub underside_m: f64,
    pub legs: Vec<LegResult>,
    /// Where the timbers touch the ground.
    pub contacts: Vec<[f64; 3]>,
    pub stakes: Vec<StakePoint>,
    pub contour: ContourTurn,
}

/// One leg of the base with what stands under its tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LegResult {
    /// `front`, `right`, `back`, `left`.
    pub id: String,
    pub bearing_deg: f64,
    pub reach_m: f64,
    /// Corners of the timber in plan, in order.
    pub outline: Vec<[f64; 2]>,
    /// Middle of the tip's end face in plan.
    pub tip: [f64; 2],
    pub support: Support,
    /// Gap between the timber and the ground at the middle of the foot.
    pub gap_centre_m: Estimate,
    /// At the face towards the mast, in the middle.
    pub gap_inner_m: f64,
    /// At the face away from the mast, in the middle.
    pub gap_outer_m: f64,
    /// At the middle of the left and right sides, seen from the mast looking out along the leg.
    pub gap_left_m: f64,
    pub gap_right_m: f64,
    /// Saw bevel of the foot's lower end along the leg: the ground's rise going outwards, positive up.
    pub bevel_along_deg: f64,
    /// Saw bevel across the leg: the ground's rise going to the right, positive up.
    pub bevel_across_deg: f64,
}

/// What goes under a leg's tip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Support {
    /// It rests on the ground.
    OnGround,
    /// A gap small enough for shims.
    Shim,
    /// A cut foot.
    Foot,
}

/// Where a base stake goes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StakePoint {
    /// Such as `front-right`.
    pub id: String,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
}

/// The turn that lays the cross leg on the contour, front leg downhill.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ContourTurn {
    pub state: ContourState,
    /// Front bearing after the turn; none unless there is one to turn to.
    pub front_bearing_deg: Option<f64>,
    /// Turn from the present front bearing, clockwise positive, in (−180, 180].
    pub turn_deg: Option<f64>,
    /// Front foot's height at its centre after the turn.
    pub foot_after_m: Option<f64>,
}

/// Whether there is a turn that levels the cross leg.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ContourState {
    /// There is: its tips then stand on one height.
    Turn,
    /// The ground under the cross leg is level at every turn, as far as it was measured.
    Level,
    /// No turn levels it: a tip comes over the edge of what was measured, where the ground has a step.
    #[default]
    NotFound,
}
