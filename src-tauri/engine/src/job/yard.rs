//! The yard as it was measured.

use crate::numerics::real::hypot;
use crate::pointer;
use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

/// Everything measured in the yard, as read; nothing derived is kept here.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Yard {
    /// Where on Earth, for the magnetic declination.
    #[serde(default)]
    pub place: Option<Place>,
    /// When the compass readings were taken, with the zone.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub surveyed_at: Option<DateTime<FixedOffset>>,
    /// What every bearing in this yard was read from.
    pub bearings: BearingReference,
    /// How tapes were held.
    #[serde(default)]
    pub tape_held: TapeHeld,
    /// How good the instruments are; each is a standard uncertainty (one sigma).
    #[serde(default)]
    pub instruments: Instruments,
    /// Control marks that can be found again; the first one is the origin.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 500)))]
    pub marks: Vec<Mark>,
    /// Measurements between marks beyond those that first fixed them.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 5000)))]
    pub measurements: Vec<Measurement>,
    /// Slopes read along bearings.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 5000)))]
    pub slopes: Vec<SlopeReading>,
    /// Ground heights at points.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200000)))]
    pub spot_heights: Vec<SpotHeight>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 2000)))]
    pub obstacles: Vec<Obstacle>,
    /// The outline that the work must stay within.
    #[serde(default)]
    pub boundary: Option<Boundary>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub overhead_lines: Vec<OverheadLine>,
    /// Whether somebody looked for further wires.
    #[serde(default)]
    pub overhead: super::Overhead,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub buried_services: Vec<BuriedService>,
    /// What the utilities say of further ones.
    #[serde(default)]
    pub underground: super::Underground,
    /// When anything is first driven into the ground.
    #[serde(default)]
    pub digging: super::Digging,
    /// The soil under the turf, where base and anchors go.
    #[serde(default)]
    pub soil: super::SoilFeel,
    /// Whether the soil may get wetter than it was when it was felt and the anchors were set, which lowers what it
    /// holds; none: clay, garden soil and soft ground may, others do not.
    #[serde(default)]
    pub wet_season: Option<bool>,
}

/// A place on Earth, WGS 84.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Place {
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = -90, max = 90)))]
    pub latitude_deg: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = -180, max = 180)))]
    pub longitude_deg: f64,
    /// Height above the ellipsoid; sea level is near enough for a compass.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = -500, max = 9000)))]
    pub altitude_m: f64,
}

/// What the yard's bearings were read from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum BearingReference {
    /// A compass: magnetic north, brought to true north by the World Magnetic Model for the place and date,
    /// or by a declination that the user knows better (east positive).
    Magnetic {
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = -180, max = 180)))]
        declination_deg: Option<f64>,
    },
    /// True north.
    True,
    /// A line between two marks, such as a wall: bearings are read clockwise from the direction `from` → `to`,
    /// whose own true bearing is `bearing_deg` (0 if nobody knows: the map is then turned, nothing else).
    Baseline {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        to: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
        bearing_deg: f64,
    },
}

/// How a tape was held.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TapeHeld {
    /// Laid along the ground; reduced to the horizontal by the slope.
    #[default]
    AlongGround,
    /// Held level (breaking tape), already horizontal.
    Level,
}

/// Standard uncertainties (one sigma) of the instruments, used where a reading states none of its own.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Instruments {
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 20)))]
    pub slope_sigma_deg: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 45)))]
    pub bearing_sigma_deg: f64,
    /// Part of a tape's uncertainty that does not grow with its length.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.0001, max = 1)))]
    pub tape_sigma_m: f64,
    /// Part of a tape's uncertainty that grows with its length, in millimetres a metre.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 50)))]
    pub tape_sigma_mm_per_m: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.0001, max = 5)))]
    pub spot_height_sigma_m: f64,
    /// A point dragged or sketched on the map.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 10)))]
    pub sketched_sigma_m: f64,
    /// A right angle: set off from a line, or the corner of a building taken as square.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 20)))]
    pub square_sigma_deg: f64,
}

