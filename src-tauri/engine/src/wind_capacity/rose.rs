//! The gust limit from every direction, raised and lowered.

use super::air;
use super::by_eye::look_at_by_eye;
use super::findings;
use super::missing::missing;
use super::parts::{Check, Part, parts};
use super::search::{MOST_M_PER_S, Search, Tried, Windy};
use super::standing::Standing;
use super::states::States;
use super::still::still_air;
use super::table::top_movement_m;
use super::types::{
    DirectionLimit, GustRose, GuyProofPull, GuysRunDown, MastHeight, PartKind, UnshownPart, WindCapacity,
};
use crate::anchor::proof_pull::proof_pull;
use crate::guys::shared;
use crate::job::{Job, WhenLowered};
use crate::numerics::vector::subtract;
use crate::plan::{GuyResult, Layout};
use crate::quantity::bearing::{of_vector, unit};
use crate::structure::ModelError;
use crate::verdict::Verdict;

/// How many directions a rose has.
pub const DIRECTIONS: u32 = 72;

/// Told after so many directions.
const BATCH: u32 = 6;

/// The gust's square to begin with in a direction, from the limits of those before.
#[derive(Debug, Default)]
pub(super) struct Guess {
    before: Option<f64>,
    last: Option<f64>,
}

impl Guess {
    /// A gust of 10 m/s at first; then the last limit; then as much farther as it went from the one before.
    pub fn next(&self) -> f64 {
        match (self.before, self.last) {
            (Some(before), Some(last)) => (2.0 * last - before).clamp(0.9 * last, 1.1 * last),
            (None, Some(last)) => last,
            _ => 100.0,
        }
    }

    pub fn learn(&mut self, gust_squared: f64) {
        if gust_squared > 0.0 {
            self.before = self.last.replace(gust_squared);
        }
    }
}

/// The bearings of so many directions, from north on.
pub fn bearings(count: u32) -> impl Iterator<Item = f64> {
    (0..count).map(move |index| 360.0 * f64::from(index) / f64::from(count))
}

/// The same, beginning by the first guy's anchor and going round: where the search looks first in a direction it knows
/// from the one before, so that the order, too, turns with the yard.
pub fn bearings_round(standing: &Standing, count: u32) -> impl Iterator<Item = f64> + use<> {
    let first_deg = standing.guys.first().map_or(0.0, |guy| {
        let [east, north, _] = subtract(guy.planned.eye, standing.foot_m);
        of_vector(east, north)
    });
    let apart_deg = 360.0 / f64::from(count);
    // Not by the nearest: a guy set in the middle between two directions would be rounded either way.
    // And beside the guy: along it the mast may swing to either side, and does as in the direction before.
    let first = (first_deg / apart_deg + 0.29).floor() as u32 + count / 24;
    (0..count).map(move |index| apart_deg * f64::from((first + index) % count))
}

/// Where a wind from a bearing blows to, east and north.
pub fn blows_to(from_deg: f64) -> [f64; 2] {
    unit(from_deg).map(|part| -part)
}

/// The fourth stage: what wind the mast of a job can take as it is laid out. For each of 72 directions, raised and lowered, the gust at which the first
/// part is fully used.
///
/// While a part is not shown to hold there is no gust in the answer, in no direction: what is missing stands in its
/// place. `progress` is told how many directions are done, of how many, and what was found so far; it stops the search by
/// answering false. An unstable mast is a result: a limit of nothing, with the reason among the findings.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan, wind_capacity};
///
/// let job = demo::lantern_green();
/// let layout = plan::compute(&job).expect("the demo can be placed").layout;
/// let limit = wind_capacity::withstand(&job, &layout, &mut |_, _, _| true);
/// let least = limit.raised.least.expect("every direction was looked at");
/// assert!(least.gust_m_per_s > 5.0 && least.gust_m_per_s < 40.0);
/// assert!(!limit.look_at_by_eye.is_empty());
/// ```
pub fn withstand(
    job: &Job,
    layout: &Layout,
    progress: &mut dyn FnMut(u32, u32, &WindCapacity) -> bool,
) -> WindCapacity {
    withstand_and_spent(job, layout, progress).0
}

