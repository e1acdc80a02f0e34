//! How far off its place a peg may be: it is moved, and the plan's own stages say what that does.
//!
//! A peg may be off by r if, moved by r in eight directions (the front leg's and every 45° from it) with all else as planned, the plan finds nothing that it did not
//! find before, no guy pulls much harder in the same wind, each rope cut to the plan still reaches, and what stands under the
//! legs still fits. The steps that are tried are round in the user's units; the first that fails sets the limit.

use std::collections::BTreeMap;

use super::{Tolerance, ToleranceBy};
use crate::finding::yard::{OverBoundary, PegKind};
use crate::finding::{Finding, Severity, Subject};
use crate::guys::GuyResult;
use crate::guys::guy::FoundAnchor;
use crate::job::{GuyLevel, Job};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::plan::{Computed, FixedPoints, PlacedWork, Surveyed, Trial, try_placed};
use crate::quantity::UnitSystem;
use crate::quantity::bearing::{turn_deg, unit, wrap_360};
use crate::survey::ellipse::covariance_of_95;
use crate::survey::positions::PositionEstimate;
use crate::yard::approach::Approach;

/// Distances that are tried, in metres and in inches.
const STEPS_M: [f64; 12] = [0.01, 0.02, 0.03, 0.04, 0.05, 0.075, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5];
const STEPS_IN: [f64; 12] = [0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0, 12.0, 15.0, 18.0];
/// A guy may pull so much harder for the same wind: little beside the factors on ropes and anchors. Common practice.
const MORE_PULL: f64 = 0.05;
/// Of the rope that was left for the knot at the anchor this share may be taken up. Common practice.
const SHARE_OF_END: f64 = 0.5;
/// A gap may change by so much: a pair of wedges or a shim takes it up. Common practice.
const GAP_M: f64 = 0.006;
/// Turns from the front leg.
const ALL_ROUND_DEG: [f64; 8] = [0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0];

/// Moves pegs of one plan.
pub struct Trials<'a> {
    surveyed: &'a Surveyed,
    points: &'a FixedPoints,
    job: &'a Job,
    computed: &'a Computed,
    /// All anchors where the plan has them, so that none follows what is moved.
    pinned: PlacedWork,
    before: Option<Trial>,
}

impl<'a> Trials<'a> {
    pub fn of(surveyed: &'a Surveyed, points: &'a FixedPoints, job: &'a Job, computed: &'a Computed) -> Self {
        let mut pinned = computed.layout.placed_work.clone();
        for guy in &computed.plan.guys {
            let known = pinned.anchors.entry(guy.id.clone()).or_default();
            let covariance = covariance_of_95(&guy.landing_95);
            known.at.get_or_insert(PositionEstimate { at: [guy.east_m, guy.north_m], covariance });
        }
        let before = try_placed(surveyed, points, job, pinned.clone()).ok();
        Self { surveyed, points, job, computed, pinned, before }
    }

    /// How far a peg may be off; `landing_m` is what its tapes reach.
    pub fn tolerance(&self, subject: &Subject, guys: &[String], landing_m: Option<f64>) -> Tolerance {
        let (off_m, by) = match subject {
            Subject::Mast => {
                self.largest(&ALL_ROUND_DEG, |off_m, toward_deg| self.mast_off(off_m, toward_deg))
            }
            Subject::Guy { .. } => {
                self.largest(&ALL_ROUND_DEG, |off_m, toward_deg| self.anchor_off(guys, off_m, toward_deg))
            }
            Subject::Leg { id } => {
                // Only what lies square to it turns the base.
                let leg = self.computed.plan.base.legs.iter().find(|leg| leg.id == *id);
                let along_deg = leg.map_or(0.0, |leg| leg.bearing_deg - self.pinned.front_bearing_deg);
                let square = [along_deg - 90.0, along_deg + 90.0];
                self.largest(&square, |off_m, toward_deg| self.tip_off(id, off_m, toward_deg))
            }
            _ => self.stake(),
        };
        Tolerance { off_m, by, landing_m }
    }

    fn steps_m(&self) -> [f64; 12] {
        match self.job.units.system {
            UnitSystem::Metric => STEPS_M,
            UnitSystem::Imperial => STEPS_IN.map(|inches| 0.0254 * inches),
        }
    }

