//! Winch and lift, in words.

use super::{WorkCard, WorkFigure, WorkPage, apart, figure, small};
use crate::job::Job;
use crate::quantity::Units;
use crate::report::format;
use crate::report::rows::{Said, force, length, mass};
use crate::report::words::workshop as say;
use crate::workshop::lift::{LiftPlan, LiftStage};

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
        figure(WorkFigure::WinchFrame, small(off.winch_frame_mm, units)),
        figure(WorkFigure::Arm, small(off.arm_mm, units)),
    ];
    if let Some(middle_mm) = off.drum_middle_mm {
        rows.push(figure(WorkFigure::DrumMiddle, small(middle_mm, units)));
    }
    if let Some(strap) = &lift.strap {
        rows.extend([
            figure(WorkFigure::StrapLength, length(strap.length_m, units)),
            figure(WorkFigure::StrapLayers, format!("{:.1}", strap.layers)),
            figure(WorkFigure::DrumFull, small(strap.full_mm, units)),
        ]);
    }
    let named = job.rig.tubes.iter().zip(&off.spacers_mm).skip(1);
    let spacers: Vec<String> =
        named.map(|(tube, mm)| format!("{} {}", tube.name, format::length_small(*mm, units))).collect();
    rows.push(figure(WorkFigure::Spacer, spacers.join(", ")));
    let part = "winch".to_owned();
    Some(WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::LIFT_TITLE.to_owned(),
        rows,
        big: vec![WorkFigure::WinchFrame.id().to_owned()],
        says: Vec::new(),
        measured: Vec::new(),
    })
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
        says: Vec::new(),
        measured: Vec::new(),
    }
}
