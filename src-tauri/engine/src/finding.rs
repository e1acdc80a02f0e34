//! Findings: what the plan noticed, how bad it is, by which rule, and what would help.

use serde::{Deserialize, Serialize};

use crate::source::SourceKey;

/// How much a finding matters. Declared from worst to least, so that sorting puts the worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
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
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
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

/// One thing the plan noticed.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Finding {
    pub severity: Severity,
    /// Stable short name of the rule, such as `guy_near_building`.
    pub rule: String,
    /// What of the work it concerns.
    pub subject: Subject,
    /// What it stands against, where there is such a thing.
    pub against: Option<Subject>,
    /// One sentence a neighbour understands; numbers stand in `measured` and `limit`, not here.
    pub sentence: String,
    pub measured: Option<Quantity>,
    /// Half-width of the 95 % interval of `measured`, in the same unit, where known.
    pub measured_half_width_95: Option<f64>,
    pub limit: Option<Quantity>,
    /// Where the rule comes from.
    pub source: SourceKey,
    /// What would put it right.
    pub remedy: String,
}

impl Finding {
    /// A finding by the trade's habit, without numbers.
    pub fn by_habit(severity: Severity, rule: &str, subject: Subject, sentence: &str, remedy: &str) -> Self {
        Self {
            severity,
            rule: rule.to_owned(),
            subject,
            against: None,
            sentence: sentence.to_owned(),
            measured: None,
            measured_half_width_95: None,
            limit: None,
            source: SourceKey::CommonPractice,
            remedy: remedy.to_owned(),
        }
    }
}
