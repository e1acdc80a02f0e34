//! The shapes of a plan's results. Site frame: metres, x east, y north, z up from the ground at the origin.

use serde::{Deserialize, Serialize};

use crate::finding::ground::GroundRule;
use crate::finding::{Finding, Rule};
use crate::quantity::estimate::Estimate;
use crate::verdict::Verdict;

pub use crate::base::{BaseResult, ContourState, ContourTurn, LegResult, StakePoint, Support};
pub use crate::ground::{GroundModelKind, GroundResult, ReadingResidual};
pub use crate::guys::GuyResult;
pub use crate::stakeout::{Peg, PolarTape, SwingTies};
pub use crate::strands::RingResult;
pub use crate::survey::{Ellipse, LocatedPoint, North, OpenPoint};
pub use crate::tube::{MastResult, Stage};
pub use crate::yard::Clearance;

/// All results for one job.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Plan {
    pub north: North,
    pub ground: GroundResult,
    /// Marks, and every other point fixed from them, with their uncertainty.
    pub points: Vec<LocatedPoint>,
    /// Points that can't be placed until somebody says on which side they lie, and what hangs on them.
    pub open_points: Vec<OpenPoint>,
    pub mast: MastResult,
    pub base: BaseResult,
    pub guys: Vec<GuyResult>,
    pub ring: Option<RingResult>,
    /// How to find each point on the ground, in a good order of pegging out.
    pub pegs: Vec<Peg>,
    /// The nearest approach of the work to each thing, worst margin first.
    pub clearances: Vec<Clearance>,
    /// How far round the work somebody has to look for wires, in whole metres or feet.
    pub look_up_m: f64,
    /// What was measured after pegging out, against the plan; none where nothing was.
    pub as_built: Option<AsBuiltResult>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// What is to be thought of it all. While a finger drags only a stop is told; what stands in the wind is looked at
    /// once it has let go.
    pub verdict: Option<Verdict>,
}

impl Plan {
    /// Whether anybody can say what goes under a leg: the ground was measured, or the gap itself.
    pub fn knows_under(&self, leg: &str) -> bool {
        let measured = |built: &AsBuiltResult| built.legs.iter().any(|it| it.leg == leg);
        self.as_built.as_ref().is_some_and(measured) || !self.finds(GroundRule::NotMeasured)
    }

    /// Whether the ground was measured both ways: without that its slope is a habit, and no reading has a part in what rests on it.
    pub fn knows_slope(&self) -> bool {
        !self.finds(GroundRule::NotMeasured) && !self.finds(GroundRule::CrossSlopeNotMeasured)
    }

    fn finds(&self, rule: GroundRule) -> bool {
        let rule = Rule::Ground(rule);
        self.findings.iter().any(|finding| finding.rule == rule)
    }
}

/// The work as it really stands against the plan. The rest of the plan is then that of the work as it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct AsBuiltResult {
    /// The mast where it was measured, then every guy.
    pub items: Vec<AsBuiltItem>,
    /// The gaps that were measured.
    pub legs: Vec<AsBuiltLegResult>,
    /// Places in the plan's findings of those that were not there before pegging out.
    pub new_findings: Vec<u32>,
}

/// One pegged thing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct AsBuiltItem {
    pub subject: crate::finding::Subject,
    pub name: String,
    /// Where the job's placement has it, in plan.
    pub planned: [f64; 2],
    /// None where its place was not measured.
    pub deviation: Option<Deviation>,
    pub guy: Option<AsBuiltGuy>,
}

/// How far a thing stands from its plan.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Deviation {
    /// Where it stands, in plan.
    pub measured_at: [f64; 2],
    pub moved_m: f64,
    /// True bearing from the planned to the real place.
    pub bearing_deg: f64,
    /// From where it should have landed, seen from the mast as that stands.
    pub offset_m: f64,
    /// Up to this in that direction, pegging out and measuring explain it (95 %).
    pub tolerance_95_m: Option<f64>,
    /// It stands farther off than that.
    pub out_of_tolerance: bool,
}

/// A guy's rope as planned and as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct AsBuiltGuy {
    pub planned_cut_m: f64,
    pub cut_m: Estimate,
    pub planned_angle_deg: f64,
    pub angle_deg: f64,
}

/// A measured gap under a leg's tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct AsBuiltLegResult {
    pub leg: String,
    pub planned_gap_m: Estimate,
    pub gap_m: f64,
}
