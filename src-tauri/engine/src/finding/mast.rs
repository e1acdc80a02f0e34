//! What the tubes and the standing mast can be found fault with.

use serde::Serialize;

/// Tubes by their names.
#[derive(Debug, Clone, PartialEq)]
pub enum MastRule {
    DoesNotGoIn { tube: String },
    MayNotGoIn { tube: String },
    OverlapShort { tube: String },
    FitLoose { tube: String },
    FitTight { tube: String },
    LeansByPlay { tube: String },
    Plumb { shown: Plumb },
}

/// What a phone shows of a tube's lean.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Plumb {
    Plumb,
    Leans,
    CannotTell,
}

impl MastRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::DoesNotGoIn { .. } => "tube_does_not_go_in",
            Self::MayNotGoIn { .. } => "tube_may_not_go_in",
            Self::OverlapShort { .. } => "tube_overlap_short",
            Self::FitLoose { .. } => "tube_fit_loose",
            Self::FitTight { .. } => "tube_fit_tight",
            Self::LeansByPlay { .. } => "tube_leans_by_play",
            Self::Plumb { .. } => "mast_plumb",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MastRemedy {
    ThinnerTube,
    TryTheRealTubes,
    MoreInside,
    FillTheGap,
    TryOverWholeLength,
    MoreInsideOrFill,
    /// It stands plumb.
    Nothing,
    MoveWhatIsNamed,
    HangAPlumbLine,
}
