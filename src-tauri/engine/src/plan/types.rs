//! The shapes of a plan's results. Site frame: metres, x east, y north, z up from the ground at the origin.

use serde::{Deserialize, Serialize};

use crate::finding::{Finding, Subject};
use crate::quantity::estimate::Estimate;
use crate::verdict::Verdict;

/// All results for one job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
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
    /// What was measured after pegging out, against the plan; none where nothing was.
    pub as_built: Option<AsBuiltResult>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// What is to be thought of it all. While a finger drags only a stop is told; what stands in the wind is looked at
    /// once it has let go.
    pub verdict: Option<Verdict>,
}

/// The work as it really stands against the plan. The rest of the plan is then that of the work as it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
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
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct AsBuiltItem {
    pub subject: crate::finding::Subject,
    pub name: String,
    /// Where the job's placement has it, in plan.
    pub planned: [f64; 2],
    /// None where its place was not measured.
    pub moved: Option<Moved>,
    pub guy: Option<AsBuiltGuy>,
}

/// How far a thing stands from its plan.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Moved {
    /// Where it stands, in plan.
    pub found: [f64; 2],
    pub moved_m: f64,
    /// True bearing from the planned to the real place.
    pub bearing_deg: f64,
    /// From where it should have landed, seen from the mast as that stands.
    pub off_m: f64,
    /// Up to this in that direction, pegging out and measuring explain it (95 %).
    pub explained_m: Option<f64>,
    /// It stands farther off than that.
    pub far: bool,
}

/// A guy's rope as planned and as it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct AsBuiltGuy {
    pub planned_cut_m: f64,
    pub cut_m: Estimate,
    pub planned_angle_deg: f64,
    pub angle_deg: f64,
}

/// A measured gap under a leg's tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct AsBuiltLegResult {
    pub leg: String,
    pub planned_gap_m: Estimate,
    pub gap_m: f64,
}

/// How the yard's bearings were brought to true north.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct North {
    /// Add to a bearing as read to get the true bearing.
    pub add_to_reading_deg: f64,
    pub add_to_reading_half_width_95_deg: f64,
    /// In words: from what the correction came.
    pub how: String,
}

/// What the readings say of the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GroundResult {
    pub model: GroundModelKind,
    pub slope_deg: Estimate,
    pub grade_percent: f64,
    /// True bearing in which water runs; none where the 95 % region of the slope holds level ground.
    pub fall_bearing_deg: Option<f64>,
    /// The same as a compass or baseline reading.
    pub fall_reading_deg: Option<f64>,
    /// Half-width of the 95 % interval of the fall bearing; 180 where any bearing is possible.
    pub fall_half_width_95_deg: f64,
    /// Slope components dz/dx (east) and dz/dy (north), and their covariance.
    pub gradient_east: f64,
    pub gradient_north: f64,
    pub gradient_covariance: [[f64; 2]; 2],
    pub readings: Vec<ReadingResidual>,
    /// Triangles of the surface (indices into `surface_vertices`), where the surface is used.
    pub surface_triangles: Vec<[u32; 3]>,
    pub surface_vertices: Vec<[f64; 3]>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GroundModelKind {
    /// Nothing was measured: level ground assumed, with a finding that says so.
    AssumedLevel,
    Plane,
    /// Triangles between spot heights, the plane outside them.
    Surface,
}

/// How far a reading lies from what all of them together say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ReadingResidual {
    pub id: String,
    /// Read minus computed: degrees for a slope, metres for a spot height.
    pub residual: f64,
    /// Residual in units of its own standard deviation.
    pub standardised: f64,
}

/// A point with its 95 % ellipse.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LocatedPoint {
    /// JSON pointer of the `Fix` in the job, such as `/yard/marks/1/at`.
    pub path: String,
    pub name: String,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    pub ellipse_95: Ellipse,
}

