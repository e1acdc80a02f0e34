//! How tight the guys are, in words.

use serde::Serialize;

use super::capture::{self};
use super::format;
use super::words::tensions as say;
use crate::finding::Quantity;
use crate::guys::GuyResult;
use crate::job::{Job, TensionReading};
use crate::quantity::Units;
use crate::quantity::estimate::{COVERAGE_95, Estimate};
use crate::ringing::levels::{TENSION_TOLERANCE, swinging, tension};
use crate::ringing::recording::{Recorded, SOUND_BAND};
use crate::ringing::{GuyTension, LevelTension, MeasuredTension, NoNote, Note, TensionStanding};

/// All guys, level by level.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TensionsReport {
    pub headline: String,
    pub standing: TensionStanding,
    pub levels: Vec<TensionLevelText>,
    /// How to time a guy with a watch.
    pub watch: String,
    pub tolerance: String,
    pub caution: String,
}

/// The guys of one level.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TensionLevelText {
    pub name: String,
    pub planned: String,
    pub says: String,
    pub guys: Vec<TensionGuyText>,
}

/// One guy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TensionGuyText {
    pub guy_id: String,
    pub name: String,
    pub standing: TensionStanding,
    pub says: String,
    /// Empty where nobody has measured it.
    pub tension: String,
    pub interval: String,
    /// What to do: `take in 9 mm ± 3 mm`; empty where nothing is to be done or known.
    pub does: String,
    pub turns: String,
    /// `20 swings in 8.6 s`, and at other tensions.
    pub swings: String,
    pub swings_beside: String,
    /// Why a watch does not do; empty where it does.
    pub not_by_watch: String,
    /// Whether a microphone can hear it at the planned tension.
    pub audible: bool,
    pub readings: Vec<TensionReadingText>,
}

/// One reading.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TensionReadingText {
    pub id: String,
    pub when: String,
    pub way: String,
    /// With its interval; why not, where it gives no tension.
    pub tension: String,
}

/// What was just read of one guy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RingReport {
    /// `4.64 Hz`; empty where there is none.
    pub note: String,
    pub note_interval: String,
    pub tension: String,
    pub tension_interval: String,
    pub standing: TensionStanding,
    pub says: String,
    /// How sure the peak is; empty where nothing was listened to.
    pub chance: String,
    /// Why there is none, and the way by hand; empty where there is one.
    pub problem: String,
    pub instead: String,
    pub picture: Option<RingPicture>,
}

/// How strong each part of the band is, for a picture.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct RingPicture {
    /// From 0 to 1, evenly over the band.
    pub bars: Vec<f64>,
    pub from: String,
    pub to: String,
    /// The bar of the note.
    pub at: Option<usize>,
}

/// Puts all guys into words.
pub fn tensions(job: &Job, levels: &[LevelTension]) -> TensionsReport {
    let guys = || levels.iter().flat_map(|level| &level.guys);
    let measured = guys().filter(|guy| guy.latest.is_some()).count();
    let standing = worst(levels);
    TensionsReport {
        headline: say::headline(measured, guys().count(), standing),
        standing,
        levels: levels.iter().map(|level| of_level(job, level)).collect(),
        watch: say::WATCH.to_owned(),
        tolerance: say::tolerance((100.0 * TENSION_TOLERANCE).round() as u32),
        caution: say::CAUTION.to_owned(),
    }
}

/// One that nobody has measured goes before all, then what is to be changed.
fn worst(levels: &[LevelTension]) -> TensionStanding {
    let order = [
        TensionStanding::NotKnown,
        TensionStanding::Slacker,
        TensionStanding::Tighter,
        TensionStanding::CannotTell,
    ];
    let is = |standing: &TensionStanding| levels.iter().any(|level| level.standing == *standing);
    order.into_iter().find(is).unwrap_or(TensionStanding::AsPlanned)
}

fn of_level(job: &Job, level: &LevelTension) -> TensionLevelText {
    let units = job.units;
    let named = job.rig.guy_levels.iter().find(|it| it.id == level.level_id);
    let mean = level.mean_n.map(|mean_n| format::force(mean_n, units));
    let odd = level.odd_guy.as_ref().and_then(|id| level.guys.iter().find(|guy| guy.guy_id == *id));
    TensionLevelText {
        name: named.map_or_else(String::new, |it| it.name.clone()),
        planned: format::force(level.planned_n, units),
        says: say::level(mean.as_deref(), odd.map(|guy| guy.name.as_str())),
        guys: level.guys.iter().map(|guy| of_guy(guy, units)).collect(),
    }
}

