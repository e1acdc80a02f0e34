//! The same place again: what the compass shows by now, and which tapes between marks would show that one has moved.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use crate::ground::profile::taut_tape_m;
use crate::job::{Job, Yard};
use crate::numerics::real::{atan2_deg, erfc, hypot};
use crate::numerics::roots::{RootRules, brent};
use crate::pegging::network::reading_sigma_m;
use crate::plan::Surveyed;
use crate::quantity::bearing::{turn_deg, wrap_360};
use crate::survey::north::north;
use crate::survey::{NorthFrom, PlacedMark};

/// A sound set of marks is doubted this often, by all tapes together (common practice).
pub const DOUBT_LEVEL: f64 = 0.05;
/// A shift of the least size that is told is found this often.
pub const FOUND: f64 = 0.95;
/// So many tapes.
pub const TAPES: usize = 3;
/// More marks than this have more threes of tapes than are worth trying: the first ones are tried.
const MARKS_TRIED: usize = 12;
/// Nearer than this two marks have no direction to speak of.
const NEAREST_M: f64 = 0.5;
/// A longer tape nobody has (common practice: tapes go to 100 m).
const LONGEST_M: f64 = 100.0;

/// How the compass's north stands to that of the survey.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum NorthAgain {
    /// Bearings are read from true north or a baseline: they are as they were.
    AsItWas,
    /// By the model, on both days.
    Turned {
        then_deg: f64,
        now_deg: f64,
        /// The compass shows so much more than then for the same direction; negative: less.
        shows_more_deg: f64,
        /// The model does not reach to that day.
        out_of_date: bool,
    },
    /// A declination was entered for the day of the survey, and nobody knows that of today.
    GivenThen { declination_deg: f64 },
    /// No place, or no day of the survey.
    NotKnown,
}

/// A tape between two marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MarkTape {
    pub from: String,
    pub to: String,
    /// As it should read: along a taut tape.
    pub tape_m: f64,
    /// Of reading it again and of the old survey, together.
    pub sigma_m: f64,
    /// Farther off than this, a mark has moved, or the tape was read wrongly.
    pub doubt_from_m: f64,
}

/// What three tapes would show of one mark, the others staying where they are.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case")]
pub enum MarkSeen {
    /// A shift of this size is found, whichever way it went.
    EveryWay {
        least_m: f64,
    },
    /// Along this bearing alone: across it nothing shows.
    OneWay {
        least_m: f64,
        bearing_deg: f64,
    },
    NotAtAll,
}

/// One mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MarkWatched {
    pub mark: String,
    pub name: String,
    pub seen: MarkSeen,
}

/// Which tapes to read before anybody trusts the old survey.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct MarkCheck {
    /// Three; fewer where there are fewer.
    pub tapes: Vec<MarkTape>,
    pub marks: Vec<MarkWatched>,
    /// Out of so many sets of tapes.
    pub sets_tried: u32,
    /// Marks that were left out since there are too many.
    pub marks_left_out: u32,
}

/// The same place again.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct SamePlace {
    pub north: NorthAgain,
    pub check: MarkCheck,
}

/// What to look at before a job is built in the same place again, on a day.
pub fn same_place(job: &Job, surveyed: &Surveyed, now: DateTime<FixedOffset>) -> SamePlace {
    SamePlace { north: north_again(&job.yard, now), check: mark_check(job, surveyed) }
}

/// The declination of this day against that of the survey.
///
/// # References
/// World Magnetic Model 2025 (`wmm2025`) on both days. Its own error is nearly the same on both and falls out of the difference.
pub fn north_again(yard: &Yard, now: DateTime<FixedOffset>) -> NorthAgain {
    let (then, _) = north(yard);
    let then_deg = match then.from {
        NorthFrom::True | NorthFrom::Baseline { .. } => return NorthAgain::AsItWas,
        NorthFrom::DeclinationGiven { declination_deg } => return NorthAgain::GivenThen { declination_deg },
        NorthFrom::Unknown => return NorthAgain::NotKnown,
        NorthFrom::DeclinationByModel { declination_deg, .. } => declination_deg,
    };
    let (today, doubts) = north(&Yard { surveyed_at: Some(now), ..yard.clone() });
    let NorthFrom::DeclinationByModel { declination_deg: now_deg, .. } = today.from else {
        return NorthAgain::NotKnown;
    };
    // A compass shows the true bearing less the declination.
    let shows_more_deg = turn_deg(now_deg, then_deg);
    NorthAgain::Turned { then_deg, now_deg, shows_more_deg, out_of_date: !doubts.is_empty() }
}

