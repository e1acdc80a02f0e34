//! Whether readings go one way, and how quickly.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use crate::numerics::least_squares::{DMatrix, DVector, solve};
use crate::quantity::estimate::Estimate;

/// From so few readings on a line says something that two readings do not: whether a third one lies on it (common practice).
pub const FEWEST_FOR_A_TREND: usize = 3;

const SECONDS_A_WEEK: f64 = 7.0 * 24.0 * 3600.0;

/// How quickly a reading grows.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SeasonTrend {
    /// In the reading's own unit a week.
    pub per_week: Estimate,
    pub readings: u32,
    pub over_days: f64,
    /// It goes one way by more than its own ±.
    pub is_sure: bool,
}

/// One reading of a row of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrendPoint {
    pub at: DateTime<FixedOffset>,
    pub value: f64,
    /// Standard uncertainty.
    pub sigma: f64,
}

/// The straight line through readings that fits them best; none of fewer than three, of no time between them, or of readings
/// whose uncertainty nobody knows.
///
/// # References
/// Weighted least squares (`ghilani2010`, ch. 11). The slope's uncertainty is that of the readings; where they scatter about the line by
/// more than that, their scatter's (`gum2008`, 4.2 and H.3): the worse of the two.
pub fn trend(points: &[TrendPoint]) -> Option<SeasonTrend> {
    if points.len() < FEWEST_FOR_A_TREND {
        return None;
    }
    let first = points.iter().map(|point| point.at).min()?;
    let weeks: Vec<f64> = points.iter().map(|point| weeks_between(first, point.at)).collect();
    let design = DMatrix::from_fn(points.len(), 2, |row, column| if column == 0 { 1.0 } else { weeks[row] });
    let observed = DVector::from_iterator(points.len(), points.iter().map(|point| point.value));
    let sigmas: Vec<f64> = points.iter().map(|point| point.sigma).collect();
    let fit = solve(&design, &observed, &sigmas).ok()?;
    let sigma = fit.scaled_sigma(1).unwrap_or(0.0).max(fit.sigma(1));
    let per_week = Estimate::from_sigma(fit.parameters[1], sigma);
    Some(SeasonTrend {
        per_week,
        readings: u32::try_from(points.len()).unwrap_or(u32::MAX),
        over_days: 7.0 * weeks.iter().copied().fold(0.0, f64::max),
        is_sure: per_week.value.abs() > per_week.half_width_95,
    })
}

fn weeks_between(from: DateTime<FixedOffset>, to: DateTime<FixedOffset>) -> f64 {
    (to - from).num_seconds() as f64 / SECONDS_A_WEEK
}