/// A point that is not placed yet: two places fit its tapes, or it hangs on such a point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct OpenPoint {
    /// JSON pointer of the `Fix` in the job.
    pub path: String,
    pub name: String,
    pub subject: Subject,
    /// The place on the left of the line between the marks, then that on the right; none where it hangs on another
    /// open point.
    pub candidates: Vec<[f64; 2]>,
}

/// A confidence ellipse.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Ellipse {
    pub semi_major_m: f64,
    pub semi_minor_m: f64,
    /// Bearing of the major axis, in [0, 180).
    pub bearing_deg: f64,
}

/// The mast.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MastResult {
    pub east_m: f64,
    pub north_m: f64,
    /// Ground under the mast's axis.
    pub ground_m: f64,
    /// Foot of the mast (lower end of the bottom tube).
    pub foot_m: f64,
    /// Top of the mast above its foot, fully raised.
    pub raised_height_m: f64,
    /// Top of the mast above its foot, all tubes run down.
    pub lowered_height_m: f64,
    /// Top above the ground at the mast, raised: the radius of the fall circle is reckoned from it.
    pub top_above_ground_m: f64,
    pub fall_radius_m: f64,
    pub mass_kg: f64,
    pub stages: Vec<Stage>,
}

/// One tube as it stands when raised.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Stage {
    pub name: String,
    pub outside_mm: f64,
    pub wall_mm: f64,
    pub bottom_height_m: f64,
    pub top_height_m: f64,
    pub mass_kg: f64,
    /// Radial gap to the tube below; negative where it does not go in. None for the bottom tube and one screwed on.
    pub radial_gap_mm: Option<f64>,
}

/// The base on the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct BaseResult {
    /// Level of the underside of the timbers.
    pub underside_m: f64,
    pub legs: Vec<LegResult>,
    /// Where the timbers touch the ground.
    pub contacts: Vec<[f64; 3]>,
    pub stakes: Vec<StakePoint>,
    pub contour: ContourTurn,
}

/// One leg of the base with what stands under its tip.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct LegResult {
    /// `front`, `right`, `back`, `left`.
    pub id: String,
    pub bearing_deg: f64,
    pub reach_m: f64,
    /// Corners of the timber in plan, in order.
    pub outline: Vec<[f64; 2]>,
    /// Middle of the tip's end face in plan.
    pub tip: [f64; 2],
    pub support: Support,
    /// Gap between the timber and the ground at the middle of the foot.
    pub gap_centre_m: Estimate,
    /// At the face towards the mast, in the middle.
    pub gap_inner_m: f64,
    /// At the face away from the mast, in the middle.
    pub gap_outer_m: f64,
    /// At the middle of the left and right sides, seen from the mast looking out along the leg.
    pub gap_left_m: f64,
    pub gap_right_m: f64,
    /// Saw bevel of the foot's lower end along the leg: the ground's rise going outwards, positive up.
    pub bevel_along_deg: f64,
    /// Saw bevel across the leg: the ground's rise going to the right, positive up.
    pub bevel_across_deg: f64,
}

/// What goes under a leg's tip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Support {
    /// It rests on the ground.
    OnGround,
    /// A gap small enough for shims.
    Shim,
    /// A cut foot.
    Foot,
}

/// Where a base stake goes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct StakePoint {
    /// Such as `front-right`.
    pub id: String,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
}

/// The turn that lays the cross leg on the contour, front leg downhill.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ContourTurn {
    pub state: ContourState,
    /// Front bearing after the turn; none unless there is one to turn to.
    pub front_bearing_deg: Option<f64>,
    /// Turn from the present front bearing, clockwise positive, in (−180, 180].
    pub turn_deg: Option<f64>,
    /// Front foot's height at its centre after the turn.
    pub foot_after_m: Option<f64>,
}

/// Whether there is a turn that levels the cross leg.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ContourState {
    /// There is: its tips then stand on one height.
    Turn,
    /// The ground under the cross leg is level at every turn, as far as it was measured.
    Level,
    /// No turn levels it: a tip comes over the edge of what was measured, where the ground has a step.
    #[default]
    NotFound,
}

