//! The lowest note of a rope in a spectrum, and when none is to be trusted.
//!
//! A taut rope sounds its lowest note and whole multiples of it. Which of several peaks is the lowest is decided by how
//! much of what was heard it explains; a note is only taken where it stands out of the noise by itself, nothing nearly as
//! strong is left over, and nothing lies halfway between its multiples, which would speak for a lower one.

use serde::{Deserialize, Serialize};

use super::spectrum::Spectrum;
use crate::numerics::real::exp;
use crate::quantity::estimate::COVERAGE_95;

/// A rope's lowest frequency.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Note {
    pub hz: f64,
    pub sigma_hz: f64,
    /// How likely noise alone makes a peak as high somewhere; none where nothing was listened to.
    pub chance_wrong: Option<f64>,
}

/// Why a recording or a count gives no note.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NoNote {
    /// No samples, or none that are numbers.
    NoSignal,
    /// It stopped too soon.
    TooShort,
    /// Samples are missing in between.
    Gaps,
    /// Nothing stands out of the noise.
    TooNoisy,
    /// Two notes are there, and which is the rope's cannot be told.
    TwoNotes,
    /// What was heard is the hum of the mains.
    Hum,
    /// Too few swings, by count or by time.
    TooFewSwings,
    /// The taps fit no even swing.
    Uneven,
    /// Too quick to count or to tap along.
    TooQuick,
    /// Stands out, but is not known to 1 %.
    Unsharp,
}

/// Where a rope's note is looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NoteBand {
    pub low_hz: f64,
    pub high_hz: f64,
    /// Whether the mains can be heard.
    pub mains: bool,
}

/// What stands out: noise alone does so in one recording out of some hundred.
const STANDS_OUT: f64 = 11.0;
/// What speaks for another note, if it is where that one's would be.
const SPEAKS_FOR_ANOTHER: f64 = 8.0;
/// Left over and as strong as this part of the strongest explained: another note.
const AS_STRONG: f64 = 0.3;
/// Multiples that are looked at.
const MULTIPLES: u32 = 6;
/// A multiple lies within this of its place: a stiff or sagging rope's are not quite whole (common practice).
const OFF_WHOLE: f64 = 0.012;
/// A note is taken when its 95 % interval is within 1 %: 2 % of the tension.
const SHARP_ENOUGH: f64 = 0.01;
/// So many swings must lie within the recording.
const FEWEST_SWINGS: f64 = 6.0;
/// A Hann-weighted, dying note is less sharp than the best there is for a steady one by about this
/// (`tests.rs` counts how often the interval holds the truth).
const OVER_THE_BOUND: f64 = 2.2;
/// Width at half power of a steady note under Hann's window, times the recording's length (Harris 1978, from memory).
const HANN_WIDTH: f64 = 1.44;
/// What clocks and steps of the samples leave, relative.
const CLOCK_SIGMA: f64 = 3e-4;

#[derive(Debug, Clone, Copy)]
struct Peak {
    hz: f64,
    power: f64,
    unlikely: f64,
    width_hz: f64,
}

/// The lowest note in a spectrum.
///
/// # Accuracy
/// The standard uncertainty is that of the best estimator there is for one tone in white noise,
/// σ = √(3/P)/(2π·T) with P the peak's power over the noise (RifeBoorstyn1974, from memory, written with P = ηN/2),
/// T no longer than the note sounds, times 2.2.
///
/// # Errors
/// Where none is to be trusted: see [`NoNote`].
pub fn lowest(spectrum: &Spectrum, band: NoteBand) -> Result<Note, NoNote> {
    let peaks = peaks(spectrum, band)?;
    let of_rope = |peak: &&Peak| !(band.mains && is_hum(peak.hz, spectrum));
    let candidates: Vec<&Peak> =
        peaks.iter().filter(of_rope).filter(|peak| peak.unlikely >= STANDS_OUT).collect();
    let explains = |note: &Peak| -> f64 {
        let fit = peaks.iter().filter(of_rope).filter(|peak| is_multiple(peak.hz, note.hz, spectrum));
        fit.map(|peak| peak.unlikely).sum()
    };
    let best = candidates.iter().max_by(|a, b| explains(a).total_cmp(&explains(b)));
    let Some(&&best) = best else {
        let hum = peaks.iter().any(|peak| peak.unlikely >= STANDS_OUT);
        return Err(if hum { NoNote::Hum } else { NoNote::TooNoisy });
    };
    let explained = |peak: &&Peak| is_multiple(peak.hz, best.hz, spectrum);
    let strongest = peaks.iter().filter(of_rope).filter(explained).map(|it| it.power).fold(0.0, f64::max);
    let mut rest = peaks.iter().filter(of_rope).filter(|peak| !explained(peak));
    let another = |peak: &Peak| {
        let strong = peak.power > AS_STRONG * strongest && peak.unlikely >= STANDS_OUT;
        let lower = peak.unlikely >= SPEAKS_FOR_ANOTHER && is_between(peak.hz, best.hz, spectrum);
        strong || lower
    };
    if rest.any(another) {
        return Err(NoNote::TwoNotes);
    }
    judged(&best, spectrum, band)
}

