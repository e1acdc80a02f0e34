//! Winch and lift, in words.

use super::{WorkCard, WorkFigure, WorkPage, apart, drill_or, figure, small_or, tape};
use crate::job::Job;
use crate::quantity::{Units, sold};
use crate::report::format;
use crate::report::rows::{Said, force, length, mass};
use crate::report::words::workshop as say;
use crate::workshop::lift::{LiftPlan, LiftStage, PlateWork};

pub(super) fn page(job: &Job, lift: &LiftPlan) -> WorkPage {
    let units = job.units;
    let [waits_for, findings] = apart(&lift.findings, units);
    // Where one stage is not known, neither is the most of all.
    let most = |of: fn(&LiftStage) -> Option<f64>| {
        let all: Option<Vec<f64>> = lift.stages.iter().map(of).collect();
        all.filter(|all| !all.is_empty()).map(|all| format::force(all.into_iter().fold(0.0, f64::max), units))
    };
    let (hand, strap) = (most(|stage| stage.hand_n), most(|stage| stage.strap_n));
    let mut cards: Vec<WorkCard> = winch_card(job, lift).into_iter().collect();
    cards.extend(lift.plate.as_ref().map(|plate| plate_card(job, plate)));
    cards.extend(lift.stages.iter().map(|stage| stage_card(stage, units)));
    WorkPage {
        title: say::LIFT_TITLE.to_owned(),
        headline: say::lift_headline(hand.as_deref(), strap.as_deref()),
        waits_for,
        findings,
        cards,
        says: say::STOP_RULES.map(str::to_owned).to_vec(),
        caution: say::LIFT_CAUTION.to_owned(),
    }
}

fn winch_card(job: &Job, lift: &LiftPlan) -> Option<WorkCard> {
    let units = job.units;
    let off = lift.stand_off.as_ref()?;
    let mut rows = vec![
        figure(WorkFigure::WinchFrame, tape(off.winch_frame_mm, units)),
        figure(WorkFigure::Arm, tape(off.arm_mm, units)),
    ];
    if let Some(middle_mm) = off.drum_middle_mm {
        rows.push(figure(WorkFigure::DrumMiddle, tape(middle_mm, units)));
    }
    if let Some(strap) = &lift.strap {
        rows.extend([
            figure(WorkFigure::StrapLength, length(strap.length_m, units)),
            figure(WorkFigure::StrapLayers, format!("{:.1}", strap.layers)),
            figure(WorkFigure::DrumFull, tape(strap.full_mm, units)),
        ]);
    }
    let named = job.rig.tubes.iter().zip(&off.spacers_mm).skip(1);
    let spacers: Vec<String> =
        named.map(|(tube, mm)| format!("{} {}", tube.name, sold::tape(*mm, units))).collect();
    rows.push(figure(WorkFigure::Spacer, spacers.join(", ")));
    let part = "winch".to_owned();
    Some(WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::LIFT_TITLE.to_owned(),
        rows,
        big: vec![WorkFigure::WinchFrame.id().to_owned()],
        says: lift.plate.is_none().then(|| say::NO_PLATE.to_owned()).into_iter().collect(),
        measured: Vec::new(),
    })
}

fn plate_card(job: &Job, plate: &PlateWork) -> WorkCard {
    let units = job.units;
    let pair = |of: [f64; 2]| of.map(|mm| sold::dividers(mm, units)).join("; ");
    let mut rows = vec![
        figure(WorkFigure::PlateWide, tape(plate.width_mm, units)),
        figure(WorkFigure::PlateHigh, tape(plate.height_mm, units)),
        figure(WorkFigure::PlateHoles, pair(plate.holes_mm)),
        figure(WorkFigure::PlateDrill, drill_or(Some(plate.hole_mm), units)),
        figure(WorkFigure::ClampHoles, pair(plate.clamps_mm)),
        figure(WorkFigure::ClampDrill, drill_or(Some(plate.clamp_hole_mm), units)),
        figure(WorkFigure::PlateSpacer, tape(plate.spacer_mm, units)),
        figure(WorkFigure::PlateLeast, small_or(plate.least_mm, units)),
    ];
    if let Some(moment_nm) = plate.moment_nm {
        rows.push(figure(WorkFigure::PlateMoment, format::torque(moment_nm, units)));
    }
    let part = "winch-plate".to_owned();
    WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::PLATE.to_owned(),
        rows,
        big: [WorkFigure::PlateLeast, WorkFigure::PlateSpacer].map(|it| it.id().to_owned()).to_vec(),
        says: vec![say::PLATE_HOW.to_owned()],
        measured: Vec::new(),
    }
}

fn stage_card(stage: &LiftStage, units: Units) -> WorkCard {
    let known = |value: Option<f64>, said: fn(f64, Units) -> Said| {
        value.map_or_else(|| Said::from(say::NOT_KNOWN), |value| said(value, units))
    };
    let turns = stage.crank_turns.map_or(say::NOT_KNOWN.to_owned(), |turns| format!("{turns:.0}"));
    let mut rows = vec![
        figure(WorkFigure::Mass, known(stage.mass_kg, mass)),
        figure(WorkFigure::StrapPull, known(stage.strap_n, force)),
        figure(WorkFigure::HandForce, known(stage.hand_n, force)),
        figure(WorkFigure::CrankTurns, turns),
        figure(WorkFigure::CentreBefore, length(stage.centre_before_m, units)),
        figure(WorkFigure::CentreAfter, length(stage.centre_after_m, units)),
        figure(WorkFigure::Bearing, length(stage.bearing_m, units)),
        figure(WorkFigure::JamsAt, known(stage.jams_at_m, length)),
        figure(WorkFigure::DentHolds, small_or(stage.dent_mm, units)),
    ];
    if let Some(rod) = &stage.rod {
        rows.push(figure(WorkFigure::RodFree, length(rod.free_m, units)));
        rows.push(figure(WorkFigure::RodCarries, force(rod.allowable_n, units)));
        if let Some(apart_m) = rod.guides_apart_m {
            rows.push(figure(WorkFigure::GuidesApart, length(apart_m, units)));
        }
    }
    WorkCard {
        part: String::new(),
        title: stage.name.clone(),
        done: false,
        rows,
        big: [WorkFigure::StrapPull, WorkFigure::HandForce].map(|it| it.id().to_owned()).to_vec(),
        says: stage
            .rod
            .map(|rod| say::guides(&rod.guides_at_m.map(|m| format::length(m, units))))
            .into_iter()
            .chain([say::DENT.to_owned()])
            .collect(),
        measured: Vec::new(),
    }
}