/// The same with what the solver did for it ([`Solver::spent`](crate::structure::Solver::spent)): a measure of its cost
/// that is the same on every machine.
pub fn withstand_and_spent(
    job: &Job,
    layout: &Layout,
    progress: &mut dyn FnMut(u32, u32, &WindCapacity) -> bool,
) -> (WindCapacity, u64) {
    let heights = heights(job, layout);
    let mut limit = empty(&heights);
    let mut spent = 0;
    limit.findings = still_air(&heights, &mut spent);
    let mut done: u32 = 0;
    // Not even looked for while something is missing: no gust can slip out that was never found.
    let known = limit.missing.is_empty();
    for (standing, parts) in heights.iter().filter(|_| known) {
        let mut tell = |rose: &GustRose, limit: &mut WindCapacity| {
            done += 1;
            *rose_of(limit, rose.height) = rose.clone();
            !done.is_multiple_of(BATCH) || progress(done, 2 * DIRECTIONS, limit)
        };
        match find_rose(standing, parts, &mut limit, &mut spent, &mut tell) {
            Ok(true) => {}
            Ok(false) => limit.stopped = true,
            // Among the findings already, from still air.
            Err(_) => {}
        }
        if limit.stopped {
            break;
        }
    }
    finish(&mut limit, job, &heights);
    (limit, spent)
}

pub(super) type Height<'a> = (Standing<'a>, Vec<Part>);

/// What stands, raised and lowered, with its parts.
pub(super) fn heights<'a>(job: &'a Job, layout: &'a Layout) -> [Height<'a>; 2] {
    [MastHeight::Raised, MastHeight::Lowered].map(|height| {
        let standing = Standing::of(job, layout, height);
        let parts = parts(&standing);
        (standing, parts)
    })
}

fn empty(heights: &[Height; 2]) -> WindCapacity {
    let rose = |(standing, _): &Height| GustRose {
        height: standing.height,
        top_m: standing.top_m,
        directions: Vec::new(),
        least: None,
    };
    let job = heights[0].0.job;
    let missing = missing(heights);
    let [raised, lowered] = heights;
    WindCapacity {
        raised: rose(raised),
        lowered: rose(lowered),
        lower_at_m_per_s: None,
        lay_down_at_m_per_s: None,
        top_moves_at_lower_m: None,
        top_moves_at_lay_down_m: None,
        guys_run_down: guys_run_down(&lowered.0),
        ground: air::ground(job),
        not_shown: not_shown(heights),
        missing,
        proof_pulls: Vec::new(),
        look_at_by_eye: look_at_by_eye(job),
        findings: Vec::new(),
        verdict: Verdict::of(&[], Vec::new()),
        stopped: false,
    }
}

/// The guys that come down with the mast, each level once.
fn guys_run_down(lowered: &Standing) -> Vec<GuysRunDown> {
    let mut found: Vec<GuysRunDown> = Vec::new();
    for guy in lowered.guys.iter().filter(|guy| guy.comes_down()) {
        let level = guy.level;
        if found.iter().any(|known| known.level == level.id) {
            continue;
        }
        found.push(GuysRunDown {
            level: level.id.clone(),
            name: level.name.clone(),
            how: level.when_lowered,
            attach_height_m: guy.attach_height_m,
            tension_n: (level.when_lowered == WhenLowered::MadeFast).then_some(level.tension_n),
        });
    }
    found
}

/// So many directions tell how far the top moves at most: it changes slowly from one to the next.
const MOVES_DIRECTIONS: u32 = 24;

/// How far the top moves at most in a gust, second order, as loads are and without their factor; none where it does not
/// stand in it.
fn top_moves_m(standing: &Standing, gust_m_per_s: f64) -> Option<f64> {
    let route = air::route(standing.job);
    let mut most_m: f64 = 0.0;
    for from_deg in bearings(MOVES_DIRECTIONS) {
        let mut windy = Windy::new(standing, &route, blows_to(from_deg)).ok()?;
        let mut states = States::new(&windy.model);
        states.settle_service(&mut windy, gust_m_per_s * gust_m_per_s).ok()?;
        most_m = most_m.max(top_movement_m(&windy, states.service()));
    }
    Some(most_m)
}

fn rose_of(limit: &mut WindCapacity, height: MastHeight) -> &mut GustRose {
    match height {
        MastHeight::Raised => &mut limit.raised,
        MastHeight::Lowered => &mut limit.lowered,
    }
}

/// Every part that is not shown at either height, once.
fn not_shown(heights: &[Height; 2]) -> Vec<UnshownPart> {
    let mut found: Vec<UnshownPart> = Vec::new();
    for part in heights.iter().flat_map(|(_, parts)| parts) {
        let (Check::NotShown, Some(crate::resistance::Resistance::NotShown { reason })) =
            (&part.check, &part.resistance)
        else {
            continue;
        };
        if !found.iter().any(|known| known.part.id == part.part.id) {
            found.push(UnshownPart { part: part.part.clone(), reason: *reason });
        }
    }
    found
}

