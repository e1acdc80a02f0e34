//! The survey log: what was read, when, by what and by whom. Entries are only ever added.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use super::PointFix;
use crate::finding::Subject;
use crate::quantity::whole;

/// One line of the survey log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LogEntry {
    /// Counts up from 1.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 4294967295_u32)))]
    #[serde(deserialize_with = "whole::read")]
    pub number: u32,
    /// When it was taken, with the zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    /// Who took it; empty where nobody said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub who: String,
    /// What was measured, by its id: a list may change its order.
    pub subject: Subject,
    /// What that was called at the time.
    #[cfg_attr(feature = "typegen", schemars(length(max = 400)))]
    pub name: String,
    /// Which of its readings: `at`, `slope`, `shape/height_m`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 200)))]
    pub part: String,
    pub action: LogAction,
    /// The reading that was taken, struck out, put back or removed.
    pub value: Logged,
    /// What its values came from, but for those of `captures`.
    pub instrument: Instrument,
    /// Values of it that an instrument put in, each by its place within the reading.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub captures: Vec<Capture>,
    /// The entry whose reading this one replaces, strikes out, puts back or removes.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 4294967295_u32)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub replaces: Option<u32>,
}

/// What an entry does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LogAction {
    /// A reading was taken.
    Read,
    /// A reading was struck out: it stays in its list but is not used.
    StruckOut,
    /// A reading that was struck out or removed is used again.
    PutBack,
    /// A reading was taken off its list.
    Removed,
}

/// A value as it was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Logged {
    /// A slope along a bearing.
    Slope {
        bearing_deg: f64,
        slope_deg: f64,
        #[serde(default)]
        sigma_deg: Option<f64>,
    },
    /// A tape between two marks.
    Tape { from: String, to: String, tape_m: f64 },
    /// A bearing between two marks.
    Bearing { from: String, to: String, bearing_deg: f64 },
    /// A point.
    Point { at: PointFix },
    /// The points of an outline or a line, in order.
    Points { at: Vec<PointFix> },
    /// A height above the ground at the origin mark.
    SpotHeight {
        height_m: f64,
        #[serde(default)]
        sigma_m: Option<f64>,
    },
    /// A length: a height of a thing, a radius, a width, a gap.
    Length {
        length_m: f64,
        /// One sigma, where it was sighted.
        #[serde(default)]
        sigma_m: Option<f64>,
    },
    /// Lengths in the order of the points that they belong to.
    Lengths { lengths_m: Vec<f64> },
    /// A bearing of a thing.
    Turned { bearing_deg: f64 },
}

/// What a value came from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Instrument {
    /// In the job before its log began.
    BeforeLog,
    /// Typed in, read off by a person.
    #[default]
    Typed,
    /// Put or dragged on the map.
    Map,
    PhoneTilt,
    PhoneCompass,
    /// Two angles taken along the phone's edge.
    PhoneSight,
    WaterLevel,
    StringLevel,
    LevelAndRod,
    /// Out of a file.
    File,
    /// Brought back by undo or redo.
    Undone,
}

/// A value that an instrument put in.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Capture {
    /// JSON pointer of the value: in a request within the job as it then stands, in the log within the reading.
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub path: String,
    pub instrument: Instrument,
    /// What a sensor read on the way to the value.
    #[serde(default)]
    pub samples: Option<SampleSummary>,
}

/// A sensor's raw readings behind one value.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SampleSummary {
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 100000000)))]
    #[serde(deserialize_with = "whole::read")]
    pub count: u32,
    /// From the first to the last of them.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000000)))]
    pub seconds: f64,
    /// Standard deviation of one reading.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 180)))]
    pub deviation_deg: Option<f64>,
}
