//! Words for findings: lengths, compass points, and what stands in the way.

use super::flat::P2;
use super::solid::P3;
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::habits::rounded_up;
use crate::quantity::UnitSystem;
use crate::quantity::bearing;
use crate::source::SourceKey;

/// The direction from one point to another in words; none where they coincide.
pub(super) fn towards(from: P2, to: P2) -> Option<&'static str> {
    const POINTS: [&str; 8] =
        ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
    let (east, north) = (to[0] - from[0], to[1] - from[1]);
    if east * east + north * north < 1e-12 {
        return None;
    }
    let eighth = (bearing::of_vector(east, north) / 45.0).round() as usize % 8;
    Some(POINTS[eighth])
}

/// `at least 1' 4" to the north-east`.
pub(super) fn at_least(shortfall_m: f64, thing: P3, work: P3, system: UnitSystem) -> String {
    match towards([thing[0], thing[1]], [work[0], work[1]]) {
        Some(way) => format!("at least {} to the {way}", rounded_up(shortfall_m, system)),
        None => format!("clear of it, and then at least {} more", rounded_up(shortfall_m, system)),
    }
}

/// What a rule found, before it is said.
pub(super) struct Measure {
    pub value_m: f64,
    pub half_width_95_m: f64,
    pub limit_m: f64,
}

impl Measure {
    pub(super) fn margin(&self) -> f64 {
        self.value_m - self.limit_m
    }

    /// Below the limit as measured.
    pub(super) fn fails(&self) -> bool {
        self.margin() < 0.0
    }

    /// Not below the limit, but its 95 % interval reaches below.
    pub(super) fn in_doubt(&self) -> bool {
        !self.fails() && self.margin() < self.half_width_95_m
    }

    /// How far to move for the limit to be kept by the whole 95 % interval.
    pub(super) fn shortfall(&self) -> f64 {
        self.half_width_95_m - self.margin()
    }
}

/// A finding's rule with what it is about.
pub(super) struct Rule<'a> {
    pub severity: Severity,
    pub name: &'a str,
    pub subject: Subject,
    pub against: Option<Subject>,
    pub source: SourceKey,
}

impl Rule<'_> {
    pub(super) fn finding(self, measure: Option<&Measure>, sentence: String, remedy: String) -> Finding {
        Finding {
            severity: self.severity,
            rule: self.name.to_owned(),
            subject: self.subject,
            against: self.against,
            sentence,
            measured: measure.map(|m| Quantity::LengthM { value: m.value_m }),
            measured_half_width_95: measure.map(|m| m.half_width_95_m),
            limit: measure.map(|m| Quantity::LengthM { value: m.limit_m }),
            source: self.source,
            remedy,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn directions_are_compass_points() {
        assert_eq!(towards([0.0, 0.0], [1.0, 1.1]), Some("north-east"));
        assert_eq!(towards([0.0, 0.0], [-0.1, 5.0]), Some("north"));
        assert_eq!(towards([1.0, 0.0], [1.0, 0.0]), None);
    }
}
