//! How the mast is turned up, and laid down again.

use serde::{Deserialize, Serialize};

/// How the mast turns up. Every field may be left open: then nothing is assumed, and what hangs on it is not known.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Raising {
    pub hinge: Hinge,
    /// True bearing from the mast's foot along which it lies before it goes up. Fixed in its base, none is opposite to the
    /// front leg.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
    pub lies_toward_deg: Option<f64>,
    pub tubes: TiltedTubes,
    pub strands: StrandsInTilt,
    /// They hang from its upper end with their lower ends loose. Counts where `strands` is left open: a program that does not
    /// know this then knows that nobody has said it.
    pub strands_hang: bool,
    /// Height above the ground of what its upper end is laid on; 0 where it lies on the ground.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 3)))]
    pub rest_height_m: f64,
    pub fast_before: FastBefore,
    /// What is done one after another; empty for the order that the plan gives.
    #[cfg_attr(feature = "typegen", schemars(length(max = 12)))]
    pub order: Vec<RaisingStep>,
    /// It is pulled up by a line over a prop; none where it is walked up.
    pub line: Option<PullLine>,
}

/// A line from the mast over a prop to those who pull, or to an anchor.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PullLine {
    /// Of the prop's head above the ground at the mast.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 10)))]
    pub prop_height_m: f64,
    /// How far the prop's head is behind the hinge, on the side away from the lying mast.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 10)))]
    pub prop_behind_m: f64,
    /// How far behind the hinge those stand who pull, or the anchor.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub pulled_from_m: f64,
    /// Where the line is tied, along the mast from its foot.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 30)))]
    pub tied_m: f64,
}

/// About what the mast turns.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Hinge {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// It is fixed in its base, which tilts with it about the cross leg's lower outer edge. The front leg then stands up
    /// while the mast lies.
    BaseEdge,
    /// It turns about a pin through its axis on a base that stays staked down.
    Pin {
        /// Of the pin above the ground at the mast.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 3)))]
        height_m: f64,
    },
}

/// Which guys are made fast, as long as they are at plumb, before the mast goes up.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum FastBefore {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// Those that the plan calls stop guys and side guys, as far as they can stay fast.
    AsNeeded,
    /// These, by their ids.
    These {
        #[cfg_attr(feature = "typegen", schemars(length(max = 8)))]
        guys: Vec<String>,
    },
}

/// How long the mast is while it is turned up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TiltedTubes {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// All tubes run down; it is drawn out once it stands.
    RunDown,
    /// At its full height.
    DrawnOut,
}

/// Where the strands are while it is turned up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StrandsInTilt {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// Tied along the mast, all of their length.
    TiedAlong,
    /// Not on the mast yet.
    PutOnLater,
}

/// One step of turning the mast up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RaisingStep {
    /// Drive the stakes that hold the edge, or those of the base that carries the pin.
    HoldHinge,
    /// Make the side guys fast.
    SetSideGuys,
    /// Make the stop guys fast, as long as they are at plumb.
    SetStopGuys,
    WalkUp,
    /// Make the far guys fast: the mast stands.
    SetFarGuys,
    /// Draw the temporary stakes of the edge.
    ReleaseHinge,
}
