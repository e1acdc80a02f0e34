//! What the room finds out.

use serde::Serialize;

use crate::finding::Finding;
use crate::source::SourceKey;

/// What is known of the lights' current; nothing of a mast without strands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LightsPlan {
    pub lights: Option<LightsWork>,
}

/// The lights' current, from the outlet to the last strand.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LightsWork {
    /// In the order of their numbers.
    pub strands: Vec<NumberedStrand>,
    /// True bearing from the mast that the cone faces: strands are numbered from there.
    pub view_bearing_deg: f64,
    pub load: LightLoad,
    /// None while nobody has said where the outlet is, or where it can't be found.
    pub lead: Option<LeadWork>,
    /// Before the last tube goes up; none where nothing is cranked, or they do not go up with it.
    pub last_tube: Option<LastTube>,
    /// Worst first.
    pub findings: Vec<Finding>,
}

/// A strand with its number, as it lies in its bundle.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct NumberedStrand {
    /// From 1, clockwise seen from above.
    pub number: u32,
    /// True bearing of its tie point from the mast.
    pub bearing_deg: f64,
    /// Of that from the bearing that the cone faces, clockwise; above −180° and up to 180°.
    pub turn_from_view_deg: f64,
    /// Straight from the circle at the top to its tie point.
    pub length_m: f64,
    /// Straight from its tie point to the next one; none of the last one of a part of a ring.
    pub to_next_m: Option<f64>,
    /// Whether it lit on the ground; none while nobody has tried it.
    pub lit: Option<bool>,
}

/// Watts, volts and amperes. None is what no label has said yet.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LightLoad {
    pub strand_amps: Option<f64>,
    pub total_amps: Option<f64>,
    pub total_watts: Option<f64>,
    /// What the breaker has to be for the lights alone: a quarter more than they take.
    pub lights_need_amps: Option<f64>,
    /// The same with what else runs on the circuit.
    pub needs_amps: Option<f64>,
    pub breaker_amps: Option<f64>,
    /// Runs of strands plugged one behind the other: so many plugs are needed where they start.
    pub runs: Option<u32>,
    /// What the first plug of such a run carries.
    pub first_plug_amps: Option<f64>,
    /// How much of the voltage the lead takes.
    pub drop_volts: Option<f64>,
    pub drop_percent: Option<f64>,
    /// Of one wire of the lead at 75 °C.
    pub ohm_per_m: Option<f64>,
    pub ohm_source: Option<SourceKey>,
}

/// The lead from the outlet to the strands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LeadWork {
    /// On the ground: below the outlet, every bend, the mast's foot.
    pub points: Vec<[f64; 3]>,
    /// Along the ground, up and down with it.
    pub ground_m: f64,
    /// Half-width of its 95 % interval.
    pub ground_half_width_95_m: f64,
    /// From the outlet down to the ground.
    pub drop_m: Option<f64>,
    /// Up the mast.
    pub up_m: Option<f64>,
    /// Loops from which rain drips, one at the outlet and one where the strands are plugged in.
    pub loops_m: f64,
    /// Over and above all that: so much is spare.
    pub spare_m: Option<f64>,
    /// All of it.
    pub needed_m: Option<f64>,
    pub bought_m: Option<f64>,
    pub reach: CordReach,
    /// Where somebody may trip over it, from the outlet on.
    pub trips: Vec<TripPoint>,
    /// Of what hangs on the mast.
    pub mass_on_mast_kg: Option<f64>,
    /// Of what tubes, topper and strands weigh.
    pub of_mast_percent: Option<f64>,
}

/// Whether the cord is long enough.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CordReach {
    NotKnown,
    Reaches,
    /// It depends on where the outlet really is.
    Barely,
    TooShort,
}

/// Where the lead crosses a way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TripPoint {
    /// The way, as an obstacle of the yard.
    pub id: String,
    pub name: String,
    pub vehicles: bool,
    /// Its middle: east, north.
    pub at: [f64; 2],
    /// Along the ground from below the outlet to there.
    pub along_m: f64,
    /// So long the lead lies on the way.
    pub on_it_m: f64,
}

/// The strands tied to the ring while the last tube still has to go up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LastTube {
    pub tube: String,
    /// How far the strands' upper ends come up with it.
    pub drop_m: f64,
    /// What the plan says to set in each strand.
    pub set_n: f64,
    /// So far below their place the upper ends are where all strands are tied straight and without pull: cranked up, the tightest one
    /// gets what is to be set. None while nobody has measured how they give.
    pub tie_below_m: Option<f64>,
    /// In the order of their numbers.
    pub strands: Vec<StrandSlack>,
}

/// One strand before the last tube goes up, and after.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StrandSlack {
    pub number: u32,
    /// Slack that it has to have before, to be as tight as planned after: with less it is dragged.
    pub slack_m: Option<f64>,
    /// What it gets if all are tied where [`LastTube::tie_below_m`] says.
    pub tension_n: Option<f64>,
}
