//! Places from which the yard is looked at: a window, the street, a doorstep.

use serde::{Deserialize, Serialize};

use super::yard::PointFix;

/// A place that somebody stands in and looks from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Standpoint {
    /// Short and unique.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    /// On a mark: a tape of nothing from it.
    pub at: PointFix,
    /// Height above the ground there of the floor that one stands on: of an upper window's room.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
    pub floor_height_m: f64,
    /// Of the eyes above that floor or ground; none: as a grown person stands.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 3)))]
    pub eye_height_m: Option<f64>,
    /// True bearing that is looked along first; none: towards the mast.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
    pub toward_deg: Option<f64>,
}
