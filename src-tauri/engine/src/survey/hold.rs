//! The still hold: when a phone has lain still long enough, and the slope it read meanwhile with its
//! uncertainty.
//!
//! What the uncertainty holds: the noise of the readings as their block means scatter (so that slow wander
//! counts, which a plain standard error of hundreds of like readings would hide), and what rounding by the
//! sensor or browser can hide. What it does not hold: the phone's own zero error, which no stillness shows;
//! only a reversal pair does (see [`super::tilt::reversal`]).

mod noise;
mod sway;

pub use self::sway::{Sway, sway};

use std::collections::VecDeque;

use serde::{Deserialize, Deserializer, Serialize};

use self::noise::{mean_of, median, spread, standard_uncertainty};
use super::tilt::{EdgeSlopes, GravitySign, RestsOn, edge_slopes, rests_on};
use crate::numerics::real::{atan2_deg, hypot};

/// One reading of the accelerometer, gravity included, in the phone's axes (see [`super::tilt`]).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Sample {
    pub time_ms: f64,
    /// x, y, z in m/s²; NaN (null in JSON) for an axis that the device does not report.
    #[serde(deserialize_with = "null_as_nan")]
    #[cfg_attr(feature = "typegen", ts(type = "[number | null, number | null, number | null]"))]
    pub acceleration: [f64; 3],
}

fn null_as_nan<'de, D: Deserializer<'de>>(deserializer: D) -> Result<[f64; 3], D::Error> {
    let axes = <[Option<f64>; 3]>::deserialize(deserializer)?;
    Ok(axes.map(|axis| axis.unwrap_or(f64::NAN)))
}

/// What counts as still.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(default)]
pub struct HoldRules {
    /// The phone must lie still this long.
    pub needed_ms: f64,
    /// A reading that points farther than this from the others is movement.
    pub movement_deg: f64,
    /// Slow turning between the first and the last third of the hold, at most.
    pub drift_deg: f64,
    /// Stray readings shorter than this together (a tap, a lost packet) do not break the hold.
    pub stray_ms: f64,
    /// A silence longer than this breaks the hold.
    pub gap_ms: f64,
    pub sign: GravitySign,
}

impl Default for HoldRules {
    /// Common practice: two seconds; movement well above a phone's noise and one rounding step of 0.1 m/s²
    /// (0.6°), drift at the phone's own accuracy.
    fn default() -> Self {
        Self {
            needed_ms: 2000.0,
            movement_deg: 1.5,
            drift_deg: 0.5,
            stray_ms: 150.0,
            gap_ms: 500.0,
            sign: GravitySign::Up,
        }
    }
}

/// What the sensor is doing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Motion {
    /// No readings at all.
    NoReadings,
    /// Readings come, but without all three axes: this device can't do it, type the slope instead.
    AxesMissing,
    /// The phone moves, or has only just come to rest.
    Moving,
    /// It lies still, but not long enough yet.
    Settling,
    /// It has lain still long enough.
    Still,
}

/// How a hold stands after the readings so far.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct HoldState {
    pub motion: Motion,
    /// The slope may be taken: the phone has lain still for `needed_ms`.
    pub still: bool,
    pub held_ms: f64,
    pub needed_ms: f64,
    /// Robust standard deviation of the readings' direction while held.
    pub spread_deg: f64,
    /// Readings of the hold in use, and those left out as strays.
    pub used: usize,
    pub strays: usize,
    /// The slopes so far; none until there are enough readings to say how sure they are.
    pub tilt: Option<Tilt>,
}

/// Slopes of the phone's edges as held (see [`super::tilt`] for the signs).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Tilt {
    pub long_edge_deg: f64,
    pub short_edge_deg: f64,
    pub screen_deg: f64,
    pub rests_on: RestsOn,
    /// Of the less sure of the two; noise and rounding, without the phone's zero error.
    pub standard_uncertainty_deg: f64,
    /// Mean acceleration of the hold, as reported.
    pub acceleration: [f64; 3],
}

/// The last stretch of readings, whose middle says which way the phone points now.
const NOW_MS: f64 = 500.0;

/// Fewest readings from which a standard uncertainty is stated.
const LEAST_READINGS: usize = 8;

/// Judges the readings so far, the latest last; those that go back in time are ignored.
pub fn hold(samples: &[Sample], rules: &HoldRules) -> HoldState {
    let usable = usable(samples);
    let Some(last) = usable.last() else {
        let motion = if samples.is_empty() { Motion::NoReadings } else { Motion::AxesMissing };
        return HoldState::nothing(motion, rules);
    };
    let resting = resting(&usable, rules);
    let kept = without_strays(resting);
    let held_ms = resting.first().map_or(0.0, |first| last.time_ms - first.time_ms);
    let drift_deg = drift_deg(&kept);
    let settled = kept.len() >= LEAST_READINGS && drift_deg <= rules.drift_deg;
    let motion = match () {
        () if !settled => Motion::Moving,
        () if held_ms < rules.needed_ms => Motion::Settling,
        () => Motion::Still,
    };
    HoldState {
        motion,
        still: motion == Motion::Still,
        held_ms,
        needed_ms: rules.needed_ms,
        spread_deg: spread_deg(&kept),
        used: kept.len(),
        strays: resting.len() - kept.len(),
        tilt: tilt(&kept, rules.sign),
    }
}

