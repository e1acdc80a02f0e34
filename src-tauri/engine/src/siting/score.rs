//! How good a place is among those that are good enough: marks from nought to one, weighed as wished. What is not known has no
//! mark, and adds nothing: an unanswered question never makes a place better.

use serde::{Deserialize, Serialize};

use crate::finding::yard::YardRule;
use crate::finding::{Finding, Rule};
use crate::ground::GroundModelKind;
use crate::numerics::real::sin_deg;
use crate::plan::{Checked, Layout, Surveyed};
use crate::stakeout::ties::ties;
use crate::verdict::MissingEntry;
use crate::wind_capacity::DirectionLimit;

use super::poses::tallest_gap_m;
use super::wishes::SitingWeights;

/// More room than this makes a place no better (common practice: nobody works closer than two metres to a wall by choice).
pub(super) const AMPLE_CLEARANCE_M: f64 = 2.0;
/// A foot this high is the worst that still counts (common practice: a stack of this height rocks).
const TALL_FOOT_M: f64 = 0.5;
/// Guys are best at 45° and worst, as far as this score goes, this far from it (common practice: 25° to 65°).
const BEST_ANGLE_DEG: f64 = 45.0;
const WORST_OFF_DEG: f64 = 20.0;

/// What a place is marked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SitingMerit {
    /// The tightest clearance.
    Clearance,
    /// A low foot.
    LowFoot,
    /// Guys near 45°.
    GuyAngles,
    /// Nothing within the mast's fall.
    Fall,
    /// Swing ties to the mast that cross well.
    Ties,
    /// A high gust limit.
    Wind,
    /// The lit cone seen from the job's standpoints, its open side towards them.
    View,
    /// A short way when it is pegged out.
    Walking,
}

impl SitingMerit {
    pub const ALL: [Self; 8] = [
        Self::Clearance,
        Self::LowFoot,
        Self::GuyAngles,
        Self::Fall,
        Self::Ties,
        Self::Wind,
        Self::View,
        Self::Walking,
    ];

    /// As its weight is called among the wishes.
    pub fn name(self) -> &'static str {
        match self {
            Self::Clearance => "clearance",
            Self::LowFoot => "low_foot",
            Self::GuyAngles => "guy_angles",
            Self::Fall => "fall",
            Self::Ties => "ties",
            Self::Wind => "wind",
            Self::View => "view",
            Self::Walking => "walking",
        }
    }

    /// Those that take more than the plan: they are looked at in the best places alone.
    pub(super) fn is_of_the_best(self) -> bool {
        matches!(self, Self::Wind | Self::View | Self::Walking)
    }
}

/// Why a mark is not known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SitingUnknown {
    /// The search ended before it was looked at.
    NotLookedAt,
    /// Nothing was entered that the work keeps a distance from.
    NothingEntered,
    /// Nobody measured the ground.
    GroundNotMeasured,
    /// Fewer than two marks are entered.
    TooFewMarks,
    /// There is no gust limit while something is missing, the soonest first.
    NoGustLimit { missing: Vec<MissingEntry> },
    /// The job has no standpoint.
    NoStandpoint,
    /// Of this standpoint nobody knows where it is.
    StandpointNotFound { name: String },
    /// No strands are planned.
    NoStrands,
}

/// One mark of a place.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingMark {
    pub merit: SitingMerit,
    /// As wished.
    pub weight: f64,
    /// From 0 to 1; none where it is not known.
    pub mark: Option<f64>,
    /// Why it is not known.
    pub unknown: Option<SitingUnknown>,
}

/// Marks of a place, with what they were given for.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SitingScore {
    /// All marks weighed together, from 0 to 1; what is not known adds nothing.
    pub total: f64,
    /// Share of the weights whose marks are not known: the total may be more by so much.
    pub not_known: f64,
    /// In the order of [`SitingMerit::ALL`]; what counts for nothing is left out.
    pub marks: Vec<SitingMark>,
    /// The tightest clearance beyond what is needed; none where there is nothing to keep from.
    pub least_margin_m: Option<f64>,
    pub tallest_foot_m: f64,
    /// How many things the falling mast would reach.
    pub within_fall: u32,
    /// The least gust limit of the raised mast, from any side; none where it is not known or counts for nothing.
    pub gust_limit: Option<DirectionLimit>,
    /// How much of the lit cone shows from the standpoints on average, 0 to 1.
    pub cone_shows: Option<f64>,
    /// Metres walked to peg it out.
    pub walk_m: Option<f64>,
}

/// A mark, or why there is none.
pub(super) type Marked = Result<f64, SitingUnknown>;

