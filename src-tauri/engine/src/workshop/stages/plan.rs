//! The stages one after another.

use super::holes::{edge_mm, net};
use super::rises::{Rises, RodRig, TooShort, rises};
use super::{CrossHole, DrilledTube, HolePurpose, Reach, StagePin, Stages, WorkStage, findings};
use crate::job::{Job, Tube, TubeJoint};
use crate::plan::Plan;
use crate::quantity::FieldErrors;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::resistance::pin::{Pinned, allowable, thinnest};
use crate::round_figures::shop;
use crate::tube::MastTube;
use crate::workshop::fit::{Bushings, TubeDiameters, TubeFit, diameters};
use crate::workshop::key;

/// The mast as it is drilled and lifted.
pub(super) struct Work<'a> {
    pub job: &'a Job,
    pub plan: &'a Plan,
    pub fit: &'a TubeFit,
    pub tubes: Vec<MastTube<'a>>,
    /// How far each tube's lower end stands above the one below, run down on its stool.
    pub parked_m: Vec<f64>,
    /// From each tube's upper end down to the hole that carries the tube above, and takes the rod; as made where it was measured.
    pub carries_m: Vec<f64>,
    /// From each tube's lower end up to the hole on which it stands; none where nobody has measured it: then it is drilled where it
    /// meets the one below.
    pub stands_made_m: Vec<Option<f64>>,
    /// Of every tube, as measured where somebody did.
    pub diameters: Vec<TubeDiameters>,
    pub hole_mm: Vec<Option<f64>>,
    pub foot_above_ground_m: f64,
}

/// The stages of a job's mast.
///
/// # Errors
/// Where a section is unknown.
pub fn plan(job: &Job, plan: &Plan, fit: &TubeFit) -> Result<Stages, FieldErrors> {
    let work = Work::of(job, plan, fit)?;
    let mut found = Stages {
        stages: Vec::new(),
        tubes: Vec::new(),
        foot_above_ground_m: work.foot_above_ground_m,
        run_down_m: work.run_down_m(),
        findings: findings::not_said(job),
    };
    for index in (1..work.tubes.len()).rev().filter(|&index| work.slides(index)) {
        match work.stage(index) {
            Ok(stage) => found.stages.push(stage),
            Err(short) => {
                found.findings.push(findings::rod_too_short(&work, index, &short));
                found.stages.push(work.unlifted(index));
            }
        }
    }
    found.tubes = (0..work.tubes.len()).map(|index| work.drilled(index, &found.stages)).collect();
    found.findings.extend(findings::of(&work, &found));
    Ok(found)
}

/// What goes up when a tube of the mast is lifted, without the rod; none where a cord was not weighed.
///
/// # Errors
/// Where a section is unknown.
pub fn weight_kg(job: &Job, plan: &Plan, fit: &TubeFit, tube: usize) -> Result<Option<f64>, FieldErrors> {
    Ok(Work::of(job, plan, fit)?.weight_kg(tube))
}

/// What presses on the mast's foot; each none where a weight or a rope's strength is not known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FootPush {
    /// In still air, guys and strands as tight as they are set.
    pub still_n: Option<f64>,
    /// With every guy at its own limit at once.
    pub guys_at_limit_n: Option<f64>,
}

/// What a job's whole mast presses on its foot with.
///
/// # Errors
/// Where a section is unknown.
pub fn foot_push(job: &Job, plan: &Plan, fit: &TubeFit) -> Result<FootPush, FieldErrors> {
    let work = Work::of(job, plan, fit)?;
    let [still_n, guys_at_limit_n] = work.pushes_n(0);
    Ok(FootPush { still_n, guys_at_limit_n })
}

