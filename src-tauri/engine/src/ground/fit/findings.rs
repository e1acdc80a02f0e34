//! What the fit of the ground has to say to the user.

use super::solve::Solution;
use super::{Departure, STANDS_OUT, Spot, UNMEASURED_SLOPE_SIGMA_DEG};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::ground::ReadingResidual;
use crate::source::SourceKey;

/// Half-width of the central 99 % interval in standard deviations. Source: GUM 2008, Table G.1.
const COVERAGE_99: f64 = 2.576;

fn about_ground(severity: Severity, rule: &str, sentence: &str, remedy: &str) -> Finding {
    Finding {
        severity,
        rule: rule.into(),
        subject: Subject::Ground,
        against: None,
        sentence: sentence.into(),
        measured: None,
        measured_half_width_95: None,
        limit: None,
        source: SourceKey::Ghilani,
        remedy: remedy.into(),
    }
}

fn about_reading(id: &str, severity: Severity, rule: &str, sentence: &str, remedy: &str) -> Finding {
    let subject = Subject::Reading { id: id.into() };
    Finding { subject, ..about_ground(severity, rule, sentence, remedy) }
}

/// A reading that no computation can use.
pub(super) fn unusable(id: &str) -> Finding {
    about_reading(
        id,
        Severity::Caution,
        "reading_unusable",
        "This reading is left out: it is not a number, or its uncertainty is not above zero.",
        "Enter it again or strike it out.",
    )
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
        findings.push(about_ground(
            Severity::Unchecked,
            "ground_without_check",
            "There are just enough readings for a plane, so a misreading would not show.",
            "Read the slope once more, along a third bearing.",
        ));
    }
    // On a surface the residuals from the plane are the shape of the ground, not faults.
    if !surface {
        findings.extend(disagreement(readings, doubted));
    }
    findings
}

/// Nobody has read a slope or a height.
pub const NOT_MEASURED: &str = "ground_not_measured";

fn unmeasured(solution: &Solution) -> Option<Finding> {
    let finding = if solution.nothing_known() {
        about_ground(
            Severity::Unchecked,
            NOT_MEASURED,
            "Nobody has measured the ground yet: it is taken as level, which it hardly is.",
            "Read the slope along two bearings about a quarter turn apart, and a third as a check.",
        )
    } else if solution.unmeasured.is_empty() {
        return None;
    } else {
        about_ground(
            Severity::Unchecked,
            "cross_slope_not_measured",
            "The ground was measured along one line only: across it, it is taken as level, give or take a lot.",
            "Read the slope along a second bearing, about a quarter turn from the first.",
        )
    };
    let limit = Some(Quantity::AngleDeg { value: UNMEASURED_SLOPE_SIGMA_DEG });
    Some(Finding { limit, source: SourceKey::CommonPractice, ..finding })
}

fn disagreement(readings: &[ReadingResidual], doubted: bool) -> Option<Finding> {
    let worst = readings.iter().max_by(|a, b| a.standardised.abs().total_cmp(&b.standardised.abs()))?;
    if worst.standardised.abs() > STANDS_OUT {
        let finding = about_reading(
            &worst.id,
            Severity::Caution,
            "reading_stands_out",
            "This reading does not agree with the others: it, or one of them, was misread or the ground bends there.",
            "Read it again; strike it out if the new one agrees with the others.",
        );
        let measured = Some(Quantity::Ratio { value: worst.standardised.abs() });
        return Some(Finding { measured, limit: Some(Quantity::Ratio { value: STANDS_OUT }), ..finding });
    }
    doubted.then(|| {
        about_ground(
            Severity::Caution,
            "readings_disagree",
            "The readings disagree with each other by more than they should, and no single one is to blame.",
            "Check the phone's zero by reading once each way round, and read again where the mast will stand.",
        )
    })
}

/// The spot heights are no plane.
pub(super) fn not_a_plane(departure: &Departure, spots: &[Spot]) -> Finding {
    let worst = spots.get(departure.worst);
    let id = worst.map_or("", |s| s.seen.id.as_str());
    let finding = if departure.alone {
        about_reading(
            id,
            Severity::Caution,
            "spot_height_stands_out",
            "All spot heights but this one lie in one plane: it is a lump or hollow, or it was misread. Until that is \
             known, heights between the spot heights are taken from triangles.",
            "Measure this height again, and add one or two beside it.",
        )
    } else {
        about_reading(
            id,
            Severity::Note,
            "ground_not_plane",
            "The ground is not a plane: heights between the spot heights are taken from triangles, and this one \
             departs most.",
            "Add spot heights where the ground bends, and where the base and the anchors go.",
        )
    };
    Finding {
        measured: Some(Quantity::LengthM { value: departure.worst_m }),
        limit: worst.map(|s| Quantity::LengthM { value: COVERAGE_99 * s.whole_sigma_m() }),
        ..finding
    }
}
