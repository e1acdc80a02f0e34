//! What each reading's share is, and which one more would help.

use serde::{Deserialize, Serialize};

use crate::finding::Subject;
use crate::yard::approach::Approach;

/// What may be off: a reading, north, or how the work is set out.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum ErrorOf {
    /// How far magnetic north lies off true north; it turns the whole yard at once.
    North,
    /// `number` counts from nought in the job's list, here and below.
    Slope { id: String, number: u32 },
    /// A spot height, with its place.
    SpotHeight { id: String, number: u32 },
    /// How a mark was found.
    Mark { id: String, number: u32 },
    /// A further tape or bearing between two marks.
    Measurement { id: String, number: u32 },
    /// A point of a thing of the yard: the how-manieth of its outline or line, from one.
    Point { subject: Subject, pointer: String, number: u32 },
    /// A height that was sighted.
    HeightOf { subject: Subject, pointer: String },
    /// Where the mast is pegged.
    SetOutMast,
    /// How the base is turned.
    SetOutTurn,
    /// Where an anchor is pegged from the mast.
    SetOutAnchor { guy: String },
    /// What no single error explains: several at once, such as on which of its legs the base comes to lie.
    Together,
}

impl ErrorOf {
    /// JSON pointer of what was read; none of north and of setting out.
    pub fn pointer(&self) -> Option<String> {
        use crate::pointer;
        match self {
            Self::Slope { number, .. } => Some(pointer!(yard.slopes[*number as usize])),
            Self::SpotHeight { number, .. } => Some(pointer!(yard.spot_heights[*number as usize])),
            Self::Mark { number, .. } => Some(pointer!(yard.marks[*number as usize].at)),
            Self::Measurement { number, .. } => Some(pointer!(yard.measurements[*number as usize])),
            Self::Point { pointer, .. } | Self::HeightOf { pointer, .. } => Some(pointer.clone()),
            Self::North
            | Self::SetOutMast
            | Self::SetOutTurn
            | Self::SetOutAnchor { .. }
            | Self::Together => None,
        }
    }

    /// Setting out is done again by nobody; it is no reading.
    pub fn is_read(&self) -> bool {
        self.pointer().is_some()
    }
}

/// A number of the plan whose ± is looked into.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum SharedOf {
    /// What goes under a leg.
    Foot { leg: String },
    /// A guy's slack length.
    GuyLength { guy: String },
    /// Where an anchor comes to stand, in plan.
    AnchorPlace { guy: String },
    /// One of the tightest distances.
    Distance { work: Subject, to: Subject, what: Approach },
}

/// How much of a number's ± comes from what.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct NumberShares {
    pub of: SharedOf,
    /// As planned; of an anchor how far from the mast.
    pub value_m: f64,
    /// All that is below together: of an anchor's place the half-width of what moves it in any direction.
    pub half_width_95_m: f64,
    /// The largest first; together 1, or nothing where nothing is off.
    pub shares: Vec<ErrorShare>,
    /// The reading that would help this number most; none where none would by a twentieth.
    pub further: Option<FurtherFor>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ErrorShare {
    pub of: ErrorOf,
    /// Of the number's variance.
    pub share: f64,
}

/// One more reading for one number.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FurtherFor {
    /// Number in the list of further readings.
    pub reading: u32,
    pub before_95_m: f64,
    pub after_95_m: f64,
}

/// What might be read besides.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum FurtherReading {
    /// A slope of the ground by the mast: along this bearing, true and as the yard's are read.
    Slope { bearing_deg: f64, reading_deg: f64 },
    /// The ground's height under a leg's tip or at an anchor.
    Height { at: Subject, east_m: f64, north_m: f64 },
    /// A tape between two marks.
    Tape { from: String, to: String },
    /// What was read already, once more, both averaged.
    Again { of: ErrorOf },
}

/// What each reading is worth.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ReadingShares {
    /// None where it was stopped, or where hardly any yard drawn can be planned.
    pub numbers: Vec<NumberShares>,
    /// Those that help any number, as its `further` counts them.
    pub readings: Vec<FurtherReading>,
    /// The one that makes the numbers surer by the largest part of their ±, on average over feet and guys; none where that is less than
    /// a twentieth.
    pub best: Option<BestFurther>,
    /// Spot heights far off the mast that count as exact, for there are so many.
    pub left_out: u32,
}

/// The one more reading that would help most.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct BestFurther {
    /// Number in the list of further readings.
    pub reading: u32,
    /// For every foot and guy in the order of the numbers: its number there, before and after.
    pub gains: Vec<FurtherGain>,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct FurtherGain {
    pub number: u32,
    pub before_95_m: f64,
    pub after_95_m: f64,
}
