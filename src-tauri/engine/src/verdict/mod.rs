//! The one verdict on a job, with three values and no more: stop, not known yet, look. Nobody is told that all is well:
//! the best that a plan can say is what is left to look at.
//!
//! Every face shows this one: `check`, `plan`, the chip on the map, Build, Checks, the sheet, the wind, the exit codes.

mod missing;

use serde::Serialize;

use crate::finding::{Finding, Severity};

pub use crate::finding::wind::PartName;
pub use missing::{MastPart, MissingEntry, MissingKind, PartKind};

/// What is to be thought of a job, from worst to least.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "verdict", rename_all = "snake_case")]
pub enum Verdict {
    /// Do not build it like this.
    Stop {
        stops: u32,
        /// What is missing besides.
        missing: Vec<MissingEntry>,
        /// Checks that nobody has made besides.
        unchecked: u32,
    },
    /// Nobody can say yet.
    NotKnown {
        /// What has to be entered before there is a gust limit, the soonest first.
        missing: Vec<MissingEntry>,
        /// Findings that somebody has to check.
        unchecked: u32,
    },
    /// Nothing says stop, and all is known that was asked.
    Look {
        /// Findings to think about.
        cautions: u32,
    },
}

impl Verdict {
    /// The one place where findings and missing entries become a verdict.
    pub fn of(findings: &[Finding], missing: Vec<MissingEntry>) -> Self {
        let count = |severity| findings.iter().filter(|finding| finding.severity == severity).count() as u32;
        let (stops, unchecked) = (count(Severity::Stop), count(Severity::Unchecked));
        if stops > 0 {
            Self::Stop { stops, missing, unchecked }
        } else if unchecked > 0 || !missing.is_empty() {
            Self::NotKnown { missing, unchecked }
        } else {
            Self::Look { cautions: count(Severity::Caution) }
        }
    }

    /// What findings alone tell before anything else was looked at: a stop, or nothing.
    pub fn so_far(findings: &[Finding]) -> Option<Self> {
        Some(Self::of(findings, Vec::new())).filter(Self::says_stop)
    }

    /// What has to be entered, the soonest first.
    pub fn missing(&self) -> &[MissingEntry] {
        match self {
            Self::Stop { missing, .. } | Self::NotKnown { missing, .. } => missing,
            Self::Look { .. } => &[],
        }
    }

    pub fn says_stop(&self) -> bool {
        matches!(self, Self::Stop { .. })
    }
}
