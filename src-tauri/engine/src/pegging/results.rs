//! The guide and what the tapes tell.

use serde::{Deserialize, Serialize};

use crate::finding::{Finding, Subject};
use crate::quantity::estimate::Estimate;
use crate::stakeout::SwingTies;

/// The whole guide of one job.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PegOutGuide {
    /// In the order of pegging out.
    pub steps: Vec<PegStep>,
    /// Metres walked in this order: to where the tapes are hooked, and from peg to peg.
    pub walk_m: f64,
    /// The same in the order of the plan's list.
    pub listed_walk_m: f64,
    /// Tapes to read once the pegs are in, a good few.
    pub checks: Vec<CheckTape>,
    pub test: StakeOutTest,
}

/// When a peg is set: each stage ties from those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PegStage {
    /// The mast, and with it the hinge.
    Mast,
    /// The front leg, which gives the direction.
    Front,
    /// The other legs.
    Legs,
    Anchors,
    /// Stakes, those of the hinge among them.
    Stakes,
}

/// One peg.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PegStep {
    /// `mast`, `leg:front`, `guy:upper-1`, `stake:front-right`.
    pub key: String,
    pub subject: Subject,
    pub name: String,
    pub stage: PegStage,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    /// From the mast; the mast itself from the nearest mark. None where there is nothing to start from.
    pub from: Option<TapeFrom>,
    /// Tapes from two marks or pegs that stand already; none where no pair serves.
    pub ties: Option<PegTies>,
    pub tolerance: Tolerance,
    /// What is driven, screwed in or dug; none for a peg that only marks a place.
    pub into_ground: Option<IntoGround>,
    pub done: bool,
    /// Its place is the measured one of what stands.
    pub as_built: bool,
    /// What the tapes that were read say of it.
    pub checked: PegChecked,
    /// Whether the tapes of the list would tell of it, were all of them read.
    pub check_covers: bool,
}

/// A tape and a bearing from one point.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TapeFrom {
    /// `mast` or `mark:A`.
    pub key: String,
    /// Along the ground, with what reading it and the ground's slope leave open.
    pub tape_m: Estimate,
    pub plan_m: f64,
    pub bearing_deg: f64,
    /// As this yard reads bearings.
    pub reading_deg: f64,
    /// Of the ground there above the ground here.
    pub height_difference_m: f64,
}

/// Swing ties from points that stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PegTies {
    /// The names of its two marks are keys: `mark:A`, `mast`, `leg:front`.
    pub ties: SwingTies,
    pub half_width_a_m: f64,
    pub half_width_b_m: f64,
}

/// How far off its place a peg may be.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Tolerance {
    /// In every direction that was tried.
    pub off_m: f64,
    pub by: ToleranceBy,
    /// What the tapes reach at 95 %: where it is more, the peg has to be measured once it stands.
    pub landing_m: Option<f64>,
}

/// What sets a tolerance: the first thing that goes wrong farther off.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum ToleranceBy {
    /// The plan would find something that it does not find now.
    Finding { finding: Box<Finding> },
    /// A guy would pull so much harder in the same wind.
    Pull { guy: String },
    /// A rope cut to the plan would have too little left for its ends.
    Rope { guy: String },
    /// Under a leg the gap would change by more than a shim takes up.
    Gap { leg: String },
    /// A stake would come off the timber's end.
    TimberEnd,
    /// A stake would come too near to something.
    Near { to: Subject },
    /// Nothing, up to the largest that was tried.
    NothingFound,
    /// The plan itself can't be laid out so.
    NoPlan,
}

/// What goes into the ground at a peg.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct IntoGround {
    pub what: Driven,
    /// Straight down from the ground; none where nobody has said it.
    pub depth_m: Option<f64>,
    /// Where a guy is made fast to a thing of the yard, above the ground; none where something goes into the ground.
    pub above_ground_m: Option<f64>,
    /// Of the shaft from plumb; none where it has none.
    pub batter_deg: Option<f64>,
    /// True bearing towards which its head leans; none where it is plumb or has no head.
    pub leans_toward_deg: Option<f64>,
    pub leans_reading_deg: Option<f64>,
    /// True bearing of the guy, from the anchor to the mast; none for a stake of the base.
    pub pull_toward_deg: Option<f64>,
    pub pull_reading_deg: Option<f64>,
    /// Of the pull above the level.
    pub pull_rises_deg: Option<f64>,
}

/// The kind of thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Driven {
    /// Nobody has said what holds the guy.
    NotChosen,
    Screw,
    Plate,
    Deadman,
    Pickets,
    Bar,
    Ballast,
    /// Nothing: the guy is made fast to a thing of the yard.
    Fixing,
    /// The same on a tree.
    FixingOnTree,
    /// A stake beside a timber of the base, or outside the hinge's edge.
    BaseStake,
}

/// What the tapes say of a peg.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PegChecked {
    /// The tapes that were read would not show it.
    NotYet,
    /// They would, and show nothing.
    Agrees,
    /// They speak against it.
    Doubted,
}

/// A tape from peg to peg.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CheckTape {
    /// That of the job's tape, once it is read.
    pub id: String,
    pub from: String,
    pub to: String,
    /// By the plan, with all that pegging out and reading leave open.
    pub expected_m: Estimate,
    /// None where it was not read yet.
    pub read_m: Option<f64>,
    /// Read less expected.
    pub off_m: Option<f64>,
    /// It was read without being on the list.
    pub extra: bool,
}

/// What is wrong with a stake-out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum Blunder {
    /// The peg's two tapes were taken one for the other.
    Swapped { peg: String },
    /// The peg was set on the other side of the line between its two marks.
    WrongSide { peg: String },
    /// One of the peg's tapes was laid off too long by so much; below nought too short.
    TieOff { peg: String, from: String, by_m: f64 },
    /// A check tape reads too much by so much.
    TapeOff { tape: String, by_m: f64 },
}

impl Blunder {
    /// The peg that was set wrongly, if it is one.
    pub fn peg(&self) -> Option<&str> {
        match self {
            Blunder::Swapped { peg } | Blunder::WrongSide { peg } | Blunder::TieOff { peg, .. } => Some(peg),
            Blunder::TapeOff { .. } => None,
        }
    }
}

/// A blunder with how well it explains the tapes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Suspect {
    pub blunder: Blunder,
    /// By how much the misfit χ² falls with it.
    pub explains: f64,
}

/// What the tapes tell of the whole.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StakeOutState {
    /// No tape was read.
    NotRead,
    /// What was read agrees; whether it would show everything is told peg by peg.
    Agrees,
    /// One blunder explains it.
    Named,
    /// Several blunders explain it about as well.
    OneOfSeveral,
    /// No single blunder explains it.
    Unexplained,
    /// Too little is known of marks and ground to tell anything.
    CannotTell,
}

/// The test of all tapes that were read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StakeOutTest {
    pub state: StakeOutState,
    /// Tapes that took part.
    pub read: u32,
    pub chi_square: f64,
    /// The best explanation first, with those about as good.
    pub suspects: Vec<Suspect>,
    /// The best one leaves more misfit than chance does: there may be another.
    pub more_than_one: bool,
    /// The tape to read next, to tell the suspects apart: from, to.
    pub measure_next: Option<[String; 2]>,
    /// Tapes that belong to no peg or mark of the plan any more, by their ids.
    pub without_peg: Vec<String>,
}
