//! From a phone's samples to a rope's note.

use super::note::{NoNote, Note, NoteBand, lowest};
use super::spectrum::{Spectrum, spectrum};
use crate::survey::hold::Sample;

/// Below half a swing a second a mast's guy is slack (common practice); a phone's 60 samples a second show no more than 25.
const MOTION_BAND: NoteBand = NoteBand { low_hz: 0.5, high_hz: 25.0, mains: false };
/// A phone's microphone hears little below 20 Hz; no guy sounds higher (common practice).
pub const SOUND_BAND: NoteBand = NoteBand { low_hz: 20.0, high_hz: 600.0, mains: true };
/// A note needs some swings of the slowest; the recordings take 10 s.
const LEAST_MOTION_S: f64 = 4.0;
const LEAST_SOUND_S: f64 = 1.0;
/// One sample in ten may be missing.
const MOST_MISSING: f64 = 0.1;
/// A note must lie this far below half the samples' rate (the sampling theorem, and room for the filter in the phone).
const BELOW_NYQUIST: f64 = 0.42;

/// What a recording shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Recorded {
    pub spectrum: Option<Spectrum>,
    pub note: Result<Note, NoNote>,
}

/// The note of a rope that a phone on it felt.
pub fn felt(samples: &[Sample]) -> Recorded {
    let (traces, rate_hz) = match even(samples) {
        Ok(even) => even,
        Err(why) => return Recorded { spectrum: None, note: Err(why) },
    };
    let band = NoteBand { high_hz: MOTION_BAND.high_hz.min(BELOW_NYQUIST * rate_hz), ..MOTION_BAND };
    of(&traces, rate_hz, band)
}

/// The note of a rope that a microphone heard.
pub fn heard(samples: &[f64], rate_hz: f64) -> Recorded {
    let usable =
        rate_hz.is_finite() && rate_hz > 2.0 * SOUND_BAND.low_hz && samples.iter().all(|it| it.is_finite());
    if !usable || samples.is_empty() {
        return Recorded { spectrum: None, note: Err(NoNote::NoSignal) };
    }
    if (samples.len() as f64) < LEAST_SOUND_S * rate_hz {
        return Recorded { spectrum: None, note: Err(NoNote::TooShort) };
    }
    let band = NoteBand { high_hz: SOUND_BAND.high_hz.min(BELOW_NYQUIST * rate_hz), ..SOUND_BAND };
    of(&[samples.to_vec()], rate_hz, band)
}

fn of(traces: &[Vec<f64>], rate_hz: f64, band: NoteBand) -> Recorded {
    let found = spectrum(traces, rate_hz, band.high_hz);
    let note = lowest(&found, band);
    Recorded { spectrum: Some(found), note }
}

/// Samples at even times: a browser's events come a little early or late, but the sensor's own clock is even. Each goes to
/// the slot of its time; what is missing is put in along a straight line.
fn even(samples: &[Sample]) -> Result<(Vec<Vec<f64>>, f64), NoNote> {
    let axes: Vec<usize> =
        (0..3).filter(|&axis| samples.iter().all(|it| it.acceleration[axis].is_finite())).collect();
    let (Some(first), Some(last)) = (samples.first(), samples.last()) else { return Err(NoNote::NoSignal) };
    if axes.is_empty() || samples.iter().any(|it| !it.time_ms.is_finite()) {
        return Err(NoNote::NoSignal);
    }
    let whole_ms = last.time_ms - first.time_ms;
    if whole_ms.is_nan() || whole_ms < 1000.0 * LEAST_MOTION_S || samples.len() < 64 {
        return Err(NoNote::TooShort);
    }
    let step_ms = usual_step(samples)?;
    let slots = (whole_ms / step_ms).round() as usize + 1;
    // More than any phone gives in a quarter of an hour: a clock that jumped.
    if slots > 1_000_000 || (slots as f64) > (1.0 + MOST_MISSING) * samples.len() as f64 {
        return Err(NoNote::Gaps);
    }
    let at = |sample: &Sample| (sample.time_ms - first.time_ms) / whole_ms * (slots - 1) as f64;
    let traces = axes.iter().map(|&axis| {
        let mut points = samples.iter().map(|it| (at(it).round(), it.acceleration[axis]));
        filled(&mut points, slots)
    });
    Ok((traces.collect(), 1000.0 * (slots - 1) as f64 / whole_ms))
}

/// The mean of the gaps that are about as long as most are.
fn usual_step(samples: &[Sample]) -> Result<f64, NoNote> {
    let mut gaps: Vec<f64> = samples.windows(2).map(|two| two[1].time_ms - two[0].time_ms).collect();
    if gaps.iter().any(|gap| *gap < 0.0) {
        return Err(NoNote::Gaps);
    }
    gaps.sort_by(f64::total_cmp);
    let middle = gaps[gaps.len() / 2];
    let usual: Vec<f64> = gaps.into_iter().filter(|gap| *gap < 1.5 * middle).collect();
    let mean = usual.iter().sum::<f64>() / usual.len().max(1) as f64;
    if mean > 0.0 { Ok(mean) } else { Err(NoNote::Gaps) }
}

fn filled(points: &mut impl Iterator<Item = (f64, f64)>, slots: usize) -> Vec<f64> {
    let mut trace = Vec::with_capacity(slots);
    let mut before: Option<(f64, f64)> = None;
    for (slot, value) in points {
        if let Some((from, was)) = before {
            while (trace.len() as f64) < slot {
                let part = (trace.len() as f64 - from) / (slot - from);
                trace.push(was + part * (value - was));
            }
        }
        if trace.len() as f64 <= slot {
            trace.push(value);
        }
        before = Some((slot, value));
    }
    trace
}
