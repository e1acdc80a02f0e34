//! Pins and stages, in words.

use super::{WorkCard, WorkFigure, WorkMeasured, WorkPage, apart, drill_or, figure};
use crate::job::Job;
use crate::quantity::{Units, sold};
use crate::report::format;
use crate::report::rows::{Said, count, force, length};
use crate::report::words::workshop as say;
use crate::workshop::lift::LiftPlan;
use crate::workshop::stages::{CrossHole, DrilledTube, Stages, WorkStage};

pub(super) fn page(job: &Job, stages: &Stages, lift: &LiftPlan) -> WorkPage {
    let units = job.units;
    let [waits_for, findings] = apart(&stages.findings, units);
    let pulls: Option<u32> = stages.stages.iter().map(|stage| stage.rises.map(|rises| rises.pulls)).sum();
    let drilled =
        stages.tubes.iter().filter(|tube| !tube.holes.is_empty()).map(|tube| drilled_card(job, tube));
    let raised =
        stages.stages.iter().enumerate().map(|(number, stage)| stage_card(job, number + 1, stage, lift));
    WorkPage {
        title: say::STAGES_TITLE.to_owned(),
        headline: say::stages_headline(stages.stages.len(), pulls),
        waits_for,
        findings,
        cards: drilled.chain(raised).collect(),
        says: Vec::new(),
        caution: say::STAGES_CAUTION.to_owned(),
    }
}

/// A hole from the end from which it is marked.
fn hole_says(hole: &CrossHole, units: Units) -> String {
    let upper = hole.purpose.from_upper_end();
    let from_m = if upper { hole.from_upper_end_m } else { hole.from_lower_end_m };
    let from = format::length(from_m, units);
    say::hole(&from, upper, say::purpose(hole.purpose), hole.across_the_rod, hole.made_mm.is_some())
}

fn drilled_card(job: &Job, tube: &DrilledTube) -> WorkCard {
    let units = job.units;
    let index = tube.tube as usize;
    let width_mm =
        [index, index + 1].iter().filter_map(|i| job.rig.tubes.get(*i)).find_map(|it| it.pin_hole_mm);
    let mut says: Vec<String> = tube.holes.iter().map(|hole| hole_says(hole, units)).collect();
    if let Some(net) = &tube.net {
        says.push(say::net(net.area_share, net.stiffness_share));
    }
    let part = crate::workshop::key("holes", index);
    WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::hole_title(&tube.name),
        rows: vec![
            figure(WorkFigure::Length, length(tube.length_m, units)),
            figure(WorkFigure::HoleWidth, drill_or(width_mm, units)),
        ],
        big: vec![WorkFigure::HoleWidth.id().to_owned()],
        says,
        measured: tube.holes.iter().map(measured_hole).collect(),
    }
}

fn measured_hole(hole: &CrossHole) -> WorkMeasured {
    // Such as `hole-lift-2:1`: which pull it is for.
    let pull = hole.part.strip_prefix("hole-lift-").and_then(|rest| rest.split(':').next());
    WorkMeasured { part: hole.part.clone(), label: say::measured_hole(hole.purpose, pull) }
}

fn stage_card(job: &Job, number: usize, stage: &WorkStage, lift: &LiftPlan) -> WorkCard {
    let units = job.units;
    let or_not =
        |value: Option<f64>| value.map_or_else(|| Said::from(say::NOT_KNOWN), |value| force(value, units));
    let mut rows = vec![figure(WorkFigure::Travel, length(stage.travel_m, units))];
    match &stage.rises {
        Some(rises) => rows.extend([
            figure(WorkFigure::Pulls, count(rises.pulls as usize)),
            figure(WorkFigure::EachPull, length(stage.longest_pull_m(), units)),
            figure(WorkFigure::RodHole, length(rises.rod_hole_m, units)),
        ]),
        None => rows.push(figure(WorkFigure::Pulls, say::NOT_KNOWN)),
    }
    let above = stage.pins_above_ground_m.map(|above_m| format::length(above_m, units));
    rows.extend([
        figure(WorkFigure::PinHeight, above.join(", ")),
        figure(WorkFigure::PinInTheEnd, length(stage.pin_in_the_end_m, units)),
        figure(WorkFigure::StopMark, length(stage.stop_mark_m, units)),
    ]);
    if let Some(sleeve_mm) = stage.stop_sleeve_mm {
        rows.push(figure(WorkFigure::StopSleeve, length(sleeve_mm / 1000.0, units)));
    }
    rows.extend([
        figure(WorkFigure::PinStill, or_not(stage.pin.still_n)),
        figure(WorkFigure::PinAtLimit, or_not(stage.pin.guys_at_limit_n)),
        figure(WorkFigure::PinCarries, or_not(stage.pin.strength.map(|strength| strength.least_n))),
    ]);
    if let Some(thinnest_mm) = stage.pin.thinnest_mm {
        rows.push(figure(WorkFigure::ThinnestPin, sold::thickness(thinnest_mm, units)));
    }
    let part = crate::workshop::key("stage", stage.tube as usize);
    WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::stage_title(number, &stage.name, &stage.carried),
        rows,
        big: [WorkFigure::EachPull, WorkFigure::PinHeight].map(|it| it.id().to_owned()).to_vec(),
        says: stage_says(stage, lift, units),
        measured: Vec::new(),
    }
}

/// What is done, one after another.
fn stage_says(stage: &WorkStage, lift: &LiftPlan, units: Units) -> Vec<String> {
    let mut says = Vec::new();
    if stage.stool_m > 0.0 {
        says.push(say::stool(&format::length(stage.stool_m, units)));
    }
    if let Some(rises) = &stage.rises {
        let longest_m = stage.longest_pull_m();
        let turns = lift.stages.iter().find(|it| it.tube == stage.tube).and_then(|it| it.crank_turns);
        let turns = turns.map(|turns| format!("{turns:.0}"));
        says.extend((1..).zip(&stage.gains_m).map(|(number, &gain_m)| {
            let [from, to] =
                [rises.hook_from_m, rises.hook_from_m + gain_m].map(|m| format::length(m, units));
            // Turns are counted for the longest one.
            let turns = turns.as_deref().filter(|_| longest_m - gain_m < 1e-6);
            say::pull(number, &from, &to, &format::length(gain_m, units), turns)
        }));
        if rises.pulls > 1 {
            says.push(say::BETWEEN_PULLS.to_owned());
        }
        says.push(say::LAST_PULL.to_owned());
    }
    let platform = stage.platform_m.map(|floor_m| format::length(floor_m, units));
    says.push(say::reach(stage.reach, platform.as_deref()));
    says
}