    /// By halving: what goes wrong at one step goes wrong farther off, too.
    fn largest(&self, turns_deg: &[f64], moved: impl Fn(f64, f64) -> PlacedWork) -> (f64, ToleranceBy) {
        let Some(before) = &self.before else { return (0.0, ToleranceBy::NoPlan) };
        let steps_m = self.steps_m();
        let wrong_at = |off_m: f64| {
            turns_deg.iter().find_map(|turn_deg| {
                let toward_deg = wrap_360(self.pinned.front_bearing_deg + turn_deg);
                match try_placed(self.surveyed, self.points, self.job, moved(off_m, toward_deg)) {
                    Ok(trial) => self.wrong(before, &trial),
                    Err(_) => Some(ToleranceBy::NoPlan),
                }
            })
        };
        let (mut right, mut wrong) = (0, steps_m.len() + 1);
        let mut by = ToleranceBy::NothingFound;
        while wrong - right > 1 {
            let middle = usize::midpoint(right, wrong);
            match wrong_at(steps_m[middle - 1]) {
                Some(found) => (wrong, by) = (middle, found),
                None => right = middle,
            }
        }
        (if right == 0 { 0.0 } else { steps_m[right - 1] }, by)
    }

    fn mast_off(&self, off_m: f64, toward_deg: f64) -> PlacedWork {
        let mut placed = self.pinned.clone();
        placed.mast = moved(placed.mast, off_m, toward_deg);
        placed
    }

    fn anchor_off(&self, guys: &[String], off_m: f64, toward_deg: f64) -> PlacedWork {
        let mut placed = self.pinned.clone();
        for guy in guys {
            if let Some(FoundAnchor { at: Some(at), .. }) = placed.anchors.get_mut(guy) {
                at.at = moved(at.at, off_m, toward_deg);
            }
        }
        placed
    }

    /// A timber is as long as it is: a tip that is off turns the base by what of that lies square to its leg.
    fn tip_off(&self, leg: &str, off_m: f64, toward_deg: f64) -> PlacedWork {
        let mut placed = self.pinned.clone();
        if let Some(leg) = self.computed.plan.base.legs.iter().find(|it| it.id == leg) {
            let across_m = off_m * sin_deg(toward_deg - leg.bearing_deg);
            let turn = (across_m / leg.reach_m.max(0.1)).to_degrees();
            placed.front_bearing_deg = wrap_360(placed.front_bearing_deg + turn);
        }
        placed
    }

    /// The first thing that is wrong with moved work and was not before.
    fn wrong(&self, before: &Trial, trial: &Trial) -> Option<ToleranceBy> {
        new_finding(&before.findings, &trial.findings)
            .or_else(|| self.harder_pull(&before.layout.guys, &trial.layout.guys))
            .or_else(|| self.short_rope(&before.layout.guys, &trial.layout.guys))
            .or_else(|| changed_gap(before, trial))
    }

    fn harder_pull(&self, before: &[GuyResult], now: &[GuyResult]) -> Option<ToleranceBy> {
        let (before, now) = (pulls(before), pulls(now));
        let harder = |(guy, pull): (&String, &f64)| {
            let was = before.get(guy)?;
            (*pull > (1.0 + MORE_PULL) * was).then(|| ToleranceBy::Pull { guy: guy.clone() })
        };
        now.iter().find_map(harder)
    }

    fn short_rope(&self, before: &[GuyResult], now: &[GuyResult]) -> Option<ToleranceBy> {
        now.iter().find_map(|guy| {
            let was = before.iter().find(|was| was.id == guy.id)?;
            let of = |level: &&GuyLevel| level.id == guy.level_id;
            let spare_m = SHARE_OF_END * self.job.rig.guy_levels.iter().find(of)?.lower_end_m;
            let longer_m = guy.cut_m.value - was.cut_m.value;
            (longer_m > spare_m).then(|| ToleranceBy::Rope { guy: guy.id.clone() })
        })
    }

    /// A stake is driven against the timber that lies there. So it may go along it as far as its end, and no nearer to anything
    /// than the nearest of the stakes may.
    fn stake(&self) -> (f64, ToleranceBy) {
        let margins = self.computed.plan.clearances.iter().filter(|it| of_stake(it.what));
        let near = margins.map(|it| (it.distance_m - it.needed_m, &it.to));
        let nearest = near.min_by(|a, b| a.0.total_cmp(&b.0));
        let inset_m = self.job.rig.stakes.inset_m;
        match nearest {
            Some((margin_m, to)) if margin_m < inset_m => {
                (self.rounded_down_m(margin_m), ToleranceBy::Near { to: to.clone() })
            }
            _ => (self.rounded_down_m(inset_m), ToleranceBy::TimberEnd),
        }
    }

