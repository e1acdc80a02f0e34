//! The lift, stage by stage.

use super::findings;
use super::jam::{friction, jams_at, push_n};
use super::rod::{Rod, euler_n};
use super::{LiftPlan, LiftStage, RodPushed, StandOff, StrapOnDrum, drum};
use crate::job::Job;
use crate::plan::Plan;
use crate::quantity::FieldErrors;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::resistance::aisc360::ELASTICITY_MPA;
use crate::resistance::pin;
use crate::resistance::tube::SOFTEST_YIELD_MPA;
use crate::round_figures::shop;
use crate::tube::MastTube;
use crate::tube::section::STEEL_KG_PER_M3;
use crate::workshop::fit::{Bushings, FitJoint, TubeDiameters, TubeFit, diameters};
use crate::workshop::stages::{Stages, WorkStage, weight_kg};

/// Turns of the strap that stay on the drum: common practice.
pub const DEAD_TURNS: f64 = 2.0;
/// What a hand winch hands on of what the hand gives: Lobben's 16 1/2 lb by the sum are 20 to 25 with friction.
pub const WINCH_EFFICIENCY: f64 = 0.66;

pub(super) struct Lifting<'a> {
    pub job: &'a Job,
    pub fit: &'a TubeFit,
    pub stages: &'a Stages,
    pub tubes: Vec<MastTube<'a>>,
    /// Of every tube, as measured where somebody did.
    pub diameters: Vec<TubeDiameters>,
    pub rod: Option<Rod>,
}

/// The lift of a job's mast by its stages.
///
/// # Errors
/// Where a section is unknown.
pub fn plan(job: &Job, plan: &Plan, fit: &TubeFit, stages: &Stages) -> Result<LiftPlan, FieldErrors> {
    let lift = &job.workshop.lift;
    let rod = lift.rod_outside_mm.filter(|outside_mm| *outside_mm > lift.rod_bore_mm).map(|outside_mm| Rod {
        outside_mm,
        bore_mm: lift.rod_bore_mm,
        yield_mpa: SOFTEST_YIELD_MPA,
    });
    let lifting = Lifting { job, fit, stages, tubes: job.rig.mast_tubes()?, diameters: diameters(job)?, rod };
    let strap = lifting.strap();
    let stand_off = lifting.stand_off(strap);
    let mut found = LiftPlan {
        friction: friction(lift.rubbing),
        stages: Vec::new(),
        findings: findings::not_said(job, stages),
        stand_off,
        strap,
        plate: None,
    };
    for stage in &stages.stages {
        let mass_kg = weight_kg(job, plan, fit, stage.tube as usize)?;
        found.stages.push(lifting.stage(stage, mass_kg, &found));
    }
    let lower_mm = lifting.diameters.first().map_or(0.0, |tube| tube.outside_mm);
    found.plate = super::plate::plate(job, &found, lower_mm);
    found.findings.extend(findings::of(&lifting, &found));
    Ok(found)
}

/// The least play between what slides: the lower ring where there are rings, else tube in tube.
fn slides_with_mm(joint: &FitJoint) -> Option<f64> {
    let least_mm = match &joint.bushings {
        Bushings::Turned { lower, .. } => Some(lower.play.least_mm),
        _ => joint.play.map(|play| play.worst.least_mm),
    };
    least_mm.filter(|least_mm| *least_mm > 0.0)
}

