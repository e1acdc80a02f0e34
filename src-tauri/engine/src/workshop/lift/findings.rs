//! What can be wrong with the lift.

use super::plan::Lifting;
use super::plate::WinchHoles;
use super::{LiftPlan, LiftStage, PlateWork};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::Job;
use crate::quantity::convert::POUND_FORCE_N;
use crate::round_figures::shop;
use crate::source::SourceKey;
use crate::workshop::stages::Stages;

/// A mean of 15 lb on the handle all day (Lobben, p. 325).
pub const STEADY_HAND_N: f64 = 15.0 * POUND_FORCE_N;
/// About 30 lb on a 12 in arm for several minutes (Introduction to Fall Protection, 4th ed., p. 370).
pub const SHORT_HAND_N: f64 = 30.0 * POUND_FORCE_N;

fn about(severity: Severity, rule: WorkshopRule, remedy: WorkshopRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
}

fn force(value: f64) -> Quantity {
    Quantity::ForceN { value }
}

/// What somebody has to say before forces are known.
pub(super) fn not_said(job: &Job, stages: &Stages) -> Vec<Finding> {
    if stages.stages.is_empty() {
        return Vec::new();
    }
    let lift = &job.workshop.lift;
    let strands_weighed = job.rig.strands.as_ref().is_none_or(|strands| strands.cord.mass_g_per_m.is_some());
    let all = [
        (WorkshopQuestion::Rod, lift.rod_outside_mm.is_some()),
        (WorkshopQuestion::Drum, lift.drum_mm.is_some()),
        (WorkshopQuestion::Crank, lift.crank_mm.is_some() && lift.gear.is_some()),
        (WorkshopQuestion::StrapThickness, lift.strap_thickness_mm.is_some()),
        (WorkshopQuestion::StrapStrength, lift.strap_working_n.is_some()),
        (WorkshopQuestion::HookStrength, lift.hook_working_n.is_some()),
        (
            WorkshopQuestion::WinchHoles,
            job.workshop.winch_plate.is_some_and(|it| WinchHoles::of(&it).is_some()),
        ),
        (WorkshopQuestion::StrandsWeight, strands_weighed),
    ];
    let open: Vec<WorkshopQuestion> =
        all.into_iter().filter(|(_, said)| !said).map(|(asked, _)| asked).collect();
    if open.is_empty() {
        return Vec::new();
    }
    vec![about(Severity::Unchecked, WorkshopRule::NotSaid { open }, WorkshopRemedy::SayIt)]
}

pub(super) fn of(lifting: &Lifting, found: &LiftPlan) -> Vec<Finding> {
    let lift = &lifting.job.workshop.lift;
    let mut all = found.plate.as_ref().map_or_else(Vec::new, |of| plate(lifting, of));
    for stage in &found.stages {
        all.extend(jams(stage));
        let Some(strap_n) = stage.strap_n else { continue };
        let mut over =
            |allowed_n: Option<f64>, rule: WorkshopRule, remedy: WorkshopRemedy, source: SourceKey| {
                if let Some(allowed_n) = allowed_n.filter(|allowed_n| strap_n > *allowed_n) {
                    all.push(Finding {
                        measured: Some(force(strap_n)),
                        limit: Limit::at_most(force(allowed_n)),
                        source,
                        ..about(Severity::Stop, rule, remedy)
                    });
                }
            };
        let tube = || stage.name.clone();
        let habit = SourceKey::CommonPractice;
        over(
            lift.strap_working_n,
            WorkshopRule::StrapTooWeak { tube: tube() },
            WorkshopRemedy::StrongerStrap,
            habit,
        );
        over(
            lift.hook_working_n,
            WorkshopRule::HookTooWeak { tube: tube() },
            WorkshopRemedy::StrongerHook,
            habit,
        );
        over(
            stage.rod_pin_n,
            WorkshopRule::RodPinBends { tube: tube() },
            WorkshopRemedy::ThickerPin { pin_mm: None },
            SourceKey::AiscPins,
        );
        over(
            stage.rod.map(|rod| rod.allowable_n),
            WorkshopRule::RodBuckles { tube: tube() },
            WorkshopRemedy::MoreGuides { apart_m: stage.rod.and_then(|rod| rod.guides_apart_m) },
            SourceKey::Aisc360,
        );
        all.extend(hand(stage));
    }
    all
}

/// A plate thinner than its bending asks for, or a rod wider than the room between the spacers.
fn plate(lifting: &Lifting, plate: &PlateWork) -> Vec<Finding> {
    let small = |value_mm: f64| Quantity::LengthM { value: value_mm / 1000.0 };
    let mut all = Vec::new();
    if let Some((has_mm, least_mm)) =
        plate.thickness_mm.zip(plate.least_mm).filter(|(has_mm, least_mm)| has_mm < least_mm)
    {
        all.push(Finding {
            measured: Some(small(has_mm)),
            limit: Limit::at_least(small(least_mm)),
            source: SourceKey::Aisc360,
            ..about(
                Severity::Stop,
                WorkshopRule::WinchPlateTooThin,
                WorkshopRemedy::ThickerPlate { thickness_mm: least_mm },
            )
        });
    }
    let gap_mm = shop::BEHIND_THE_WINCH.of(lifting.job.units.system);
    let rod_mm = lifting.rod.map_or(0.0, |rod| rod.outside_mm);
    let most_mm = plate.room_mm - 2.0 * gap_mm;
    if rod_mm > most_mm {
        all.push(Finding {
            measured: Some(small(rod_mm)),
            limit: Limit::at_most(small(most_mm.max(0.0))),
            ..about(
                Severity::Stop,
                WorkshopRule::RodMeetsSpacers,
                WorkshopRemedy::ThinnerRod { most_mm: most_mm.max(0.0) },
            )
        });
    }
    all
}

fn jams(stage: &LiftStage) -> Option<Finding> {
    let jams_at_m = stage.jams_at_m.filter(|jams_at_m| stage.bearing_m <= *jams_at_m)?;
    Some(Finding {
        measured: Some(Quantity::LengthM { value: stage.bearing_m }),
        limit: Limit::at_least(Quantity::LengthM { value: jams_at_m }),
        source: SourceKey::BeerJohnston,
        ..about(
            Severity::Stop,
            WorkshopRule::Jams { tube: stage.name.clone() },
            WorkshopRemedy::LeaveMoreInside { least_m: 1.5 * jams_at_m },
        )
    })
}

fn hand(stage: &LiftStage) -> Option<Finding> {
    let hand_n = stage.hand_n?;
    let (severity, limit_n, source) = if hand_n > SHORT_HAND_N {
        (Severity::Stop, SHORT_HAND_N, SourceKey::FallProtection)
    } else if hand_n > STEADY_HAND_N {
        (Severity::Caution, STEADY_HAND_N, SourceKey::Lobben)
    } else {
        return None;
    };
    Some(Finding {
        measured: Some(force(hand_n)),
        limit: Limit::at_most(force(limit_n)),
        source,
        ..about(
            severity,
            WorkshopRule::CrankTooHard { tube: stage.name.clone() },
            WorkshopRemedy::SlowerWinch,
        )
    })
}
