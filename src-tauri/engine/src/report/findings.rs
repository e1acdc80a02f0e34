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
        parts.push(format!(
            "{} {}{short}",
            limit_word(finding, limit),
            beside(limit, finding.measured, units)
        ));
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
    let least = finding.rule != crate::plan::STANDS_FAR && sense(finding, finding.limit?) == Sense::AtLeast;
    (blames && short_m > 0.0 && least).then(|| {
        let usual = say::length(short_m, units);
        if usual == say::length(0.0, units) { show::length_small(short_m * 1000.0, units) } else { usual }
    })
}

/// Which side of its limit a number has to keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Sense {
    AtLeast,
    AtMost,
}

/// Rules whose length may not be more than the limit; every other length is one to keep.
const LENGTHS_AT_MOST: [&str; 2] = ["guy_on_ground", "tube_fit_loose"];
/// Rules whose angle may not be less than the limit; every other angle is too great where it is blamed.
const ANGLES_AT_LEAST: [&str; 1] = ["guy_flat"];

/// By the rule, and not by the side that the number is on: within its interval it may be on the good one.
fn sense(finding: &Finding, limit: Quantity) -> Sense {
    let rule = finding.rule.as_str();
    let at_least = match limit {
        Quantity::LengthM { .. } => !LENGTHS_AT_MOST.contains(&rule),
        Quantity::AngleDeg { .. } => ANGLES_AT_LEAST.contains(&rule),
        Quantity::SpeedMPerS { .. } => true,
        Quantity::VoltageKv { .. } => false,
        // A field may be too weak or too strong.
        Quantity::Ratio { value } | Quantity::ForceN { value } => {
            finding.measured.is_some_and(|measured| number(measured) < value)
        }
    };
    if at_least { Sense::AtLeast } else { Sense::AtMost }
}

fn limit_word(finding: &Finding, limit: Quantity) -> &'static str {
    match sense(finding, limit) {
        _ if finding.rule == crate::plan::STANDS_FAR => "explained up to",
        Sense::AtLeast => "needed at least",
        Sense::AtMost => "allowed at most",
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    fn numbers_of(rule: &str, measured: Quantity, limit: Quantity) -> String {
        let finding = Finding::by_habit(Severity::Caution, rule, Subject::Mast, "", "");
        let finding = Finding { measured: Some(measured), limit: Some(limit), ..finding };
        numbers(&finding, Units { system: UnitSystem::Metric, inch_fraction: 16 })
    }

    /// A number on the good side of its limit, as its interval may leave it, keeps the limit's sense.
    #[test]
    fn every_limit_says_whether_it_is_the_least_or_the_most() {
        use Quantity::{AngleDeg, LengthM, Ratio, SpeedMPerS};
        let length = |value| LengthM { value };
        let angle = |value| AngleDeg { value };
        for (rule, measured, limit, ends) in [
            ("guy_near_building", length(0.65), length(0.6), "needed at least 600 mm"),
            ("guy_on_ground", length(0.1), length(0.0), "allowed at most 0 mm"),
            ("tube_fit_loose", length(0.005), length(0.002), "allowed at most 2 mm"),
            ("tube_fit_tight", length(0.001), length(0.003), "needed at least 3 mm: 2 mm too little"),
            ("guy_steep", angle(66.0), angle(60.0), "allowed at most 60.0°"),
            ("guy_flat", angle(25.0), angle(30.0), "needed at least 30.0°"),
            ("mast_plumb", angle(0.1), angle(0.14), "allowed at most 0.1°"),
            (
                "limit_below_asked_gust",
                SpeedMPerS { value: 9.0 },
                SpeedMPerS { value: 15.0 },
                "needed at least 15 m/s",
            ),
            ("overloaded_in_still_air", Ratio { value: 1.2 }, Ratio { value: 1.0 }, "allowed at most 1"),
        ] {
            let words = numbers_of(rule, measured, limit);
            assert!(words.ends_with(ends), "{rule}: {words}");
        }
    }
}
