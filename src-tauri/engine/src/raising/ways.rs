//! Every whole degree along which the mast may lie, and the best of them.

use super::check::{Way, Yard, as_said, blocks, own_bearing_deg, thickness_unknown};
use super::findings::not_said;
use super::results::*;
use super::said::{Setup, open_questions};
use crate::finding::overhead::OverheadRule;
use crate::finding::raising::RaisingRule;
use crate::finding::yard::YardRule;
use crate::finding::{Finding, Rule, Severity};
use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::bearing::wrap_360;

/// Which ways the mast can be walked up and laid down: every whole degree all round, held against the yard as the job's own
/// way is. `on_progress` is told how many degrees are done; where it says false the rest is left out.
///
/// # Accuracy
/// Of a way that is clear nothing comes nearer to anything than it should by the whole 95 % interval. Between two whole
/// degrees nothing is looked at: 1° is 17 cm in 10 m, less than the bearing is read by.
///
/// # References
/// Common practice for what each guy does; 29 CFR 1926.1408, Table A, for overhead lines.
pub fn raise_ways(job: &Job, computed: &Computed, on_progress: &mut dyn FnMut(u32) -> bool) -> RaiseWays {
    let mut waits_for: Vec<Finding> = not_said(open_questions(job, false)).into_iter().collect();
    if !waits_for.is_empty() {
        let none = RaiseWays { waits_for, bearings: vec![], refusals: vec![], best: None, as_said: None };
        return none;
    }
    let setup = Setup::of(job, computed);
    waits_for.extend(setup.strand_thickness_unknown().then(thickness_unknown));
    waits_for.extend(computed.plan.findings.iter().filter(|it| matters(it)).cloned());
    let yard = Yard::of(&setup);
    let mut found = Round::default();
    for degree in 0..360 {
        found.take(degree, Way::of(&setup, &yard, f64::from(degree)).whole(false));
        if !on_progress(degree + 1) {
            break;
        }
    }
    RaiseWays {
        waits_for,
        bearings: found.bearings,
        refusals: found.refusals,
        best: found.best,
        as_said: as_said(job, computed),
    }
}

/// Bearings between two that [`way_up`] looks at.
const APART_DEG: u32 = 5;

/// Whether the mast can be walked up at all.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WayUpFound {
    /// Nobody has said how it turns up.
    NotSaid,
    /// It can, lying toward this bearing.
    Clear { lies_toward_deg: f64 },
    /// Along none of so many bearings, evenly all round.
    NoneClear { looked_at: u32 },
}

/// The first bearing along which nothing stands in the way: the job's own, then every fifth degree from there to both sides. For one place
/// of many, where [`raise_ways`] would look at every degree.
///
/// # Accuracy
/// A way that it names is as clear as [`raise_ways`] says. Where it finds none, one narrower than 5° may be there: 44 cm in 5 m.
pub fn way_up(job: &Job, computed: &Computed) -> WayUpFound {
    if !open_questions(job, false).is_empty() {
        return WayUpFound::NotSaid;
    }
    let setup = Setup::of(job, computed);
    let yard = Yard::of(&setup);
    let own_deg = own_bearing_deg(job, computed);
    let looked_at = 360 / APART_DEG;
    let off =
        |step: u32| f64::from(APART_DEG * step.div_ceil(2)) * if step.is_multiple_of(2) { -1.0 } else { 1.0 };
    let bearings = (0..looked_at).map(|step| wrap_360(own_deg + off(step)));
    let clear =
        bearings.into_iter().find(|toward_deg| Way::of(&setup, &yard, *toward_deg).whole(false).clear);
    match clear {
        Some(lies_toward_deg) => WayUpFound::Clear { lies_toward_deg },
        None => WayUpFound::NoneClear { looked_at },
    }
}

