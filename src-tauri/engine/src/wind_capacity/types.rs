//! The shapes of the answers. Speeds are three-second gusts as a forecast tells them: at 10 m in open country.

use serde::{Deserialize, Serialize};

use super::air::GroundUpwind;
use super::by_eye::ByEye;
use super::changes::RepeatedStep;
use crate::anchor::proof_pull::ProofPull;
use crate::finding::Finding;
use crate::finding::wind::Collapse;
use crate::job::WhenLowered;
use crate::resistance::{Resistance, Unshown};
use crate::verdict::Verdict;

pub use crate::verdict::{MastPart, MissingEntry, MissingKind, PartKind, PartName};

/// How high the mast stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MastHeight {
    /// Every tube up.
    #[default]
    Raised,
    /// Every tube that goes into another run down.
    Lowered,
}

/// The largest gust from one direction.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
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
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
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
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct UnshownPart {
    pub part: MastPart,
    pub reason: Unshown,
}

/// The pull that would show an anchor to hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyProofPull {
    pub guy: String,
    pub name: String,
    /// The hardest that its guy pulls at the gust asked for, from any direction and at either height.
    pub greatest_tension_n: f64,
    pub pull: ProofPull,
}

/// The guys of a level whose collar comes down when the mast is run down: what the lowered limit counts on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuysRunDown {
    /// Id of the level.
    pub level: String,
    pub name: String,
    pub how: WhenLowered,
    /// Where the collar then is, above the foot.
    pub attach_height_m: f64,
    /// Tension set at the mast with no wind; none where they hang slack or nobody has said.
    pub tension_n: Option<f64>,
}

/// What wind the mast can take.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WindCapacity {
    pub raised: GustRose,
    pub lowered: GustRose,
    /// Run it down before gusts of this are forecast; none as long as the rose is not whole.
    pub lower_at_m_per_s: Option<f64>,
    /// Lay it down before gusts of this are forecast.
    pub lay_down_at_m_per_s: Option<f64>,
    /// How far about its top moves at most, raised, in gusts of that speed at which it is lowered.
    pub top_moves_at_lower_m: Option<f64>,
    /// The same of the mast run down, at the speed at which it is laid down.
    pub top_moves_at_lay_down_m: Option<f64>,
    /// How the guys are made fast that come down with the mast, level by level.
    pub guys_run_down: Vec<GuysRunDown>,
    /// What of the ground upwind is counted.
    pub ground: GroundUpwind,
    /// Parts that nobody can show to hold. While there is one, no gust stands anywhere here.
    pub not_shown: Vec<UnshownPart>,
    /// What has to be entered before there is a limit, in the order that gets to an answer soonest.
    pub missing: Vec<MissingEntry>,
    pub proof_pulls: Vec<GuyProofPull>,
    /// Parts of this mast that no rule here covers: somebody has to look at them.
    pub look_at_by_eye: Vec<ByEye>,
    pub findings: Vec<Finding>,
    /// Of the wind alone: from the findings and the missing entries above.
    pub verdict: Verdict,
    /// Stopped before its end.
    pub stopped: bool,
}

/// How far a part is used.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
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
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WindTable {
    pub height: MastHeight,
    pub gust_m_per_s: f64,
    pub from_deg: f64,
    /// The direction is the worst of all for this gust, and not one asked for.
    pub worst: bool,
    /// Why nobody can say how it stands; then there is no number here.
    pub not_known_because: Option<Unshown>,
    /// Why it does not stand; none where it does.
    pub falls_because: Option<Collapse>,
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
    /// What a level box under the mast has to weigh, its ballast and all, so that it holds that push without stakes; none where
    /// the soil is not known, shows nothing, or where no weight does.
    pub box_ballast_kg: Option<f64>,
}

/// What a change brings, as far as a forecast can tell gusts apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Effect {
    HelpsMuch,
    HelpsALittle,
    HardlyAny,
    Worse,
}

/// Something to change, and what it brings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WindChange {
    /// Such as `anchors_farther_out`; `together` where several steps are made at once.
    pub id: String,
    /// What to do, each step once, in the order of the work.
    pub steps: Vec<RepeatedStep>,
    /// The field of the job that changes it, as a JSON pointer.
    pub pointer: String,
    /// The least limit, raised, after it.
    pub gust_m_per_s: f64,
    /// How much more that is.
    pub gain_m_per_s: f64,
    pub effect: Effect,
    pub weakest: Option<MastPart>,
    /// A pull that every anchor has to stand for it.
    pub proof_pull_n: Option<f64>,
}

impl WindChange {
    pub fn helps(&self) -> bool {
        matches!(self.effect, Effect::HelpsMuch | Effect::HelpsALittle)
    }
}

/// What to change first.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WindChanges {
    /// As it is, over the directions looked at; none while an entry is missing.
    pub now: Option<DirectionLimit>,
    /// What has to be entered first. While there is one, nothing is compared.
    pub missing: Vec<MissingEntry>,
    /// The most helpful first.
    pub changes: Vec<WindChange>,
    pub stopped: bool,
}
