//! All guys of a level beside each other and beside the plan: which to take in, and by how much.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::note::Note;
use super::rhythm::QUICKEST_COUNTED_HZ;
use super::rope::{NoTension, RopeTension, SwingingRope};
use crate::guys::GuyResult;
use crate::job::{GuyLevel, Job, SwingPlane, TensionReading, TensionWay};
use crate::numerics::real::hypot;
use crate::quantity::estimate::{COVERAGE_95, Estimate};
use crate::structure::catenary::Span;

/// Field tension within 10 % of the planned one. TiaGuys (±5 % for guys over an inch thick, which none here is).
pub const TENSION_TOLERANCE: f64 = 0.10;
/// So many swings are timed.
pub const TIMED_SWINGS: u16 = 20;

/// How tight the guys of every level were found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyTensions {
    pub levels: Vec<LevelTension>,
}

/// The guys of one level.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LevelTension {
    pub level_id: String,
    pub planned_n: f64,
    pub guys: Vec<GuyTension>,
    /// Mean of those that were measured; none while one is missing.
    pub mean_n: Option<f64>,
    /// The guy that is farthest from the mean, where that is more than the readings leave open and more than the tolerance.
    pub odd_guy: Option<String>,
    pub standing: TensionStanding,
}

/// One guy.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct GuyTension {
    pub guy_id: String,
    pub name: String,
    /// Of the newest reading that gives a tension; none where there is none.
    pub latest: Option<MeasuredTension>,
    /// All readings of it, the oldest first.
    pub readings: Vec<MeasuredTension>,
    pub standing: TensionStanding,
    /// Rope to take in (positive) or let out for the planned tension, this guy by itself; none where nobody has measured.
    pub take_in_m: Option<Estimate>,
    /// The same in turns of its turnbuckle; none without one.
    pub turns: Option<f64>,
    pub swings: TimedSwings,
}

/// What a reading comes to.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MeasuredTension {
    pub id: String,
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    pub way: TensionWay,
    /// At the upper end; none where no tension of this rope gives the reading.
    pub tension_n: Option<Estimate>,
    /// Without what is the same for all guys of one rope.
    pub own_sigma_n: f64,
    /// Without what is the same for all readings of this guy, too.
    pub read_sigma_n: f64,
}

/// How a guy, or a level, stands to the plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TensionStanding {
    /// Nobody has measured it, or not all of it.
    NotKnown,
    AsPlanned,
    Slacker,
    Tighter,
    /// The reading is not sure enough to tell.
    CannotTell,
}

/// How long twenty swings take: for who has only a watch.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct TimedSwings {
    pub swings: u16,
    /// At the planned tension; none where that can't hold the rope up.
    pub planned_s: Option<f64>,
    /// At four fifths and at six fifths of it.
    pub slacker_s: Option<f64>,
    pub tighter_s: Option<f64>,
    /// Slow enough to be counted by eye.
    pub countable: bool,
}

/// How tight the guys of every level are.
///
/// # References
/// TiaGuys: within 10 % of the planned tension. A reading is held against that with its 95 % interval (Gum2008, 6.2).
pub fn levels(job: &Job, guys: &[GuyResult]) -> Vec<LevelTension> {
    let turn_m = job.tensions.turn_mm.map(|turn_mm| turn_mm / 1000.0);
    let of_level = |level: &GuyLevel| {
        let guys = guys.iter().filter(|guy| guy.level_id == level.id);
        let guys = guys.map(|guy| of_guy(guy, level, &job.tensions.readings, turn_m)).collect();
        together(level, guys)
    };
    job.rig.guy_levels.iter().map(of_level).collect()
}

/// The guy's rope as it swings.
pub fn swinging(guy: &GuyResult, level: &GuyLevel) -> SwingingRope {
    let [x, y, z] = [0, 1, 2].map(|axis| guy.attach[axis] - guy.eye[axis]);
    let span = Span {
        span_m: hypot(x, y),
        rise_m: z,
        weight_n_per_m: level.rope.weight_n_per_m(),
        stiffness_n: level.rope.stiffness_n(),
    };
    SwingingRope::new(span, &level.rope)
}

/// The tension that a reading gives.
///
/// # Errors
/// Where nothing was read, or no tension of this rope gives it.
pub fn tension(rope: &SwingingRope, reading: &TensionReading) -> Result<RopeTension, NoTension> {
    match (reading.hz, reading.pull_n, reading.aside_m) {
        (Some(hz), ..) => {
            let note = Note { hz, sigma_hz: reading.sigma_hz.unwrap_or(0.0), chance_wrong: None };
            rope.at_note(note, reading.plane, reading.phone_at_m)
        }
        (None, Some(pull_n), Some(aside_m)) => rope.at_pull(pull_n, aside_m),
        _ => Err(NoTension::NothingRead),
    }
}