fn judged(best: &Peak, spectrum: &Spectrum, band: NoteBand) -> Result<Note, NoNote> {
    if best.hz * spectrum.seconds < FEWEST_SWINGS {
        return Err(NoNote::TooFewSwings);
    }
    // A note that dies away sounds for a shorter time than the recording; its peak is as much wider.
    let sounds_s = spectrum.seconds.min(HANN_WIDTH / best.width_hz);
    let turns = 2.0 * core::f64::consts::PI * sounds_s;
    let bound_hz = (3.0 / (spectrum.traces as f64 * best.power)).sqrt() / turns;
    let sigma_hz = (OVER_THE_BOUND * bound_hz).max(CLOCK_SIGMA * best.hz);
    if COVERAGE_95 * sigma_hz > SHARP_ENOUGH * best.hz {
        return Err(NoNote::Unsharp);
    }
    // Peaks that could have stood there: one for each width of a peak.
    let places = (band.high_hz - band.low_hz) * spectrum.seconds;
    Ok(Note { hz: best.hz, sigma_hz, chance_wrong: Some((places * exp(-best.unlikely)).min(1.0)) })
}

fn peaks(spectrum: &Spectrum, band: NoteBand) -> Result<Vec<Peak>, NoNote> {
    if spectrum.seconds * band.low_hz < 1.0 && spectrum.seconds < 4.0 {
        return Err(NoNote::TooShort);
    }
    let peak = |bin| {
        let (hz, power) = spectrum.peak(bin);
        Peak { hz, power, unlikely: spectrum.unlikely(power), width_hz: spectrum.width_hz(bin) }
    };
    let all: Vec<Peak> = spectrum.tops(band.low_hz, band.high_hz).map(peak).collect();
    // A peak's own feet: Hann's window leaves −31 dB beside it (Harris 1978, from memory).
    let foot = |of: &Peak| {
        let under = |top: &Peak| {
            let apart = (top.hz - of.hz).abs() * spectrum.seconds;
            apart < 6.0 && top.power > 30.0 * of.power
        };
        all.iter().any(under)
    };
    Ok(all.iter().filter(|peak| !foot(peak)).copied().collect())
}

fn is_multiple(hz: f64, of_hz: f64, spectrum: &Spectrum) -> bool {
    let times = (hz / of_hz).round();
    (1.0..=f64::from(MULTIPLES)).contains(&times) && near(hz, times * of_hz, spectrum)
}

/// Where a rope with half or a third of this lowest note would sound, and this one not.
fn is_between(hz: f64, of_hz: f64, spectrum: &Spectrum) -> bool {
    [2.0, 3.0].iter().any(|part| {
        let times = (hz / of_hz * part).round();
        times >= 1.0 && times % part != 0.0 && times <= part * 3.0 && near(hz, times * of_hz / part, spectrum)
    })
}

fn near(hz: f64, place_hz: f64, spectrum: &Spectrum) -> bool {
    (hz - place_hz).abs() <= (OFF_WHOLE * place_hz).max(0.5 / spectrum.seconds)
}

/// 50 and 60 Hz and their multiples: the mains of the world (common practice).
fn is_hum(hz: f64, spectrum: &Spectrum) -> bool {
    [50.0, 60.0].iter().any(|mains| {
        let times = (hz / mains).round();
        times >= 1.0 && (hz - times * mains).abs() < (0.004 * hz).max(1.0 / spectrum.seconds)
    })
}
