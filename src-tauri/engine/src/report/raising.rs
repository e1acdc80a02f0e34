//! How the mast goes up, in words.

use serde::Serialize;

use super::rows::{angle, bearing, length, row};
use super::{FindingText, Label, Row, finding_text, format, words};
use crate::finding::{Finding, Severity};
use crate::job::Job;
use crate::quantity::Units;
use crate::raising::{BearingRun, RaiseWay, RaiseWays, TiltedGuy};

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
    pub findings: Vec<FindingText>,
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
        findings: way.findings.iter().map(|it| finding_text(it, units)).collect(),
    }
}

fn guy_text(guy: &TiltedGuy, units: Units) -> RaiseGuyText {
    let angles = guy.angles.iter().map(|at| RaiseAngleText {
        at: format::angle(at.elevation_deg),
        length: format::length(at.length_m, units),
        does: words::raising::does(at.does).to_owned(),
    });
    RaiseGuyText {
        name: guy.name.clone(),
        role: words::raising::role(guy.role).to_owned(),
        angles: angles.collect(),
    }
}

impl RaiseWayText {
    /// What there is to think about: no notes.
    pub(super) fn doubts(&self) -> impl Iterator<Item = &FindingText> {
        self.findings.iter().filter(|finding| finding.severity <= Severity::Caution)
    }
}
