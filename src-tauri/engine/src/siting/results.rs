//! What a search for places found.

use serde::Serialize;

use crate::finding::Finding;
use crate::job::{Placement, Rig};

use super::change::SitingChange;
use super::filter::BindingRule;
use super::score::SitingScore;

/// What is known of a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum SitingState {
    /// Planned whole in at least one turn: nothing says stop, and every distance is kept with its 95 % interval.
    Good,
    /// The same as far as anybody knows: something there waits to be measured or asked.
    AsFarAsKnown,
    /// Only the quick rules have passed it, in at least one turn.
    Possible,
    /// Planned whole in every turn that the quick rules left: each was refused. `by` numbers the list of findings.
    RefusedByPlan { by: u32 },
    /// The quick rules refuse it. `by` numbers the list of rules.
    Refused { by: u32 },
}

/// The yard in cells, row by row from its south-west corner, each row from west to east.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingArea {
    /// The south-west corner.
    pub from_m: [f64; 2],
    pub cell_m: f64,
    pub columns: u32,
    pub rows: u32,
    /// Each state that occurs.
    pub states: Vec<SitingState>,
    /// One cell after another: the number of the state, and how many cells in a row have it.
    pub runs: Vec<[u32; 2]>,
}

/// A good place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingPlace {
    /// The mast, east and north.
    pub at_m: [f64; 2],
    pub placement: Placement,
    pub score: SitingScore,
    /// What there is to think about there, nothing of it a stop.
    pub findings: Vec<Finding>,
    /// Whether the mast can be walked up there.
    pub way_up: SitingWayUp,
}

/// Whether the mast can be walked up in a place, with nothing in what it sweeps.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SitingWayUp {
    /// The search ended before it was looked at.
    NotLookedAt,
    /// Nobody has said how it turns up.
    NotSaid,
    /// It can, lying toward this true bearing.
    Clear { lies_toward_deg: f64 },
    /// Along none of so many bearings, evenly all round. Such a place comes after all others.
    NoneClear { looked_at: u32 },
}

impl SitingWayUp {
    /// A place where it is known that the mast can't come up is no place for it.
    pub fn is_closed(self) -> bool {
        matches!(self, Self::NoneClear { .. })
    }
}

/// How far the search went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SitingEnd {
    /// Every possible place was planned.
    Whole,
    /// It was stopped, or came to the number of plans that it was given: places that are possible may be good.
    Stopped,
    /// It was not begun: see what it waits for.
    Waits,
}

/// A change that opens a place where nothing fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingOpening {
    pub change: SitingChange,
    /// The parts with the change made.
    pub rig: Rig,
    pub place: SitingPlace,
}

/// What was tried where nothing fits.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingOpenings {
    /// The least change of each kind that opens a place, the smallest part of what is tried at the most first.
    pub opened: Vec<SitingOpening>,
    /// By so much, and less, nothing was opened.
    pub closed: Vec<SitingChange>,
    /// Not every kind was tried.
    pub stopped: bool,
}

/// What another pattern of guys does to a place that is closed as the job has them.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum SitingPatternState {
    Nothing,
    /// Planned whole and accepted with this one of the patterns tried.
    Opens {
        by: u32,
    },
    /// Only the quick rules have passed it with this one.
    MayOpen {
        by: u32,
    },
}

/// Another pattern of guys, with what it opens that none before it does.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingPattern {
    pub change: SitingChange,
    pub opens_cells: u32,
    pub may_open_cells: u32,
    /// The best place that it opens, with its parts.
    pub best: Option<SitingOpening>,
}

/// Which other pattern of guys opens which place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingPatterns {
    pub tried: Vec<SitingPattern>,
    /// Each state that occurs.
    pub states: Vec<SitingPatternState>,
    /// As the runs of the area, over the same cells.
    pub runs: Vec<[u32; 2]>,
    /// Not every pattern was tried.
    pub stopped: bool,
}

/// What a search for places found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Siting {
    pub end: SitingEnd,
    /// What has to be measured or asked before an answer is worth anything.
    pub waits_for: Vec<Finding>,
    /// None where the search waits for the yard's boundary.
    pub area: Option<SitingArea>,
    /// What the quick rules refuse places by.
    pub rules: Vec<BindingRule>,
    /// What whole plans are refused by.
    pub refusals: Vec<Finding>,
    /// The best first.
    pub best: Vec<SitingPlace>,
    /// Where nothing fits: the rule that keeps most of the yard closed.
    pub binds_most: Option<BindingRule>,
    /// Where nothing fits: what would have to change; none where that was not asked.
    pub openings: Option<SitingOpenings>,
    /// Which other pattern of guys opens what is closed; none where that was not asked.
    pub patterns: Option<SitingPatterns>,
    pub plans: u32,
}
