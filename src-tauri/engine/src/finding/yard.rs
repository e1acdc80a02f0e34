//! What comes too near to the things of the yard, and to its boundary.

use serde::{Deserialize, Serialize};

use super::Clear;

#[derive(Debug, Clone, PartialEq)]
pub enum YardRule {
    /// A part of the work and a thing by its name.
    Near {
        part: WorkPart,
        thing: Thing,
        name: String,
        how: Nearness,
    },
    /// Strands end in ground to keep off, by its name.
    RingInKeepOff {
        name: String,
    },
    FallReaches {
        thing: Thing,
        name: String,
    },
    /// A rope or strand over a way by its name.
    PathHeadroom {
        part: WorkPart,
        name: String,
        vehicles: bool,
        in_doubt: bool,
    },
    BoundaryNotGiven,
    OverBoundary {
        part: OverBoundary,
        in_doubt: bool,
    },
    FallReachesOverBoundary,
}

/// A part of the work.
#[derive(Debug, Clone, PartialEq)]
pub enum WorkPart {
    /// The rope of a guy, by the guy's name.
    Rope(String),
    Mast,
    Strand,
    /// The cone of strands where no strand is: between two neighbours.
    Cone,
    Base,
    Peg(PegName),
}

/// What is driven into the ground.
#[derive(Debug, Clone, PartialEq)]
pub struct PegName {
    pub kind: PegKind,
    /// Of a stake its own, of an anchor that of its guy.
    pub name: String,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PegKind {
    Anchor,
    Stake,
}

impl PegKind {
    pub const ALL: [PegKind; 2] = [PegKind::Anchor, PegKind::Stake];
}

/// A kind of thing in the yard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Thing {
    Tree,
    Building,
    Barrier,
    Post,
    Path,
    KeepOff,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nearness {
    /// It runs into it or stands in it.
    Inside,
    TooNear,
    /// The measurements do not decide it.
    InDoubt,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum OverBoundary {
    Base,
    Ring,
    Peg(PegKind),
}

/// The name of a part near to a thing.
macro_rules! near {
    ($part:literal, $thing:expr) => {
        match $thing {
            Thing::Tree => concat!($part, "_near_tree"),
            Thing::Building => concat!($part, "_near_building"),
            Thing::Barrier => concat!($part, "_near_barrier"),
            Thing::Post => concat!($part, "_near_post"),
            Thing::Path => concat!($part, "_near_path"),
            Thing::KeepOff => concat!($part, "_near_keep_off"),
        }
    };
}

impl YardRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::Near { part, thing, .. } => match part {
                WorkPart::Rope(_) => near!("guy", thing),
                WorkPart::Mast => near!("mast", thing),
                WorkPart::Strand => near!("strand", thing),
                WorkPart::Cone => near!("cone", thing),
                WorkPart::Base => near!("base", thing),
                WorkPart::Peg(PegName { kind: PegKind::Anchor, .. }) => near!("anchor", thing),
                WorkPart::Peg(PegName { kind: PegKind::Stake, .. }) => near!("stake", thing),
            },
            Self::RingInKeepOff { .. } => "ring_in_keep_off",
            Self::FallReaches { thing, .. } => match thing {
                Thing::Tree => "fall_reaches_tree",
                Thing::Building => "fall_reaches_building",
                Thing::Barrier => "fall_reaches_barrier",
                Thing::Post => "fall_reaches_post",
                Thing::Path => "fall_reaches_path",
                Thing::KeepOff => "fall_reaches_keep_off",
            },
            Self::PathHeadroom { .. } => "path_headroom",
            Self::BoundaryNotGiven => "boundary_not_given",
            Self::OverBoundary { part: OverBoundary::Base, .. } => "base_over_boundary",
            Self::OverBoundary { part: OverBoundary::Ring, .. } => "ring_over_boundary",
            Self::OverBoundary { part: OverBoundary::Peg(PegKind::Anchor), .. } => "anchor_over_boundary",
            Self::OverBoundary { part: OverBoundary::Peg(PegKind::Stake), .. } => "stake_over_boundary",
            Self::FallReachesOverBoundary => "fall_reaches_over_boundary",
        }
    }
}

/// Which way and about how far a guy turns about the mast.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Turn {
    /// A whole number.
    pub about_deg: f64,
    pub clockwise: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum YardRemedy {
    MoveGuy {
        turn: Option<Turn>,
        clear: Clear,
    },
    MoveMast {
        clear: Clear,
    },
    MoveStrands {
        clear: Clear,
    },
    MovePeg {
        kind: PegKind,
        clear: Clear,
    },
    /// A peg beside a way: moved, or marked with its rope so that nobody trips.
    MoveOrMarkPeg {
        kind: PegKind,
        clear: Clear,
    },
    MoveMastOrTurnBase {
        clear: Clear,
    },
    SmallerRing,
    /// How much farther away a thing, by its name, would have to be.
    FallElsewhere {
        name: String,
        farther_m: f64,
    },
    /// How much nearer to the mast it has to cross, where the rope rises at all.
    CrossNearerToMast {
        #[serde(skip_serializing_if = "Option::is_none")]
        #[cfg_attr(feature = "typegen", ts(optional))]
        nearer_m: Option<f64>,
    },
    AddCorners,
    MoveInside {
        clear: Clear,
    },
    TellTheNeighbours,
}
