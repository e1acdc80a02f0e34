//! What really stands once the pegs are in.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::PointFix;

/// The mark by which the points of what stands may be fixed from the mast itself, where no mark has this id.
pub const MAST_MARK: &str = "mast";

/// What was measured of the work after pegging out. What is not measured follows the plan, set out from where the
/// mast really stands.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct AsBuilt {
    /// When it was measured, with the zone.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub taken_at: Option<DateTime<FixedOffset>>,
    /// Where the mast's axis really stands.
    #[serde(default)]
    pub mast: Option<PointFix>,
    /// The way the front leg really points, as read in the yard's bearing reference.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
    pub front_bearing_deg: Option<f64>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 8)))]
    pub anchors: Vec<AsBuiltAnchor>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 4)))]
    pub legs: Vec<AsBuiltLeg>,
}

/// What was measured of one anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct AsBuiltAnchor {
    /// The guy's id: its level's id and its number, such as `upper-1`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 50)))]
    pub guy: String,
    /// Where it really stands; also from the mast, as from a mark `mast`.
    #[serde(default)]
    pub at: Option<PointFix>,
    /// Height of the rope's lower end above the ground, where not that of its level.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 3)))]
    pub eye_height_m: Option<f64>,
}

/// What was measured under the tip of one leg of the base.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct AsBuiltLeg {
    /// `front`, `right`, `back`, `left`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 10)))]
    pub leg: String,
    /// Gap between the level timber and the ground, in the middle of where the foot goes.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 5)))]
    pub gap_m: f64,
}