/// One guy with its anchor.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct GuyResult {
    /// Level id and number, such as `upper-1`.
    pub id: String,
    pub level_id: String,
    pub name: String,
    /// Guys that are made fast to the same anchor, by their ids.
    pub shared_with: Vec<String>,
    /// Anchor on the ground.
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    /// True bearing from the mast.
    pub azimuth_deg: f64,
    /// The same as a compass or baseline reading.
    pub reading_deg: f64,
    /// Turn from the front leg, clockwise, in [0, 360).
    pub turn_from_front_deg: f64,
    pub radius_m: f64,
    /// A taut tape from the ground at the mast to the anchor: over humps, across hollows.
    pub tape_m: f64,
    /// Anchor's ground above (positive) or below the ground at the mast.
    pub height_difference_m: f64,
    /// Upper end of the rope.
    pub attach: [f64; 3],
    /// Lower end of the rope.
    pub eye: [f64; 3],
    pub chord_m: f64,
    /// Angle of the chord to the horizontal.
    pub angle_deg: f64,
    /// Unstressed rope between its two ends.
    pub unstressed_m: Estimate,
    /// Rope to cut: unstressed, with both ends' allowances.
    pub cut_m: Estimate,
    /// Largest distance of the rope below its chord, measured vertically.
    pub sag_m: f64,
    pub tension_top_n: f64,
    pub tension_bottom_n: f64,
    pub horizontal_n: f64,
    /// First sideways frequency of the taut rope, for setting its tension by ear or phone.
    pub pluck_hz: f64,
    /// 95 % ellipse of where the anchor lands when pegged out by its bearing and tape.
    pub landing_95: Ellipse,
    /// The hanging rope from eye to attachment, for drawing and clearances.
    pub rope: Vec<[f64; 3]>,
}

/// The ring of the strands' lower ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RingResult {
    pub radius_m: f64,
    pub points: Vec<[f64; 3]>,
    /// Radius of the circle at the top from which the strands hang.
    pub top_radius_m: f64,
    /// Upper end of each strand, on that circle.
    pub tops: Vec<[f64; 3]>,
    /// Straight length of each strand, from the circle at the top to the ring.
    pub strand_lengths_m: Vec<f64>,
}

/// How to find a point on the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Peg {
    pub subject: crate::finding::Subject,
    pub name: String,
    /// An anchor's guys, by their ids; none for other pegs.
    pub guys: Vec<String>,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    /// Offsets from the mast's axis: none for the mast itself.
    pub from_mast: Option<PolarTape>,
    /// Tapes from two marks; none where no pair of marks serves.
    pub ties: Option<SwingTies>,
}

/// A bearing with a tape.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PolarTape {
    pub bearing_deg: f64,
    pub reading_deg: f64,
    pub plan_m: f64,
    pub tape_m: f64,
    pub height_difference_m: f64,
}

/// Tapes from two marks that cross at the point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SwingTies {
    pub mark_a: String,
    pub plan_a_m: f64,
    pub tape_a_m: f64,
    pub mark_b: String,
    pub plan_b_m: f64,
    pub tape_b_m: f64,
    /// Which side of the line A → B, walking from A to B.
    pub side: crate::job::Side,
    /// Angle at which the tapes cross; good between 30° and 150°.
    pub crossing_deg: f64,
    pub good: bool,
    /// 95 % ellipse of the point as pegged out by these tapes.
    pub landing_95: Ellipse,
}

/// The nearest approach of a part of the work to something.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Clearance {
    pub work: crate::finding::Subject,
    pub to: crate::finding::Subject,
    /// What is compared, in words: `rope to roof`, `anchor to edge of the zone`.
    pub what: String,
    pub distance_m: f64,
    pub needed_m: f64,
    /// Where on the work and where on the other thing, for drawing.
    pub from_point: [f64; 3],
    pub to_point: [f64; 3],
}
