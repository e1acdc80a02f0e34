//! What the ground is and what holds the guys in it.

use serde::{Deserialize, Serialize};

use crate::anchor::picket::Pickets;
use crate::anchor::soil::{ClayFeel, SandFeel};

/// The soil under the turf, by feel. Nothing is shown to hold in a soil that nobody looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum SoilFeel {
    #[default]
    Unknown,
    /// A damp lump rolls into a thin thread.
    Clay {
        feel: ClayFeel,
    },
    /// Gritty; a damp lump falls apart.
    Sand {
        feel: SandFeel,
        /// Water stands in a hole as deep as the anchors.
        #[serde(default)]
        under_water: bool,
    },
    /// Garden soil: a damp lump holds together but makes no thread.
    Loam,
    /// Gravel and sandy gravel.
    Gravel,
    Rock,
    /// Mud, peat, or fill that nobody compacted.
    SoftOrFill,
}

/// What a level's guys are made fast to.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum AnchorKind {
    /// Not chosen yet, or something without a rule, such as a tree: only a proof pull shows what it holds.
    #[default]
    Unknown,
    /// A screw anchor, turned in along the line of the guy.
    Screw {
        shaft: ScrewShaft,
        /// Diameter of a round shaft, side of a square one.
        #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 120)))]
        shaft_mm: f64,
        /// Turning moment over the last turns; it goes before the helix.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 20000)))]
        torque_nm: Option<f64>,
        /// Diameter of its largest helix.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 20, max = 600)))]
        helix_mm: Option<f64>,
        /// From the ground straight down to the helix.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 5)))]
        depth_m: Option<f64>,
    },
    /// A buried square plate, the hole filled and trodden firm.
    Plate {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.05, max = 2)))]
        side_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 5)))]
        depth_m: f64,
    },
    /// A log or timber buried level across the pull.
    Deadman {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 10)))]
        length_m: f64,
        /// Height of its face: the timber's height or the log's diameter.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.03, max = 1)))]
        face_m: f64,
        is_log: bool,
        /// From the ground down to the middle of the face.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 5)))]
        depth_m: f64,
    },
    /// Wooden pickets of full size, driven and lashed in line.
    Pickets { pattern: Pickets },
    /// One steel bar. Its hold against drawing out is not shown by any rule.
    Stake {
        #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 60)))]
        diameter_mm: f64,
        /// Length in the ground.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 3)))]
        driven_m: f64,
    },
    /// A weight that lies on the ground.
    Ballast {
        #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 20000)))]
        mass_kg: f64,
    },
}

/// The shape of a screw anchor's shaft.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ScrewShaft {
    Round,
    Square,
}
