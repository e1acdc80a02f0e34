//! Lean and guys against the time before.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::trend::{SeasonTrend, TrendPoint, trend};
use crate::job::{RoundLean, SeasonRound};
use crate::numerics::chi_square::CHI_SQUARE_95_2;
use crate::numerics::real::hypot;
use crate::quantity::estimate::Estimate;
use crate::ringing::{GuyTension, MeasuredTension};

/// How the mast leaned on one round.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LeanReading {
    pub round: String,
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    pub to_front_deg: Estimate,
    pub to_right_deg: Estimate,
    /// Both together.
    pub lean_deg: f64,
}

/// What the lean changed by between two rounds.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LeanChange {
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub since: DateTime<FixedOffset>,
    pub to_front_deg: Estimate,
    pub to_right_deg: Estimate,
    /// Both together.
    pub by_deg: f64,
    /// Up to this the readings' own uncertainty explains it (95 % of both together).
    pub within_95_deg: f64,
    /// It is more than that.
    pub moved: bool,
}

/// The mast's lean, round after round.
#[derive(Debug, Clone, PartialEq, Default, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LeanHistory {
    /// The oldest first.
    pub readings: Vec<LeanReading>,
    /// None until it was measured twice.
    pub change: Option<LeanChange>,
    /// None until it was measured three times.
    pub trend_to_front: Option<SeasonTrend>,
    pub trend_to_right: Option<SeasonTrend>,
}

/// What a guy's tension changed by.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SeasonTensionChange {
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub since: DateTime<FixedOffset>,
    pub by_n: Estimate,
    /// It is more than its ±.
    pub moved: bool,
    /// It is surely more than the tolerance of the planned tension, too.
    pub matters: bool,
}

/// A guy's tension, day after day.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyHistory {
    pub guy_id: String,
    pub name: String,
    /// Days on which it was measured.
    pub days: u32,
    pub latest_n: Option<Estimate>,
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub latest_at: Option<DateTime<FixedOffset>>,
    /// None until it was measured on two days.
    pub change: Option<SeasonTensionChange>,
    /// None until it was measured on three days.
    pub trend: Option<SeasonTrend>,
}

/// The lean over the rounds, which stand in the order of time. `usual_sigma_deg` is that of a lean without one of its own.
///
/// # References
/// A difference of two readings has the root of the sum of their squares (`gum2008`, 5.1.2). Two errors of one sigma lie within
/// √(−2·ln 0.05) = 2.448 of it 19 times in 20 (chi-square with two degrees of freedom): a mast that did not move at all is said to have
/// moved once in twenty rounds. First order in the lean: at 3° the second order is below 0.005°.
pub fn leans(rounds: &[&SeasonRound], usual_sigma_deg: f64) -> LeanHistory {
    let sigma = |lean: &RoundLean| lean.sigma_deg.unwrap_or(usual_sigma_deg);
    let measured: Vec<(&SeasonRound, RoundLean)> =
        rounds.iter().filter_map(|round| Some((*round, round.lean?))).collect();
    let reading = |(round, lean): &(&SeasonRound, RoundLean)| LeanReading {
        round: round.id.clone(),
        taken_at: round.taken_at,
        to_front_deg: Estimate::from_sigma(lean.to_front_deg, sigma(lean)),
        to_right_deg: Estimate::from_sigma(lean.to_right_deg, sigma(lean)),
        lean_deg: hypot(lean.to_front_deg, lean.to_right_deg),
    };
    let along = |of: fn(&RoundLean) -> f64| {
        let point = |(round, lean): &(&SeasonRound, RoundLean)| TrendPoint {
            at: round.taken_at,
            value: of(lean),
            sigma: sigma(lean),
        };
        trend(&measured.iter().map(point).collect::<Vec<_>>())
    };
    let change = match measured.as_slice() {
        [.., (before, was), (_, is)] => Some(lean_change(before, was, is, hypot(sigma(was), sigma(is)))),
        _ => None,
    };
    LeanHistory {
        readings: measured.iter().map(reading).collect(),
        change,
        trend_to_front: along(|lean| lean.to_front_deg),
        trend_to_right: along(|lean| lean.to_right_deg),
    }
}

fn lean_change(before: &SeasonRound, was: &RoundLean, is: &RoundLean, sigma_deg: f64) -> LeanChange {
    let (front, right) = (is.to_front_deg - was.to_front_deg, is.to_right_deg - was.to_right_deg);
    let (by_deg, within_95_deg) = (hypot(front, right), CHI_SQUARE_95_2.sqrt() * sigma_deg);
    LeanChange {
        since: before.taken_at,
        to_front_deg: Estimate::from_sigma(front, sigma_deg),
        to_right_deg: Estimate::from_sigma(right, sigma_deg),
        by_deg,
        within_95_deg,
        moved: by_deg > within_95_deg,
    }
}

/// A guy from day to day: of each day its last reading, since a guy that is being set is read again and again. `counts` says which moments
/// belong to this standing of the mast.
///
/// # References
/// What is the same for all readings of one guy (its rope's weight a metre, its length) falls out of a difference: the sigma of each reading
/// alone is left (`gum2008`, 5.2.2).
pub fn of_guy(
    guy: &GuyTension,
    tolerance_n: f64,
    counts: impl Fn(DateTime<FixedOffset>) -> bool,
) -> GuyHistory {
    let days = last_of_each_day(guy, counts);
    let point = |(reading, found): &(&MeasuredTension, Estimate)| TrendPoint {
        at: reading.taken_at,
        value: found.value,
        sigma: reading.read_sigma_n,
    };
    let change = match days.as_slice() {
        [.., (before, was), (now, is)] => {
            let by_n =
                Estimate::from_sigma(is.value - was.value, hypot(before.read_sigma_n, now.read_sigma_n));
            Some(SeasonTensionChange {
                since: before.taken_at,
                by_n,
                moved: by_n.value.abs() > by_n.half_width_95,
                matters: by_n.value.abs() - by_n.half_width_95 > tolerance_n,
            })
        }
        _ => None,
    };
    let latest = days.last();
    GuyHistory {
        guy_id: guy.guy_id.clone(),
        name: guy.name.clone(),
        days: u32::try_from(days.len()).unwrap_or(u32::MAX),
        latest_n: latest.map(|(_, found)| *found),
        latest_at: latest.map(|(reading, _)| reading.taken_at),
        change,
        trend: trend(&days.iter().map(point).collect::<Vec<_>>()),
    }
}

fn last_of_each_day(
    guy: &GuyTension,
    counts: impl Fn(DateTime<FixedOffset>) -> bool,
) -> Vec<(&MeasuredTension, Estimate)> {
    let mut days: Vec<(&MeasuredTension, Estimate)> = Vec::new();
    // In the order of time, as the ringing room has them.
    for reading in guy.readings.iter().filter(|reading| counts(reading.taken_at)) {
        let Some(found) = reading.tension_n else { continue };
        if days.last().is_some_and(|(last, _)| last.taken_at.date_naive() == reading.taken_at.date_naive()) {
            days.pop();
        }
        days.push((reading, found));
    }
    days
}
