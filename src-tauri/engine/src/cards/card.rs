//! A step card: one thing to do, as data. Its sentences are made by `report/words/cards.rs`.

use serde::{Deserialize, Serialize};

use crate::lifting::hands::TeamAtMast;

use super::state::{NeedWhy, YardState};

/// A part of the day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CardPhase {
    Base,
    Raise,
    Crank,
    Lights,
    /// The tubes are run down.
    Lower,
    LayDown,
}

impl CardPhase {
    pub const ALL: [Self; 6] =
        [Self::Base, Self::Raise, Self::Crank, Self::Lights, Self::Lower, Self::LayDown];
}

/// The one thing to do.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "card", rename_all = "snake_case")]
pub enum CardKind {
    LayBase,
    StandBareTube,
    MeasureFoot,
    LayBareTube,
    SetFoot {
        leg: String,
    },
    LevelBase,
    StakeBase,
    TellEverybody,
    ClearTheWay,
    TestStrands,
    PinTubes,
    LayMast,
    TieStrandsAlong,
    HoldEdge,
    SetSideGuys,
    SetStopGuys,
    TakeRopes,
    WalkUp,
    /// The line over its prop is rigged.
    RigLine,
    /// The other way up.
    PullUp,
    SetFarGuys,
    LetGoEdge,
    PlumbMast,
    FreeStrands,
    HangStrands,
    GiveRope {
        tube: String,
    },
    PinRod {
        tube: String,
        pull: u32,
        pulls: Option<u32>,
    },
    ClearBeneath {
        tube: String,
        pull: u32,
        pulls: Option<u32>,
    },
    CrankTube {
        tube: String,
        pull: u32,
        pulls: Option<u32>,
    },
    SetPin {
        tube: String,
        last: bool,
    },
    LowerOntoPin {
        tube: String,
        last: bool,
    },
    SecondPin {
        tube: String,
    },
    MakeFastAgain {
        tube: String,
    },
    PlumbAgain,
    LayRing,
    HoldRing,
    TieLowerEnds,
    SetStrands,
    LayLead,
    SwitchOn,
    PowerOff,
    LoosenStrands,
    UntieToLower {
        tube: String,
    },
    SecondPinOut {
        tube: String,
    },
    TakeLoad {
        tube: String,
        pull: u32,
        pulls: Option<u32>,
    },
    DrawPin {
        tube: String,
    },
    LetDownByCrank {
        tube: String,
        pull: u32,
        pulls: Option<u32>,
    },
    HandBack {
        tube: String,
        onto_stool: bool,
    },
    MakeFastLower {
        tube: String,
    },
    TakeStrandsOff,
    DrawBaseStakes,
    TakeMast,
    FreeFarGuys,
    LetMastDown,
}

/// What a number is.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum CardValue {
    Length {
        value_m: f64,
        half_width_95_m: Option<f64>,
    },
    Force {
        value_n: f64,
    },
    Mass {
        value_kg: f64,
    },
    Angle {
        value_deg: f64,
    },
    Bearing {
        value_deg: f64,
    },
    Turns {
        value: f64,
    },
    Count {
        value: u32,
    },
    /// A gust.
    Gust {
        value_m_per_s: f64,
    },
    Minutes {
        value: f64,
    },
    Amps {
        value_amps: f64,
    },
    /// Of what may be, in hundredths.
    Percent {
        value: f64,
    },
}

