//! How the mast goes up, in words.

use serde::Serialize;

use super::rows::{angle, bearing, length, row};
use super::{FindingText, Label, Row, finding_text, format, words};
use crate::finding::{Finding, Severity, Subject};
use crate::job::{Job, RaisingStep};
use crate::quantity::Units;
use crate::raising::{
    BearingRun, GuyAtAngle, GuyRole, OrderMove, RaiseOrder, RaiseWay, RaiseWays, TiltClearance, TiltedGuy,
};

/// Which ways the mast goes up, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseReport {
    pub headline: String,
    pub caution: String,
    /// What has to be said, measured or asked before any way is good.
    pub waits_for: Vec<FindingText>,
    /// The way that the job has; none where it says none.
    pub as_said: Option<RaiseWayText>,
    pub best: Option<RaiseWayText>,
    pub sectors: Vec<RaiseSectorText>,
}

/// Bearings in a row that are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseSectorText {
    pub bearings: String,
    pub clear: bool,
    pub says: String,
}

/// One way in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseWayText {
    pub title: String,
    pub clear: bool,
    pub lies_toward_deg: f64,
    /// Marks out of a hundred; none where it is not clear.
    pub marks: Option<u32>,
    pub rows: Vec<Row>,
    pub guys: Vec<RaiseGuyText>,
    pub steps: Vec<String>,
    /// Where something comes nearer than it should, or may: for the map.
    pub nearest: Vec<RaiseNearText>,
    pub findings: Vec<FindingText>,
}

/// A place where something comes too near on the way, or may.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseNearText {
    /// Part, thing, distance, what is to be kept, the mast's angle.
    pub says: String,
    /// The distance alone.
    pub distance: String,
    /// In plan, on the part that moves and on what it comes near to.
    pub from: [f64; 2],
    pub to: [f64; 2],
    /// It is nearer than it should be, not only perhaps.
    pub fails: bool,
}

/// What a guy does on the way.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseGuyText {
    pub name: String,
    pub role: String,
    pub angles: Vec<RaiseAngleText>,
}

/// A guy with the mast at one angle.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseAngleText {
    pub at: String,
    pub length: String,
    pub does: String,
    /// By how much it hangs slack, or would be too short: as long as at plumb. Empty where it is neither.
    pub slack: String,
}

/// The order in which the mast goes up, with what may be changed of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseOrderReport {
    /// Whose order it is.
    pub says: String,
    /// It is the one that the plan gives.
    pub is_usual: bool,
    /// What has to be said before there is any; then there are no steps.
    pub waits_for: Vec<FindingText>,
    pub steps: Vec<RaiseStepText>,
    pub findings: Vec<FindingText>,
}

/// A step of it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseStepText {
    pub step: RaisingStep,
    pub says: String,
    /// What has to be done before it; empty where nothing has.
    pub after: String,
    /// Done one step sooner, and one later.
    pub sooner: Option<RaiseMoveText>,
    pub later: Option<RaiseMoveText>,
}

/// An order with two steps exchanged.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RaiseMoveText {
    /// As the job keeps it.
    pub order: Vec<RaisingStep>,
    /// Why it is refused; empty where it is allowed.
    pub refused: String,
}

/// Puts the job's own order into words, or what has to be said before there is one.
pub fn raise_order(job: &Job, found: &Result<RaiseOrder, Box<Finding>>) -> RaiseOrderReport {
    let text = |finding: &Finding| finding_text(finding, job.units);
    let order = match found {
        Ok(order) => order,
        Err(open) => {
            return RaiseOrderReport {
                says: words::raising::NO_ORDER.to_owned(),
                is_usual: true,
                waits_for: vec![text(open)],
                steps: Vec::new(),
                findings: Vec::new(),
            };
        }
    };
    let refused = |finding: &Finding| {
        let said = text(finding);
        format!("{} {}", said.sentence, said.remedy)
    };
    let moved = |to: &OrderMove| RaiseMoveText {
        order: to.order.clone(),
        refused: to.refused.as_ref().map_or_else(String::new, refused),
    };
    let steps = order.steps.iter().map(|step| RaiseStepText {
        step: step.step,
        says: words::raising::step(step.step, job.raising.hinge).to_owned(),
        after: words::raising::after(&step.needs),
        sooner: step.sooner.as_ref().map(moved),
        later: step.later.as_ref().map(moved),
    });
    RaiseOrderReport {
        says: words::raising::whose_order(order.is_usual).to_owned(),
        is_usual: order.is_usual,
        waits_for: Vec::new(),
        steps: steps.collect(),
        findings: order.findings.iter().map(text).collect(),
    }
}

/// Beside every answer about turning up, for the sheet.
pub(crate) fn raise_caution() -> &'static str {
    words::raising::CAUTION
}

/// The job's own way, for the sheet.
pub(crate) fn own_way(job: &Job, way: &RaiseWay) -> RaiseWayText {
    way_text(job, way, words::raising::AS_SAID)
}

/// Puts the ways into words.
pub fn raising(job: &Job, found: &RaiseWays) -> RaiseReport {
    let units = job.units;
    let clear_deg = found.bearings.iter().filter(|run| run.refused_by.is_none()).map(degrees).sum();
    let best = found.best.as_ref().map(|way| format::bearing(way.lies_toward_deg));
    RaiseReport {
        headline: words::raising::headline(clear_deg, best.as_deref(), !found.waits_for.is_empty()),
        caution: words::raising::CAUTION.to_owned(),
        waits_for: found.waits_for.iter().map(|it| finding_text(it, units)).collect(),
        as_said: found.as_said.as_ref().map(|way| way_text(job, way, words::raising::AS_SAID)),
        best: found.best.as_ref().map(|way| way_text(job, way, words::raising::BEST)),
        sectors: sectors(&found.bearings, &found.refusals, units),
    }
}

