//! What is seen, as numbers.

use serde::{Deserialize, Serialize};

use crate::finding::Subject;

/// What shows from a standpoint, looking some way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ViewSeen {
    pub standpoint: StandpointSeen,
    pub look: LookTaken,
    /// None where no strands are planned.
    pub cone: Option<ConeSeen>,
    /// The nearest first.
    pub things: Vec<ThingSeen>,
}

/// Where one stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StandpointSeen {
    /// Of the job's list; empty where it has no such standpoint.
    pub id: String,
    pub name: String,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    pub floor_height_m: f64,
    pub eye_height_m: f64,
    /// Level of the eyes over the ground at the origin.
    pub eye_m: f64,
}

/// Which way one looks.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LookTaken {
    /// True bearing of the picture's middle.
    pub toward_deg: f64,
    pub pitch_deg: f64,
    /// From the left edge to the right one.
    pub field_deg: f64,
    /// From the lower edge to the upper one.
    pub field_up_deg: f64,
}

/// How much of the lit cone shows: the length of all its strands that nothing hides, by the length of all of them, at any
/// bearing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ConeSeen {
    /// 0 to 1.
    pub share: f64,
    pub seen_m: f64,
    pub length_m: f64,
    pub strands: u32,
    pub wholly_seen: u32,
    pub wholly_hidden: u32,
}

/// One thing of the yard or the work, as it is from there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ThingSeen {
    pub subject: Subject,
    pub kind: ThingKind,
    pub name: String,
    /// In plan, from below the eyes to its nearest part.
    pub distance_m: f64,
    /// True bearing of its middle.
    pub bearing_deg: f64,
    /// Of its upper end over the horizontal through the eyes; none where its height is not known.
    pub top_deg: Option<f64>,
    pub height: HeightOf,
    pub shown: Shown,
    /// How much of what faces the eyes is hidden by nothing, 0 to 1: of areas by area, of lines by length.
    pub share: f64,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ThingKind {
    Mast,
    Guy,
    Strands,
    Base,
    Building,
    Tree,
    Wall,
    Fence,
    Hedge,
    Post,
    Path,
    KeepOff,
    OverheadLine,
    Boundary,
}

/// How high a thing stands over its ground.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum HeightOf {
    Known {
        height_m: f64,
        /// One sigma, as it was sighted; 0 where it was typed.
        sigma_m: f64,
    },
    /// Nobody entered one: it is drawn by its outline on the ground alone, and hides nothing.
    NotKnown,
    /// It lies on the ground.
    OnGround,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Shown {
    Wholly,
    Partly,
    Hidden,
    /// One stands in it: it is not drawn, and hides nothing.
    AroundYou,
}
