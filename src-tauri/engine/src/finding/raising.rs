//! What stands in the way of turning the mast up, and what of it nobody has said.

use serde::{Deserialize, Serialize};

use super::yard::{Nearness, Thing};
use super::{Clear, Rule};

#[derive(Debug, Clone, PartialEq)]
pub enum RaisingRule {
    /// What the raised mast keeps and the one that is run down does not.
    WhenRunDown {
        rule: Box<Rule>,
    },
    /// Nothing is assumed of these: what hangs on them is not known.
    NotSaid {
        open: Vec<RaisingQuestion>,
    },
    /// Nobody knows how thick what is tied along the mast is.
    StrandThicknessUnknown,
    /// A turning part and a thing by its name.
    SweepNear {
        part: SweptPart,
        thing: Thing,
        name: String,
        how: Nearness,
        /// Angle of the mast to the level where it comes nearest.
        at_deg: f64,
    },
    SweepNearLine {
        part: SweptPart,
        line: String,
        in_doubt: bool,
        at_deg: f64,
    },
    /// A rope or strands that are fast at their upper end only can swing into the danger distance of a line on the way.
    LooseEndNearLine {
        part: SweptPart,
        line: String,
        at_deg: f64,
    },
    /// What nobody holds at its lower end trails on the ground; things within its reach by their names, the one that lies
    /// farthest within first.
    TrailsOnGround {
        what: Vec<SweptPart>,
        within: Vec<String>,
    },
    /// The slack rope of a guy lies over a thing, or catches on it; both by their names.
    SlackRopeOver {
        guy: String,
        thing: Thing,
        name: String,
        /// Where the taut rope comes nearest; none where only the slack one lies over it.
        at_deg: Option<f64>,
    },
    /// A thing stands where the mast is walked up.
    CorridorBlocked {
        thing: Thing,
        name: String,
    },
    /// Ground to keep off, or a way, where the mast lies or is walked up.
    CorridorOn {
        thing: Thing,
        name: String,
    },
    CorridorOverBoundary {
        mast_too: bool,
    },
    /// The base has a leg on the side on which the mast would lie.
    BackLegInTheWay,
    /// The base does not tilt along the bearing that was said.
    BaseFacesElsewhere {
        turn_deg: f64,
    },
    HingeUnheld {
        because: Unheld,
    },
    /// A temporary stake of the edge has no place because of a thing or a buried service.
    StakeHasNoPlace {
        name: String,
        in_doubt: bool,
    },
    NoStopGuy,
    /// Nothing keeps the mast from going over past plumb when it comes up.
    StopGuyNotFast {
        guy: String,
    },
    StopGuysNotSetBefore,
    SideGuysNotSetBefore,
    /// A guy is made fast that is too short until plumb.
    TooShortUntilPlumb {
        guy: String,
    },
    /// Far guys are made fast before the mast is walked up.
    FarGuysSetBefore,
    SideNotHeld {
        on_right: bool,
    },
    /// Somebody has to stand at this rope.
    Tended {
        guy: String,
    },
    StepMissing {
        step: MissingStep,
    },
    /// An id that no guy has.
    NoSuchGuy {
        id: String,
    },
}

/// A part that turns with the mast.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "part", rename_all = "snake_case")]
pub enum SweptPart {
    /// The tubes, with what is tied along them.
    Mast,
    Topper,
    FrontLeg,
    CrossLeg,
    /// The rope of a guy that is made fast or tended meanwhile, by the guy's name.
    Rope {
        guy: String,
    },
    /// The strands where they hang from the mast.
    Strands,
    /// The rope of a guy that is fast at its collar only, or in a helper's hands, by the guy's name.
    LooseRope {
        guy: String,
    },
}

/// What of the turning up may be left open.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RaisingQuestion {
    Hinge,
    Bearing,
    Tubes,
    Strands,
    FastBefore,
}

/// Why the hinge would come loose.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unheld {
    /// No stakes hold the base that carries the pin.
    NoStakes,
    /// The order does not hold it at all.
    Never,
    /// It is held only after the mast is walked up.
    TooLate,
    /// It is let go before all guys are fast.
    LetGoTooEarly,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MissingStep {
    WalkUp,
    SetFarGuys,
}

impl RaisingRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::WhenRunDown { .. } => "rope_near_when_run_down",
            Self::NotSaid { .. } => "raising_not_said",
            Self::StrandThicknessUnknown => "raising_strand_thickness_unknown",
            Self::SweepNear { part: SweptPart::Rope { .. }, .. } => "slack_rope_near_thing",
            Self::SweepNear { thing, .. } => match thing {
                Thing::Tree => "tilt_near_tree",
                Thing::Building => "tilt_near_building",
                Thing::Barrier => "tilt_near_barrier",
                Thing::Post => "tilt_near_post",
                Thing::Path => "tilt_near_path",
                Thing::KeepOff => "tilt_near_keep_off",
            },
            Self::SweepNearLine { part: SweptPart::Rope { .. }, .. } => "slack_rope_near_overhead_line",
            Self::SweepNearLine { .. } => "tilt_near_overhead_line",
            Self::LooseEndNearLine { .. } => "loose_end_near_overhead_line",
            Self::TrailsOnGround { .. } => "loose_end_on_ground",
            Self::SlackRopeOver { .. } => "slack_rope_over_thing",
            Self::CorridorBlocked { .. } => "lay_down_blocked",
            Self::CorridorOn { .. } => "lay_down_on_ground_to_keep_off",
            Self::CorridorOverBoundary { .. } => "lay_down_over_boundary",
            Self::BackLegInTheWay => "back_leg_in_the_way",
            Self::BaseFacesElsewhere { .. } => "base_faces_elsewhere",
            Self::HingeUnheld { .. } => "hinge_unheld",
            Self::StakeHasNoPlace { .. } => "edge_stake_has_no_place",
            Self::NoStopGuy => "no_stop_guy",
            Self::StopGuyNotFast { .. } => "stop_guy_not_fast",
            Self::StopGuysNotSetBefore => "stop_guys_not_set_before",
            Self::SideGuysNotSetBefore => "side_guys_not_set_before",
            Self::TooShortUntilPlumb { .. } => "guy_too_short_until_plumb",
            Self::FarGuysSetBefore => "far_guys_set_before",
            Self::SideNotHeld { .. } => "side_not_held",
            Self::Tended { .. } => "guy_to_be_tended",
            Self::StepMissing { .. } => "raising_step_missing",
            Self::NoSuchGuy { .. } => "raising_no_such_guy",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RaisingRemedy {
    SayHowItTurnsUp,
    EnterTheStrandsThickness,
    /// Lay it along another bearing, or move the mast.
    LayElsewhere {
        clear: Clear,
    },
    KeepAwayFromTheLine {
        by_m: f64,
    },
    /// Nobody lets a loose end go.
    KeepHoldOfIt,
    /// Before anybody lifts, so that nothing trails.
    CoilAndTie,
    /// Somebody lifts the rope over, or it is made fast only once the mast stands.
    LiftTheRope,
    ClearTheGround,
    CloseTheWay,
    LayWithinTheBoundary,
    TakeOffTheBackLeg,
    TurnTheBase {
        front_bearing_deg: f64,
    },
    StakeTheBase,
    HoldFirst,
    LetGoLast,
    MoveTheStake,
    AnchorOnTheLyingSide,
    MakeFastBefore,
    UntieUntilPlumb,
    SetALine,
    PutAHelper,
    AddTheStep,
    NameAGuy,
}
