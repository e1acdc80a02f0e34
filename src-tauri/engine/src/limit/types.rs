//! The shapes of the answers. Speeds are three-second gusts as a forecast tells them: at 10 m in open country.

use serde::{Deserialize, Serialize};

use crate::anchor::proof_pull::ProofPull;
use crate::finding::Finding;
use crate::resistance::Resistance;
use crate::verdict::Verdict;

/// How high the mast stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MastHeight {
    /// Every tube up.
    #[default]
    Raised,
    /// Every tube that goes into another run down.
    Lowered,
}

/// A part that can be the weakest.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MastPart {
    /// Such as `rope upper-1`; the same from one answer to the next.
    pub id: String,
    pub kind: PartKind,
    /// In words, such as `Rope of Upper guy 1`.
    pub name: String,
    /// The guy it belongs to, such as `upper-1`.
    pub guy: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PartKind {
    Tube,
    /// The tubes where they are drilled for a pin.
    PinHole,
    /// The thread of a tube that is screwed on.
    Thread,
    Rope,
    Anchor,
    Strands,
    /// The timber under the mast's foot.
    Timber,
    /// A timber of the base, bent where it is halved into the other.
    BaseTimber,
    /// A foot under a leg of the base, as a post.
    Foot,
    /// The ground under the base.
    Ground,
    /// The base against sliding, by its stakes or by friction.
    BaseSliding,
    /// The base against turning, where the mast's foot is held in it.
    BaseTurning,
    /// The mast as a whole: whether it stands at all.
    WholeMast,
}

impl PartKind {
    /// Every kind, in the order of the table in docs/methods/gust-limit.md.
    pub const ALL: [PartKind; 13] = [
        PartKind::Tube,
        PartKind::PinHole,
        PartKind::Thread,
        PartKind::Rope,
        PartKind::Anchor,
        PartKind::Timber,
        PartKind::BaseTimber,
        PartKind::Foot,
        PartKind::Ground,
        PartKind::BaseSliding,
        PartKind::WholeMast,
        PartKind::Strands,
        PartKind::BaseTurning,
    ];

    /// What the kind is called in that table. Every kind is covered by the analysis: while one part is not shown to
    /// hold, there is no limit.
    pub fn title(self) -> &'static str {
        match self {
            PartKind::Tube => "tube",
            PartKind::PinHole => "at a pin hole",
            PartKind::Thread => "thread",
            PartKind::Rope => "guy rope",
            PartKind::Anchor => "anchor",
            PartKind::Timber => "timber",
            PartKind::BaseTimber => "base timber",
            PartKind::Foot => "foot",
            PartKind::Ground => "ground",
            PartKind::BaseSliding => "base sliding",
            PartKind::WholeMast => "mast as a whole",
            PartKind::Strands => "strands as side guys",
            PartKind::BaseTurning => "base against turning",
        }
    }
}

/// What an entry that is missing says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MissingKind {
    /// The soil under the turf.
    Soil,
    /// The soil is known, and no rule shows what it carries.
    OtherSoil,
    /// What a level's guys are made fast to.
    Holdfast,
    /// A screw's helix and how deep it lies.
    ScrewData,
    /// The anchor is known, and no rule shows what it holds: a proof pull does.
    ProofPull,
    /// What a rope breaks at.
    RopeStrength,
    /// What fibre it is of.
    RopeFibre,
    /// Its end is known, and no rule shows that it holds.
    RopeEnd,
    /// A tube, hole or thread that no rule covers.
    Tube,
    /// What the mast stands on.
    Seat,
    /// The strands are counted on as guys.
    StrandsHelp,
    /// The foot is counted on against turning.
    FootFixing,
}

/// An entry without which there is no gust limit.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MissingEntry {
    pub kind: MissingKind,
    /// Where in the job it is entered, as a JSON pointer.
    pub pointer: String,
    /// The guy level or tube that it is about, by its name.
    pub about: Option<String>,
    /// The parts that can't be shown to hold without it.
    pub serves: Vec<MastPart>,
    /// Why they can't.
    pub reason: String,
}

/// The largest gust from one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct DirectionLimit {
    /// Bearing that the wind comes from.
    pub from_deg: f64,
    /// At which the first part is fully used.
    pub gust_m_per_s: f64,
    /// That part; none where nothing was fully used up to the strongest gust looked at.
    pub weakest: Option<MastPart>,
}

