//! Findings in words, with their numbers in the user's unit.

use super::{FindingText, Source, format, words};
use crate::finding::ground::GroundRule;
use crate::finding::points::PointRule;
use crate::finding::{Finding, Limit, Quantity, Rule, Sense, Severity};
use crate::quantity::Units;

pub(super) fn texts(source: &Source) -> Vec<FindingText> {
    let plan = &source.computed.plan;
    let is_new = |place: u32| plan.as_built.as_ref().is_some_and(|built| built.new_findings.contains(&place));
    let text = |(place, finding): (u32, &Finding)| FindingText {
        new_since_pegged: is_new(place),
        ..finding_text(finding, source.units())
    };
    (0..).zip(&plan.findings).map(text).collect()
}

/// A finding in the user's words and units.
pub fn finding_text(finding: &Finding, units: Units) -> FindingText {
    FindingText {
        severity: finding.severity,
        rule: finding.rule.name().to_owned(),
        subject: finding.subject.clone(),
        against: finding.against.clone(),
        sentence: words::sentence(finding, units),
        numbers: numbers(finding, units),
        source: finding.source.source().citation.to_owned(),
        confidence: finding.source.source().confidence,
        remedy: words::remedy(&finding.remedy, units),
        new_since_pegged: false,
    }
}

/// Whether it says how the ground is no plane.
fn is_no_plane(finding: &Finding) -> bool {
    matches!(finding.rule, Rule::Ground(GroundRule::NotPlane { .. } | GroundRule::SpotHeightStandsOut { .. }))
}

fn numbers(finding: &Finding, units: Units) -> String {
    if let (true, Some(Quantity::LengthM { value }), Some(limit)) =
        (is_no_plane(finding), finding.measured, finding.limit)
    {
        let way = if value < 0.0 { "below" } else { "above" };
        let (by, limit) = (format::length(value.abs(), units), format::quantity(limit.quantity, units));
        return format!("departs by {by}, {way} the plane; its uncertainty explains up to {limit}");
    }
    let mut parts = Vec::new();
    if let Some(measured) = finding.measured {
        let interval = finding
            .measured_half_width_95
            .filter(|half| half.is_finite() && *half > 0.0)
            .map_or_else(String::new, |half| {
                format!(" {}", format::interval(same_unit(measured, half), units))
            });
        parts.push(format!(
            "{} {}{interval}",
            came_about(&finding.rule),
            beside(measured, finding.limit.map(|limit| limit.quantity), units)
        ));
    }
    if let Some(limit) = finding.limit {
        let short = short_by(finding, units).map_or_else(String::new, |by| format!(": {by} too little"));
        parts.push(format!(
            "{} {}{short}",
            limit_word(finding, limit),
            beside(limit.quantity, finding.measured, units)
        ));
    }
    parts.join(", ")
}

/// Whether somebody measured a finding's figure: only then is it called so.
fn came_about(rule: &Rule) -> &'static str {
    match rule {
        Rule::Ground(GroundRule::Guessed { .. }) => "found",
        Rule::Ground(_) | Rule::Points(_) | Rule::North(_) => "measured",
        _ => "found",
    }
}

/// A quantity as it stands beside another: two lengths that the tape's marks show alike are shown finer, so that
/// it can be seen which is the greater.
fn beside(shown: Quantity, other: Option<Quantity>, units: Units) -> String {
    let usual = format::quantity(shown, units);
    match (shown, other) {
        (Quantity::LengthM { value }, Some(Quantity::LengthM { value: of }))
            if value != of && usual == format::length(of, units) =>
        {
            format::length_small(value * 1000.0, units)
        }
        _ => usual,
    }
}

/// By how much a length falls short of what is needed, where that is what a finding blames.
fn short_by(finding: &Finding, units: Units) -> Option<String> {
    let (
        Some(Quantity::LengthM { value }),
        Some(Limit { sense: Sense::AtLeast, quantity: Quantity::LengthM { value: needed } }),
    ) = (finding.measured, finding.limit)
    else {
        return None;
    };
    let blames = matches!(finding.severity, Severity::Stop | Severity::Caution);
    let short_m = needed - value;
    (blames && short_m > 0.0).then(|| {
        let usual = format::length(short_m, units);
        if usual == format::length(0.0, units) {
            format::length_small(short_m * 1000.0, units)
        } else {
            usual
        }
    })
}

fn limit_word(finding: &Finding, limit: Limit) -> &'static str {
    match (&finding.rule, limit.sense) {
        (Rule::Points(PointRule::StandsFarFromPlan), _) => "explained up to",
        (_, Sense::AtLeast) => "needed at least",
        (_, Sense::AtMost) => "allowed at most",
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
    use crate::finding::guys::GuyRule;
    use crate::finding::wind::WindRemedy;
    use crate::finding::{Severity, Subject};
    use crate::quantity::UnitSystem;

    fn numbers_of(rule: impl Into<Rule>, measured: Quantity, limit: Option<Limit>) -> String {
        let finding =
            Finding::rule_of_thumb(Severity::Caution, rule, Subject::Mast, WindRemedy::ChangeOrLower);
        let finding = Finding { measured: Some(measured), limit, ..finding };
        numbers(&finding, Units { system: UnitSystem::Metric, inch_fraction: 16 })
    }

    /// A number on the good side of its limit, as its interval may leave it, keeps the limit's sense.
    #[test]
    fn every_limit_says_whether_it_is_the_least_or_the_most() {
        use Quantity::{AngleDeg, LengthM, Ratio, SpeedMPerS};
        let length = |value| LengthM { value };
        let angle = |value| AngleDeg { value };
        let speed = |value| SpeedMPerS { value };
        for (measured, limit, ends) in [
            (length(0.65), Limit::at_least(length(0.6)), "needed at least 600 mm"),
            (length(0.1), Limit::at_most(length(0.0)), "allowed at most 0 mm"),
            (length(0.001), Limit::at_most(length(0.003)), "allowed at most 3 mm"),
            (length(0.001), Limit::at_least(length(0.003)), "needed at least 3 mm: 2 mm too little"),
            (angle(66.0), Limit::at_most(angle(60.0)), "allowed at most 60.0°"),
            (angle(25.0), Limit::at_least(angle(30.0)), "needed at least 30.0°"),
            (speed(9.0), Limit::at_least(speed(15.0)), "needed at least 15 m/s"),
            (Ratio { value: 1.2 }, Limit::at_most(Ratio { value: 1.0 }), "allowed at most 1"),
        ] {
            let words = numbers_of(GuyRule::Steep, measured, limit);
            assert!(words.ends_with(ends), "{words}");
        }
        let far = numbers_of(PointRule::StandsFarFromPlan, length(0.6), Limit::at_most(length(0.2)));
        assert_eq!(far, "measured 600 mm, explained up to 200 mm");
        // Nobody measured how steep a guy will be.
        let steep = numbers_of(GuyRule::Steep, angle(66.0), Limit::at_most(angle(60.0)));
        assert_eq!(steep, "found 66.0°, allowed at most 60.0°");
    }
}