/// False where it was stopped.
fn find_rose(
    standing: &Standing,
    parts: &[Part],
    limit: &mut WindCapacity,
    spent: &mut u64,
    tell: &mut dyn FnMut(&GustRose, &mut WindCapacity) -> bool,
) -> Result<bool, ModelError> {
    let route = air::route(standing.job);
    let mut rose = rose_of(limit, standing.height).clone();
    let mut search: Option<Search> = None;
    let mut guess = Guess::default();
    for from_deg in bearings_round(standing, DIRECTIONS) {
        let mut windy = Windy::new(standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(parts, &mut windy));
        let before = search.spent();
        let found = search.limit(&mut windy, guess.next());
        *spent += search.spent() - before;
        guess.learn(found.gust_squared);
        let place = rose.directions.partition_point(|known| known.from_deg < from_deg);
        rose.directions.insert(place, direction(from_deg, found, parts));
        if rose.directions.len() == DIRECTIONS as usize {
            rose.least = least(&rose.directions);
        }
        if !tell(&rose, limit) {
            return Ok(false);
        }
    }
    Ok(true)
}

pub(super) fn direction(from_deg: f64, found: Tried, parts: &[Part]) -> DirectionLimit {
    // A mast that falls while its parts are used little has a weakest part too: itself.
    let full = found.utilisation >= 0.9 || found.gust_squared < 0.999 * MOST_M_PER_S * MOST_M_PER_S;
    let weakest = parts.get(found.part).filter(|_| full).map(|part| part.part.clone());
    DirectionLimit { from_deg, gust_m_per_s: found.gust_squared.sqrt(), weakest }
}

pub(super) fn least(directions: &[DirectionLimit]) -> Option<DirectionLimit> {
    directions.iter().min_by(|a, b| a.gust_m_per_s.total_cmp(&b.gust_m_per_s)).cloned()
}

fn finish(limit: &mut WindCapacity, job: &Job, heights: &[Height; 2]) {
    let left = 1.0 - job.wind.margin_percent / 100.0;
    let act_at = |rose: &GustRose| rose.least.as_ref().map(|least| left * least.gust_m_per_s);
    limit.lay_down_at_m_per_s = act_at(&limit.lowered);
    // Run down it may hold less than up; then it is laid down at once.
    limit.lower_at_m_per_s = match (act_at(&limit.raised), limit.lay_down_at_m_per_s) {
        (Some(lower), Some(lay_down)) => Some(lower.min(lay_down)),
        _ => None,
    };
    let moves = |height: &Height, at: Option<f64>| top_moves_m(&height.0, at?);
    limit.top_moves_at_lower_m = moves(&heights[0], limit.lower_at_m_per_s);
    limit.top_moves_at_lay_down_m = moves(&heights[1], limit.lay_down_at_m_per_s);
    if !limit.stopped {
        limit.proof_pulls = proof_pulls(limit, heights);
    }
    let found = findings::all(limit, job);
    limit.findings.extend(found);
    limit.findings.sort_by_key(|finding| finding.severity);
    limit.verdict = Verdict::of(&limit.findings, limit.missing.clone());
}