/// The tapes between marks that show best which mark has moved.
///
/// # References
/// A tape is doubted where it is off by more than z(1 − α/2m)·σ, α = 5 % shared among m tapes (`dunn1961`), σ of reading it and of the old
/// distance together (`gum2008`, 5.2.2). A shift by s along the unit vector d moves a tape by s·u·d, u the line's direction; it is found with a chance of 95 % where that
/// is (z(1 − α/2m) + z(0.95))·σ (`baarda1968`, with these levels). Of a mark the least shift is that of the worst direction, which the tape that
/// shows most of it finds.
pub fn mark_check(job: &Job, surveyed: &Surveyed) -> MarkCheck {
    let all = surveyed.marks(&job.yard);
    let marks = &all[..all.len().min(MARKS_TRIED)];
    let lines = lines(job, surveyed, marks);
    let wanted = TAPES.min(lines.len());
    let [doubt, found] = multiples(wanted);
    let sets = sets_of(lines.len(), wanted);
    let seen = |set: &[usize]| -> Vec<MarkSeen> {
        (0..marks.len()).map(|mark| seen(mark, set.iter().map(|at| &lines[*at]), found)).collect()
    };
    let best = sets.iter().map(|set| (set, seen(set))).reduce(|best, other| {
        // The first of equal ones stays: the marks in the order in which the user named them.
        if better(&other.1, &best.1) { other } else { best }
    });
    let (set, watched) = match best {
        Some((set, watched)) => (set.as_slice(), watched),
        None => (&[] as &[usize], vec![MarkSeen::NotAtAll; marks.len()]),
    };
    let tape = |at: &usize| {
        let line = &lines[*at];
        MarkTape {
            from: marks[line.ends[0]].id.clone(),
            to: marks[line.ends[1]].id.clone(),
            tape_m: line.tape_m,
            sigma_m: line.sigma_m,
            doubt_from_m: doubt * line.sigma_m,
        }
    };
    let watched = marks.iter().zip(watched);
    MarkCheck {
        tapes: set.iter().map(tape).collect(),
        marks: watched
            .map(|(mark, seen)| MarkWatched { mark: mark.id.clone(), name: mark.name.clone(), seen })
            .collect(),
        sets_tried: u32::try_from(sets.len()).unwrap_or(u32::MAX),
        marks_left_out: u32::try_from(all.len() - marks.len()).unwrap_or(u32::MAX),
    }
}

/// A line between two marks.
struct MarkLine {
    ends: [usize; 2],
    /// From the first to the second, in plan.
    along: [f64; 2],
    tape_m: f64,
    sigma_m: f64,
    /// What a tape grows by for each metre of plan.
    share: f64,
}

fn lines(job: &Job, surveyed: &Surveyed, marks: &[PlacedMark]) -> Vec<MarkLine> {
    let pairs = (0..marks.len()).flat_map(|from| (from + 1..marks.len()).map(move |to| [from, to]));
    let line = |ends: [usize; 2]| {
        let [from, to] = ends.map(|at| &marks[at]);
        let by = [to.at[0] - from.at[0], to.at[1] - from.at[1]];
        let plan_m = hypot(by[0], by[1]);
        let [a, b] = [from, to].map(|mark| [mark.at[0], mark.at[1]]);
        let tape_m = taut_tape_m(&surveyed.fit.ground, a, b).max(plan_m);
        if !(NEAREST_M..=LONGEST_M).contains(&tape_m) {
            return None;
        }
        let along = by.map(|part| part / plan_m);
        let known_m = old_sigma_m(surveyed, [from, to], along);
        let sigma_m = hypot(known_m, reading_sigma_m(&job.yard.instruments, tape_m));
        Some(MarkLine { ends, along, tape_m, sigma_m, share: plan_m / tape_m })
    };
    pairs.filter_map(line).collect()
}

/// How surely the old survey knows the distance of two marks along the line between them, as their network was adjusted: what both share falls out.
/// `along` points from the first to the second.
fn old_sigma_m(surveyed: &Surveyed, [from, to]: [&PlacedMark; 2], along: [f64; 2]) -> f64 {
    // Rows 0 and 1 are the ground's; then east and north of each mark.
    let joint = surveyed.positions.joint_covariance(&[&from.id, &to.id]);
    let by = [-along[0], -along[1], along[0], along[1]];
    let mut variance = 0.0;
    for (row, one) in by.iter().enumerate() {
        for (column, other) in by.iter().enumerate() {
            variance += one * joint[(row + 2, column + 2)] * other;
        }
    }
    variance.max(0.0).sqrt()
}