impl Instruments {
    /// Standard uncertainty of one reading of a tape: its two parts are independent (GUM 5.1.2).
    pub fn tape_sigma_of_m(&self, tape_m: f64) -> f64 {
        hypot(self.tape_sigma_m, self.tape_sigma_mm_per_m / 1000.0 * tape_m)
    }
}

impl Default for Instruments {
    fn default() -> Self {
        Self {
            // Phone tilt after a reversal pair, 0.2–0.5°: from memory.
            slope_sigma_deg: 0.3,
            // Phone azimuth after calibration, RMSE mostly ≤ 2°: Lviv Polytechnic study, lpnu2017 in references.bib.
            bearing_sigma_deg: 2.0,
            // Tape read to about a centimetre on grass: common practice.
            tape_sigma_m: 0.01,
            tape_sigma_mm_per_m: 1.0,
            // String level or water level: common practice.
            spot_height_sigma_m: 0.01,
            // A finger on the map: common practice.
            sketched_sigma_m: 0.25,
            // A right angle by a carpenter's square or 3-4-5, and houses as they are built: common practice.
            square_sigma_deg: 1.0,
        }
    }
}

/// How a point was found.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "by", rename_all = "snake_case", deny_unknown_fields)]
pub enum PointFix {
    /// The origin of the site frame; only for the first mark.
    Origin,
    /// Coordinates in the site frame, as when dragged on the map.
    Coordinates {
        #[cfg_attr(feature = "typegen", schemars(range(min = -2000, max = 2000)))]
        east_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = -2000, max = 2000)))]
        north_m: f64,
    },
    /// A bearing and a tape from a mark.
    BearingTape {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        /// As read, in the yard's bearing reference.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
        bearing_deg: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_m: f64,
    },
    /// Tapes from two marks. Two points fit; `side` says which, as seen walking from `from_a` to `from_b`. Without it
    /// the point is left open and asked about.
    TwoTapes {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from_a: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_a_m: f64,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from_b: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_b_m: f64,
        #[serde(default)]
        side: Option<Side>,
    },
    /// Tapes from three marks that do not lie in one line: one more than needed, which checks the others.
    ThreeTapes {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from_a: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_a_m: f64,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from_b: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_b_m: f64,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from_c: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_c_m: f64,
    },
    /// Along the line from one mark towards another, then square off it to a side.
    Offset {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        toward: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        along_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        off_m: f64,
        side: Side,
    },
    /// A bearing and a tape held straight through the air, with the angle that it rises or falls by.
    SlopeTape {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        /// As read, in the yard's bearing reference.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
        bearing_deg: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_m: f64,
        /// Positive where the tape rises from the mark.
        #[cfg_attr(feature = "typegen", schemars(extend("exclusiveMinimum" = -60, "exclusiveMaximum" = 60)))]
        vertical_deg: f64,
    },
    /// The next corner of a wall: coming along the wall from the corner before the last, turned to a side at the last
    /// corner, then a tape along the next wall. Only in an outline or a line, after two corners.
    NextCorner {
        turn: Side,
        /// How much the way turns: 90° at a square corner.
        #[serde(default = "square_deg")]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 180)))]
        turn_deg: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_m: f64,
    },
}

impl Yard {
    /// Every outline and line, each with its JSON pointer: points that follow one another.
    pub fn chains(&self) -> Vec<(String, &[PointFix])> {
        let mut chains: Vec<(String, &[PointFix])> = Vec::new();
        for (i, obstacle) in self.obstacles.iter().enumerate() {
            let (part, points) = obstacle.shape.points();
            if part != "at" {
                chains.push((format!("{}/{part}", pointer!(yard.obstacles[i].shape)), points));
            }
        }
        chains.extend(
            self.boundary.iter().map(|b| (pointer!(yard.boundary?.outline).to_owned(), &b.outline[..])),
        );
        for (i, service) in self.buried_services.iter().enumerate() {
            chains.push((pointer!(yard.buried_services[i].line), &service.line));
        }
        chains
    }
}

