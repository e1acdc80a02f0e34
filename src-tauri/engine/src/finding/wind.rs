//! What the mast in still air and in the wind can be found fault with.

use serde::{Deserialize, Serialize};

/// What a part of the mast is called: a key, with the names that the user gave what it belongs to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "key", rename_all = "snake_case")]
pub enum PartName {
    Tube {
        tube: String,
    },
    TubeAtThread {
        tube: String,
    },
    TubeAtLowerPinHole {
        tube: String,
    },
    TubeAtUpperPinHole {
        tube: String,
    },
    PinBelow {
        tube: String,
    },
    CouplingBelow {
        tube: String,
    },
    /// Of a level of guys, by its name.
    CollarOf {
        guys: String,
    },
    TubeAtCollarBolt {
        tube: String,
        guys: String,
    },
    RopeOf {
        guy: String,
    },
    /// Of every guy that is made fast to it.
    AnchorOf {
        guys: Vec<String>,
    },
    StrandsAsGuys,
    TimberUnderMast,
    CrossTimberAtLap,
    FrontTimberAtLap,
    FrontAndBackTimberAtLap,
    FootOf {
        leg: String,
    },
    GroundUnderCrossLeg,
    GroundUnderJointBoard,
    BaseAgainstSliding,
    BaseAgainstTurning,
    WholeMast,
}

#[derive(Debug, Clone, PartialEq)]
pub enum WindRule {
    StandsNotInStillAir {
        lowered: bool,
        because: Collapse,
    },
    OverloadedInStillAir {
        part: PartName,
        lowered: bool,
    },
    /// The first part to be fully used, where there is one; `even_in_still_air` where nothing is left for the wind.
    LimitBelowAskedGust {
        part: Option<PartName>,
        even_in_still_air: bool,
    },
    /// A level of guys by its name.
    GuysWhenLowered {
        guys: String,
        made_fast: bool,
    },
    TerrainNotCounted {
        because: NotCounted,
    },
    TubeYieldAssumed,
    /// The mast can't be made a structure of. The error's own words, which name the part by its number.
    LimitNotFound {
        error: String,
    },
}

/// Why a mast does not stand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Collapse {
    /// It gives way and leans further than half a radian (29°).
    LeansAway,
    /// In balance, but the least push makes it give way.
    Buckles,
    /// The search for an equilibrium did not end.
    NotSettled,
}

/// Why houses or wood all round count for nothing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotCounted {
    ShortFetch,
    LocalGust,
}

impl WindRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::StandsNotInStillAir { .. } => "stands_not_in_still_air",
            Self::OverloadedInStillAir { .. } => "overloaded_in_still_air",
            Self::LimitBelowAskedGust { .. } => "limit_below_asked_gust",
            Self::GuysWhenLowered { .. } => "guys_when_lowered",
            Self::TerrainNotCounted { .. } => "terrain_not_counted",
            Self::TubeYieldAssumed => "tube_yield_assumed",
            Self::LimitNotFound { .. } => "limit_not_found",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WindRemedy {
    AnchorsAllRound,
    RelieveGround,
    RelieveBaseTimber,
    RelieveFootTimber,
    RelievePart,
    ChangeOrLower,
    StandsWithWhenToAct,
    MakeThemFastAgain,
    SayHowFar,
    SayIfForOpenCountry,
    EnterYield,
    PutRightWhatIsNamed,
}
