//! What the joints of the base come to.

use serde::Serialize;

use crate::finding::Finding;

/// The base on the bench.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BaseJoints {
    /// None where the timbers are cut through, or not at all.
    pub lap: Option<LapJoint>,
    pub seat: MastSeat,
    /// None where no bolt of the shop's fits beside the mast.
    pub bolts: Option<CrossingBolts>,
    pub stakes: StakeWork,
    pub feet: Vec<FootBlock>,
    /// Legs on feet, the ground under which nobody has measured.
    pub not_measured: Vec<String>,
    pub boards: BoardsNeeded,
    /// None where nobody has measured the ground.
    pub shapes: Vec<ShapeOnGround>,
    pub findings: Vec<Finding>,
}

/// Both timbers halved into each other under the mast.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LapJoint {
    /// What is ticked off and measured as made: how deep the first cut came out.
    pub part: String,
    /// As long as the other timber is wide.
    pub length_mm: f64,
    pub depth_mm: f64,
    pub made_mm: Option<f64>,
    /// The cut in the other timber with which both lie flush, by the first one as it came out.
    pub other_depth_mm: f64,
    /// What stays of the timber there.
    pub left_mm: f64,
    /// From each tip to the nearer shoulder.
    pub shoulders: Vec<LapShoulder>,
}

impl LapJoint {
    /// How deep the cut is that is still to be made: where the first one is made already, the other one's.
    pub fn to_cut_mm(&self) -> f64 {
        if self.made_mm.is_some() { self.other_depth_mm.max(0.0) } else { self.depth_mm }
    }
}

/// Where a cut begins, from a leg's tip.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LapShoulder {
    pub leg: String,
    pub from_tip_m: f64,
}

/// What the mast's foot stands on or in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum MastSeat {
    /// Bored into the crossing from above.
    Socket { bore_mm: f64, depth_mm: f64, left_below_mm: f64, left_beside_mm: f64 },
    /// A steel plate, with a peg that stands up into the tube's bore, so that the foot cannot slip off.
    Plate {
        side_mm: f64,
        thickness_mm: Option<f64>,
        /// None where nobody knows how narrow the bore may be.
        peg_mm: Option<f64>,
    },
    /// The tube's end stands on the wood.
    OnWood { peg_mm: Option<f64> },
}

/// Two bolts straight through the crossing, across a diagonal of it, clear of the mast's foot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CrossingBolts {
    pub count: u32,
    pub bolt_mm: f64,
    pub hole_mm: f64,
    pub least_length_mm: f64,
    /// Of a bolt's middle from both edges of the crossing, and from both middle lines.
    pub from_edge_mm: f64,
    pub from_middle_mm: f64,
    /// They go through the plate under the mast as well.
    pub through_plate: bool,
    /// From the middle of a hole to the plate's edge, where they do.
    pub plate_edge_mm: Option<f64>,
}

/// How the stakes meet the timbers.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum StakeWork {
    /// There are none.
    NoStakes,
    /// Upright beside the timber, touching it: no hole.
    Beside {
        per_leg: u32,
        from_tip_m: f64,
        /// Of a stake's middle off the timber's face.
        off_face_mm: f64,
    },
    /// Through the timber, leaning: the head towards the mast.
    Through {
        holes: Vec<StakeHole>,
        slant_deg: f64,
        hole_mm: f64,
        /// As long as the bore's mouth is on the timber's face, along it.
        mouth_mm: f64,
        left_beside_mm: f64,
    },
}

/// A stake's bore, by its middle from the leg's tip.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StakeHole {
    pub on_top_m: f64,
    pub underneath_m: f64,
}

/// A foot to saw.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FootBlock {
    pub part: String,
    pub leg: String,
    /// Along the leg, and across it.
    pub thickness_mm: f64,
    pub width_mm: f64,
    /// Lengths of the four edges: outer right, outer left, inner left, inner right, seen from the mast looking out along the leg.
    pub edges_mm: [f64; 4],
    /// The ground's rise going outwards, and to the right.
    pub bevel_along_deg: f64,
    pub bevel_across_deg: f64,
    /// Of each of the two straps that hold it to the timber; none where it is too short to be nailed.
    pub strap_mm: Option<f64>,
}

/// Boards under the feet and under the crossing, by what the ground bears.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BoardsNeeded {
    /// What the mast's foot presses with, in still air and with every guy at its limit; none where a weight or a rope is not known.
    pub still_n: Option<f64>,
    pub guys_at_limit_n: Option<f64>,
    /// What the ground bears on each square metre; none where nobody has felt it.
    pub ground_pa: Option<f64>,
    pub foot: BoardNeed,
    /// None where no board is packed under the crossing.
    pub crossing: Option<BoardNeed>,
}

/// One square board.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BoardNeed {
    /// Side of the square that lies on the ground now: the board's, else the foot's own.
    pub has_mm: f64,
    /// For still air, and for every guy at its limit.
    pub still_mm: Option<f64>,
    pub guys_at_limit_mm: Option<f64>,
}

/// A shape of a base.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BaseShape {
    /// A front leg and a cross leg.
    Tee,
    /// Four legs.
    Cross,
    /// A box with ballast, which wants level ground.
    LevelBox,
}

/// How a shape would stand on this ground, turned as the base is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ShapeOnGround {
    pub shape: BaseShape,
    /// The job's.
    pub chosen: bool,
    pub feet: u32,
    pub shims: u32,
    /// The largest gap under a tip.
    pub highest_mm: f64,
    pub most_mm: f64,
    pub fits: bool,
}
