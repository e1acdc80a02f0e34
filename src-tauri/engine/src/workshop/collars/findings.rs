//! What can be wrong with a guy collar.

use super::{CollarWork, Collars};
use crate::finding::workshop::{WorkshopQuestion, WorkshopRemedy, WorkshopRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::{CollarHeld, Job};
use crate::source::SourceKey;

fn about(severity: Severity, rule: WorkshopRule, remedy: WorkshopRemedy) -> Finding {
    Finding::rule_of_thumb(severity, rule, Subject::Mast, remedy)
}

pub(super) fn of(job: &Job, found: &Collars) -> Vec<Finding> {
    let mut all: Vec<Finding> = not_said(job, found).into_iter().collect();
    for collar in &found.levels {
        all.extend(clamped(collar));
        all.extend(too_weak(collar));
        all.extend(edge(collar));
    }
    all
}

fn not_said(job: &Job, found: &Collars) -> Option<Finding> {
    let every = |known: fn(&CollarWork) -> bool| found.levels.iter().all(known);
    let ropes = job.rig.guy_levels.iter().all(|level| level.rope.strength.minimum_n.is_some());
    let open = [
        (WorkshopQuestion::CollarHeld, every(|it| it.held != CollarHeld::Unsaid)),
        (
            WorkshopQuestion::CollarSizes,
            every(|it| it.carries_n.is_some() || matches!(it.held, CollarHeld::Unsaid | CollarHeld::Clamped)),
        ),
        (WorkshopQuestion::CollarEdge, every(|it| it.edge_mm.is_some() || it.thimble)),
        (WorkshopQuestion::WeightsAndRopes, ropes),
    ];
    let open: Vec<WorkshopQuestion> =
        open.into_iter().filter(|(_, said)| !said).map(|(asked, _)| asked).collect();
    (!open.is_empty())
        .then(|| about(Severity::Unchecked, WorkshopRule::NotSaid { open }, WorkshopRemedy::SayIt))
}

/// By squeezing the tube: nobody shows what friction holds.
fn clamped(collar: &CollarWork) -> Option<Finding> {
    (collar.held == CollarHeld::Clamped).then(|| {
        about(
            Severity::Unchecked,
            WorkshopRule::CollarClamped { guys: collar.name.clone() },
            WorkshopRemedy::BoltOrShoulder,
        )
    })
}

fn too_weak(collar: &CollarWork) -> Option<Finding> {
    let carries_n = collar.carries_n?;
    let loads = [(Severity::Stop, Some(collar.still_n), true), (Severity::Caution, collar.at_limit_n, false)];
    let (severity, load_n, still) = loads.into_iter().find_map(|(severity, load_n, still)| {
        Some((severity, load_n.filter(|load_n| *load_n > carries_n)?, still))
    })?;
    let remedy = match collar.held {
        CollarHeld::Shoulder => WorkshopRemedy::WiderShoulder,
        _ => WorkshopRemedy::ThickerCollarBolt { bolt_mm: collar.thinnest_bolt_mm },
    };
    Some(Finding {
        measured: Some(Quantity::ForceN { value: load_n }),
        limit: Limit::at_most(Quantity::ForceN { value: carries_n }),
        source: SourceKey::AiscPins,
        ..about(severity, WorkshopRule::CollarTooWeak { guys: collar.name.clone(), still }, remedy)
    })
}

/// A rope over steel that is less round than it is thick.
fn edge(collar: &CollarWork) -> Option<Finding> {
    let edge_mm = collar.edge_mm.filter(|edge_mm| !collar.thimble && *edge_mm < collar.least_edge_mm)?;
    let small = |value_mm: f64| Quantity::LengthM { value: value_mm / 1000.0 };
    Some(Finding {
        measured: Some(small(edge_mm)),
        limit: Limit::at_least(small(collar.least_edge_mm)),
        ..about(
            Severity::Stop,
            WorkshopRule::CollarEdgeSharp { guys: collar.name.clone() },
            WorkshopRemedy::RounderEdge { radius_mm: collar.least_edge_mm },
        )
    })
}