/// What of the plan keeps any way from being known: wires that nobody looked for, a boundary that nobody gave, things whose
/// place is open.
fn matters(finding: &Finding) -> bool {
    let of_yard = matches!(
        &finding.rule,
        Rule::Overhead(OverheadRule::LinesUnknown { .. } | OverheadRule::VoltageUnknown { .. })
            | Rule::Yard(YardRule::BoundaryNotGiven)
            | Rule::Points(_)
            | Rule::Ground(_)
            | Rule::Document(_)
    );
    let waits = finding.severity == Severity::Unchecked
        || matches!(&finding.rule, Rule::Yard(YardRule::BoundaryNotGiven));
    of_yard && waits
}

#[derive(Default)]
struct Round {
    bearings: Vec<BearingRun>,
    refusals: Vec<Finding>,
    best: Option<RaiseWay>,
}

impl Round {
    fn take(&mut self, degree: u32, way: RaiseWay) {
        let refused_by = self.refused(&way);
        match self.bearings.last_mut() {
            Some(run) if run.refused_by == refused_by => run.to_deg = degree,
            _ => self.bearings.push(BearingRun { from_deg: degree, to_deg: degree, refused_by }),
        }
        let total = |way: &RaiseWay| way.score.map_or(-1.0, |score| score.total);
        // Marks that differ by rounding are alike: the first of them stays.
        let is_better = self.best.as_ref().is_none_or(|best| total(&way) > total(best) + 1e-9);
        if way.clear && is_better {
            self.best = Some(way);
        }
    }

    /// The number of what stands in the way first; the same thing refuses many bearings, each by another length.
    fn refused(&mut self, way: &RaiseWay) -> Option<u32> {
        if way.clear {
            return None;
        }
        let because = way.findings.iter().find(|finding| blocks(finding))?;
        let alike = |other: &Finding| other.is_about_the_same(because) && same_side(other, because);
        let at = self.refusals.iter().position(alike).unwrap_or_else(|| {
            self.refusals.push(because.clone());
            self.refusals.len() - 1
        });
        Some(at as u32)
    }
}

fn same_side(a: &Finding, b: &Finding) -> bool {
    let side = |it: &Finding| match &it.rule {
        Rule::Raising(RaisingRule::SideNotHeld { on_right }) => Some(*on_right),
        _ => None,
    };
    side(a) == side(b)
}

/// More room than this makes a way no better: common practice, an arm's length and as much again.
const AMPLE_M: f64 = 1.5;
/// A lie as steep as this, up or down, is the worst that still counts: common practice.
const STEEP_DEG: f64 = 15.0;

/// Shares of the marks: what can hurt first. Common practice.
const WEIGHTS: [f64; 5] = [3.0, 3.0, 2.0, 1.0, 1.0];

/// The marks of a clear way.
pub(super) fn score(way: &RaiseWay) -> RaiseScore {
    let least_m = way.clearances.iter().map(|it| it.distance_m - it.needed_m).fold(AMPLE_M, f64::min);
    let room = (least_m / AMPLE_M).clamp(0.0, 1.0);
    let side = |held: &SideHold| match held {
        SideHold::Fast => 0.5,
        SideHold::Tended => 0.2,
        SideHold::Nobody => 0.0,
    };
    let sides: f64 = way.held.iter().map(side).sum();
    let hands = way.guys.iter().filter(|guy| guy.angles.iter().any(|at| at.does == GuyDoes::Tended)).count();
    let tending = 1.0 / (1.0 + hands as f64);
    let lie = 1.0 - (way.lying_deg.abs() / STEEP_DEG).min(1.0);
    // What trails is told of the job's own way alone, and is no worse on it than on another.
    let trails = |it: &Finding| matches!(it.rule, Rule::Raising(RaisingRule::TrailsOnGround { .. }));
    let in_the_way = way.findings.iter().filter(|it| it.severity == Severity::Caution && !trails(it)).count();
    let corridor = 1.0 / (1.0 + in_the_way as f64);
    let marks = [room, sides, tending, lie, corridor];
    let weighed: f64 = marks.iter().zip(WEIGHTS).map(|(mark, weight)| mark * weight).sum();
    let total = weighed / WEIGHTS.iter().sum::<f64>();
    RaiseScore { total, room, sides, tending, lie, corridor }
}