fn of_guy(guy: &GuyResult, level: &GuyLevel, all: &[TensionReading], turn_m: Option<f64>) -> GuyTension {
    let rope = swinging(guy, level);
    let mut own: Vec<&TensionReading> = all.iter().filter(|reading| reading.guy == guy.id).collect();
    own.sort_by_key(|reading| reading.taken_at);
    let readings: Vec<MeasuredTension> = own.into_iter().map(|reading| measured(&rope, reading)).collect();
    let latest = readings.iter().rev().find(|reading| reading.tension_n.is_some()).cloned();
    let found = latest.as_ref().and_then(|reading| reading.tension_n);
    let take_in_m = found.and_then(|found| take_in(&rope, found, level.tension_n));
    GuyTension {
        guy_id: guy.id.clone(),
        name: guy.name.clone(),
        standing: found.map_or(TensionStanding::NotKnown, |found| standing(found, level.tension_n)),
        turns: take_in_m.zip(turn_m).map(|(take_in, turn_m)| take_in.value / turn_m),
        take_in_m,
        latest,
        readings,
        swings: timed_swings(&rope, level.tension_n),
    }
}

fn measured(rope: &SwingingRope, reading: &TensionReading) -> MeasuredTension {
    let found = tension(rope, reading).ok();
    MeasuredTension {
        id: reading.id.clone(),
        taken_at: reading.taken_at,
        way: reading.way,
        tension_n: found.map(|found| found.upper),
        own_sigma_n: found.map_or(0.0, |found| found.own_sigma_n),
        read_sigma_n: found.map_or(0.0, |found| found.read_sigma_n),
    }
}

/// How a tension stands to the planned one: inside the tolerance, outside, or the interval lies across its edge.
pub fn standing(found: Estimate, planned_n: f64) -> TensionStanding {
    let off = (found.value - planned_n) / planned_n;
    let half = found.half_width_95 / planned_n;
    if off.abs() + half <= TENSION_TOLERANCE {
        TensionStanding::AsPlanned
    } else if off - half > TENSION_TOLERANCE {
        TensionStanding::Tighter
    } else if off + half < -TENSION_TOLERANCE {
        TensionStanding::Slacker
    } else {
        TensionStanding::CannotTell
    }
}

/// What the rope is shorter by, unstretched, at the planned tension than at that found; its ends stay where they are.
fn take_in(rope: &SwingingRope, found: Estimate, planned_n: f64) -> Option<Estimate> {
    let at = |upper_n: f64| rope.span.with_upper_tension(upper_n).ok().map(|rope| rope.unstressed_m);
    let now_m = at(found.value)?;
    let planned_m = at(planned_n)?;
    let sigma_n = found.sigma();
    let apart_m = at(found.value + sigma_n).map_or(0.0, |other_m| (other_m - now_m).abs());
    Some(Estimate::from_sigma(now_m - planned_m, apart_m))
}

fn timed_swings(rope: &SwingingRope, planned_n: f64) -> TimedSwings {
    let seconds = |part: f64| {
        let hz = rope.hz(part * planned_n, SwingPlane::Sideways, None);
        hz.map(|hz| f64::from(TIMED_SWINGS) / hz)
    };
    let planned_s = seconds(1.0);
    TimedSwings {
        swings: TIMED_SWINGS,
        planned_s,
        slacker_s: seconds(0.8),
        tighter_s: seconds(1.2),
        countable: planned_s.is_some_and(|all_s| f64::from(TIMED_SWINGS) / all_s <= QUICKEST_COUNTED_HZ),
    }
}

fn together(level: &GuyLevel, guys: Vec<GuyTension>) -> LevelTension {
    let found: Vec<(&GuyTension, f64, f64)> = guys
        .iter()
        .filter_map(|guy| {
            let latest = guy.latest.as_ref()?;
            Some((guy, latest.tension_n?.value, latest.own_sigma_n))
        })
        .collect();
    let all = !guys.is_empty() && found.len() == guys.len();
    let mean_n = all.then(|| found.iter().map(|(_, n, _)| n).sum::<f64>() / found.len() as f64);
    let odd_guy = mean_n.and_then(|mean_n| {
        let off = |n: f64| (n - mean_n).abs();
        let (guy, n, sigma_n) = found.iter().max_by(|a, b| off(a.1).total_cmp(&off(b.1)))?;
        (off(*n) - COVERAGE_95 * sigma_n > TENSION_TOLERANCE * mean_n).then(|| guy.guy_id.clone())
    });
    let standing = level_standing(&guys);
    LevelTension { level_id: level.id.clone(), planned_n: level.tension_n, mean_n, odd_guy, standing, guys }
}

/// The worst of its guys: one that nobody has measured goes before all, then what is to be changed.
fn level_standing(guys: &[GuyTension]) -> TensionStanding {
    let order = [
        TensionStanding::NotKnown,
        TensionStanding::Slacker,
        TensionStanding::Tighter,
        TensionStanding::CannotTell,
    ];
    let of = |standing: &TensionStanding| guys.iter().any(|guy| guy.standing == *standing);
    if guys.is_empty() {
        return TensionStanding::NotKnown;
    }
    order.into_iter().find(of).unwrap_or(TensionStanding::AsPlanned)
}
