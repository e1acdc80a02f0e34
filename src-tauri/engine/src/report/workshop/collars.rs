//! Guy collars, in words.

use super::{WorkCard, WorkFigure, WorkPage, apart, drill_or, figure, small_or, tape};
use crate::job::{CollarHeld, Job};
use crate::quantity::sold;
use crate::report::format;
use crate::report::rows::{Said, force, length};
use crate::report::words::circles::degrees;
use crate::report::words::workshop as say;
use crate::workshop::collars::{CollarWork, Collars};

pub(super) fn page(job: &Job, of: &Collars) -> WorkPage {
    let [waits_for, findings] = apart(&of.findings, job.units);
    let known = of.levels.iter().filter(|collar| collar.carries_n.is_some()).count();
    WorkPage {
        title: say::COLLARS_TITLE.to_owned(),
        headline: say::collars_headline(of.levels.len(), known),
        waits_for,
        findings,
        cards: of.levels.iter().map(|collar| card(job, collar)).collect(),
        says: say::COLLAR_CARE.map(str::to_owned).to_vec(),
        caution: say::COLLARS_CAUTION.to_owned(),
    }
}

fn card(job: &Job, of: &CollarWork) -> WorkCard {
    let units = job.units;
    let or_not = |value: Option<f64>| value.map_or_else(|| Said::from(say::NOT_KNOWN), |n| force(n, units));
    let turns: Vec<String> = of.eye_turns_deg.iter().map(|turn| degrees(*turn)).collect();
    let [least, most] = of.rope_down_deg.map(format::angle);
    let steep = if least == most { least } else { say::from_to(&least, &most) };
    let mut rows = vec![
        figure(WorkFigure::CollarHeight, length(of.height_m, units)),
        figure(WorkFigure::CollarBore, drill_or(Some(of.bore_mm), units)),
        figure(WorkFigure::EyeRadius, tape(of.eye_radius_mm, units)),
        figure(WorkFigure::EyeTurns, turns.join(", ")),
        figure(WorkFigure::RopeDown, steep),
        figure(WorkFigure::CollarStill, force(of.still_n, units)),
        figure(WorkFigure::CollarAtLimit, or_not(of.at_limit_n)),
        figure(WorkFigure::CollarCarries, or_not(of.carries_n)),
    ];
    if of.held == CollarHeld::Bolt {
        rows.push(figure(WorkFigure::CollarBoltHole, drill_or(of.bolt_hole_mm, units)));
        let long = of.bolt_length_mm.map_or(say::NOT_KNOWN.to_owned(), |mm| sold::bolt_length(mm, units));
        rows.push(figure(WorkFigure::BoltLength, long));
        let thinnest = of.thinnest_bolt_mm.map_or(say::NOT_KNOWN.to_owned(), |mm| sold::thickness(mm, units));
        rows.push(figure(WorkFigure::ThinnestBolt, thinnest));
    }
    rows.push(figure(WorkFigure::EdgeHas, small_or(of.edge_mm, units)));
    rows.push(figure(WorkFigure::EdgeLeast, small_or(Some(of.least_edge_mm), units)));
    let mut says = vec![say::collar_held(of.held, &of.tube)];
    says.push(if of.thimble { say::THIMBLE.to_owned() } else { say::NO_THIMBLE.to_owned() });
    WorkCard {
        done: job.workshop.is_done(&of.part),
        part: of.part.clone(),
        title: say::collar_title(&of.name),
        rows,
        big: [WorkFigure::CollarBore, WorkFigure::CollarCarries].map(|it| it.id().to_owned()).to_vec(),
        says,
        measured: Vec::new(),
    }
}