fn degrees(run: &BearingRun) -> u32 {
    run.to_deg - run.from_deg + 1
}

/// Bearings go round: what ends at north goes on with what begins there.
fn sectors(bearings: &[BearingRun], refusals: &[Finding], units: Units) -> Vec<RaiseSectorText> {
    let mut runs = bearings.to_vec();
    if let [first, .., last] = &mut runs[..]
        && first.refused_by == last.refused_by
    {
        first.from_deg = last.from_deg;
        runs.pop();
    }
    let says = |run: &BearingRun| {
        let by = run.refused_by.and_then(|by| refusals.get(by as usize));
        by.map_or_else(|| words::raising::CLEAR.to_owned(), |finding| words::sentence(finding, units))
    };
    let text = |run: &BearingRun| RaiseSectorText {
        bearings: words::raising::sector(run.from_deg, run.to_deg),
        clear: run.refused_by.is_none(),
        says: says(run),
    };
    runs.iter().map(text).collect()
}

fn way_text(job: &Job, way: &RaiseWay, title: &str) -> RaiseWayText {
    let units = job.units;
    let [left, right] = way.held;
    let up_m = way.hinge[2] - way.ground_m;
    let rows = vec![
        row(Label::LiesToward, bearing(way.lies_toward_deg)),
        row(Label::FrontLegThen, bearing(way.front_bearing_deg)),
        row(Label::LyingAngle, angle(way.lying_deg, units)),
        row(Label::HingeUp, length(up_m, units)),
        row(Label::ReachFromHinge, length(way.reach_m, units)),
        row(Label::HeldLeft, words::raising::held(left)),
        row(Label::HeldRight, words::raising::held(right)),
    ];
    RaiseWayText {
        title: title.to_owned(),
        clear: way.clear,
        lies_toward_deg: way.lies_toward_deg,
        marks: way.score.map(|score| (100.0 * score.total).round() as u32),
        rows,
        guys: way.guys.iter().map(|guy| guy_text(guy, units)).collect(),
        steps: way
            .steps
            .iter()
            .map(|step| words::raising::step(*step, job.raising.hinge).to_owned())
            .collect(),
        nearest: way.clearances.iter().chain(&way.ropes_near).filter_map(|it| near_text(job, it)).collect(),
        findings: way.findings.iter().map(|it| finding_text(it, units)).collect(),
    }
}

/// None of what keeps its distance out of all doubt.
fn near_text(job: &Job, near: &TiltClearance) -> Option<RaiseNearText> {
    if near.distance_m - near.half_width_95_m >= near.needed_m {
        return None;
    }
    let length = |m: f64| format::length(m, job.units);
    let distance = length(near.distance_m);
    let name = named(job, &near.to);
    let says =
        words::raising::nearest(&near.part, name, &distance, &length(near.needed_m), near.elevation_deg);
    let plan = |p: [f64; 3]| [p[0], p[1]];
    Some(RaiseNearText {
        says,
        distance,
        from: plan(near.from_point),
        to: plan(near.to_point),
        fails: near.distance_m < near.needed_m,
    })
}

fn named<'a>(job: &'a Job, subject: &'a Subject) -> &'a str {
    let yard = &job.yard;
    let found = match subject {
        Subject::Obstacle { id } => yard.obstacles.iter().find(|it| it.id == *id).map(|it| &it.name),
        Subject::OverheadLine { id } => yard.overhead_lines.iter().find(|it| it.id == *id).map(|it| &it.name),
        _ => None,
    };
    found.map_or("", String::as_str)
}

fn guy_text(guy: &TiltedGuy, units: Units) -> RaiseGuyText {
    let angles = guy.angles.iter().map(|at| RaiseAngleText {
        at: format::angle(at.elevation_deg),
        length: format::length(at.length_m, units),
        does: words::raising::does(at.does).to_owned(),
        slack: slack(at, units),
    });
    RaiseGuyText { name: guy.name.clone(), role: role(guy, units), angles: angles.collect() }
}

/// A millimetre is neither.
fn slack(at: &GuyAtAngle, units: Units) -> String {
    let by = format::length(at.beyond_plumb_m.abs(), units);
    match at.beyond_plumb_m {
        beyond_m if beyond_m < -1e-3 => words::raising::slack_by(&by),
        beyond_m if beyond_m > 1e-3 => words::raising::short_by(&by),
        _ => String::new(),
    }
}

/// A side guy whose lower end lies at the hinge's height, straight beside it, keeps its length through the tilt: how far off that height
/// it lies is said.
fn role(guy: &TiltedGuy, units: Units) -> String {
    let role = words::raising::role(guy.role);
    if guy.role != GuyRole::Side {
        return role.to_owned();
    }
    let off_m = guy.eye_above_hinge_m;
    words::raising::side_guy(role, &format::length(off_m.abs(), units), off_m > 0.0)
}

impl RaiseWayText {
    /// What there is to think about: no notes.
    pub(crate) fn doubts(&self) -> impl Iterator<Item = &FindingText> {
        self.findings.iter().filter(|finding| finding.severity <= Severity::Caution)
    }
}
