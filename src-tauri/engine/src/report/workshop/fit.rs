//! Tubes that slide, in words.

use super::{
    WorkCard, WorkFigure, WorkMeasured, WorkPage, apart, figure, fractions, small, small_or, span, tape,
};
use crate::job::Job;
use crate::quantity::Units;
use crate::report::format;
use crate::report::rows::{angle, length};
use crate::report::words::workshop as say;
use crate::tube::{DiameterRange, source};
use crate::workshop::fit::{Bushing, Bushings, FitJoint, ShopLook, SizeBy, TubeFit};

pub(super) fn page(job: &Job, fit: &TubeFit) -> WorkPage {
    let units = job.units;
    let wander = fit.top_wander_m.map(|wander_m| format::length(wander_m, units));
    let [waits_for, findings] = apart(&fit.findings, units);
    let mut cards = Vec::new();
    for joint in &fit.joints {
        cards.push(joint_card(job, joint));
        if let Bushings::Turned { upper, lower } = &joint.bushings {
            cards.push(ring(job, upper, say::UPPER_RING, true));
            cards.push(ring(job, lower, say::LOWER_RING, false));
        }
    }
    WorkPage {
        title: say::FIT_TITLE.to_owned(),
        headline: say::fit_headline(fit.joints.len(), wander.as_deref()),
        waits_for,
        findings,
        cards,
        says: fractions(units),
        caution: say::FIT_CAUTION.to_owned(),
    }
}

fn diameter(of: Option<DiameterRange>, by: SizeBy, units: Units) -> String {
    match of {
        Some(of) => format!("{}, {}", span(&of, units), say::by(by)),
        None => say::by(by).to_owned(),
    }
}

fn joint_card(job: &Job, joint: &FitJoint) -> WorkCard {
    let units = job.units;
    let or_not = |known: Option<String>| known.unwrap_or_else(|| say::NOT_KNOWN.to_owned());
    let mut rows = vec![
        figure(WorkFigure::Fit, say::class(joint.class)),
        figure(
            WorkFigure::InnerOutside,
            diameter(joint.inner_sizes.outside, joint.inner_sizes.outside_by, units),
        ),
        figure(WorkFigure::OuterBore, diameter(joint.outer_sizes.bore, joint.outer_sizes.bore_by, units)),
        figure(WorkFigure::WorstPlay, or_not(joint.play.map(|play| span(&play.worst, units)))),
        figure(WorkFigure::LikelyPlay, or_not(joint.play.map(|play| span(&play.likely, units)))),
        figure(WorkFigure::NominalPlay, small(joint.nominal_play_mm, units)),
        figure(WorkFigure::Overlap, length(joint.overlap_m, units)),
        figure(
            WorkFigure::LeastOverlap,
            format!(
                "{}: {}",
                format::length(joint.least_overlap.length_m, units),
                say::because(joint.least_overlap.because)
            ),
        ),
        figure(WorkFigure::Bearing, length(joint.bearing_m, units)),
    ];
    match (joint.lean_deg, joint.top_wander_m) {
        (Some(lean_deg), Some(wander_m)) => {
            rows.push(figure(WorkFigure::Lean, angle(lean_deg, units)));
            rows.push(figure(WorkFigure::TopWander, length(wander_m, units)));
        }
        _ => rows.push(figure(WorkFigure::TopWander, say::NOT_KNOWN)),
    }
    for check in &joint.checks {
        let value = match (check.what, check.limit_mm) {
            (ShopLook::Thread, _) => say::NO_THREAD.into(),
            (_, limit_mm) => small_or(limit_mm, units),
        };
        rows.push(figure(look(check.what), value));
    }
    let mut says = Vec::new();
    match &joint.bushings {
        Bushings::NotNeeded => says.push(say::NO_RINGS.to_owned()),
        Bushings::NotKnown => says.push(say::RINGS_NOT_KNOWN.to_owned()),
        Bushings::TooThin { wall_mm } => says.push(say::too_thin(&format::length_small(*wall_mm, units))),
        Bushings::Turned { .. } => {}
    }
    if !joint.goes_in.is_empty() {
        let listed: Vec<String> = joint
            .goes_in
            .iter()
            .map(|it| format!("{} {}", source(it.table).source().citation, it.size))
            .collect();
        says.push(say::goes_in(&listed));
    }
    let part = crate::workshop::key("fit", joint.tube as usize);
    WorkCard {
        done: job.workshop.is_done(&part),
        part,
        title: say::joint_title(&joint.inner, &joint.outer),
        big: vec![WorkFigure::Fit.id().to_owned(), WorkFigure::WorstPlay.id().to_owned()],
        rows,
        says,
        measured: Vec::new(),
    }
}

fn look(what: ShopLook) -> WorkFigure {
    match what {
        ShopLook::LargestOutside => WorkFigure::LargestOutside,
        ShopLook::SmallestBore => WorkFigure::SmallestBore,
        ShopLook::Ovality => WorkFigure::Ovality,
        ShopLook::Dent => WorkFigure::Dent,
        ShopLook::Straightness => WorkFigure::Straightness,
        ShopLook::WeldSeam => WorkFigure::WeldSeam,
        ShopLook::Thread => WorkFigure::Thread,
    }
}

fn ring(job: &Job, ring: &Bushing, title: &str, upper: bool) -> WorkCard {
    let units = job.units;
    let stock = ring.stock.as_ref().map_or(say::ROUND_BAR.to_owned(), |stock| say::stock(&stock.size));
    let slides = if upper { WorkFigure::BoreTo } else { WorkFigure::TurnOutside };
    WorkCard {
        part: ring.part.clone(),
        title: title.to_owned(),
        done: job.workshop.is_done(&ring.part),
        rows: vec![
            figure(WorkFigure::TurnOutside, small(ring.outside_mm, units)),
            figure(WorkFigure::BoreTo, small(ring.bore_mm, units)),
            figure(WorkFigure::RingLength, tape(ring.length_mm, units)),
            figure(WorkFigure::RingStock, stock),
            figure(WorkFigure::RingPlay, span(&ring.play, units)),
        ],
        big: [WorkFigure::TurnOutside, WorkFigure::BoreTo].map(|it| it.id().to_owned()).to_vec(),
        says: Vec::new(),
        measured: vec![WorkMeasured { part: ring.part.clone(), label: say::figure(slides).to_owned() }],
    }
}
