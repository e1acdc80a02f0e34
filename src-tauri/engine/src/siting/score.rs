//! How good a place is among those that are good enough: five marks from nought to one, weighed as wished.

use serde::{Deserialize, Serialize};

use crate::finding::yard::YardRule;
use crate::finding::{Finding, Rule};
use crate::numerics::real::sin_deg;
use crate::plan::{Checked, Layout};
use crate::stakeout::ties::ties;

use super::poses::tallest_gap_m;
use super::wishes::SitingWeights;
use crate::plan::Surveyed;

/// More room than this makes a place no better (common practice: nobody works closer than two metres to a wall by choice).
const AMPLE_CLEARANCE_M: f64 = 2.0;
/// A foot this high is the worst that still counts (common practice: a stack of this height rocks).
const TALL_FOOT_M: f64 = 0.5;
/// Guys are best at 45° and worst, as far as this score goes, this far from it (common practice: 25° to 65°).
const BEST_ANGLE_DEG: f64 = 45.0;
const WORST_OFF_DEG: f64 = 20.0;

/// Marks of a place, each from 0 to 1, with what they were given for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingScore {
    /// All marks weighed together.
    pub total: f64,
    pub clearance: f64,
    pub low_foot: f64,
    pub guy_angles: f64,
    pub fall: f64,
    pub ties: f64,
    /// The tightest clearance beyond what is needed; none where there is nothing to keep from.
    pub least_margin_m: Option<f64>,
    pub tallest_foot_m: f64,
    /// How many things the falling mast would reach.
    pub within_fall: u32,
}

/// Of a layout that was found good enough.
pub(super) fn score(
    surveyed: &Surveyed,
    layout: &Layout,
    checked: &Checked,
    weights: &SitingWeights,
) -> SitingScore {
    let least_margin_m = checked.clearances.iter().map(|it| it.distance_m - it.needed_m).reduce(f64::min);
    let tallest_foot_m = tallest_gap_m(&layout.base);
    let within_fall = checked.findings.iter().filter(|finding| falls_on(finding)).count() as u32;
    let crossing =
        ties(layout.placed_work.mast, &checked.yard.marks, &surveyed.fit.ground, &surveyed.instruments);
    let marks = [
        least_margin_m.map_or(1.0, |margin| (margin / AMPLE_CLEARANCE_M).clamp(0.0, 1.0)),
        1.0 - (tallest_foot_m / TALL_FOOT_M).clamp(0.0, 1.0),
        of_angles(layout),
        1.0 / (1.0 + f64::from(within_fall)),
        crossing.map_or(0.0, |ties| sin_deg(ties.crossing_deg).max(0.0)),
    ];
    let [clearance, low_foot, guy_angles, fall, ties] = marks;
    let weight = [weights.clearance, weights.low_foot, weights.guy_angles, weights.fall, weights.ties];
    let weighed: f64 = marks.iter().zip(weight).map(|(mark, weight)| mark * weight).sum();
    let total = weighed / weight.iter().sum::<f64>();
    SitingScore {
        total,
        clearance,
        low_foot,
        guy_angles,
        fall,
        ties,
        least_margin_m,
        tallest_foot_m,
        within_fall,
    }
}

/// What the plan says of the mast's fall, over things and over the boundary.
pub(super) fn falls_on(finding: &Finding) -> bool {
    matches!(&finding.rule, Rule::Yard(YardRule::FallReaches { .. } | YardRule::FallReachesOverBoundary))
}

fn of_angles(layout: &Layout) -> f64 {
    let mark = |angle_deg: f64| 1.0 - ((angle_deg - BEST_ANGLE_DEG).abs() / WORST_OFF_DEG).min(1.0);
    let sum: f64 = layout.guys.iter().map(|guy| mark(guy.angle_deg)).sum();
    sum / layout.guys.len().max(1) as f64
}