impl HoldState {
    fn nothing(motion: Motion, rules: &HoldRules) -> Self {
        let needed_ms = rules.needed_ms;
        Self {
            motion,
            still: false,
            held_ms: 0.0,
            needed_ms,
            spread_deg: 0.0,
            used: 0,
            strays: 0,
            tilt: None,
        }
    }
}

/// Readings with a time and three axes, in the order of time.
fn usable(samples: &[Sample]) -> Vec<Sample> {
    let mut latest = f64::NEG_INFINITY;
    let whole = |s: &&Sample| s.time_ms.is_finite() && s.acceleration.iter().all(|a| a.is_finite());
    let mut kept = Vec::with_capacity(samples.len());
    for sample in samples.iter().filter(whole) {
        if sample.time_ms > latest {
            latest = sample.time_ms;
            kept.push(*sample);
        }
    }
    kept
}

/// Strays within this time count together: a hand that shakes strays a little, again and again.
const STRAYS_TOGETHER_MS: f64 = 1000.0;

/// The readings since the phone last moved: back from the latest until a silence, or until readings that point
/// elsewhere together last longer than a stray. Elsewhere is measured from the middle of the last half second.
fn resting<'a>(samples: &'a [Sample], rules: &HoldRules) -> &'a [Sample] {
    let Some(last) = samples.last() else { return samples };
    let recent = samples.partition_point(|s| s.time_ms < last.time_ms - NOW_MS);
    let middle = middle(&samples[recent..]);
    let mut start = samples.len();
    let mut next_ms = last.time_ms;
    // Time and length of the strays passed so far, the latest first.
    let mut strays: VecDeque<(f64, f64)> = VecDeque::new();
    for (index, sample) in samples.iter().enumerate().rev() {
        let lasts_ms = next_ms - sample.time_ms;
        if lasts_ms > rules.gap_ms {
            break;
        }
        next_ms = sample.time_ms;
        if angle_deg(sample.acceleration, middle) <= rules.movement_deg {
            start = index;
            continue;
        }
        strays.push_back((sample.time_ms, lasts_ms));
        while strays.front().is_some_and(|stray| stray.0 - sample.time_ms > STRAYS_TOGETHER_MS) {
            strays.pop_front();
        }
        if strays.iter().map(|stray| stray.1).sum::<f64>() > rules.stray_ms {
            break;
        }
    }
    &samples[start..]
}

/// Leaves out readings far from the others on any axis.
fn without_strays(samples: &[Sample]) -> Vec<Sample> {
    let limits = [0, 1, 2].map(|axis| {
        let values: Vec<f64> = samples.iter().map(|s| s.acceleration[axis]).collect();
        let step = noise::rounding_step(&values);
        // Four robust standard deviations; never finer than two and a half rounding steps, for a phone whose
        // readings sit on one step has no spread at all.
        (median(&values), (4.0 * spread(&values)).max(2.5 * step))
    });
    let near = |s: &&Sample| (0..3).all(|i| (s.acceleration[i] - limits[i].0).abs() <= limits[i].1);
    samples.iter().filter(near).copied().collect()
}

fn middle(samples: &[Sample]) -> [f64; 3] {
    [0, 1, 2].map(|axis| median(&samples.iter().map(|s| s.acceleration[axis]).collect::<Vec<_>>()))
}

/// Angle between two vectors, accurate for small ones. Source: W. Kahan, How futile are mindless assessments
/// of roundoff (2006), §12: the cross product's length over the dot product.
fn angle_deg(a: [f64; 3], b: [f64; 3]) -> f64 {
    let cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
    let dot = a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    atan2_deg(hypot(hypot(cross[0], cross[1]), cross[2]), dot)
}

/// Robust standard deviation of the direction: of the larger of both edges' slopes.
fn spread_deg(samples: &[Sample]) -> f64 {
    let slopes: Vec<EdgeSlopes> =
        samples.iter().filter_map(|s| edge_slopes(s.acceleration, GravitySign::Up)).collect();
    let of = |edge: fn(&EdgeSlopes) -> f64| spread(&slopes.iter().map(edge).collect::<Vec<_>>());
    of(|s| s.long_edge_deg).max(of(|s| s.short_edge_deg))
}

/// Turn between the means of the first and the last third.
fn drift_deg(samples: &[Sample]) -> f64 {
    let third = samples.len() / 3;
    if third == 0 {
        return 0.0;
    }
    let mean = |part: &[Sample]| mean_of(&part.iter().map(|s| s.acceleration).collect::<Vec<_>>());
    angle_deg(mean(&samples[..third]), mean(&samples[samples.len() - third..]))
}

fn tilt(samples: &[Sample], sign: GravitySign) -> Option<Tilt> {
    if samples.len() < LEAST_READINGS {
        return None;
    }
    let readings: Vec<[f64; 3]> = samples.iter().map(|s| s.acceleration).collect();
    let acceleration = mean_of(&readings);
    let EdgeSlopes { long_edge_deg, short_edge_deg, screen_deg } = edge_slopes(acceleration, sign)?;
    let rests_on = rests_on(acceleration, sign)?;
    let standard_uncertainty_deg = standard_uncertainty(&readings, acceleration).to_degrees();
    Some(Tilt { long_edge_deg, short_edge_deg, screen_deg, rests_on, standard_uncertainty_deg, acceleration })
}

#[cfg(test)]
mod tests;