/// What a card's number is a number of.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "of", rename_all = "snake_case")]
pub enum NumberOf {
    FrontLegBearing,
    BareTubeWeight,
    GapUnder {
        leg: String,
    },
    Stakes,
    LiesToward,
    LyingAngle,
    CorridorReach,
    PeopleNeeded,
    Strands,
    TubesToPin,
    EyeToCollar {
        guy: String,
    },
    SlackAtMost,
    RopesToTend,
    ForceAtHands,
    HardestAt,
    WholeWeight,
    LeansAtMost,
    LongestStrand,
    GuyGives {
        tube: String,
    },
    RodPinHeight,
    PullRises,
    MarkStopsAt,
    CrankTurns,
    CrankHand,
    OnTheStrap,
    PinHeight,
    SecondPinHeight,
    PlatformFloor,
    WeightOnPin,
    RingRadius,
    RingTies,
    TiePull,
    BetweenTies,
    StrandTension,
    Current,
    BreakerAtLeast,
    LeadLength,
    LeadOnGround,
    TripPoints,
    VoltageKept,
    LeadOnMast,
    PlugsAtLead,
    StrandsLit,
    /// Of the strands, before the last tube goes up: of the one that needs least, and of the one that needs most.
    StrandSlackLeast,
    StrandSlackMost,
    StrandsStraightBelow,
    StrandPullsLeast,
    StrandPullsMost,
    /// Round the ring from the first tie.
    TieAt {
        strand: u32,
    },
    GustToRaiseIn,
    GustToCrankIn,
    KickOut,
    HeldAtHinge,
    HingeLifted,
    GroundAlong,
    GroundAcross,
    OnLevelGround,
    TubeBends {
        tube: String,
    },
    MouthPresses,
    LinePull,
    PropHeight,
    PropBehind,
    LineAnchor,
    PropPressed,
    PropPushed,
    GuyTakesIn {
        tube: String,
    },
    PullComesDown,
    FarGuys,
    RehearsedMinutes,
    RehearsedPeople,
}

/// What has to be entered or measured before a number is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CardMissing {
    Ground,
    HowItTurnsUp,
    CordWeight,
    RodAndWinch,
    CrankAndDrum,
    RingSupports,
    StrandLabel,
    /// What stands on the breaker, and what else runs on it.
    CircuitLabel,
    /// Where the outlet is, how high, and where the strands are plugged in.
    LeadWay,
    /// How thick the cord's wires are, what it weighs.
    CordLabel,
    /// What may be plugged one behind the other, and what is.
    EndToEnd,
    StrandStretch,
    /// What the soil is, or stakes that are shown to hold in it.
    StakesInSoil,
    /// What a tube bears.
    TubeStrength,
    CordThickness,
    HangingStrands,
    RopesAndAnchors,
    NothingHolds,
    PartsInWind,
    StrapLabel,
    Rehearsal,
}

/// A number, or what is missing for it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CardNumber {
    pub what: NumberOf,
    /// None where it is not known yet.
    pub value: Option<CardValue>,
    pub missing: Option<CardMissing>,
}

impl CardNumber {
    pub fn known(what: NumberOf, value: CardValue) -> Self {
        Self { what, value: Some(value), missing: None }
    }

    pub fn missing(what: NumberOf, missing: CardMissing) -> Self {
        Self { what, value: None, missing: Some(missing) }
    }

    /// Known, or what is missing for it.
    pub fn or(what: NumberOf, value: Option<CardValue>, missing: CardMissing) -> Self {
        match value {
            Some(value) => Self::known(what, value),
            None => Self::missing(what, missing),
        }
    }
}

/// Where somebody stands.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "place", rename_all = "snake_case")]
pub enum StandPlace {
    AtTheBase,
    /// In view of everybody, out of reach of what falls.
    Caller,
    /// Beside the lying mast, both sides, never astride it and never under it.
    BesideTheMast,
    /// In the line behind its prop, gloves on, no rope round a hand.
    AtTheLine,
    /// Beside the hinge, not before it.
    BesideTheHinge,
    AtAnchor {
        guy: String,
    },
    /// At the side of the winch, out of the crank's circle.
    AtTheCrank,
    /// From the ground, at the side.
    AtThePinFromTheGround,
    /// On a platform that stands by itself, or with a pole from the ground.
    AtThePinFromAPlatform {
        floor_m: f64,
    },
    OnTheRing,
    AtTheOutlet,
    /// Everybody else.
    OutsideTheFall {
        radius_m: f64,
    },
}

/// Somebody, and where.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CardStand {
    /// None where nobody knows how many it takes.
    pub people: Option<u32>,
    pub place: StandPlace,
    /// Where they step when somebody calls stop and it comes down; none where they are out of its way.
    pub escape: Option<CardEscape>,
}

