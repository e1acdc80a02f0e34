//! What comes near to overhead lines, and whether anybody looked up.

use serde::Serialize;

use super::yard::{PegName, WorkPart};

/// Lines by their names.
#[derive(Debug, Clone, PartialEq)]
pub enum OverheadRule {
    VoltageUnknown {
        line: String,
    },
    BeyondTable {
        line: String,
    },
    /// A rope, the mast or a strand.
    Near {
        part: WorkPart,
        line: String,
        in_doubt: bool,
    },
    Reach {
        line: String,
        in_doubt: bool,
    },
    /// A rope or a strand let loose at one end.
    LooseReach {
        part: WorkPart,
        line: String,
    },
    PegUnder {
        peg: PegName,
        line: String,
    },
    LinesUnknown {
        looked: bool,
    },
}

impl OverheadRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::VoltageUnknown { .. } => "overhead_voltage_unknown",
            Self::BeyondTable { .. } => "overhead_beyond_table",
            Self::Near { part: WorkPart::Rope(_), .. } => "guy_near_overhead_line",
            Self::Near { part: WorkPart::Mast, .. } => "mast_near_overhead_line",
            Self::Near { part: WorkPart::Cone, .. } => "cone_near_overhead_line",
            Self::Near { .. } => "strand_near_overhead_line",
            Self::Reach { .. } => "overhead_reach",
            Self::LooseReach { part: WorkPart::Rope(_), .. } => "loose_guy_reach",
            Self::LooseReach { .. } => "loose_strand_reach",
            Self::PegUnder { .. } => "peg_under_overhead_line",
            Self::LinesUnknown { .. } => "overhead_lines_unknown",
        }
    }
}

/// Each ends with how to keep away from a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum OverheadRemedy {
    AskForTheVoltage,
    BuildElsewhere,
    MoveTheWork {
        by_m: f64,
    },
    /// The mast; none where its foot is right under the line.
    MoveOrLowerMast {
        by_m: f64,
        toward_deg: Option<f64>,
    },
    NeverLetGo,
    MovePeg {
        by_m: f64,
    },
    LookUp {
        reach_m: f64,
    },
}
