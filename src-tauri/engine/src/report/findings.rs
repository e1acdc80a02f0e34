//! Findings in words, with their numbers in the user's unit.

use super::{FindingText, Source, say};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::quantity::Units;
use crate::quantity::show;

pub(super) fn texts(source: &Source) -> Vec<FindingText> {
    let plan = &source.computed.plan;
    let is_new = |place: u32| plan.as_built.as_ref().is_some_and(|built| built.new_findings.contains(&place));
    let text = |(place, finding): (u32, &Finding)| FindingText {
        new_since_pegged: is_new(place),
        sentence: format!("{}{}", finding.sentence, whereabouts(source, finding)),
        ..finding_text(finding, source.units())
    };
    (0..).zip(&plan.findings).map(text).collect()
}

/// Rules that say how the ground is no plane.
const NO_PLANE: [&str; 2] = ["ground_not_plane", "spot_height_stands_out"];

/// Where a spot height lies that departs from the plane: nobody knows it by its name.
fn whereabouts(source: &Source, finding: &Finding) -> String {
    let Subject::Reading { id } = &finding.subject else { return String::new() };
    let spot = source.computed.yard.spot_heights.iter().find(|spot| spot.id == *id);
    let spot = spot.filter(|_| NO_PLANE.contains(&finding.rule.as_str()));
    spot.map_or_else(String::new, |spot| format!(" It lies {}.", say::place(spot.at, source.units())))
}

/// A finding in the user's words and units.
pub fn finding_text(finding: &Finding, units: Units) -> FindingText {
    FindingText {
        severity: finding.severity,
        rule: finding.rule.clone(),
        subject: finding.subject.clone(),
        against: finding.against.clone(),
        sentence: finding.sentence.clone(),
        numbers: numbers(finding, units),
        source: finding.source.source().citation.to_owned(),
        confidence: finding.source.source().confidence,
        remedy: finding.remedy.clone(),
        new_since_pegged: false,
    }
}

fn numbers(finding: &Finding, units: Units) -> String {
    if let (true, Some(Quantity::LengthM { value }), Some(limit)) =
        (NO_PLANE.contains(&finding.rule.as_str()), finding.measured, finding.limit)
    {
        let way = if value < 0.0 { "below" } else { "above" };
        let (by, limit) = (say::length(value.abs(), units), say::quantity(limit, units));
        return format!("departs by {by}, {way} the plane; its uncertainty explains up to {limit}");
    }
    let mut parts = Vec::new();
    if let Some(measured) = finding.measured {
        let interval = finding
            .measured_half_width_95
            .filter(|half| half.is_finite() && *half > 0.0)
            .map_or_else(String::new, |half| {
                format!(" {}", show::interval(same_unit(measured, half), units))
            });
        parts.push(format!("measured {}{interval}", beside(measured, finding.limit, units)));
    }
    if let Some(limit) = finding.limit {
        let short = short_by(finding, units).map_or_else(String::new, |by| format!(": {by} too little"));
        parts.push(format!("{} {}{short}", limit_word(finding), beside(limit, finding.measured, units)));
    }
    parts.join(", ")
}

/// A quantity as it stands beside another: two lengths that the tape's marks show alike are shown finer, so that
/// it can be seen which is the greater.
fn beside(shown: Quantity, other: Option<Quantity>, units: Units) -> String {
    let usual = say::quantity(shown, units);
    match (shown, other) {
        (Quantity::LengthM { value }, Some(Quantity::LengthM { value: of }))
            if value != of && usual == say::length(of, units) =>
        {
            show::length_small(value * 1000.0, units)
        }
        _ => usual,
    }
}

/// By how much a length falls short of what is needed, where that is what a finding blames.
fn short_by(finding: &Finding, units: Units) -> Option<String> {
    let (Some(Quantity::LengthM { value }), Some(Quantity::LengthM { value: needed })) =
        (finding.measured, finding.limit)
    else {
        return None;
    };
    let blames = matches!(finding.severity, Severity::Stop | Severity::Caution);
    let short_m = needed - value;
    (blames && short_m > 0.0 && limit_word(finding) == "needed").then(|| {
        let usual = say::length(short_m, units);
        if usual == say::length(0.0, units) { show::length_small(short_m * 1000.0, units) } else { usual }
    })
}

/// What the limit asks. A length is a distance to keep; of anything else a finding that blames says by its side
/// of the limit which way it is broken.
fn limit_word(finding: &Finding) -> &'static str {
    let blames = matches!(finding.severity, Severity::Stop | Severity::Caution);
    match (finding.measured, finding.limit) {
        (_, Some(Quantity::LengthM { .. })) if finding.rule == crate::plan::STANDS_FAR => "explained up to",
        (_, Some(Quantity::LengthM { .. })) => "needed",
        (Some(measured), Some(limit)) if blames && number(measured) < number(limit) => "needed",
        (Some(measured), Some(limit)) if blames && number(measured) > number(limit) => "allowed",
        _ => "limit",
    }
}

fn number(of: Quantity) -> f64 {
    match of {
        Quantity::LengthM { value }
        | Quantity::AngleDeg { value }
        | Quantity::ForceN { value }
        | Quantity::VoltageKv { value }
        | Quantity::SpeedMPerS { value }
        | Quantity::Ratio { value } => value,
    }
}

fn same_unit(of: Quantity, value: f64) -> Quantity {
    match of {
        Quantity::LengthM { .. } => Quantity::LengthM { value },
        Quantity::AngleDeg { .. } => Quantity::AngleDeg { value },
        Quantity::ForceN { .. } => Quantity::ForceN { value },
        Quantity::VoltageKv { .. } => Quantity::VoltageKv { value },
        Quantity::SpeedMPerS { .. } => Quantity::SpeedMPerS { value },
        Quantity::Ratio { .. } => Quantity::Ratio { value },
    }
}