/// To which side somebody gets out of the way.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "escape", rename_all = "snake_case")]
pub enum CardEscape {
    /// Along a true bearing.
    Toward { bearing_deg: f64 },
    /// Each to the own side of the mast, seen from its foot towards its lying top.
    OwnSide { left_deg: f64, right_deg: f64 },
    /// Straight away from a mast that stands, not along a rope.
    FromTheMast,
}

impl CardStand {
    pub fn of(people: u32, place: StandPlace) -> Self {
        Self { people: Some(people), place, escape: None }
    }
}

/// What can hurt meanwhile.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CardCaution {
    /// Backs, fingers, timber.
    Heavy,
    BuriedServices,
    /// Wires overhead, and what falls.
    Falls,
    /// A foot that kicks out, a hinge.
    KicksOut,
    RopesRun,
    /// Strap, hook, crank.
    StrapAndCrank,
    /// Fingers in holes, heights.
    PinAndHeight,
    Electric,
}

/// When to stop at once.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StopRule {
    /// It rocks, or a foot sinks.
    Rocks,
    /// The spade or the stake meets something.
    StakeMeetsSomething,
    AnybodyCallsStop,
    /// A side guy goes taut, the top leaves its line, the hinge lifts, a gust comes.
    LeavesItsLine,
    /// A rope will not hold, an anchor moves.
    AnchorMoves,
    /// The crank goes harder than it should, or a tube sticks.
    TightSpot,
    /// The pin does not go through by hand.
    PinWillNotGo,
    /// A strand catches.
    StrandCatches,
    /// The breaker trips, a plug is wet or warm.
    Trips,
}

/// A state that has to hold before a card comes, and why.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CardNeed {
    #[serde(flatten)]
    pub state: YardState,
    pub why: NeedWhy,
}

/// Something to know at a card that is no number.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "says", rename_all = "snake_case")]
pub enum CardSays {
    /// From which angle of the mast on a guy that is made fast holds it; all the way where that is as it lies.
    GuyHolds { guy: String, side: bool, from_deg: f64, all_the_way: bool },
    /// What has to run freely while a tube goes up: what it takes along, and guys that stay slack in somebody's hands. Others stay fast.
    RunsFreely { tube: String, strands: bool, slack: Vec<String>, fast: Vec<String> },
}

/// The forces of the way up, beside the card that raises it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CardForces {
    /// They are in the line over its prop, not at the hands.
    pub by_line: bool,
    /// Lying, every 5° above that, where it is hardest, and plumb.
    pub angles: Vec<CardForceAt>,
    /// One to four people at the mast where it is hardest; nobody where a line raises it.
    pub teams: Vec<TeamAtMast>,
}

/// The mast at one angle of its way up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct CardForceAt {
    /// Of the mast to the level: 90 is plumb.
    pub elevation_deg: f64,
    /// At the hands, square to the tube; or in the line.
    pub force_n: f64,
    /// Its part straight up.
    pub up_n: f64,
    /// From the hinge along the mast to the hands, or to where the line is tied.
    pub at_m: f64,
    /// Level push of the foot, away from those who raise it.
    pub kick_out_n: f64,
    /// It is nowhere harder.
    pub hardest: bool,
}

/// A step card.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Card {
    /// What it is called where it is ticked off, such as `raise:walk-up`.
    pub key: String,
    pub phase: CardPhase,
    #[serde(flatten)]
    pub kind: CardKind,
    pub number: CardNumber,
    /// Further numbers, less large.
    pub more: Vec<CardNumber>,
    pub says: Vec<CardSays>,
    pub stands: Vec<CardStand>,
    /// The stage of the cranking that it belongs to, counted from 0.
    pub stage: Option<u32>,
    pub caution: CardCaution,
    pub stop_rule: StopRule,
    pub needs: Vec<CardNeed>,
    /// States that it brings about, and those that it ends.
    pub gives: Vec<YardState>,
    pub takes: Vec<YardState>,
}

impl Card {
    pub fn may_come(&self, holds: &std::collections::BTreeSet<YardState>) -> bool {
        self.needs.iter().all(|need| holds.contains(&need.state))
    }
}