fn standing_guys<'a>(heights: &'a [Height<'_>; 2]) -> impl Iterator<Item = &'a GuyResult> {
    heights.iter().take(1).flat_map(|(standing, _)| standing.guys.iter().map(|guy| guy.planned))
}

/// For every anchor that is not shown, the hardest that its guy pulls at the gust asked for, from any direction. There
/// is no limit yet to take it from. None where the mast does not stand in that gust.
fn proof_pulls(limit: &WindCapacity, heights: &[Height; 2]) -> Vec<GuyProofPull> {
    // Nobody pulls at a wall or a tree to see whether it holds: who answers for it says that.
    let in_ground = |id: &str| standing_guys(heights).any(|it| it.id == id && it.made_fast.is_none());
    let unshown = |id: &str| {
        let of_guy = |part: &&UnshownPart| part.part.kind == PartKind::Anchor;
        let is_unshown =
            limit.not_shown.iter().filter(of_guy).any(|part| part.part.guy.as_deref() == Some(id));
        is_unshown && in_ground(id)
    };
    // What pulls at the anchors is not known.
    if heights.iter().any(|(standing, _)| standing.unknown.is_some()) {
        return Vec::new();
    }
    let [(standing, _), _] = heights;
    if !standing.guys.iter().any(|guy| unshown(&guy.planned.id)) {
        return Vec::new();
    }
    let mut pulls_n = vec![0.0; standing.anchors.len()];
    for (standing, parts) in heights {
        let gust_m_per_s = standing.job.wind.asked_gust_m_per_s;
        if !greatest_pulls(standing, parts, gust_m_per_s, DIRECTIONS, &mut pulls_n).unwrap_or(false) {
            return Vec::new();
        }
    }
    let pull_of = |(places, greatest_tension_n): (&Vec<usize>, f64)| {
        let guys = places.iter().filter_map(|&place| standing.guys.get(place));
        let first = guys.clone().next().filter(|guy| unshown(&guy.planned.id))?;
        Some(GuyProofPull {
            guy: first.planned.id.clone(),
            name: shared::name(guys.map(|guy| guy.planned)),
            greatest_tension_n,
            pull: proof_pull(greatest_tension_n, standing.job.units.system),
        })
    };
    standing.anchors.iter().zip(pulls_n).filter_map(pull_of).collect()
}

/// The hardest pulls on the anchors, all guys of each together, at a gust, over so many directions, taken into the list.
/// False where the mast does not stand in it.
pub(super) fn greatest_pulls(
    standing: &Standing,
    parts: &[Part],
    gust_m_per_s: f64,
    directions: u32,
    pulls_n: &mut [f64],
) -> Result<bool, ModelError> {
    let route = air::route(standing.job);
    let mut search: Option<Search> = None;
    let mut stands = true;
    for from_deg in bearings(directions) {
        let mut windy = Windy::new(standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(parts, &mut windy));
        stands &= search.greatest_pulls(&mut windy, gust_m_per_s * gust_m_per_s, &standing.anchors, pulls_n);
    }
    Ok(stands)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::yardstick;
    use crate::plan::compute;

    /// 10 m/s at first, then as before, then straight on; a tenth at most, and past nothing that never stood.
    #[test]
    fn the_next_direction_s_gust_is_guessed_straight_on() {
        let mut guess = Guess::default();
        let mut next = |learnt: f64| {
            guess.learn(learnt);
            guess.next()
        };
        for (learnt, by_hand) in [
            (0.0, 100.0),
            (200.0, 200.0),
            (210.0, 220.0),
            (0.0, 220.0),
            (300.0, 330.0),
            (290.0, 280.0),
            (200.0, 180.0),
        ] {
            let found = next(learnt);
            assert!((found - by_hand).abs() < 1e-9, "after {learnt}: {found}");
        }
    }

    /// A wind from the north-east blows to the south-west.
    #[test]
    fn bearings_and_where_they_blow_to() {
        assert_eq!(bearings(4).collect::<Vec<_>>(), [0.0, 90.0, 180.0, 270.0]);
        let [east, north] = blows_to(45.0);
        assert!((east + 0.5_f64.sqrt()).abs() < 1e-12 && (north + 0.5_f64.sqrt()).abs() < 1e-12);
    }

    /// Every direction once, going round, from beside the first guy on: three (of 72) past the one next to it.
    #[test]
    fn the_round_begins_beside_the_first_guy_and_turns_with_it() {
        let mut job = yardstick();
        job.yard.bearings = crate::job::BearingReference::True;
        job.placement.front_bearing_deg = 0.0;
        for (turn_deg, first_deg) in [(20.0, 35.0), (23.0, 35.0), (24.0, 40.0), (340.0, 355.0), (350.0, 5.0)]
        {
            job.placement.guy_turn_deg = turn_deg;
            let layout = compute(&job).unwrap().layout;
            let standing = Standing::of(&job, &layout, MastHeight::Raised);
            let mut round: Vec<f64> = bearings_round(&standing, 72).collect();
            assert!((round[0] - first_deg).abs() < 1e-9, "{turn_deg}: {}", round[0]);
            assert!((round[1] - (first_deg + 5.0) % 360.0).abs() < 1e-9);
            round.sort_by(f64::total_cmp);
            assert!(round.iter().zip(bearings(72)).all(|(a, b)| (a - b).abs() < 1e-9));
        }
    }

    #[test]
    fn the_least_of_a_rose_and_its_weakest_part() {
        let job = yardstick();
        let layout = compute(&job).unwrap().layout;
        let parts = parts(&Standing::of(&job, &layout, MastHeight::Raised));
        let of = |gust_squared: f64, utilisation: f64| {
            direction(30.0, Tried { gust_squared, utilisation, part: 1, falls: false }, &parts)
        };
        let full = of(144.0, 0.999);
        assert!((full.gust_m_per_s - 12.0).abs() < 1e-12);
        assert_eq!(full.weakest.as_ref(), Some(&parts[1].part));
        // A fall with little used has its part; what stands in the strongest gust looked at has none.
        assert!(of(144.0, 0.3).weakest.is_some() && of(6400.0, 0.3).weakest.is_none());
        assert!(of(6400.0, 0.95).weakest.is_some());
        let rose = [of(100.0, 1.0), of(81.0, 1.0), of(121.0, 1.0)];
        assert!((least(&rose).unwrap().gust_m_per_s - 9.0).abs() < 1e-12 && least(&[]).is_none());
    }
}
