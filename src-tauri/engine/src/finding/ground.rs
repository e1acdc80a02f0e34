//! What the ground's readings and their fit can be found fault with.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum GroundRule {
    /// A reading that no computation can use.
    ReadingUnusable,
    /// Just enough readings for a plane.
    WithoutCheck,
    NotMeasured,
    CrossSlopeNotMeasured,
    ReadingStandsOut,
    ReadingsDisagree,
    /// All others lie in one plane; where it lies.
    SpotHeightStandsOut {
        at: Option<[f64; 2]>,
    },
    /// No plane at all; where it departs most.
    NotPlane {
        at: Option<[f64; 2]>,
    },
    /// Something stands outside the spot heights.
    Guessed {
        stands: OnGuessedGround,
    },
}

/// What stands where nobody measured the ground.
#[derive(Debug, Clone, PartialEq)]
pub enum OnGuessedGround {
    /// The anchor of the guy of this name.
    AnchorOf(String),
    /// A leg of the base by its id.
    Leg(String),
    /// An obstacle by its name.
    Obstacle(String),
}

impl GroundRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::ReadingUnusable => "reading_unusable",
            Self::WithoutCheck => "ground_without_check",
            Self::NotMeasured => "ground_not_measured",
            Self::CrossSlopeNotMeasured => "cross_slope_not_measured",
            Self::ReadingStandsOut => "reading_stands_out",
            Self::ReadingsDisagree => "readings_disagree",
            Self::SpotHeightStandsOut { .. } => "spot_height_stands_out",
            Self::NotPlane { .. } => "ground_not_plane",
            Self::Guessed { .. } => "ground_guessed",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GroundRemedy {
    EnterReadingAgain,
    ReadThirdBearing,
    ReadSlopeThreeTimes,
    ReadSecondBearing,
    ReadAgainOrStrike,
    CheckZeroAndReadAgain,
    MeasureHeightAgain,
    AddSpotHeights,
    MeasureSpotThere,
}
