//! Anchors and stakes against what lies underground. How deep they go and how deep it lies is not known for sure,
//! so the distance in plan governs.

use super::PlacedBuriedService;
use super::asked::CALL_FIRST;
use super::clearance::{Log, Span};
use super::flat::{Nearest2, point_to_line};
use super::parts::{Parts, Peg, PegKind, half_width_95};
use super::say::{Measure, Rule, at_least};
use super::solid::plan;
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::job::Located;
use crate::quantity::UnitSystem;
use crate::source::SourceKey;

pub(super) fn check(services: &[PlacedBuriedService], parts: &Parts, log: &mut Log) {
    for service in services {
        let to = Subject::BuriedService { id: service.id.clone() };
        if service.located == Located::Guessed {
            log.findings.push(guessed(service, &to));
        }
        if service.by_habit {
            log.findings.push(kept_by_habit(service, &to));
        }
        for kind in PegKind::ALL {
            pegs(service, &to, kind, parts, log);
        }
        ring(service, &to, parts, log);
    }
}

fn guessed(service: &PlacedBuriedService, to: &Subject) -> Finding {
    let rule = Rule {
        severity: Severity::Unchecked,
        name: "buried_location_guessed",
        subject: to.clone(),
        against: None,
        source: SourceKey::CgaTolerance,
    };
    let sentence =
        format!("Where {} lies is remembered or guessed, so distances to it prove nothing.", service.name);
    rule.finding(None, sentence, CALL_FIRST.to_owned())
}

/// The usual zone is not the law everywhere, and begins at the outside edge.
fn kept_by_habit(service: &PlacedBuriedService, to: &Subject) -> Finding {
    let rule = Rule {
        severity: Severity::Note,
        name: "buried_tolerance_by_habit",
        subject: to.clone(),
        against: None,
        source: SourceKey::CgaTolerance,
    };
    let edge = if service.width_m > 0.0 {
        "from its outside edge"
    } else {
        "from its middle, because its width is not known: half of that comes on top"
    };
    let sentence = format!(
        "The usual tolerance zone is kept round {}, {edge}. Some places ask for more: Michigan for twice as much.",
        service.name
    );
    let remedy = "Ask the one-call service which distance holds where you are, and enter it.".to_owned();
    let mut finding = rule.finding(None, sentence, remedy);
    finding.limit = Some(Quantity::LengthM { value: service.tolerance_m });
    finding
}

/// From a point to the service's edge.
fn to_edge(service: &PlacedBuriedService, p: [f64; 2]) -> Nearest2 {
    let near = point_to_line(p, &service.line);
    Nearest2 { distance_m: (near.distance_m - service.width_m / 2.0).max(0.0), ..near }
}

fn pegs(service: &PlacedBuriedService, to: &Subject, kind: PegKind, parts: &Parts, log: &mut Log) {
    let pegs = parts.pegs.iter().filter(|peg| peg.kind == kind);
    let all: Vec<(&Peg, Nearest2)> = pegs.map(|peg| (peg, to_edge(service, plan(peg.at)))).collect();
    for (peg, near) in &all {
        log.findings.extend(peg_finding(service, to, peg, near, parts.system));
    }
    if let Some((peg, near)) = all.iter().min_by(|a, b| a.1.distance_m.total_cmp(&b.1.distance_m)) {
        let span = Span {
            distance_m: near.distance_m,
            needed_m: service.tolerance_m,
            from: peg.at,
            to: [near.to[0], near.to[1], peg.at[2]],
        };
        log.list(&peg.subject, to, format!("{} to the buried service's edge", kind.word()), span);
    }
}

fn measure(service: &PlacedBuriedService, near: &Nearest2, sigma_m: f64) -> Measure {
    Measure {
        value_m: near.distance_m,
        half_width_95_m: half_width_95(sigma_m, service.sigma_m),
        limit_m: service.tolerance_m,
    }
}

fn peg_finding(
    service: &PlacedBuriedService,
    to: &Subject,
    peg: &Peg,
    near: &Nearest2,
    system: UnitSystem,
) -> Option<Finding> {
    let measure = measure(service, near, peg.sigma_m);
    let (severity, stands) = if measure.fails() {
        (Severity::Stop, "stands")
    } else if measure.in_doubt() {
        (Severity::Caution, "may stand")
    } else {
        return None;
    };
    let word = peg.kind.word();
    let who = match peg.kind {
        PegKind::Anchor => format!("The anchor of {}", peg.name),
        PegKind::Stake => format!("The stake {}", peg.name),
    };
    let name = format!("{word}_in_buried_zone");
    let rule = Rule {
        severity,
        name: &name,
        subject: peg.subject.clone(),
        against: Some(to.clone()),
        source: SourceKey::CgaTolerance,
    };
    let clear = at_least(measure.shortfall(), [near.to[0], near.to[1], 0.0], peg.at, system);
    Some(rule.finding(
        Some(&measure),
        format!("{who} {stands} in the tolerance zone of {}.", service.name),
        format!(
            "Move the {word} {clear}, or dig by hand with a blunt tool until the service is seen; never drive there. {CALL_FIRST}"
        ),
    ))
}

/// Strand ends are not always pegged: a caution only.
fn ring(service: &PlacedBuriedService, to: &Subject, parts: &Parts, log: &mut Log) {
    let ends = parts.ring.iter().map(|end| to_edge(service, plan(*end)));
    let Some(near) = ends.min_by(|a, b| a.distance_m.total_cmp(&b.distance_m)) else { return };
    let measure = measure(service, &near, parts.sigma_m);
    if measure.fails() || measure.in_doubt() {
        let rule = Rule {
            severity: Severity::Caution,
            name: "ring_in_buried_zone",
            subject: Subject::Ring,
            against: Some(to.clone()),
            source: SourceKey::CgaTolerance,
        };
        log.findings.push(
            rule.finding(
                Some(&measure),
                format!("Strands end in the tolerance zone of {}.", service.name),
                "Drive no pegs for the ring there: weigh it down instead, or end those strands elsewhere."
                    .to_owned(),
            ),
        );
    }
}
