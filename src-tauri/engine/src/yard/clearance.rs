//! How far all of the work keeps from all of the yard.

use serde::{Deserialize, Serialize};

use super::approach::Approach;
use super::flat::distance;
use super::parts::{Parts, anchor_sigma};
use super::place::WorkReach;
use super::solid::P3;
use super::{PlacedYard, asked, boundary, buried, obstacle, overhead};
use crate::base::BaseResult;
use crate::finding::{Finding, Subject};
use crate::ground::Ground;
use crate::guys::GuyResult;
use crate::round_figures::rounded_up_roughly;
use crate::strands::RingResult;
use crate::tube::MastResult;

/// The nearest approach of a part of the work to something.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Clearance {
    pub work: Subject,
    pub to: Subject,
    /// What is compared, such as a rope and a tree.
    pub what: Approach,
    pub distance_m: f64,
    pub needed_m: f64,
    /// Where on the work and where on the other thing, for drawing.
    pub from_point: [f64; 3],
    pub to_point: [f64; 3],
}

/// The work as it is planned.
#[derive(Debug, Clone, Copy)]
pub struct Work<'a> {
    pub mast: &'a MastResult,
    pub base: &'a BaseResult,
    pub guys: &'a [GuyResult],
    pub ring: Option<&'a RingResult>,
    /// Standard uncertainty of where the mast will stand among the yard's marks. Anchors add their own landing
    /// ellipses to it.
    pub sigma_m: f64,
}

impl Work<'_> {
    /// How far it reaches in plan, its fall included, with so much room beyond, round a mast that is so sure among the marks.
    pub fn reach(&self, ample_m: f64, pegged_sigma_m: f64) -> WorkReach {
        let mast = [self.mast.east_m, self.mast.north_m];
        let guys = self.guys.iter().map(|guy| [guy.east_m, guy.north_m]);
        let eyes = self.guys.iter().map(|guy| [guy.eye[0], guy.eye[1]]);
        let ring =
            self.ring.iter().flat_map(|ring| ring.points.iter().chain(&ring.tops)).map(|p| [p[0], p[1]]);
        let stakes = self.base.stakes.iter().map(|stake| [stake.east_m, stake.north_m]);
        let legs = self.base.legs.iter().flat_map(|leg| leg.outline.iter().copied());
        let points = guys.chain(eyes).chain(ring).chain(stakes).chain(legs);
        let far_m = points.map(|at| distance(mast, at)).fold(self.mast.fall_radius_m, f64::max);
        // Half a strand's, a rope's or the mast's thickness.
        let thick_m = self.mast.stages.iter().map(|stage| stage.outside_mm / 2000.0).fold(0.0, f64::max);
        let sigma_m =
            self.guys.iter().map(|guy| anchor_sigma(guy, self.sigma_m)).fold(self.sigma_m, f64::max);
        WorkReach { mast, reach_m: far_m + thick_m + ample_m, sigma_m, pegged_sigma_m }
    }
}

/// What the work was found to keep.
#[derive(Debug, Clone)]
pub struct Checks {
    /// Smallest margin first.
    pub clearances: Vec<Clearance>,
    /// Worst first.
    pub findings: Vec<Finding>,
    /// How far round the work somebody has to look for wires: whole metres or feet.
    pub look_up_m: f64,
}

/// Measures the work against everything in the yard.
///
/// Of each kind of part (ropes, anchors, stakes, timbers, mast, strands) the worst approach to each thing is
/// listed, smallest margin first. A finding stands where a margin is negative or its 95 % interval reaches below
/// nought; worst first. Distances are in metres; ropes and strands are taken as they hang with no wind.
pub fn check(yard: &PlacedYard, work: &Work, ground: &Ground) -> Checks {
    let parts = Parts::of(work, yard.system);
    let mut log = Log::default();
    for thing in &yard.obstacles {
        obstacle::check(thing, &parts, ground, &mut log);
    }
    for line in &yard.overhead_lines {
        overhead::check(line, &parts, &mut log);
    }
    asked::overhead(yard, &parts, &mut log);
    asked::underground(yard, &mut log);
    buried::check(&yard.buried_services, &parts, &mut log);
    boundary::check(yard, &parts, &mut log);
    log.clearances.sort_by(|a, b| (a.distance_m - a.needed_m).total_cmp(&(b.distance_m - b.needed_m)));
    log.findings.sort_by_key(|finding| finding.severity);
    let look_up_m = rounded_up_roughly(asked::overhead_reach_m(&parts), yard.system);
    Checks { clearances: log.clearances, findings: log.findings, look_up_m }
}

/// What the checks have found so far.
#[derive(Default)]
pub(super) struct Log {
    pub clearances: Vec<Clearance>,
    pub findings: Vec<Finding>,
}

/// Two points with the distance between the things they lie on.
pub(super) struct Span {
    pub distance_m: f64,
    pub needed_m: f64,
    pub from: P3,
    pub to: P3,
}

impl Log {
    pub(super) fn list(&mut self, work: &Subject, to: &Subject, what: Approach, span: Span) {
        self.clearances.push(Clearance {
            work: work.clone(),
            to: to.clone(),
            what,
            distance_m: span.distance_m,
            needed_m: span.needed_m,
            from_point: span.from,
            to_point: span.to,
        });
    }
}
