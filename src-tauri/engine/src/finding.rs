//! Findings: what the plan noticed, how bad it is, by which rule, and what would help. All of it data: a finding holds
//! no sentence. `report::words` puts rules and remedies into words, subject by subject as the files here.

pub mod buried;
pub mod document;
pub mod ground;
pub mod guys;
pub mod lights;
pub mod mast;
pub mod north;
pub mod overhead;
pub mod points;
pub mod raising;
mod rule;
pub mod wind;
pub mod workshop;
pub mod yard;

pub use rule::{Remedy, Rule};

use serde::{Deserialize, Serialize};

use crate::source::SourceKey;

/// How much a finding matters. Declared from worst to least, so that sorting puts the worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Do not build it like this.
    Stop,
    /// A check that this engine could not make: somebody has to.
    Unchecked,
    /// Think again, or ask.
    Caution,
    /// Worth knowing.
    Note,
}

/// What a finding or an entry of the survey log is about.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Subject {
    Job,
    Ground,
    Mast,
    Base,
    Ring,
    Boundary,
    /// A leg of the base: `front`, `right`, `back`, `left`.
    Leg {
        id: String,
    },
    /// A base stake, such as `front-right`.
    Stake {
        id: String,
    },
    /// A guy with its anchor, such as `upper-1`.
    Guy {
        id: String,
    },
    Mark {
        id: String,
    },
    Reading {
        id: String,
    },
    Obstacle {
        id: String,
    },
    OverheadLine {
        id: String,
    },
    BuriedService {
        id: String,
    },
}

/// A number of a finding with what it is a number of, so that it can be shown in the user's unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "unit", rename_all = "snake_case")]
pub enum Quantity {
    LengthM {
        value: f64,
    },
    AngleDeg {
        value: f64,
    },
    ForceN {
        value: f64,
    },
    VoltageKv {
        value: f64,
    },
    SpeedMPerS {
        value: f64,
    },
    /// A pure number.
    Ratio {
        value: f64,
    },
}

/// Which side of its limit a number has to keep.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Sense {
    AtLeast,
    AtMost,
}

/// What a number of a finding has to keep.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Limit {
    pub sense: Sense,
    pub quantity: Quantity,
}

impl Limit {
    pub fn at_least(quantity: Quantity) -> Option<Self> {
        Some(Self { sense: Sense::AtLeast, quantity })
    }

    pub fn at_most(quantity: Quantity) -> Option<Self> {
        Some(Self { sense: Sense::AtMost, quantity })
    }
}

/// How far, and which way, something has to go to be clear of a thing.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Clear {
    pub by_m: f64,
    /// None where it stands on the thing, so that any way will do.
    pub toward_deg: Option<f64>,
}

/// One thing the plan noticed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Finding {
    pub severity: Severity,
    /// Written as its stable short name, such as `guy_near_building`.
    #[cfg_attr(feature = "typegen", schemars(with = "String"), ts(type = "string"))]
    pub rule: Rule,
    /// What of the work it concerns.
    pub subject: Subject,
    /// What it stands against, where there is such a thing.
    pub against: Option<Subject>,
    pub measured: Option<Quantity>,
    /// Half-width of the 95 % interval of `measured`, in the same unit, where known.
    pub measured_half_width_95: Option<f64>,
    pub limit: Option<Limit>,
    /// Where the rule comes from.
    pub source: SourceKey,
    /// What would put it right.
    pub remedy: Remedy,
}

impl Finding {
    /// A finding by the trade's habit, without numbers.
    pub fn rule_of_thumb(
        severity: Severity,
        rule: impl Into<Rule>,
        subject: Subject,
        remedy: impl Into<Remedy>,
    ) -> Self {
        Self {
            severity,
            rule: rule.into(),
            subject,
            against: None,
            measured: None,
            measured_half_width_95: None,
            limit: None,
            source: SourceKey::CommonPractice,
            remedy: remedy.into(),
        }
    }

    /// Whether the 95 % interval of a length that was measured reaches over its limit, or is over it.
    pub fn may_pass_its_limit(&self) -> bool {
        let (Some(Quantity::LengthM { value }), Some(half_width), Some(limit)) =
            (self.measured, self.measured_half_width_95, self.limit)
        else {
            return false;
        };
        let Quantity::LengthM { value: bound } = limit.quantity else { return false };
        match limit.sense {
            Sense::AtLeast => value - half_width < bound,
            Sense::AtMost => value + half_width > bound,
        }
    }

    /// Whether another finding says the same of the same thing, whatever its numbers.
    pub fn is_about_the_same(&self, other: &Finding) -> bool {
        (self.rule.name(), &self.subject, &self.against)
            == (other.rule.name(), &other.subject, &other.against)
    }
}

#[cfg(test)]
mod tests {
    use super::guys::{GuyRemedy, GuyRule};
    use super::*;

    /// By its rule and what it is about; its numbers may have changed.
    #[test]
    fn a_finding_is_known_again_by_its_rule_and_its_things() {
        let of = |id: &str, rule: GuyRule| {
            Finding::rule_of_thumb(
                Severity::Caution,
                rule,
                Subject::Guy { id: id.into() },
                GuyRemedy::AnchorNearer,
            )
        };
        let flat = of("a", GuyRule::Flat);
        let measured = Some(Quantity::AngleDeg { value: 20.0 });
        assert!(flat.is_about_the_same(&Finding { measured, ..flat.clone() }));
        assert!(!flat.is_about_the_same(&of("b", GuyRule::Flat)));
        assert!(!flat.is_about_the_same(&of("a", GuyRule::Steep)));
        assert!(!flat.is_about_the_same(&Finding { against: Some(Subject::Ground), ..flat.clone() }));
    }
}