impl SitingScore {
    /// Of a layout that was found good enough: all marks that its plan tells.
    pub(super) fn of_plan(
        surveyed: &Surveyed,
        layout: &Layout,
        checked: &Checked,
        weights: &SitingWeights,
    ) -> Self {
        let least_margin_m = checked.clearances.iter().map(|it| it.distance_m - it.needed_m).reduce(f64::min);
        let tallest_foot_m = tallest_gap_m(&layout.base);
        let within_fall = checked.findings.iter().filter(|finding| falls_on(finding)).count() as u32;
        let on_ground = |mark: f64| match surveyed.fit.kind {
            GroundModelKind::AssumedLevel => Err(SitingUnknown::GroundNotMeasured),
            GroundModelKind::Plane | GroundModelKind::Surface => Ok(mark),
        };
        let of = |merit: SitingMerit| match merit {
            SitingMerit::Clearance => of_room(least_margin_m),
            SitingMerit::LowFoot => on_ground(1.0 - (tallest_foot_m / TALL_FOOT_M).clamp(0.0, 1.0)),
            SitingMerit::GuyAngles => on_ground(of_angles(layout)),
            SitingMerit::Fall => Ok(1.0 / (1.0 + f64::from(within_fall))),
            SitingMerit::Ties => of_ties(surveyed, layout, checked),
            SitingMerit::Wind | SitingMerit::View | SitingMerit::Walking => Err(SitingUnknown::NotLookedAt),
        };
        let counted = SitingMerit::ALL.into_iter().filter(|merit| weights.of(*merit) > 0.0);
        let marks = counted.map(|merit| SitingMark::new(merit, weights.of(merit), of(merit))).collect();
        let mut score = Self {
            total: 0.0,
            not_known: 0.0,
            marks,
            least_margin_m,
            tallest_foot_m,
            within_fall,
            gust_limit: None,
            cone_shows: None,
            walk_m: None,
        };
        score.weigh();
        score
    }

    /// Puts a mark that was found later in its place, where it counts.
    pub(super) fn set(&mut self, merit: SitingMerit, marked: Marked) {
        if let Some(known) = self.marks.iter_mut().find(|mark| mark.merit == merit) {
            *known = SitingMark::new(merit, known.weight, marked);
        }
        self.weigh();
    }

    pub(super) fn counts(&self, merit: SitingMerit) -> bool {
        self.marks.iter().any(|mark| mark.merit == merit)
    }

    fn weigh(&mut self) {
        let all: f64 = self.marks.iter().map(|mark| mark.weight).sum();
        let known: f64 = self.marks.iter().filter_map(|it| it.mark.map(|mark| mark * it.weight)).sum();
        let unknown: f64 = self.marks.iter().filter(|it| it.mark.is_none()).map(|it| it.weight).sum();
        // The sum of nothing is a nought below nought.
        (self.total, self.not_known) = (known / all + 0.0, unknown / all + 0.0);
    }
}

impl SitingMark {
    fn new(merit: SitingMerit, weight: f64, marked: Marked) -> Self {
        let (mark, unknown) = match marked {
            Ok(mark) => (Some(mark), None),
            Err(unknown) => (None, Some(unknown)),
        };
        Self { merit, weight, mark, unknown }
    }
}

/// What the plan says of the mast's fall, over things and over the boundary.
pub(super) fn falls_on(finding: &Finding) -> bool {
    matches!(&finding.rule, Rule::Yard(YardRule::FallReaches { .. } | YardRule::FallReachesOverBoundary))
}

fn of_room(least_margin_m: Option<f64>) -> Marked {
    let margin_m = least_margin_m.ok_or(SitingUnknown::NothingEntered)?;
    Ok((margin_m / AMPLE_CLEARANCE_M).clamp(0.0, 1.0))
}

fn of_angles(layout: &Layout) -> f64 {
    let mark = |angle_deg: f64| 1.0 - ((angle_deg - BEST_ANGLE_DEG).abs() / WORST_OFF_DEG).min(1.0);
    let sum: f64 = layout.guys.iter().map(|guy| mark(guy.angle_deg)).sum();
    sum / layout.guys.len().max(1) as f64
}

/// Arcs from marks that are there and do not cross get no mark; marks that nobody entered are asked for.
fn of_ties(surveyed: &Surveyed, layout: &Layout, checked: &Checked) -> Marked {
    let marks = &checked.yard.marks;
    if marks.len() < 2 {
        return Err(SitingUnknown::TooFewMarks);
    }
    let crossing = ties(layout.placed_work.mast, marks, &surveyed.fit.ground, &surveyed.instruments);
    Ok(crossing.map_or(0.0, |ties| sin_deg(ties.crossing_deg).max(0.0)))
}