impl<'a> Work<'a> {
    fn of(job: &'a Job, plan: &'a Plan, fit: &'a TubeFit) -> Result<Self, FieldErrors> {
        let tubes = job.rig.mast_tubes()?;
        let system = job.units.system;
        let out_m = shop::STANDS_OUT.of(system);
        let pin_m = job.workshop.lift.pin_mm.unwrap_or(0.0) / 1000.0;
        let made_m = |kind: &str, index: usize| Some(job.workshop.made_mm(&key(kind, index))? / 1000.0);
        // What takes the rod of a tube that carries none is the hole of its first pull.
        let slides =
            |index: usize| job.rig.tubes.get(index).is_some_and(|it| it.joint == TubeJoint::Telescoped);
        let takes_rod = |index: usize| if slides(index + 1) { "hole-carries" } else { "hole-lift-1" };
        let mut parked_m = vec![0.0];
        let mut carries_m = vec![made_m(takes_rod(0), 0).unwrap_or(out_m - 0.5 * pin_m)];
        for (index, pair) in (1..).zip(tubes.windows(2)) {
            let [below, tube] = pair else { continue };
            let made = made_m(takes_rod(index), index);
            // A hole drilled lower than planned has to stand above the mouth all the same: the stool makes up for it.
            let hole_m = made.map(|made_m| below.length_m + made_m + 0.5 * pin_m - tube.length_m);
            let stool_m = (below.length_m + out_m - tube.length_m).max(hole_m.unwrap_or(0.0)).max(0.0);
            parked_m.push(if tube.telescoped { stool_m } else { below.length_m });
            carries_m.push(made.unwrap_or(tube.length_m + stool_m - below.length_m - 0.5 * pin_m));
        }
        let stands_made_m = (0..tubes.len()).map(|index| made_m("hole-stands", index)).collect();
        let hole_mm = job.rig.tubes.iter().map(|tube| tube.pin_hole_mm).collect();
        let foot_above_ground_m = plan.mast.foot_m - plan.mast.ground_m;
        Ok(Self {
            diameters: diameters(job)?,
            job,
            plan,
            fit,
            tubes,
            parked_m,
            carries_m,
            stands_made_m,
            hole_mm,
            foot_above_ground_m,
        })
    }

    pub(super) fn slides(&self, index: usize) -> bool {
        self.job.rig.tubes.get(index).is_some_and(|tube| tube.joint == TubeJoint::Telescoped)
    }

    pub(super) fn at(list: &[f64], index: usize) -> f64 {
        list.get(index).copied().unwrap_or(0.0)
    }

    pub(super) fn length_m(&self, index: usize) -> f64 {
        self.tubes.get(index).map_or(0.0, |tube| tube.length_m)
    }

    pub(super) fn overlap_m(&self, index: usize) -> f64 {
        self.tubes.get(index).map_or(0.0, |tube| tube.overlap_m)
    }

    /// What stays of a tube in the one below once both are pinned: as planned, or as its holes were drilled.
    pub(super) fn inside_m(&self, index: usize) -> f64 {
        let below = index.checked_sub(1).map(|below| Self::at(&self.carries_m, below));
        let stands_m = self.stands_made_m.get(index).copied().flatten();
        below.zip(stands_m).map_or(self.overlap_m(index), |(below_m, stands_m)| below_m + stands_m)
    }

    /// From a tube's lower end up to the hole on which it stands.
    pub(super) fn stands_hole_m(&self, index: usize) -> f64 {
        self.inside_m(index) - index.checked_sub(1).map_or(0.0, |below| Self::at(&self.carries_m, below))
    }

    /// From a tube's upper end down to the second hole for the tube above.
    pub(super) fn second_m(&self, index: usize) -> f64 {
        let apart_m = shop::PAIR_APART.of(self.job.units.system) / 1000.0;
        let made_mm = self.job.workshop.made_mm(&key("hole-second", index));
        made_mm.map_or(Self::at(&self.carries_m, index) - apart_m, |made_mm| made_mm / 1000.0)
    }

    /// From a tube's lower end up to its second hole there: drilled where it meets the one below, unless somebody measured it.
    pub(super) fn second_below_m(&self, index: usize) -> f64 {
        let made_mm = self.job.workshop.made_mm(&key("hole-second-below", index));
        made_mm.map_or_else(|| self.meets_second_m(index), |made_mm| made_mm / 1000.0)
    }

    /// Where that hole has to be so that a pin goes through both tubes.
    pub(super) fn meets_second_m(&self, index: usize) -> f64 {
        self.inside_m(index) - index.checked_sub(1).map_or(0.0, |below| self.second_m(below))
    }

    /// Upper end of a raised tube above the foot, all below it pinned.
    fn raised_m(&self, index: usize) -> f64 {
        (0..=index).map(|i| self.length_m(i) - if i == 0 { 0.0 } else { self.inside_m(i) }).sum()
    }

    /// Lower end of a tube above the foot, everything run down.
    fn stands_m(&self, index: usize) -> f64 {
        self.parked_m.iter().take(index + 1).sum()
    }