/// The largest gust from every direction, at one height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GustRose {
    pub height: MastHeight,
    /// Top of the mast above its foot.
    pub top_m: f64,
    /// In the order of the bearings; fewer than 72 while it is being found, none while an entry is missing.
    pub directions: Vec<DirectionLimit>,
    /// The weakest of them.
    pub least: Option<DirectionLimit>,
}

/// A part that nobody can show to hold.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct UnshownPart {
    pub part: MastPart,
    pub reason: String,
}

/// The pull that would show an anchor to hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GuyProofPull {
    pub guy: String,
    pub name: String,
    /// The hardest that its guy pulls at the gust asked for, from any direction and at either height.
    pub greatest_tension_n: f64,
    pub pull: ProofPull,
}

/// What wind the mast can take.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GustLimit {
    pub raised: GustRose,
    pub lowered: GustRose,
    /// Run it down before gusts of this are forecast; none as long as the rose is not whole.
    pub lower_at_m_per_s: Option<f64>,
    /// Lay it down before gusts of this are forecast.
    pub lay_down_at_m_per_s: Option<f64>,
    /// Parts that nobody can show to hold. While there is one, no gust stands anywhere here.
    pub not_shown: Vec<UnshownPart>,
    /// What has to be entered before there is a limit, in the order that gets to an answer soonest.
    pub missing: Vec<MissingEntry>,
    pub proof_pulls: Vec<GuyProofPull>,
    /// Parts of this mast that no rule here covers, by name: somebody has to look at them.
    pub look_at_by_eye: Vec<String>,
    /// What else no rule here looks at.
    pub not_reckoned: Vec<String>,
    pub findings: Vec<Finding>,
    /// Of the wind alone: from the findings and the missing entries above.
    pub verdict: Verdict,
    /// Shown with the limit wherever it is shown.
    pub cautions: Vec<String>,
    /// Stopped before its end.
    pub stopped: bool,
}

/// How far a part is used.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PartUse {
    pub part: MastPart,
    /// Load over what the part may carry; 1 is the limit. None where it is not shown to hold. Of the mast as a whole
    /// the load factor over how many times the wind's pressure it stands in, looked at up to four times.
    pub utilisation: Option<f64>,
    /// Force on it, where one force says what it bears: tension, push, compression.
    pub force_n: Option<f64>,
    /// Bending moment beside the compression.
    pub moment_nm: Option<f64>,
    /// What it may carry and by whose rule; none for the mast as a whole.
    pub carries: Option<Resistance>,
    /// What it may carry in bending alone.
    pub carries_nm: Option<f64>,
}

/// One gust from one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindTable {
    pub height: MastHeight,
    pub gust_m_per_s: f64,
    pub from_deg: f64,
    /// The direction is the worst of all for this gust, and not one asked for.
    pub worst: bool,
    /// Why it does not stand; none where it does.
    pub falls_because: Option<String>,
    /// Most used first, then those not shown.
    pub parts: Vec<PartUse>,
    /// The mast's axis from foot to top, unloaded and bent, in the site frame.
    pub upright: Vec<[f64; 3]>,
    pub bent: Vec<[f64; 3]>,
    pub top_movement_m: f64,
    /// By how much the axial forces alone could grow before it buckles; none where they are no danger.
    pub buckling_factor: Option<f64>,
    /// What the foot presses down with.
    pub foot_down_n: f64,
    /// What it pushes sideways with.
    pub foot_sideways_n: f64,
    pub cautions: Vec<String>,
}

/// Something to change, and what it brings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindChange {
    /// Such as `anchors_farther_out`.
    pub id: String,
    /// What to do, in words.
    pub what: String,
    /// The field of the job that changes it, as a JSON pointer.
    pub pointer: String,
    /// The least limit, raised, after it.
    pub gust_m_per_s: f64,
    /// How much more that is.
    pub gain_m_per_s: f64,
    pub weakest: Option<MastPart>,
    /// A pull that every anchor has to stand for it.
    pub proof_pull_n: Option<f64>,
}

/// What to change first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WindChanges {
    /// As it is, over the directions looked at; none while an entry is missing.
    pub now: Option<DirectionLimit>,
    /// What has to be entered first. While there is one, nothing is compared.
    pub missing: Vec<MissingEntry>,
    /// The most helpful first.
    pub changes: Vec<WindChange>,
    pub cautions: Vec<String>,
    pub stopped: bool,
}
