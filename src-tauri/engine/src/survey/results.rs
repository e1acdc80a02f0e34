//! What the survey found: north, points, and points that are still open. Site frame: metres, x east, y north.

use serde::{Deserialize, Serialize};

use super::ellipse::Ellipse;
use crate::finding::Subject;

/// How the yard's bearings were brought to true north.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct North {
    /// Add to a bearing as read to get the true bearing.
    pub add_to_reading_deg: f64,
    pub add_to_reading_half_width_95_deg: f64,
    /// From what the correction came.
    pub from: NorthFrom,
}

/// From what a correction to true north came; `report::words` says it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum NorthFrom {
    /// Bearings are given from true north.
    True,
    /// Bearings are read from the line between these marks.
    Baseline {
        from: String,
        to: String,
        bearing_deg: f64,
    },
    DeclinationGiven {
        declination_deg: f64,
    },
    DeclinationByModel {
        declination_deg: f64,
        /// Date of the survey, `2026-07-04`.
        on: String,
    },
    /// Magnetic bearings as read, for want of a place or a date.
    Unknown,
}

/// A point with its 95 % ellipse.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LocatedPoint {
    /// JSON pointer of the `PointFix` in the job, such as `/yard/marks/1/at`.
    pub path: String,
    pub name: String,
    pub east_m: f64,
    pub north_m: f64,
    pub ground_m: f64,
    pub ellipse_95: Ellipse,
}

/// A point that is not placed yet: two places fit its tapes, or it hangs on such a point.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct OpenPoint {
    /// JSON pointer of the `PointFix` in the job.
    pub path: String,
    pub name: String,
    pub subject: Subject,
    /// The place on the left of the line between the marks, then that on the right; none where it hangs on another
    /// open point.
    pub candidates: Vec<[f64; 2]>,
}

/// A mark with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedMark {
    pub id: String,
    pub name: String,
    pub at: [f64; 3],
    pub covariance: [[f64; 2]; 2],
}