    fn run_down_m(&self) -> f64 {
        (0..self.tubes.len()).map(|index| self.stands_m(index) + self.length_m(index)).fold(0.0, f64::max)
    }

    /// Upper end of a tube before it is lifted.
    pub(super) fn top_before_m(&self, index: usize) -> f64 {
        self.stands_m(index) + self.length_m(index)
    }

    fn travel_m(&self, index: usize) -> f64 {
        let below_m = index.checked_sub(1).map_or(0.0, |below| self.length_m(below));
        below_m - self.inside_m(index) - Self::at(&self.parked_m, index)
    }

    /// Where the rod is pinned: the pin lies on the mouth of the tube below.
    fn rod_pin_m(&self, index: usize) -> f64 {
        self.top_before_m(index) - Self::at(&self.carries_m, index)
    }

    pub(super) fn rig(&self) -> Option<RodRig> {
        let (lift, system) = (&self.job.workshop.lift, self.job.units.system);
        lift.pin_mm?;
        Some(RodRig {
            rod_m: lift.rod_length_m? - 2.0 * shop::ROD_END.of(system) / 1000.0,
            hook_lowest_m: shop::ABOVE_THE_FOOT.of(system),
            hook_highest_m: lift.winch_height_m? - shop::BELOW_THE_DRUM.of(system),
            shortest_m: shop::SHORTEST_PULL.of(system),
        })
    }

    fn stage(&self, index: usize) -> Result<WorkStage, TooShort> {
        let mut stage = self.unlifted(index);
        if let Some(rig) = self.rig() {
            let rises = rises(&rig, stage.rod_pin_m, stage.travel_m)?;
            let lifts_m = self.lifts_m(index, &rises);
            let ends =
                lifts_m.iter().skip(1).copied().chain([stage.travel_m + Self::at(&self.carries_m, index)]);
            stage.gains_m = lifts_m.iter().zip(ends).map(|(from_m, to_m)| to_m - from_m).collect();
            stage.rises = Some(rises);
        }
        Ok(stage)
    }

    /// From the upper end down to the hole of each pull, the first one first, as made where it was measured.
    fn lifts_m(&self, index: usize, rises: &Rises) -> Vec<f64> {
        let carries_m = Self::at(&self.carries_m, index);
        let of = |pull: u32| {
            let part = key(&format!("hole-lift-{}", pull + 1), index);
            let made_mm = if pull == 0 { None } else { self.job.workshop.made_mm(&part) };
            made_mm.map_or(carries_m + f64::from(pull) * rises.each_m, |made_mm| made_mm / 1000.0)
        };
        let mut lifts_m: Vec<f64> = (0..rises.pulls).map(of).collect();
        lifts_m.sort_by(f64::total_cmp);
        lifts_m
    }

    fn unlifted(&self, index: usize) -> WorkStage {
        let system = self.job.units.system;
        let below = index.saturating_sub(1);
        let joint = self.fit.joints.iter().find(|joint| joint.tube as usize == index);
        // The pin goes through the tube below, which stands run down, at the hole that carries.
        let lower_m = self.stands_m(below) + self.length_m(below) - Self::at(&self.carries_m, below);
        let pins_m = [lower_m, lower_m + Self::at(&self.carries_m, below) - self.second_m(below)];
        let above = pins_m.map(|pin_m| pin_m + self.foot_above_ground_m);
        let by_hand = above[1] <= shop::REACH.of(system);
        let raised_m = if index == 0 { 0.0 } else { self.raised_m(below) };
        let stop_m = shop::BEFORE_THE_END.of(system) / 1000.0;
        WorkStage {
            tube: index as u32,
            name: self.tubes.get(index).map_or(String::new(), |tube| tube.name.to_owned()),
            carried: self.tubes.iter().skip(index + 1).map(|tube| tube.name.to_owned()).collect(),
            stool_m: if Self::at(&self.parked_m, index) > 0.0 { self.stands_m(index) } else { 0.0 },
            travel_m: self.travel_m(index),
            rises: None,
            gains_m: Vec::new(),
            rod_pin_m: self.rod_pin_m(index),
            pins_m,
            pins_above_ground_m: above,
            reach: if by_hand { Reach::ByHandFromTheGround } else { Reach::PoleOrPlatform },
            platform_m: (!by_hand).then(|| (above[0] - shop::BELOW_THE_PIN.of(system)).max(0.0)),
            pin_in_the_end_m: raised_m - Self::at(&self.carries_m, below),
            stop_sleeve_mm: joint.and_then(|joint| match &joint.bushings {
                Bushings::Turned { upper, lower } => {
                    let left_mm =
                        (self.inside_m(index) - stop_m) * 1000.0 - upper.length_mm - lower.length_mm;
                    (left_mm > 0.0).then_some(left_mm)
                }
                _ => None,
            }),
            stop_mark_m: self.inside_m(index),
            pin: self.pin(index),
        }
    }

