//! What the stages come to.

use serde::Serialize;

use super::holes::NetSection;
use super::rises::Rises;
use crate::finding::Finding;
use crate::resistance::pin::PinStrength;

/// How the tubes go up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Stages {
    /// In the order of the work, the innermost tube first.
    pub stages: Vec<WorkStage>,
    /// Every tube with all its holes, the bottom one first.
    pub tubes: Vec<DrilledTube>,
    /// The mast's foot above the ground beside it.
    pub foot_above_ground_m: f64,
    /// Top above the foot before anything is cranked, each tube on its stool.
    pub run_down_m: f64,
    pub findings: Vec<Finding>,
}

/// One tube going up in the one below.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WorkStage {
    /// The tube that slides, counted from 0 at the bottom.
    pub tube: u32,
    pub name: String,
    /// Those that go up with it, pinned to it before.
    pub carried: Vec<String>,
    /// What it stands on run down, from the foot: a stool cut from its own size of tube. 0 where it needs none.
    pub stool_m: f64,
    pub travel_m: f64,
    /// None where rod, winch or pin are not known, or lift nothing.
    pub rises: Option<Rises>,
    /// What each pull gains, the first one first, by the lifting holes as they are; empty where it is not lifted.
    pub gains_m: Vec<f64>,
    /// Where the rod is pinned at the beginning of each pull, above the foot.
    pub rod_pin_m: f64,
    /// The two pins that hold it once it is up, above the foot and above the ground, when they are set.
    pub pins_m: [f64; 2],
    pub pins_above_ground_m: [f64; 2],
    pub reach: Reach,
    /// From the ground to the floor of a platform from which both are set; none where the ground will do.
    pub platform_m: Option<f64>,
    /// Where the lower pin stands in the end, above the foot.
    pub pin_in_the_end_m: f64,
    /// Sleeve between the bushings that stops the tube before less than the planned overlap is left; none where no bushings are turned.
    pub stop_sleeve_mm: Option<f64>,
    /// Mark on the tube at which cranking stops: from its lower end.
    pub stop_mark_m: f64,
    pub pin: StagePin,
}

impl WorkStage {
    /// What a pull gains, counted from 1; none where it is not lifted.
    pub fn gain_m(&self, pull: u32) -> Option<f64> {
        self.gains_m.get((pull as usize).checked_sub(1)?).copied()
    }

    /// The longest of its pulls; nothing where it is not lifted.
    pub fn longest_pull_m(&self) -> f64 {
        self.gains_m.iter().copied().fold(0.0, f64::max)
    }
}

/// From where a pin is set. Never from a ladder that leans on the mast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Reach {
    ByHandFromTheGround,
    /// By a pole from the ground, or from a platform that stands by itself.
    PoleOrPlatform,
}

/// The pin that holds a stage.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StagePin {
    pub hole_mm: Option<f64>,
    pub pin_mm: Option<f64>,
    /// What stands and hangs on it in still air, the guys as tight as they are set; none where a weight is not known.
    pub still_n: Option<f64>,
    /// What it would get with every guy above it at its own limit at once; none where a rope's strength is not known.
    pub guys_at_limit_n: Option<f64>,
    pub strength: Option<PinStrength>,
    /// The thinnest pin of the shop's that carries the larger of these; none where a load is not known.
    pub thinnest_mm: Option<f64>,
}

/// A tube on the bench.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct DrilledTube {
    pub tube: u32,
    pub name: String,
    pub length_m: f64,
    /// Its lower end above the foot, everything run down.
    pub stands_m: f64,
    pub outside_mm: f64,
    /// From the upper end down.
    pub holes: Vec<CrossHole>,
    /// None where nobody has said how wide a hole is.
    pub net: Option<NetSection>,
}

/// A hole straight through both walls.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CrossHole {
    /// What it is called where it is measured as made.
    pub part: String,
    pub purpose: HolePurpose,
    /// Of its middle.
    pub from_upper_end_m: f64,
    pub from_lower_end_m: f64,
    /// A quarter turn from the side of the rod.
    pub across_the_rod: bool,
    /// What it measures as made, from the end from which it is marked.
    pub made_mm: Option<f64>,
}

impl HolePurpose {
    /// Marked and measured from the upper end; else from the lower one. Always from the same end, wherever the hole comes to lie.
    pub fn from_upper_end(self) -> bool {
        !matches!(self, Self::StandsBelow | Self::SecondBelow)
    }
}

/// What a hole is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum HolePurpose {
    /// The pin that carries the tube above in this one, and takes the rod.
    CarriesAbove,
    /// The second pin of that joint, a quarter turn round.
    SecondAbove,
    /// The pin on which this tube stands in the one below.
    StandsBelow,
    SecondBelow,
    /// Pin through tube and rod for one of the pulls.
    Lifts,
}
