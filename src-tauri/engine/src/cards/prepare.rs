//! What has to be there before a phase begins: tools, people, and nothing that says stop.

use serde::Serialize;

use super::card::{CardMissing, CardPhase};
use crate::finding::Finding;

/// A tool or a thing to have at hand.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Tool {
    Gloves,
    Glasses,
    Helmets,
    Tape,
    SpiritLevel,
    Mallet,
    Saw,
    Shims,
    SpareLine,
    Pins,
    SpareStakes,
    StandForPins,
    Oil,
    CrankAndStrap,
    Ties,
    Tester,
    ResidualCurrentDevice,
    WindForecast,
}

/// People that a phase takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct YardPeople {
    /// All of them at once, on the card that takes most; none where nobody knows.
    pub at_least: Option<u32>,
    /// Of these, pushing at the mast.
    pub lifting: Option<u32>,
}

/// What keeps a phase from beginning.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "stop", rename_all = "snake_case")]
pub enum PhaseStop {
    /// The plan says so.
    Found { finding: Box<Finding> },
    /// The mast is heavier to walk up than those who were named can push.
    TooFewHands { force_n: f64, one_person_n: f64, named: u32, needed: u32 },
}

/// A phase before it begins.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PhasePrepared {
    pub phase: CardPhase,
    pub tools: Vec<Tool>,
    pub people: YardPeople,
    pub stops: Vec<PhaseStop>,
    /// Checks that could not be made.
    pub not_known: Vec<Finding>,
    /// What else is not known.
    pub missing: Vec<CardMissing>,
    /// No gust is worked out at which the mast may be turned or cranked up: nobody begins in wind.
    pub gust_not_known: bool,
}

/// Whether the bare lower tube may be stood up first, to find plumb and to measure the foot.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FirstUp {
    /// It is a plan that may be chosen: one person can hold the tube.
    pub offered: bool,
    /// The job has chosen it.
    pub chosen: bool,
    pub tube_kg: f64,
    pub most_kg: f64,
}