    /// All that stands and hangs on the pin below a tube.
    fn pin(&self, index: usize) -> StagePin {
        let hole_mm = self.hole_mm.get(index).copied().flatten();
        let pin_mm = self.job.workshop.lift.pin_mm;
        let pinned = pin_mm.zip(self.pinned(index)).map(|(pin_mm, pinned)| Pinned { pin_mm, ..pinned });
        let [still_n, guys_at_limit_n] = self.pushes_n(index);
        let largest_n = still_n.zip(guys_at_limit_n).map(|(still_n, limit_n)| still_n.max(limit_n));
        StagePin {
            hole_mm,
            pin_mm,
            still_n,
            guys_at_limit_n,
            strength: pinned.map(|pinned| allowable(&pinned)),
            thinnest_mm: largest_n
                .zip(self.pinned(index))
                .and_then(|(load_n, pinned)| thinnest(&pinned, load_n, self.job.units.system)),
        }
    }

    /// What presses down under a tube: in still air, and with every guy above at its own limit at once.
    fn pushes_n(&self, index: usize) -> [Option<f64>; 2] {
        let weight_n = self.weight_kg(index).map(|mass_kg| mass_kg * STANDARD_GRAVITY);
        let hangs_n =
            weight_n.zip(self.strands_pull_n(index)).map(|(weight_n, strands_n)| weight_n + strands_n);
        let as_set_n = self.guys_pull_n(index, |guy| Some(guy.tension_top_n)).unwrap_or(0.0);
        let at_limit_n = self.guys_pull_n(index, |guy| self.allowable_n(&guy.level_id));
        [
            hangs_n.map(|hangs_n| hangs_n + as_set_n),
            hangs_n.zip(at_limit_n).map(|(hangs_n, guys_n)| hangs_n + guys_n),
        ]
    }

    fn pinned(&self, index: usize) -> Option<Pinned> {
        let below = index.checked_sub(1)?;
        let (tube, under) = (self.tubes.get(index)?, self.tubes.get(below)?);
        let yield_mpa = |i: usize| self.job.rig.tubes.get(i).map(Tube::least_yield_mpa);
        Some(Pinned {
            pin_mm: 0.0,
            inner_wall_mm: tube.section.wall_mm,
            inner_yield_mpa: yield_mpa(index)?,
            outer_wall_mm: under.section.wall_mm,
            outer_yield_mpa: yield_mpa(below)?,
        })
    }

    /// The tube, those above it, topper, guys and strands that hang on them; none where a cord was not weighed. All of a rope is taken,
    /// though its lower part lies on the ground for long.
    pub(super) fn weight_kg(&self, index: usize) -> Option<f64> {
        let tubes: f64 =
            self.tubes.iter().skip(index).map(|tube| tube.section.mass_kg_per_m * tube.length_m).sum();
        let topper = self.job.rig.topper.as_ref().map_or(0.0, |topper| topper.mass_kg);
        let guys: f64 = self
            .guys_above(index)
            .map(|guy| {
                let level = self.job.rig.guy_levels.iter().find(|level| level.id == guy.level_id);
                level.map_or(0.0, |level| level.rope.mass_g_per_m / 1000.0 * guy.cut_m.value)
            })
            .sum();
        let strands = match (&self.job.rig.strands, &self.plan.ring) {
            (Some(strands), Some(ring)) => {
                strands.cord.mass_g_per_m? / 1000.0 * ring.strand_lengths_m.iter().sum::<f64>()
            }
            _ => 0.0,
        };
        Some(tubes + topper + guys + strands)
    }