/// From how many sigmas on a tape is doubted, and how many a shift moves it by that is found.
pub(super) fn multiples(tapes: usize) -> [f64; 2] {
    let doubt = normal_quantile(DOUBT_LEVEL / (2.0 * tapes.max(1) as f64));
    [doubt, doubt + normal_quantile(1.0 - FOUND)]
}

/// The value that a standard normal exceeds with this chance.
fn normal_quantile(chance: f64) -> f64 {
    let over = |z: f64| 0.5 * erfc(z * std::f64::consts::FRAC_1_SQRT_2) - chance;
    brent(over, -8.0, 8.0, RootRules { tolerance: 1e-12, max_steps: 200 }).unwrap_or(f64::INFINITY)
}

/// All sets of so many out of these, in order.
fn sets_of(count: usize, wanted: usize) -> Vec<Vec<usize>> {
    let mut sets = vec![Vec::new()];
    for _ in 0..wanted {
        let longer = sets.into_iter().flat_map(|set: Vec<usize>| {
            let first = set.last().map_or(0, |last| last + 1);
            (first..count).map(move |next| [set.as_slice(), &[next]].concat())
        });
        sets = longer.collect();
    }
    sets.retain(|set| !set.is_empty());
    sets
}

/// What tapes show of a mark.
fn seen<'a>(mark: usize, tapes: impl Iterator<Item = &'a MarkLine>, found: f64) -> MarkSeen {
    // How many sigmas a shift of a metre moves each tape by, as a vector.
    let touching = tapes.filter(|line| line.ends.contains(&mark));
    let pulls: Vec<[f64; 2]> =
        touching.map(|line| line.along.map(|part| part * line.share / line.sigma_m)).collect();
    let strongest = pulls.iter().max_by(|a, b| hypot(a[0], a[1]).total_cmp(&hypot(b[0], b[1])));
    let Some(strongest) = strongest else { return MarkSeen::NotAtAll };
    let worst = worst_direction(&pulls);
    let most = hypot(strongest[0], strongest[1]);
    // Flatter than a degree the tapes are one line.
    if worst > most * 0.0175 {
        MarkSeen::EveryWay { least_m: found / worst }
    } else {
        let bearing_deg = wrap_360(atan2_deg(strongest[0], strongest[1]));
        MarkSeen::OneWay { least_m: found / most, bearing_deg: bearing_deg % 180.0 }
    }
}

/// The least that the most telling tape shows of a shift of one metre, over all directions: it lies where two tapes show alike, square to their
/// sum or to their difference ([`crate::source::SourceKey::Geometry`]).
pub(super) fn worst_direction(pulls: &[[f64; 2]]) -> f64 {
    let mut worst = if pulls.len() < 2 { 0.0 } else { f64::INFINITY };
    for (at, a) in pulls.iter().enumerate() {
        for b in &pulls[at + 1..] {
            for along in [[a[0] - b[0], a[1] - b[1]], [a[0] + b[0], a[1] + b[1]]] {
                let length = hypot(along[0], along[1]);
                // Nothing is square to nothing: the other of the two tells of two that are alike.
                if length < 1e-9 {
                    continue;
                }
                let square = [-along[1] / length, along[0] / length];
                let shown = |pull: &[f64; 2]| (pull[0] * square[0] + pull[1] * square[1]).abs();
                worst = worst.min(pulls.iter().map(shown).fold(0.0, f64::max));
            }
        }
    }
    worst
}

/// More marks that are seen whichever way they moved; then more that are seen at all; then the largest of the least shifts, the smaller
/// the better.
fn better(this: &[MarkSeen], that: &[MarkSeen]) -> bool {
    let score = |seen: &[MarkSeen]| {
        let every = seen.iter().filter(|it| matches!(it, MarkSeen::EveryWay { .. })).count();
        let at_all = seen.iter().filter(|it| !matches!(it, MarkSeen::NotAtAll)).count();
        let least = seen.iter().map(|it| match it {
            MarkSeen::EveryWay { least_m } | MarkSeen::OneWay { least_m, .. } => *least_m,
            MarkSeen::NotAtAll => 0.0,
        });
        (every, at_all, least.fold(0.0, f64::max))
    };
    let (this, that) = (score(this), score(that));
    (this.0, this.1).cmp(&(that.0, that.1)).then(that.2.total_cmp(&this.2)).is_gt()
}