    fn rounded_down_m(&self, length_m: f64) -> f64 {
        self.steps_m().into_iter().take_while(|step| *step <= length_m + 1e-9).last().unwrap_or(0.0)
    }
}

fn moved(at: [f64; 2], off_m: f64, toward_deg: f64) -> [f64; 2] {
    let [east, north] = unit(toward_deg);
    [at[0] + off_m * east, at[1] + off_m * north]
}

fn of_stake(what: Approach) -> bool {
    match what {
        Approach::Peg { kind, .. } | Approach::PegToService { kind } => kind == PegKind::Stake,
        Approach::Boundary { of } => of == OverBoundary::Peg(PegKind::Stake),
        _ => false,
    }
}

/// Graver than a note, and not there before as grave.
fn new_finding(before: &[Finding], now: &[Finding]) -> Option<ToleranceBy> {
    let known = |finding: &Finding| {
        before.iter().any(|old| old.is_about_the_same(finding) && old.severity <= finding.severity)
    };
    let fresh = now.iter().find(|finding| finding.severity != Severity::Note && !known(finding))?;
    Some(ToleranceBy::Finding { finding: Box::new(fresh.clone()) })
}

fn changed_gap(before: &Trial, now: &Trial) -> Option<ToleranceBy> {
    now.layout.base.legs.iter().find_map(|leg| {
        let was = before.layout.base.legs.iter().find(|was| was.id == leg.id)?;
        let change_m = leg.gap_centre_m.value - was.gap_centre_m.value;
        (change_m.abs() > GAP_M).then(|| ToleranceBy::Gap { leg: leg.id.clone() })
    })
}

/// The greatest pull of each guy for a level force of one at its collar, whichever way it goes.
///
/// Two neighbours with a gap γ between them hold a force that points between the opposite of both. At the angle β from the
/// opposite of the first its pull in plan is sin(γ − β)/sin γ: at most 1/sin γ where γ is over 90°, else 1. Along the rope
/// that is more by 1/cos of its angle to the level. Three or four guys, each pulling alone on its side: statics of two
/// forces in plan; the other guys' first tension is left out of account.
pub fn pulls(guys: &[GuyResult]) -> BTreeMap<String, f64> {
    let mut pulls = BTreeMap::new();
    for guy in guys {
        let turns = guys.iter().filter(|other| other.level_id == guy.level_id && other.id != guy.id);
        let turns: Vec<f64> = turns.map(|other| turn_deg(guy.azimuth_deg, other.azimuth_deg)).collect();
        let clockwise = turns.iter().map(|turn| wrap_360(*turn)).fold(360.0, f64::min);
        let other_way = turns.iter().map(|turn| wrap_360(-*turn)).fold(360.0, f64::min);
        let share = share_deg(clockwise).max(share_deg(other_way));
        pulls.insert(guy.id.clone(), share / cos_deg(guy.angle_deg).max(1e-3));
    }
    pulls
}

fn share_deg(gap_deg: f64) -> f64 {
    match gap_deg {
        gap if gap <= 90.0 => 1.0,
        gap if gap < 179.0 => 1.0 / sin_deg(gap),
        // Nothing holds it on that side.
        _ => 1.0 / sin_deg(179.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Three guys 120° apart at 45°: 1/sin 120° = 1.1547, over cos 45° = 1.6330. One turned by 10° makes a gap of 130° on one
    /// side: 1.3054/cos 45° = 1.8461 for it and for that neighbour; the third keeps a gap of 120°.
    #[test]
    fn pulls_by_hand() {
        let plan = crate::plan::compute(&crate::demo::yardstick()).unwrap().plan;
        let mut guys: Vec<GuyResult> = plan.guys.into_iter().take(3).collect();
        let level = guys[0].level_id.clone();
        for (guy, azimuth_deg) in guys.iter_mut().zip([10.0, 130.0, 250.0]) {
            (guy.azimuth_deg, guy.angle_deg) = (azimuth_deg, 45.0);
            guy.level_id.clone_from(&level);
        }
        for pull in pulls(&guys).values() {
            assert!((pull - 1.632_99).abs() < 1e-5, "{pull}");
        }
        guys[0].azimuth_deg = 0.0;
        let turned = pulls(&guys);
        let by_hand = [1.846_12, 1.846_12, 1.632_99];
        for (guy, by_hand) in guys.iter().zip(by_hand) {
            assert!((turned[&guy.id] - by_hand).abs() < 2e-5, "{} {}", guy.id, turned[&guy.id]);
        }
    }
}
