//! What is made in the workshop before anything goes into the yard.

use serde::{Deserialize, Serialize};

use crate::quantity::whole;

/// What was bought, cut, turned and drilled already, and what it measures as made.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Workshop {
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub done: Vec<WorkDone>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub made: Vec<WorkMade>,
    pub lift: Lift,
    pub base: BaseWork,
    /// How the winch is drilled; none where nobody has measured it.
    pub winch_plate: Option<WinchPlate>,
    /// Lengths that a shop sells, each of one material; what nobody has entered is not taken for granted.
    #[cfg_attr(feature = "typegen", schemars(length(max = 60)))]
    pub stocks: Vec<StockLength>,
    /// Width of the saw cut; none where nobody has measured it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 10)))]
    pub saw_cut_mm: Option<f64>,
    /// What the ring is made of.
    pub ring: Option<RingPipe>,
    /// The strands as they are sold.
    pub strand: Option<StrandBought>,
    /// Holes round the topper, for the strands.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub topper_hole_mm: Option<f64>,
    /// The topper where it is of two discs; none where nobody has said so.
    pub topper: Option<TopperDiscs>,
}

impl Workshop {
    /// What a part measures as made; none where nobody has measured it, and then it is as planned.
    pub fn made_mm(&self, part: &str) -> Option<f64> {
        self.made.iter().find(|made| made.part == part).map(|made| made.measured_mm)
    }

    pub fn is_done(&self, part: &str) -> bool {
        self.done.iter().any(|done| done.part == part)
    }
}

/// With what the tubes are cranked up. Every field may be left open: then what hangs on it is not known.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Lift {
    /// Of the steel pins, all of one thickness.
    #[cfg_attr(feature = "typegen", schemars(range(min = 2, max = 50)))]
    pub pin_mm: Option<f64>,
    /// The rod that lifts: a tube or a bar.
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 100)))]
    pub rod_outside_mm: Option<f64>,
    /// 0 where it is a bar.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 95)))]
    pub rod_bore_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 12)))]
    pub rod_length_m: Option<f64>,
    /// Middle of the winch's drum above the mast's foot, along the lower tube.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 3)))]
    pub winch_height_m: Option<f64>,
    /// The bare drum's diameter.
    #[cfg_attr(feature = "typegen", schemars(range(min = 8, max = 300)))]
    pub drum_mm: Option<f64>,
    /// Arm of its crank.
    #[cfg_attr(feature = "typegen", schemars(range(min = 50, max = 600)))]
    pub crank_mm: Option<f64>,
    /// Turns of the crank for one of the drum.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 60)))]
    pub gear: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 10)))]
    pub strap_thickness_mm: Option<f64>,
    /// What the strap's label says that it may lift in use.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 100000)))]
    pub strap_working_n: Option<f64>,
    /// The same of its hook.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 100000)))]
    pub hook_working_n: Option<f64>,
    pub rubbing: Rubbing,
}

/// The winch's own holes, four of them, and the plate that carries it. What nobody has measured is empty.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct WinchPlate {
    /// From middle to middle of the holes: across the tube.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 400)))]
    pub across_mm: Option<f64>,
    /// And along it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 400)))]
    pub along_mm: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 30)))]
    pub hole_mm: Option<f64>,
    /// Of the plate in hand.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 40)))]
    pub thickness_mm: Option<f64>,
}

/// What of the base the plan does not need to know, and the bench does.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct BaseWork {
    /// Outside of the coupling on the lower tube's foot; none where the bare tube stands there.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 300)))]
    pub foot_outside_mm: Option<f64>,
    /// How far stakes lean that go through the timbers, their heads towards the mast; none where they stand upright beside
    /// them.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 45)))]
    pub stake_slant_deg: Option<f64>,
}

/// What slides on what while a tube is lifted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Rubbing {
    /// Nobody has said it: the worst is taken, dry steel.
    #[default]
    Unsaid,
    DrySteel,
    OiledSteel,
    /// Steel in plastic bushings.
    Plastic,
}

/// A part that is made. No time stands beside it: who ticks off what another ticked off has nothing to be asked about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkDone {
    /// Such as `tube:0`: what it is, and which of them.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
}

/// A part as it came out: the plan of the workshop goes on from that.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkMade {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20000)))]
    pub measured_mm: f64,
}

/// A length that a shop sells.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct StockLength {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub id: String,
    /// What is cut from it, such as `timber` or `tube rmc 2`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub material: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 100)))]
    pub length_m: f64,
    /// Of one, in any money.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.01, max = 1000000)))]
    pub price: Option<f64>,
}

/// The pipe of the ring. What nobody has measured or chosen is empty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct RingPipe {
    pub stuff: RingStuff,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 200)))]
    pub outside_mm: Option<f64>,
    /// As it is sold.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 100)))]
    pub pipe_m: Option<f64>,
    /// Round the ring, each with a tie: joints lie on them.
    #[serde(default, deserialize_with = "whole::read_option")]
    #[cfg_attr(feature = "typegen", schemars(range(min = 2, max = 400)))]
    pub supports: Option<u16>,
    /// By calliper; none where nobody has measured it: then nobody knows how it gives.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 30)))]
    pub wall_mm: Option<f64>,
}

/// Two discs on the top tube, the upper one with the strands' holes. What nobody has measured or chosen is empty.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct TopperDiscs {
    /// Of both, across; none for as small as their holes let them.
    #[cfg_attr(feature = "typegen", schemars(range(min = 40, max = 2000)))]
    pub disc_mm: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 60)))]
    pub thickness_mm: Option<f64>,
    /// Between the two, face to face.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 1000)))]
    pub apart_mm: Option<f64>,
    pub held: TopperHeld,
    /// Of the bolt that holds them.
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 30)))]
    pub bolt_mm: Option<f64>,
}

/// What keeps the discs up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TopperHeld {
    #[default]
    Unsaid,
    /// Straight through the tube, under the lower disc.
    Bolt,
    /// Squeezed onto the tube under the lower disc.
    Sleeve,
}

/// What a ring is made of: by it goes how sharply it may be bent.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RingStuff {
    /// Rigid PVC pipe or conduit, bent cold by hand.
    Pvc,
    /// Steel conduit, bent with a bender.
    SteelConduit,
    /// Anything else: no limit is known here.
    Other,
}

/// A strand as it is sold.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct StrandBought {
    /// From the first lamp to the last; none where nobody has measured it.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 200)))]
    pub lit_m: Option<f64>,
    /// Cable before the first lamp.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
    pub lead_top_m: f64,
    /// Cable behind the last lamp.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
    pub lead_bottom_m: f64,
}
