//! What the fit of the ground has to say to the user.

use super::solve::Solution;
use super::{Departure, STANDS_OUT, Spot, UNMEASURED_SLOPE_SIGMA_DEG};
use crate::finding::ground::{GroundRemedy, GroundRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::ground::ReadingResidual;
use crate::source::SourceKey;

/// Half-width of the central 99 % interval in standard deviations. Source: GUM 2008, Table G.1.
const COVERAGE_99: f64 = 2.576;

fn about(subject: Subject, severity: Severity, rule: GroundRule, remedy: GroundRemedy) -> Finding {
    Finding { source: SourceKey::Ghilani, ..Finding::rule_of_thumb(severity, rule, subject, remedy) }
}

fn about_reading(id: &str, severity: Severity, rule: GroundRule, remedy: GroundRemedy) -> Finding {
    about(Subject::Reading { id: id.into() }, severity, rule, remedy)
}

/// A reading that no computation can use.
pub(super) fn unusable(id: &str) -> Finding {
    about_reading(id, Severity::Caution, GroundRule::ReadingUnusable, GroundRemedy::EnterReadingAgain)
}

/// What the plane's fit shows: directions not measured, no check, a reading that stands out.
pub(super) fn of_the_plane(
    solution: &Solution,
    readings: &[ReadingResidual],
    doubted: bool,
    surface: bool,
) -> Vec<Finding> {
    let mut findings = Vec::new();
    findings.extend(unmeasured(solution));
    if solution.unmeasured.is_empty() && solution.degrees_of_freedom == 0 {
        let (rule, remedy) = (GroundRule::WithoutCheck, GroundRemedy::ReadThirdBearing);
        findings.push(about(Subject::Ground, Severity::Unchecked, rule, remedy));
    }
    // On a surface the residuals from the plane are the shape of the ground, not faults.
    if !surface {
        findings.extend(disagreement(readings, doubted));
    }
    findings
}

fn unmeasured(solution: &Solution) -> Option<Finding> {
    let (rule, remedy) = if solution.nothing_known() {
        (GroundRule::NotMeasured, GroundRemedy::ReadSlopeThreeTimes)
    } else if solution.unmeasured.is_empty() {
        return None;
    } else {
        (GroundRule::CrossSlopeNotMeasured, GroundRemedy::ReadSecondBearing)
    };
    Some(Finding {
        limit: Limit::at_most(Quantity::AngleDeg { value: UNMEASURED_SLOPE_SIGMA_DEG }),
        ..Finding::rule_of_thumb(Severity::Unchecked, rule, Subject::Ground, remedy)
    })
}

fn disagreement(readings: &[ReadingResidual], doubted: bool) -> Option<Finding> {
    let worst = readings.iter().max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))?;
    if worst.standardised.abs() > STANDS_OUT {
        let (rule, remedy) = (GroundRule::ReadingStandsOut, GroundRemedy::ReadAgainOrStrike);
        return Some(Finding {
            measured: Some(Quantity::Ratio { value: worst.standardised.abs() }),
            limit: Limit::at_most(Quantity::Ratio { value: STANDS_OUT }),
            ..about_reading(&worst.id, Severity::Caution, rule, remedy)
        });
    }
    let (rule, remedy) = (GroundRule::ReadingsDisagree, GroundRemedy::CheckZeroAndReadAgain);
    doubted.then(|| about(Subject::Ground, Severity::Caution, rule, remedy))
}

/// The spot heights are no plane.
pub(super) fn not_a_plane(departure: &Departure, spots: &[Spot]) -> Finding {
    let worst = spots.get(departure.worst);
    let (id, at) = (worst.map_or("", |s| s.seen.id.as_str()), worst.map(|s| s.seen.at));
    let finding = if departure.alone {
        let rule = GroundRule::SpotHeightStandsOut { at };
        about_reading(id, Severity::Caution, rule, GroundRemedy::MeasureHeightAgain)
    } else {
        about_reading(id, Severity::Note, GroundRule::NotPlane { at }, GroundRemedy::AddSpotHeights)
    };
    Finding {
        measured: Some(Quantity::LengthM { value: departure.worst_m }),
        limit: worst
            .and_then(|s| Limit::at_most(Quantity::LengthM { value: COVERAGE_99 * s.whole_sigma_m() })),
        ..finding
    }
}