impl Shape {
    /// The points that it is fixed by, and the name of their field: one point `at`, or those of an outline or a line.
    pub fn points(&self) -> (&'static str, &[PointFix]) {
        match self {
            Shape::Tree { at, .. } | Shape::Post { at, .. } => ("at", std::slice::from_ref(at)),
            Shape::Building { outline, .. } | Shape::KeepOff { outline } => ("outline", outline),
            Shape::Barrier { line, .. } | Shape::Path { line, .. } => ("line", line),
        }
    }
}

fn square_deg() -> f64 {
    90.0
}

impl PointFix {
    /// The marks that it starts from, each with the name of its field.
    pub fn starts(&self) -> Vec<(&'static str, &str)> {
        match self {
            PointFix::Origin | PointFix::Coordinates { .. } | PointFix::NextCorner { .. } => vec![],
            PointFix::BearingTape { from, .. } | PointFix::SlopeTape { from, .. } => vec![("from", from)],
            PointFix::TwoTapes { from_a, from_b, .. } => vec![("from_a", from_a), ("from_b", from_b)],
            PointFix::ThreeTapes { from_a, from_b, from_c, .. } => {
                vec![("from_a", from_a), ("from_b", from_b), ("from_c", from_c)]
            }
            PointFix::Offset { from, toward, .. } => vec![("from", from), ("toward", toward)],
        }
    }

    /// Whether it was measured from marks: neither sketched nor found along a wall.
    pub fn is_from_marks(&self) -> bool {
        !self.starts().is_empty()
    }
}

/// A side of a line, seen walking along it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Side {
    Left,
    Right,
}

/// A control mark: a nail, a corner, a stake that can be found again.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// Short and unique, such as `A`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    pub at: PointFix,
}

/// A further measurement between two marks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Measurement {
    Tape {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        id: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        to: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        tape_m: f64,
        /// Struck out: kept and shown, but not used.
        #[serde(default)]
        struck: bool,
    },
    Bearing {
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        id: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        from: String,
        #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
        to: String,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
        bearing_deg: f64,
        #[serde(default)]
        struck: bool,
    },
}

/// A slope read along a bearing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SlopeReading {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    /// The way the phone or level pointed, as read, in the yard's bearing reference.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 360)))]
    pub bearing_deg: f64,
    /// Positive where the ground rises that way.
    #[cfg_attr(feature = "typegen", schemars(extend("exclusiveMinimum" = -60, "exclusiveMaximum" = 60)))]
    pub slope_deg: f64,
    /// One sigma, where better known than the instrument's.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 20)))]
    pub sigma_deg: Option<f64>,
    /// Struck out: kept and shown, but not used.
    #[serde(default)]
    pub struck: bool,
}

/// A ground height at a point, above the ground at the origin mark.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SpotHeight {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    pub at: PointFix,
    #[cfg_attr(feature = "typegen", schemars(range(min = -500, max = 500)))]
    pub height_m: f64,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.0001, max = 5)))]
    pub sigma_m: Option<f64>,
    #[serde(default)]
    pub struck: bool,
}

/// Something that stands in the yard or that the work must keep off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Obstacle {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    pub shape: Shape,
    /// How far the work keeps from it, where not the habit of its kind.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
    pub keep_off_m: Option<f64>,
    /// Leave to make a guy fast to it; none where nobody has given it.
    #[serde(default)]
    pub guy_fixing: Option<GuyFixing>,
}

/// Leave to make a guy fast to a wall, a building, a post or a tree, as whoever answers for it has given it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct GuyFixing {
    /// Where the rope ends there, above the ground beneath.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
    pub height_m: f64,
    /// What all guys on it may pull together in use, by whoever answers for it; none where nobody has said it: then nothing
    /// shows that it holds.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 200000)))]
    pub holds_n: Option<f64>,
}

