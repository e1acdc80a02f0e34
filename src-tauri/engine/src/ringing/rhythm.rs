//! The period of a rope's swings, by taps or by a watch.

use super::note::{NoNote, Note};

/// One press of a hand that follows what it sees: 0.07 s. Stopwatch2019 (4,304 presses: mean 0.11 s, standard deviation
/// 0.07 s; abstract).
const PRESS_SIGMA_S: f64 = 0.07;
/// Start and stop of a watch together: 0.10 s. Stopwatch2019 (abstract).
const START_AND_STOP_SIGMA_S: f64 = 0.10;
/// Quicker than this nobody counts or taps along swing by swing (common practice).
pub const QUICKEST_COUNTED_HZ: f64 = 2.0;
/// Fewer taps than this say too little of their own scatter (common practice).
const FEWEST_TAPS: usize = 6;
/// A tap must be this near to its place in the rhythm so far, in swings.
const NEAR_WHOLE: f64 = 0.45;
/// So many swings may have been left out in one gap.
const MOST_IN_A_GAP: f64 = 3.0;

/// The frequency of swings that were tapped along with, by a straight line through the taps.
///
/// # Units
/// Times in milliseconds, in order.
///
/// # Accuracy
/// One tap is taken as no surer than 0.07 s, and as less where the taps themselves scatter more.
///
/// # Errors
/// Too few taps, taps that fit no even swing, swings too quick to follow.
///
/// # References
/// Stopwatch2019 for one press; a straight line's slope: σ/√Σ(i − ī)² (Gum2008, H.3).
pub fn tapped(times_ms: &[f64]) -> Result<Note, NoNote> {
    if times_ms.iter().any(|time| !time.is_finite()) || times_ms.windows(2).any(|two| two[1] < two[0]) {
        return Err(NoNote::NoSignal);
    }
    let usual_ms = usual_gap(times_ms)?;
    let mut counted = vec![(0.0, times_ms[0])];
    for &time in &times_ms[1..] {
        let before = counted[counted.len() - 1].0;
        let count = place_in_rhythm(&counted, usual_ms, time);
        let whole = count.round();
        if (count - whole).abs() > NEAR_WHOLE || whole > before + MOST_IN_A_GAP {
            return Err(NoNote::Uneven);
        }
        // At the same place: a tap that bounced.
        if whole > before {
            counted.push((whole, time));
        }
    }
    if counted.len() < FEWEST_TAPS {
        return Err(NoNote::TooFewSwings);
    }
    let line = Line::through(&counted);
    let period_s = line.slope / 1000.0;
    let tap_sigma_s = (line.scatter / 1000.0).max(PRESS_SIGMA_S);
    of_period(period_s, tap_sigma_s / line.spread.sqrt())
}

/// The frequency of so many swings in so many seconds by a watch.
///
/// # Errors
/// Nothing counted or timed; swings too quick to count.
///
/// # References
/// Stopwatch2019: start and stop together 0.10 s.
pub fn timed(swings: u16, seconds: f64) -> Result<Note, NoNote> {
    if swings == 0 || !(seconds.is_finite() && seconds > 0.0) {
        return Err(NoNote::TooFewSwings);
    }
    let swings = f64::from(swings);
    of_period(seconds / swings, START_AND_STOP_SIGMA_S / swings)
}

/// Which swing a tap belongs to, by the rhythm of those before: one hand's error is not carried to the next tap.
fn place_in_rhythm(counted: &[(f64, f64)], usual_ms: f64, time: f64) -> f64 {
    let n = counted.len() as f64;
    let mean = |of: fn(&(f64, f64)) -> f64| counted.iter().map(of).sum::<f64>() / n;
    let period_ms = if counted.len() < FEWEST_TAPS { usual_ms } else { Line::through(counted).slope };
    mean(|it| it.0) + (time - mean(|it| it.1)) / period_ms
}

fn of_period(period_s: f64, sigma_s: f64) -> Result<Note, NoNote> {
    let hz = 1.0 / period_s;
    if hz > QUICKEST_COUNTED_HZ {
        return Err(NoNote::TooQuick);
    }
    Ok(Note { hz, sigma_hz: hz * sigma_s / period_s, chance_wrong: None })
}

/// The gap that most of the taps have.
fn usual_gap(times_ms: &[f64]) -> Result<f64, NoNote> {
    let mut gaps: Vec<f64> = times_ms.windows(2).map(|two| two[1] - two[0]).collect();
    if gaps.len() + 1 < FEWEST_TAPS {
        return Err(NoNote::TooFewSwings);
    }
    gaps.sort_by(f64::total_cmp);
    let middle = gaps[gaps.len() / 2];
    if middle > 0.0 { Ok(middle) } else { Err(NoNote::Uneven) }
}

/// A straight line through counts and times.
struct Line {
    slope: f64,
    /// Standard deviation of one time from it.
    scatter: f64,
    /// Σ(i − ī)².
    spread: f64,
}

impl Line {
    fn through(points: &[(f64, f64)]) -> Self {
        let n = points.len() as f64;
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / n;
        let (x0, y0) = (mean(|it| it.0), mean(|it| it.1));
        let spread: f64 = points.iter().map(|(x, _)| (x - x0) * (x - x0)).sum();
        let slope = points.iter().map(|(x, y)| (x - x0) * (y - y0)).sum::<f64>() / spread;
        let left: f64 = points.iter().map(|(x, y)| y - y0 - slope * (x - x0)).map(|it| it * it).sum();
        Self { slope, scatter: (left / (n - 2.0)).sqrt(), spread }
    }
}