    fn guys_above(&self, index: usize) -> impl Iterator<Item = &crate::guys::GuyResult> {
        // Raised, on this tube or one that it carries: above the mouth of the tube below.
        let mouth_m = index.checked_sub(1).map_or(0.0, |below| self.raised_m(below));
        let foot_m = self.plan.mast.foot_m;
        self.plan.guys.iter().filter(move |guy| guy.attach[2] - foot_m > mouth_m)
    }

    /// What the guys above press it down with; none where one of them is not known.
    fn guys_pull_n(
        &self,
        index: usize,
        pull: impl Fn(&crate::guys::GuyResult) -> Option<f64>,
    ) -> Option<f64> {
        let mut sum_n = 0.0;
        for guy in self.guys_above(index) {
            sum_n += pull(guy)? * guy.down_share();
        }
        Some(sum_n)
    }

    fn allowable_n(&self, level_id: &str) -> Option<f64> {
        let level = self.job.rig.guy_levels.iter().find(|level| level.id == level_id)?;
        level.rope.strength.resistance().allowable_n()
    }

    /// What the strands press it down with, as tight as they are set.
    fn strands_pull_n(&self, _index: usize) -> Option<f64> {
        let (Some(strands), Some(ring)) = (&self.job.rig.strands, &self.plan.ring) else { return Some(0.0) };
        let down = ring.tops.iter().zip(&ring.points).zip(&ring.strand_lengths_m);
        Some(
            down.map(|((top, point), length_m)| {
                strands.cord.tension_n * (top[2] - point[2]) / length_m.max(1e-9)
            })
            .sum(),
        )
    }

    /// A tube with its holes.
    fn drilled(&self, index: usize, stages: &[WorkStage]) -> DrilledTube {
        let length_m = self.length_m(index);
        let carries_m = Self::at(&self.carries_m, index);
        let mut holes = Vec::new();
        let mut add = |purpose, kind: &str, from_upper_end_m: f64, across_the_rod| {
            let part = key(kind, index);
            let made_mm = self.job.workshop.made_mm(&part);
            let from_lower_end_m = length_m - from_upper_end_m;
            holes.push(CrossHole {
                part,
                purpose,
                from_upper_end_m,
                from_lower_end_m,
                across_the_rod,
                made_mm,
            });
        };
        if self.slides(index + 1) {
            add(HolePurpose::SecondAbove, "hole-second", self.second_m(index), true);
            add(HolePurpose::CarriesAbove, "hole-carries", carries_m, false);
        }
        if let Some(stage) = stages.iter().find(|stage| stage.tube as usize == index) {
            if let Some(rises) = stage.rises {
                for (pull, at_m) in (1..).zip(self.lifts_m(index, &rises)) {
                    // The first one is the hole that carries, where there is one.
                    if pull > 1 || !self.slides(index + 1) {
                        add(HolePurpose::Lifts, &format!("hole-lift-{pull}"), at_m, false);
                    }
                }
            }
            let second_m = length_m - self.second_below_m(index);
            add(HolePurpose::SecondBelow, "hole-second-below", second_m, true);
            add(HolePurpose::StandsBelow, "hole-stands", length_m - self.stands_hole_m(index), false);
        }
        holes.sort_by(|a, b| a.from_upper_end_m.total_cmp(&b.from_upper_end_m));
        let section = self.tubes.get(index).map(|tube| tube.section);
        let hole_mm = [self.hole_mm.get(index), self.hole_mm.get(index + 1)]
            .into_iter()
            .flatten()
            .copied()
            .flatten()
            .fold(None, |most: Option<f64>, hole_mm| Some(most.map_or(hole_mm, |most| most.max(hole_mm))));
        DrilledTube {
            stands_m: self.stands_m(index),
            tube: index as u32,
            name: self.tubes.get(index).map_or(String::new(), |tube| tube.name.to_owned()),
            length_m,
            outside_mm: self.diameters.get(index).map_or(0.0, |it| it.outside_mm),
            net: hole_mm
                .zip(section)
                .filter(|_| !holes.is_empty())
                .and_then(|(hole_mm, section)| net(section.outside_mm, section.wall_mm, hole_mm)),
            holes,
        }
    }

    /// From a hole's middle to an end or a bushing, as laid out.
    pub(super) fn edge_m(&self, index: usize) -> f64 {
        edge_mm(self.hole_mm.get(index).copied().flatten().unwrap_or(0.0)) / 1000.0
    }
}