/// The shape of an obstacle; heights are above the ground it stands on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Shape {
    Tree {
        at: PointFix,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 5)))]
        trunk_radius_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 30)))]
        crown_radius_m: f64,
        /// Height of the lowest branches.
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
        crown_base_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 120)))]
        height_m: f64,
        /// One sigma of its height, where it was sighted; a height that was typed counts as it stands.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        height_sigma_m: Option<f64>,
    },
    Building {
        #[cfg_attr(feature = "typegen", schemars(length(min = 3, max = 200)))]
        outline: Vec<PointFix>,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 200)))]
        height_m: f64,
        /// One sigma of its height, where it was sighted; a height that was typed counts as it stands.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        height_sigma_m: Option<f64>,
    },
    /// A wall, fence or hedge along a line.
    Barrier {
        what: BarrierKind,
        #[cfg_attr(feature = "typegen", schemars(length(min = 2, max = 200)))]
        line: Vec<PointFix>,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        thickness_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 50)))]
        height_m: f64,
        /// One sigma of its height, where it was sighted; a height that was typed counts as it stands.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        height_sigma_m: Option<f64>,
    },
    /// A lamp post, a flagpole, a play frame's leg.
    Post {
        at: PointFix,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 10)))]
        radius_m: f64,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100)))]
        height_m: f64,
        /// One sigma of its height, where it was sighted; a height that was typed counts as it stands.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        height_sigma_m: Option<f64>,
    },
    /// A way that people or vehicles use; guys may cross it only with headroom.
    Path {
        used_by: PathUse,
        #[cfg_attr(feature = "typegen", schemars(length(min = 2, max = 200)))]
        line: Vec<PointFix>,
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 50)))]
        width_m: f64,
        /// Where not the habit of its use.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
        headroom_m: Option<f64>,
    },
    /// Ground to stay off: a pond, a flower bed, a septic field.
    KeepOff {
        #[cfg_attr(feature = "typegen", schemars(length(min = 3, max = 200)))]
        outline: Vec<PointFix>,
    },
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BarrierKind {
    Wall,
    Fence,
    Hedge,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PathUse {
    Foot,
    Vehicles,
}

/// The outline that the work must stay within.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Boundary {
    #[cfg_attr(feature = "typegen", schemars(length(min = 3, max = 200)))]
    pub outline: Vec<PointFix>,
}

/// A line overhead. Its height is estimated from the ground: never measure it by touching.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct OverheadLine {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    /// Nominal voltage; null where nobody has asked the utility.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1500)))]
    pub voltage_kv: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(length(min = 2, max = 100)))]
    pub supports: Vec<LineSupport>,
    /// How far the lowest wire hangs below the straight line between two supports, at mid-span.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 50)))]
    pub sag_m: f64,
    /// One sigma of the heights, as they were estimated from the ground.
    #[serde(default = "guessed_height_sigma_m")]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
    pub height_sigma_m: f64,
}

fn guessed_height_sigma_m() -> f64 {
    0.5 // an estimate by eye and two angles: common practice
}

/// A pole or bracket that carries an overhead line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LineSupport {
    pub at: PointFix,
    /// Height of the lowest wire above the ground at this support.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 150)))]
    pub wire_height_m: f64,
}

/// A pipe or cable underground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct BuriedService {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    pub carries: ServiceKind,
    /// Who says that it lies there.
    pub located: Located,
    #[cfg_attr(feature = "typegen", schemars(length(min = 2, max = 200)))]
    pub line: Vec<PointFix>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 5)))]
    pub width_m: f64,
    /// Distance to keep on each side of its edge, where local rules say other than the habit.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20)))]
    pub tolerance_m: Option<f64>,
}

/// What a buried service carries (classes of the APWA uniform colour code).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ServiceKind {
    Electric,
    GasOilSteam,
    Communications,
    PotableWater,
    SewerDrain,
    ReclaimedWater,
    Unknown,
}

/// How a buried service's line is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Located {
    /// Marked on the ground by the utility's locator.
    MarkedByUtility,
    /// Seen in an open trench.
    Exposed,
    /// Remembered, from an old plan, or guessed.
    Guessed,
}

impl Shape {
    /// One sigma of the height of what stands up, as it was sighted; 0 where it was not.
    pub fn height_sigma_m(&self) -> f64 {
        match self {
            Shape::Tree { height_sigma_m, .. }
            | Shape::Building { height_sigma_m, .. }
            | Shape::Barrier { height_sigma_m, .. }
            | Shape::Post { height_sigma_m, .. } => height_sigma_m.unwrap_or(0.0),
            Shape::Path { .. } | Shape::KeepOff { .. } => 0.0,
        }
    }
}
