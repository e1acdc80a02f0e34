//! What a check of the yard measured, and the finding that it makes.

use super::flat::P2;
use super::solid::P3;
use crate::finding::{Clear, Finding, Limit, Quantity, Remedy, Rule, Severity, Subject};
use crate::quantity::bearing;
use crate::source::SourceKey;

/// The true bearing from one point to another; none where they coincide.
pub(crate) fn toward_deg(from: P2, to: P2) -> Option<f64> {
    let (east, north) = (to[0] - from[0], to[1] - from[1]);
    (east * east + north * north >= 1e-12).then(|| bearing::of_vector(east, north))
}

/// Away from a thing, so that the work is clear of it.
pub(crate) fn clear(by_m: f64, thing: P3, work: P3) -> Clear {
    Clear { by_m, toward_deg: toward_deg([thing[0], thing[1]], [work[0], work[1]]) }
}

/// What a rule found, before it is a finding.
pub(crate) struct Measure {
    pub value_m: f64,
    pub half_width_95_m: f64,
    pub limit_m: f64,
}

impl Measure {
    pub(crate) fn margin(&self) -> f64 {
        self.value_m - self.limit_m
    }

    /// Below the limit as measured.
    pub(crate) fn fails(&self) -> bool {
        self.margin() < 0.0
    }

    /// Not below the limit, but its 95 % interval reaches below.
    pub(crate) fn in_doubt(&self) -> bool {
        !self.fails() && self.margin() < self.half_width_95_m
    }

    /// How far to move for the limit to be kept by the whole 95 % interval.
    pub(crate) fn shortfall(&self) -> f64 {
        self.half_width_95_m - self.margin()
    }

    /// What fails is a stop, what is in doubt a caution.
    pub(crate) fn severity(&self) -> Severity {
        if self.fails() { Severity::Stop } else { Severity::Caution }
    }
}

/// What a finding is about and by whose rule.
pub(crate) struct YardFinding {
    pub severity: Severity,
    pub subject: Subject,
    pub against: Option<Subject>,
    pub source: SourceKey,
}

impl YardFinding {
    /// A distance to keep; none where nothing was measured.
    pub(crate) fn finding(
        self,
        rule: impl Into<Rule>,
        measure: Option<&Measure>,
        remedy: impl Into<Remedy>,
    ) -> Finding {
        Finding {
            against: self.against,
            measured: measure.map(|m| Quantity::LengthM { value: m.value_m }),
            measured_half_width_95: measure.map(|m| m.half_width_95_m),
            limit: measure.and_then(|m| Limit::at_least(Quantity::LengthM { value: m.limit_m })),
            source: self.source,
            ..Finding::rule_of_thumb(self.severity, rule, self.subject, remedy)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_direction_is_a_true_bearing() {
        assert_eq!(toward_deg([0.0, 0.0], [1.0, 1.0]), Some(45.0));
        assert_eq!(toward_deg([0.0, 0.0], [0.0, -5.0]), Some(180.0));
        assert_eq!(toward_deg([1.0, 0.0], [1.0, 0.0]), None);
    }
}
