//! The work within the boundary.

use super::PlacedYard;
use super::approach::Approach;
use super::clearance::{Log, Span};
use super::flat::{P2, contains, point_to_edge};
use super::measure::{Measure, YardFinding, clear};
use super::parts::{Parts, half_width_95};
use super::solid::{P3, plan};
use crate::finding::yard::{OverBoundary, PegKind, YardRemedy, YardRule};
use crate::finding::{Finding, Severity, Subject};
use crate::source::SourceKey;

pub(super) fn check(yard: &PlacedYard, parts: &Parts, log: &mut Log) {
    let Some(outline) = &yard.boundary else {
        log.findings.push(none_given());
        return;
    };
    let pegs = |wanted| parts.pegs.iter().filter(move |peg| peg.kind == wanted);
    for kind in PegKind::ALL {
        let points =
            pegs(kind).map(|peg| WorkPoint { subject: &peg.subject, at: peg.at, sigma_m: peg.sigma_m });
        inside(OverBoundary::Peg(kind), points, yard, outline, log);
    }
    let corners = parts.timbers.iter().flat_map(|timber| {
        timber.outline.iter().map(|p| WorkPoint {
            subject: &timber.subject,
            at: [p[0], p[1], timber.underside_m],
            sigma_m: parts.sigma_m,
        })
    });
    inside(OverBoundary::Base, corners, yard, outline, log);
    let ring =
        parts.ring.iter().map(|p| WorkPoint { subject: &Subject::Ring, at: *p, sigma_m: parts.sigma_m });
    inside(OverBoundary::Ring, ring, yard, outline, log);
    fall(yard, outline, parts, log);
}

fn none_given() -> Finding {
    let (rule, remedy) = (YardRule::BoundaryNotGiven, YardRemedy::AddCorners);
    Finding::rule_of_thumb(Severity::Note, rule, Subject::Boundary, remedy)
}

/// A point of the work.
struct WorkPoint<'a> {
    subject: &'a Subject,
    at: P3,
    sigma_m: f64,
}

/// Distance to the boundary, negative outside, with the boundary's nearest point.
pub(crate) fn depth(outline: &[P2], p: P2) -> (f64, P2) {
    let near = point_to_edge(p, outline);
    (if contains(outline, p) { near.distance_m } else { -near.distance_m }, near.to)
}

/// The part nearest to the boundary or furthest over it is listed; each subject is found fault with once.
fn inside<'a>(
    part: OverBoundary,
    places: impl Iterator<Item = WorkPoint<'a>>,
    yard: &PlacedYard,
    outline: &[P2],
    log: &mut Log,
) {
    let mut all: Vec<(WorkPoint, f64, P2)> = places
        .map(|place| {
            let (depth_m, edge) = depth(outline, plan(place.at));
            (place, depth_m, edge)
        })
        .collect();
    all.sort_by(|a, b| a.1.total_cmp(&b.1));
    if let Some((place, depth_m, edge)) = all.first() {
        let to = [edge[0], edge[1], place.at[2]];
        let span = Span { distance_m: *depth_m, needed_m: 0.0, from: place.at, to };
        log.list(place.subject, &Subject::Boundary, Approach::Boundary { of: part }, span);
    }
    let mut said: Vec<&Subject> = Vec::new();
    for (place, depth_m, edge) in &all {
        let half_width_95_m = half_width_95(place.sigma_m, yard.boundary_sigma_m);
        let measure = Measure { value_m: *depth_m, half_width_95_m, limit_m: 0.0 };
        if (measure.fails() || measure.in_doubt()) && !said.contains(&place.subject) {
            said.push(place.subject);
            log.findings.push(outside(part, place, &measure, *edge));
        }
    }
}

fn outside(part: OverBoundary, place: &WorkPoint, measure: &Measure, edge: P2) -> Finding {
    // Inwards: from the point to the edge where it is outside, the other way round where it is inside.
    let edge = [edge[0], edge[1], place.at[2]];
    let (back, front) = if measure.fails() { (place.at, edge) } else { (edge, place.at) };
    let about = YardFinding {
        severity: measure.severity(),
        subject: place.subject.clone(),
        against: Some(Subject::Boundary),
        source: SourceKey::Geometry,
    };
    let rule = YardRule::OverBoundary { part, in_doubt: !measure.fails() };
    let remedy = YardRemedy::MoveInside { clear: clear(measure.shortfall(), back, front) };
    about.finding(rule, Some(measure), remedy)
}

fn fall(yard: &PlacedYard, outline: &[P2], parts: &Parts, log: &mut Log) {
    let (depth_m, _) = depth(outline, plan(parts.foot));
    let half_width_95_m = half_width_95(parts.sigma_m, yard.boundary_sigma_m);
    let measure = Measure { value_m: depth_m, half_width_95_m, limit_m: parts.fall_radius_m };
    if measure.fails() || measure.in_doubt() {
        let about = YardFinding {
            severity: Severity::Caution,
            subject: Subject::Mast,
            against: Some(Subject::Boundary),
            source: SourceKey::CommonPractice,
        };
        let (rule, remedy) = (YardRule::FallReachesOverBoundary, YardRemedy::TellTheNeighbours);
        log.findings.push(about.finding(rule, Some(&measure), remedy));
    }
}
