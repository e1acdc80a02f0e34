//! What marks, points and the readings between them can be found fault with, and what really stands.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum PointRule {
    /// A reading that took no part: all others together show it to be wrong.
    ReadingSetAside {
        reading: ReadingName,
        is: Misses,
    },
    /// Readings of which one is wrong, though the others can't tell which.
    MeasurementDisagrees {
        reading: ReadingName,
        is: Misses,
        or: Vec<ReadingName>,
    },
    /// The tape from this mark does not meet the other two.
    ThreeTapesDisagree {
        from: String,
        is: Misses,
    },
    PoorCrossing,
    LongOffset,
    FarPastLine,
    SteepTape,
    LongChain,
    /// Two places fit; the point's name may be empty.
    SideNotKnown {
        name: String,
    },
    /// Measured from a point that is not placed yet.
    HangsOnOpenPoint {
        name: String,
    },
    StandsFarFromPlan,
    MeasuredAnchorWithoutGuy,
    SideNotKnownAsBuilt,
}

/// A reading between points, called by what it was read between.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingName {
    /// One that is no mark's own fix: of two tapes between the same marks this tells which.
    pub further: bool,
    pub of: ReadingOf,
}

/// What was read, by the ids of the marks.
#[derive(Debug, Clone, PartialEq)]
pub enum ReadingOf {
    Baseline { from: String, to: String },
    SketchedPlace { id: String },
    TapeAlong { id: String, from: String, to: String },
    Offset { id: String, from: String, to: String },
    Tape { from: String, to: String },
    Bearing { from: String, to: String },
}

/// How a reading is off from what all others say.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Misses {
    Longer,
    Shorter,
    ToTheRight,
    ToTheLeft,
    Away,
}

impl PointRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::ReadingSetAside { .. } => "reading_set_aside",
            Self::MeasurementDisagrees { .. } => "measurement_disagrees",
            Self::ThreeTapesDisagree { .. } => "three_tapes_disagree",
            Self::PoorCrossing => "poor_crossing",
            Self::LongOffset => "long_offset",
            Self::FarPastLine => "far_past_line",
            Self::SteepTape => "steep_tape",
            Self::LongChain => "long_chain",
            Self::SideNotKnown { .. } => "side_not_known",
            Self::HangsOnOpenPoint { .. } => "hangs_on_open_point",
            Self::StandsFarFromPlan => "stands_far_from_plan",
            Self::MeasuredAnchorWithoutGuy => "measured_anchor_without_guy",
            Self::SideNotKnownAsBuilt => "side_not_known_as_built",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum PointRemedy {
    MeasureAgainOrStrike,
    MeasureTheseAgain,
    TapeAllThreeAgain,
    TapeFromOtherMarks,
    TapeFromBothMarks,
    MeasureAlongLongerLine,
    MeasureInShorterSteps,
    TapeAFarCorner,
    ChooseASide,
    AnswerTheOtherPoint,
    MeasureWhatStandsAgain,
    ClearTheAnchor,
    NameItsSide,
}