fn of_guy(guy: &GuyTension, units: Units) -> TensionGuyText {
    let found = guy.latest.as_ref().and_then(|latest| latest.tension_n);
    let change = guy.take_in_m.filter(|_| guy.standing != TensionStanding::AsPlanned);
    let does = change.map_or_else(String::new, |take_in| {
        let interval = capture::length(take_in.value, take_in.sigma(), units).interval;
        format!("{} {interval}", capture::rope(take_in.value, units))
    });
    let turns = change.and(guy.turns).map(|turns| say::turns((4.0 * turns.abs()).round() as i64));
    let swings = guy.swings;
    TensionGuyText {
        guy_id: guy.guy_id.clone(),
        name: guy.name.clone(),
        standing: guy.standing,
        says: say::standing(guy.standing).to_owned(),
        tension: found.map_or_else(String::new, |found| format::force(found.value, units)),
        interval: found.map_or_else(String::new, |found| force_interval(found, units)),
        does,
        turns: turns.unwrap_or_default(),
        swings: say::seconds(swings.swings, &seconds(swings.planned_s)),
        swings_beside: say::seconds_beside(&seconds(swings.tighter_s), &seconds(swings.slacker_s)),
        not_by_watch: match swings.planned_s {
            Some(_) if swings.countable => String::new(),
            Some(_) => say::TOO_QUICK_FOR_A_WATCH.to_owned(),
            None => say::HANGS_AT_NO_SUCH_TENSION.to_owned(),
        },
        audible: swings.planned_s.is_some_and(|all_s| f64::from(swings.swings) / all_s >= SOUND_BAND.low_hz),
        readings: guy.readings.iter().rev().map(|reading| of_reading(reading, units)).collect(),
    }
}

fn of_reading(reading: &MeasuredTension, units: Units) -> TensionReadingText {
    let tension =
        |found: Estimate| format!("{} {}", format::force(found.value, units), force_interval(found, units));
    TensionReadingText {
        id: reading.id.clone(),
        when: reading.taken_at.format("%Y-%m-%d %H:%M").to_string(),
        way: say::way(reading.way).to_owned(),
        tension: reading.tension_n.map_or_else(|| say::NOT_THIS_ROPE.to_owned(), tension),
    }
}

/// Puts one reading into words: `note` where it swung, `reading` where it can be kept.
pub fn ring(
    job: &Job,
    guy: &GuyResult,
    note: Option<Result<Note, NoNote>>,
    reading: Option<&TensionReading>,
    recorded: Option<&Recorded>,
) -> RingReport {
    let level = job.rig.guy_levels.iter().find(|level| level.id == guy.level_id);
    let found = level.zip(reading).and_then(|(level, reading)| {
        Some((tension(&swinging(guy, level), reading).ok()?.upper, level.tension_n))
    });
    let standing = found.map_or(TensionStanding::NotKnown, |(found, planned_n)| {
        crate::ringing::levels::standing(found, planned_n)
    });
    let heard = note.and_then(Result::ok);
    let [problem, instead] = match (note, reading, found) {
        (Some(Err(why)), ..) => say::no_note(why),
        (_, Some(_), None) => [say::NOT_THIS_ROPE, ""],
        _ => ["", ""],
    };
    let force =
        |words: fn(Estimate, Units) -> String| found.map_or_else(String::new, |it| words(it.0, job.units));
    RingReport {
        note: heard.map_or_else(String::new, |note| format::frequency(note.hz)),
        note_interval: heard
            .map_or_else(String::new, |note| format!("± {}", hertz_up(COVERAGE_95 * note.sigma_hz))),
        tension: force(|found, units| format::force(found.value, units)),
        tension_interval: force(force_interval),
        standing,
        says: say::standing(standing).to_owned(),
        chance: heard.and_then(|note| note.chance_wrong).map_or_else(String::new, chance),
        problem: format::capital(problem),
        instead: instead.to_owned(),
        picture: recorded.and_then(|recorded| picture(recorded, heard)),
    }
}

/// Rounded up: an interval is never shown narrower than it is.
fn hertz_up(half_hz: f64) -> String {
    format::frequency((100.0 * half_hz).ceil() / 100.0)
}

fn chance(chance_wrong: f64) -> String {
    if chance_wrong < 1e-6 {
        return say::HARDLY_EVER.to_owned();
    }
    say::by_chance((1.0 / chance_wrong) as u32)
}

fn picture(recorded: &Recorded, heard: Option<Note>) -> Option<RingPicture> {
    /// As many as a phone shows apart.
    const BARS: usize = 60;
    let spectrum = recorded.spectrum.as_ref()?;
    let top = spectrum.power.len().checked_sub(1)?;
    let high_hz = top as f64 * spectrum.step_hz;
    let per_bar = top as f64 / BARS as f64;
    let loudest = |bar: usize| {
        let range = (bar as f64 * per_bar) as usize..=((bar + 1) as f64 * per_bar) as usize;
        spectrum.power[range].iter().copied().fold(0.0, f64::max)
    };
    let loud: Vec<f64> = (0..BARS).map(loudest).collect();
    let most = loud.iter().copied().fold(1.0, f64::max);
    Some(RingPicture {
        bars: loud.iter().map(|power| (power / most).sqrt()).collect(),
        from: format::frequency(0.0),
        to: format::frequency(high_hz),
        at: heard.map(|note| ((note.hz / high_hz * BARS as f64) as usize).min(BARS - 1)),
    })
}

fn force_interval(found: Estimate, units: Units) -> String {
    crate::quantity::format::interval(Quantity::ForceN { value: found.half_width_95 }, units)
}

fn seconds(value_s: Option<f64>) -> String {
    value_s.map_or_else(|| say::NOT_KNOWN.to_owned(), |value_s| format!("{value_s:.1} s"))
}