impl Lifting<'_> {
    /// Lowest and highest the hook goes, above the foot.
    fn hook_m(&self) -> Option<[f64; 2]> {
        let rises =
            self.stages.stages.iter().filter_map(|stage| Some((stage.rises?, stage.longest_pull_m())));
        let [low, high] = rises.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], (rises, pull_m)| {
            [low.min(rises.hook_from_m), high.max(rises.hook_from_m + pull_m)]
        });
        (low < high).then_some([low, high])
    }

    fn strap(&self) -> Option<StrapOnDrum> {
        let lift = &self.job.workshop.lift;
        let (drum_mm, thick_mm) = (lift.drum_mm?, lift.strap_thickness_mm?);
        let [low_m, high_m] = self.hook_m()?;
        let dead_mm = drum::length(drum_mm, thick_mm, DEAD_TURNS);
        let layers = drum::turns(drum_mm, thick_mm, dead_mm + 1000.0 * (high_m - low_m));
        Some(StrapOnDrum {
            length_m: dead_mm / 1000.0 + lift.winch_height_m? - low_m,
            layers,
            full_mm: drum::diameter(drum_mm, thick_mm, layers),
        })
    }

    fn stand_off(&self, strap: Option<StrapOnDrum>) -> Option<StandOff> {
        let (rod, lower) = (self.rod?, self.diameters.first()?);
        let gap_mm = shop::BEHIND_THE_WINCH.of(self.job.units.system);
        let surface_mm = 0.5 * lower.outside_mm;
        // The guides keep the rod off the tube by the gap, and the winch's frame off the rod by another one.
        let arm_mm = surface_mm + gap_mm + 0.5 * rod.outside_mm;
        let of_drum = strap.zip(self.job.workshop.lift.drum_mm);
        Some(StandOff {
            arm_mm,
            winch_frame_mm: rod.outside_mm + 2.0 * gap_mm,
            // The strap leaves the drum on the tube's side, over the rod's axis, at the middle of its layers.
            drum_middle_mm: of_drum
                .map(|(strap, drum_mm)| arm_mm - surface_mm + 0.25 * (strap.full_mm + drum_mm)),
            spacers_mm: self
                .diameters
                .iter()
                .map(|tube| arm_mm - 0.5 * rod.outside_mm - 0.5 * tube.outside_mm)
                .collect(),
        })
    }

    fn stage(&self, stage: &WorkStage, mass_kg: Option<f64>, found: &LiftPlan) -> LiftStage {
        let index = stage.tube as usize;
        let rod_kg = self
            .rod
            .zip(self.job.workshop.lift.rod_length_m)
            .map(|(rod, length_m)| rod.area_mm2() * 1e-6 * length_m * STEEL_KG_PER_M3);
        let mass_kg = mass_kg.map(|mass_kg| mass_kg + rod_kg.unwrap_or(0.0));
        let joint = self.fit.joints.iter().find(|joint| joint.tube == stage.tube);
        let bearing_m = joint.map_or(0.0, |joint| joint.bearing_m);
        let arm_m = found.stand_off.as_ref().map(|off| off.arm_mm / 1000.0);
        let weight_n = mass_kg.map(|mass_kg| mass_kg * STANDARD_GRAVITY);
        let strap_n = weight_n
            .zip(arm_m)
            .and_then(|(weight_n, arm_m)| push_n(weight_n, found.friction, [arm_m, 0.0], bearing_m));
        let centre_m = self.centre_m(index);
        let before_m = stage.rod_pin_m - self.carried_below_pin_m(stage);
        LiftStage {
            tube: stage.tube,
            name: stage.name.clone(),
            mass_kg,
            centre_before_m: before_m + centre_m,
            centre_after_m: before_m + centre_m + stage.travel_m,
            strap_n,
            jams_at_m: arm_m.map(|arm_m| jams_at(found.friction, arm_m)),
            bearing_m,
            dent_mm: joint.and_then(slides_with_mm),
            hand_n: strap_n.zip(found.strap).and_then(|(strap_n, strap)| self.hand_n(strap_n, &strap)),
            crank_turns: self.crank_turns(stage),
            rod: self.pushed(stage, strap_n),
            rod_pin_n: self.rod_pin_n(index, found),
        }
    }

    /// From the moving tube's lower end up to the hole by which it hangs.
    fn carried_below_pin_m(&self, stage: &WorkStage) -> f64 {
        let drilled = self.stages.tubes.iter().find(|tube| tube.tube == stage.tube);
        let first = drilled.and_then(|tube| {
            tube.holes.iter().find(|hole| {
                use crate::workshop::stages::HolePurpose::{CarriesAbove, Lifts};
                matches!(hole.purpose, CarriesAbove | Lifts)
            })
        });
        first.map_or(0.0, |hole| hole.from_lower_end_m)
    }

    /// Centre of the tubes that go up, with the topper, over the lower end of the one that slides.
    fn centre_m(&self, index: usize) -> f64 {
        let (mut mass, mut moment, mut end_m) = (0.0, 0.0, 0.0);
        for (place, tube) in self.tubes.iter().enumerate().skip(index) {
            if place > index {
                end_m -= tube.overlap_m;
            }
            let own = tube.section.mass_kg_per_m * tube.length_m;
            moment += own * (end_m + 0.5 * tube.length_m);
            mass += own;
            end_m += tube.length_m;
        }
        let topper = self.job.rig.topper.as_ref().map_or(0.0, |topper| topper.mass_kg);
        (moment + topper * end_m) / (mass + topper).max(1e-9)
    }

    /// Hand on the crank at the fullest drum.
    fn hand_n(&self, strap_n: f64, strap: &StrapOnDrum) -> Option<f64> {
        let lift = &self.job.workshop.lift;
        Some(drum::crank_n(strap_n, 0.5 * strap.full_mm, lift.crank_mm?, lift.gear?, WINCH_EFFICIENCY))
    }

    fn crank_turns(&self, stage: &WorkStage) -> Option<f64> {
        let lift = &self.job.workshop.lift;
        let (drum_mm, thick_mm, gear, rises) =
            (lift.drum_mm?, lift.strap_thickness_mm?, lift.gear?, stage.rises?);
        let [low_m, _] = self.hook_m()?;
        let dead_mm = drum::length(drum_mm, thick_mm, DEAD_TURNS);
        let wound = |hook_m: f64| drum::turns(drum_mm, thick_mm, dead_mm + 1000.0 * (hook_m - low_m));
        Some(gear * (wound(rises.hook_from_m + stage.longest_pull_m()) - wound(rises.hook_from_m)))
    }

    fn pushed(&self, stage: &WorkStage, strap_n: Option<f64>) -> Option<RodPushed> {
        let (rod, rises, winch_m) = (self.rod?, stage.rises?, self.job.workshop.lift.winch_height_m?);
        // A guide behind the winch, one at the lower tube's mouth, the pin at the top.
        let mouth_m = self.tubes.first().map_or(0.0, |tube| tube.length_m);
        let pieces = [
            winch_m - rises.hook_from_m,
            mouth_m - winch_m,
            stage.rod_pin_m + stage.longest_pull_m() - mouth_m.max(winch_m),
        ];
        let free_m = pieces.into_iter().fold(0.0, f64::max);
        Some(RodPushed {
            free_m,
            allowable_n: rod.allowable_n(1000.0 * free_m),
            euler_n: euler_n(ELASTICITY_MPA, rod.second_moment_mm4(), 1000.0 * free_m),
            guides_at_m: [winch_m, mouth_m],
            guides_apart_m: strap_n.and_then(|push_n| rod.longest_mm(push_n)).map(|mm| mm / 1000.0),
        })
    }

    fn rod_pin_n(&self, index: usize, found: &LiftPlan) -> Option<f64> {
        let (pin_mm, off) = (self.job.workshop.lift.pin_mm?, found.stand_off.as_ref()?);
        let spacer_mm = off.spacers_mm.get(index).copied()?;
        let rod_mm = self.rod.map_or(0.0, |rod| rod.outside_mm);
        Some(pin::sticking_out_n(pin_mm, spacer_mm + 0.5 * rod_mm))
    }
}
