//! One way of turning the mast up, and all of them.

use serde::{Deserialize, Serialize};

pub use crate::finding::raising::SweptPart;
use crate::finding::{Finding, Subject};
use crate::job::RaisingStep;

/// What a guy is for while the mast turns up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GuyRole {
    /// Its anchor is on the side where the mast lay: slack while it lies, taut at plumb.
    Stop,
    /// Near the hinge line: it keeps the mast from going over sideways.
    Side,
    /// Opposite: too short until plumb.
    Far,
}

/// What is done with a guy while the mast turns up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GuyDoes {
    /// Made fast, and about as long as it is at plumb.
    Fast,
    /// Made fast, and hanging slack.
    Slack,
    /// A helper gives and takes it in.
    Tended,
    /// Not made fast.
    Untied,
}

/// A guy with the mast at one angle.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyAtAngle {
    /// Of the mast to the level: 90 is plumb.
    pub elevation_deg: f64,
    /// From the anchor's eye straight to the collar.
    pub length_m: f64,
    /// How much longer that is than at plumb: the rope is too short by so much. Negative where it hangs slack.
    pub beyond_plumb_m: f64,
    pub does: GuyDoes,
}

/// A guy while the mast turns up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TiltedGuy {
    pub id: String,
    pub name: String,
    pub role: GuyRole,
    /// Angle in plan from the hinge line to its anchor, seen from the hinge: positive towards the side where the mast lies.
    pub off_hinge_line_deg: f64,
    /// On the right of who looks from the hinge along the lying mast.
    pub on_right: bool,
    /// Its anchor's eye over the hinge.
    pub eye_above_hinge_m: f64,
    /// From the eye to the collar with the mast plumb.
    pub at_plumb_m: f64,
    /// The most that the rope would have to be longer than at plumb on the whole way.
    pub most_short_m: f64,
    /// The most that it hangs slack.
    pub most_slack_m: f64,
    /// From this angle of the mast on, made fast as long as at plumb, it is taut up to plumb; where it lies already, all the way. None of one that
    /// is not fast on the way.
    pub taut_from_deg: Option<f64>,
    /// Lying, at every 5° above that, and plumb.
    pub angles: Vec<GuyAtAngle>,
}

/// Who keeps the mast from going over to one side.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SideHold {
    /// A side guy that is made fast.
    Fast,
    /// A guy that a helper tends.
    Tended,
    Nobody,
}

/// How near a part comes to a thing on its way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TiltClearance {
    pub part: SweptPart,
    pub to: Subject,
    pub distance_m: f64,
    /// Of its 95 % interval.
    pub half_width_95_m: f64,
    pub needed_m: f64,
    /// With the mast at this angle.
    pub elevation_deg: f64,
    pub from_point: [f64; 3],
    pub to_point: [f64; 3],
}

/// The ground over which a part goes on its way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SweptOutline {
    pub part: SweptPart,
    /// In plan, in order round it.
    pub outline: Vec<[f64; 2]>,
}

/// A step of an order.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderStep {
    pub step: RaisingStep,
    /// What has to be done before it.
    pub needs: Vec<RaisingStep>,
    /// Done one step sooner, and one later; none where there is no such place.
    pub sooner: Option<OrderMove>,
    pub later: Option<OrderMove>,
}

/// An order with two steps exchanged.
#[derive(Debug, Clone, PartialEq)]
pub struct OrderMove {
    /// As the job keeps it: empty for the usual order.
    pub order: Vec<RaisingStep>,
    /// What is wrong with it that was not before; none where it is allowed.
    pub refused: Option<Finding>,
}

/// The order in which the job's mast goes up.
#[derive(Debug, Clone, PartialEq)]
pub struct RaiseOrder {
    pub steps: Vec<OrderStep>,
    pub is_usual: bool,
    /// What is wrong with it: each a stop.
    pub findings: Vec<Finding>,
}

/// One way of turning the mast up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RaiseWay {
    pub lies_toward_deg: f64,
    /// True bearing of the front leg meanwhile.
    pub front_bearing_deg: f64,
    pub hinge: [f64; 3],
    /// Ground at the mast.
    pub ground_m: f64,
    /// The hinge line from its left end to its right one.
    pub hinge_line: [[f64; 3]; 2],
    /// Angle of the lying mast to the level: below nought where it lies downhill.
    pub lying_deg: f64,
    /// The farthest that the mast reaches from the hinge.
    pub reach_m: f64,
    /// Ground under the lying mast and beside it, in plan, in order round it.
    pub corridor: Vec<[f64; 2]>,
    /// Temporary stakes outside the edge about which the base turns.
    pub temporary_stakes: Vec<[f64; 2]>,
    pub guys: Vec<TiltedGuy>,
    /// On the left and on the right.
    pub held: [SideHold; 2],
    /// The nearest approach to each thing, the least margin first.
    pub clearances: Vec<TiltClearance>,
    /// Where ropes come nearer to things than they should: they can be lifted over.
    pub ropes_near: Vec<TiltClearance>,
    /// What is swept, in plan.
    pub swept: Vec<SweptOutline>,
    pub steps: Vec<RaisingStep>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// Nothing says stop, and what keeps a distance keeps it with its whole 95 % interval.
    pub clear: bool,
    /// From 0 to 1, the best way first; none where it is not clear.
    pub score: Option<RaiseScore>,
}

/// How good a clear way is: marks from 0 to 1, with their mean by weight.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RaiseScore {
    pub total: f64,
    /// Room left beyond what is needed.
    pub room: f64,
    /// Side guys that stay fast.
    pub sides: f64,
    /// Few hands at ropes.
    pub tending: f64,
    /// A level or gently rising lie.
    pub lie: f64,
    /// Nothing to clear from the corridor, and no rope over anything.
    pub corridor: f64,
}

/// Bearings in a row that are alike: whole degrees, both ends among them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BearingRun {
    pub from_deg: u32,
    pub to_deg: u32,
    /// None where the mast can go up along them; else the number of what stands in the way.
    pub refused_by: Option<u32>,
}

/// Every whole degree along which the mast may lie.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RaiseWays {
    /// What has to be said, measured or asked before any way is good.
    pub waits_for: Vec<Finding>,
    /// Round the compass from north, without a gap; empty where nobody can say.
    pub bearings: Vec<BearingRun>,
    /// What stands in the way, each once.
    pub refusals: Vec<Finding>,
    /// The best of the clear ways.
    pub best: Option<RaiseWay>,
    /// The way that the job has.
    pub as_said: Option<RaiseWay>,
}
