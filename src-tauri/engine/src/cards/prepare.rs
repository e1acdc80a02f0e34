//! What has to be there before a phase begins: tools, people, and nothing that says stop.

use serde::{Deserialize, Serialize};

use super::card::{CardMissing, CardPhase};
use crate::finding::Finding;
use crate::lifting::GustBy;
use crate::raising::RaiseWays;
use crate::source::SourceKey;

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
    /// The mast is heavier to walk up than those who were named can push together.
    TooFewHands { force_n: f64, together_n: f64, named: u32, needed: u32, by_line: bool },
    /// It is heavier than as many as can work together at it push.
    TooHeavyForHands { force_n: f64, together_n: f64, people: u32 },
    /// The foot kicks out harder than what holds it may bear.
    KicksOut { away_n: f64, holds_n: f64, source: SourceKey },
    /// The hinge is lifted off.
    HingeLifts { lifts_n: f64, at_deg: f64 },
    /// A tube is bent more than it may be.
    TubeBends { tube: String, percent: f64 },
    /// The line has no lever, or so little that nobody pulls so hard.
    LineHasNoLever,
    /// It takes longer, as rehearsed, than is left before the gust comes.
    TooLate { takes_minutes: f64, left_minutes: f64, keep_off_m: f64 },
    /// Along no bearing all round can the mast lie and turn up clear; so many whole degrees were looked at.
    NoWayClear { degrees: u32 },
    /// A stronger gust is forecast than the one up to which anybody begins.
    GustForecast { forecast_m_per_s: f64, begin_m_per_s: f64 },
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
    /// Whether the mast may lie along some bearing; none for a part of the day in which it does not turn.
    pub around: Option<PhaseWays>,
    /// Up to which gust it may be turned or cranked up; none for a part of the day that no wind troubles.
    pub gust: Option<PhaseGust>,
}

/// What is known of the ways along which the mast may lie.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PhaseWays {
    /// Whether the job's own way is clear; none where nobody has said it.
    pub own_clear: Option<bool>,
    pub looked: WaysLooked,
}

/// What was found all round. It takes a second or two, so somebody asks for it.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "looked", rename_all = "snake_case", deny_unknown_fields)]
pub enum WaysLooked {
    /// Nobody has looked, or something has to be said before anybody can.
    #[default]
    NotYet,
    NoneClear {
        degrees: u32,
    },
    /// The best of those that are clear.
    Clear {
        best_deg: f64,
    },
}

impl WaysLooked {
    /// What ways say that were looked for all round; those of a search that was stopped say nothing.
    pub fn of(ways: &RaiseWays) -> Self {
        let degrees = ways.bearings.iter().map(|run| run.to_deg - run.from_deg + 1).sum();
        match &ways.best {
            Some(best) => Self::Clear { best_deg: best.lies_toward_deg },
            None if degrees == ALL_ROUND => Self::NoneClear { degrees },
            None => Self::NotYet,
        }
    }
}

/// Whole degrees all round.
const ALL_ROUND: u32 = 360;

/// The gust of a phase.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PhaseGust {
    /// At which the first thing gives; none where it is not known.
    pub limit_m_per_s: Option<f64>,
    /// The limit less the job's margin: nobody begins with a stronger gust forecast.
    pub begin_m_per_s: Option<f64>,
    pub margin_percent: f64,
    /// What gives first.
    pub by: Option<GustBy>,
    /// As the job holds it; none where nobody has entered one.
    pub forecast_m_per_s: Option<f64>,
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
