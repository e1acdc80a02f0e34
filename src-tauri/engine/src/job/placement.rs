//! Where the mast stands and which way it faces.

use serde::{Deserialize, Serialize};

use super::yard::PointFix;

/// Where the mast stands and which way its base and guys are turned.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Placement {
    /// The mast's axis on the ground.
    pub mast: PointFix,
    /// True bearing in which the front leg points, clockwise from true north.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
    pub front_bearing_deg: f64,
    /// Turn of the first guy of every level from the front leg, clockwise.
    #[cfg_attr(feature = "typegen", schemars(range(min = -360, max = 360)))]
    pub guy_turn_deg: f64,
}
