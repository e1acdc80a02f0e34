//! Anchors and stakes against what lies underground. How deep they go and how deep it lies is not known for sure,
//! so the distance in plan governs.

use super::PlacedBuriedService;
use super::approach::Approach;
use super::clearance::{Log, Span};
use super::flat::{Nearest2, point_to_line};
use super::measure::{Measure, YardFinding, clear};
use super::parts::{Parts, Peg, half_width_95};
use super::solid::plan;
use crate::finding::buried::{BuriedRemedy, BuriedRule};
use crate::finding::yard::PegKind;
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::job::Located;
use crate::source::SourceKey;

pub(super) fn check(services: &[PlacedBuriedService], parts: &Parts, log: &mut Log) {
    for service in services {
        let to = Subject::BuriedService { id: service.id.clone() };
        if service.located == Located::Guessed {
            log.findings.push(guessed(service, &to));
        }
        if service.rule_of_thumb {
            log.findings.push(kept_by_habit(service, &to));
        }
        for kind in PegKind::ALL {
            pegs(service, &to, kind, parts, log);
        }
        ring(service, &to, parts, log);
    }
}

fn by_cga(severity: Severity, subject: &Subject, against: Option<&Subject>) -> YardFinding {
    let (subject, against) = (subject.clone(), against.cloned());
    YardFinding { severity, subject, against, source: SourceKey::CgaTolerance }
}

fn guessed(service: &PlacedBuriedService, to: &Subject) -> Finding {
    let rule = BuriedRule::LocationGuessed { service: service.name.clone() };
    by_cga(Severity::Unchecked, to, None).finding(rule, None, BuriedRemedy::CallFirst)
}

/// The usual zone is not the law everywhere, and begins at the outside edge.
fn kept_by_habit(service: &PlacedBuriedService, to: &Subject) -> Finding {
    let rule =
        BuriedRule::ToleranceByHabit { service: service.name.clone(), width_known: service.width_m > 0.0 };
    Finding {
        limit: Limit::at_least(Quantity::LengthM { value: service.tolerance_m }),
        ..by_cga(Severity::Note, to, None).finding(rule, None, BuriedRemedy::AskForTheZone)
    }
}

/// From a point to the service's edge.
pub(crate) fn to_edge(service: &PlacedBuriedService, p: [f64; 2]) -> Nearest2 {
    let near = point_to_line(p, &service.line);
    Nearest2 { distance_m: (near.distance_m - service.width_m / 2.0).max(0.0), ..near }
}

fn pegs(service: &PlacedBuriedService, to: &Subject, kind: PegKind, parts: &Parts, log: &mut Log) {
    let pegs = parts.pegs.iter().filter(|peg| peg.kind == kind);
    let all: Vec<(&Peg, Nearest2)> = pegs.map(|peg| (peg, to_edge(service, plan(peg.at)))).collect();
    for (peg, near) in &all {
        log.findings.extend(peg_finding(service, to, peg, near));
    }
    if let Some((peg, near)) = all.iter().min_by(|a, b| a.1.distance_m.total_cmp(&b.1.distance_m)) {
        let span = Span {
            distance_m: near.distance_m,
            needed_m: service.tolerance_m,
            from: peg.at,
            to: [near.to[0], near.to[1], peg.at[2]],
        };
        log.list(&peg.subject, to, Approach::PegToService { kind }, span);
    }
}

fn measure(service: &PlacedBuriedService, near: &Nearest2, sigma_m: f64) -> Measure {
    Measure {
        value_m: near.distance_m,
        half_width_95_m: half_width_95(sigma_m, service.sigma_m),
        limit_m: service.tolerance_m,
    }
}

fn peg_finding(service: &PlacedBuriedService, to: &Subject, peg: &Peg, near: &Nearest2) -> Option<Finding> {
    let measure = measure(service, near, peg.sigma_m);
    if !(measure.fails() || measure.in_doubt()) {
        return None;
    }
    let (service, in_doubt) = (service.name.clone(), !measure.fails());
    let rule = BuriedRule::PegInZone { peg: peg.named(), service, in_doubt };
    let clear = clear(measure.shortfall(), [near.to[0], near.to[1], 0.0], peg.at);
    let remedy = BuriedRemedy::MovePeg { kind: peg.kind, clear };
    Some(by_cga(measure.severity(), &peg.subject, Some(to)).finding(rule, Some(&measure), remedy))
}

/// Strand ends are not always pegged: a caution only.
fn ring(service: &PlacedBuriedService, to: &Subject, parts: &Parts, log: &mut Log) {
    let ends = parts.ring.iter().map(|end| to_edge(service, plan(*end)));
    let Some(near) = ends.min_by(|a, b| a.distance_m.total_cmp(&b.distance_m)) else { return };
    let measure = measure(service, &near, parts.sigma_m);
    if measure.fails() || measure.in_doubt() {
        let rule = BuriedRule::RingInZone { service: service.name.clone() };
        let about = by_cga(Severity::Caution, &Subject::Ring, Some(to));
        log.findings.push(about.finding(rule, Some(&measure), BuriedRemedy::WeighTheRingDown));
    }
}
