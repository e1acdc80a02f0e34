//! The lead along the ground: how long it is, where it is crossed, what of it hangs on the mast.

use super::results::{CordReach, LeadWork, TripPoint};
use crate::ground::Ground;
use crate::ground::profile::profile;
use crate::job::{Job, LeadFeeds, LightLead, PathUse};
use crate::numerics::real::hypot;
use crate::plan::{Computed, Surveyed};
use crate::pointer;
use crate::quantity::estimate::COVERAGE_95;
use crate::round_figures::keep::DRIP_LOOP;
use crate::yard::flat::{Patch, contains, sides, way_patches};
use crate::yard::{PlacedObstacle, PlacedShape};

/// Over and above what was reckoned: cords lie in bows. Common practice.
pub const SPARE: f64 = 0.1;

/// A lead that lies so little in something is beside it: an outlet is on a wall.
const BESIDE_M: f64 = 0.3;

type P2 = [f64; 2];

/// Where the lead's points are with the largest standard uncertainty of any of them; none where one can't be found.
pub(super) fn placed(lead: &LightLead, surveyed: &Surveyed) -> Option<(Vec<P2>, f64)> {
    let mut points = Vec::with_capacity(lead.way.len());
    let mut most_sigma_m = 0.0_f64;
    for (index, fix) in lead.way.iter().enumerate() {
        let path = pointer!(lights.lead.way[index]);
        if surveyed.positions.is_open(fix, &path) {
            return None;
        }
        let found = surveyed.positions.locate(fix, &path).ok()?;
        // As sure as its least sure direction, and no surer: the trace is never less.
        let trace = found.covariance[0][0] + found.covariance[1][1];
        most_sigma_m = most_sigma_m.max(trace.max(0.0).sqrt());
        points.push(found.at);
    }
    Some((points, most_sigma_m))
}

/// Lays it from the outlet over its bends to the mast's foot.
pub(super) fn lay(job: &Job, computed: &Computed, (points, sigma_m): (Vec<P2>, f64)) -> LeadWork {
    let (lead, ground) = (&job.lights.lead, &computed.ground);
    let mast = &computed.plan.mast;
    let way: Vec<P2> = points.into_iter().chain([[mast.east_m, mast.north_m]]).collect();
    let ground_m = way.windows(2).map(|ends| along_ground_m(ground, ends[0], ends[1])).sum();
    let up_m = match lead.feeds {
        LeadFeeds::Unsaid => None,
        LeadFeeds::Foot => Some(0.0),
        LeadFeeds::Top => {
            job.rig.strands.as_ref().map(|strands| strands.top_height_m + mast.foot_m - mast.ground_m)
        }
    };
    let loops_m = 2.0 * DRIP_LOOP.of(job.units.system);
    let laid_m = lead.outlet_height_m.and_then(|drop_m| Some(drop_m + ground_m + up_m? + loops_m));
    let needed_m = laid_m.map(|laid| (1.0 + SPARE) * laid);
    let half_width_m = COVERAGE_95 * sigma_m;
    let mass_on_mast_kg = match up_m {
        Some(0.0) => Some(0.0),
        Some(up_m) => lead.mass_g_per_m.map(|mass| mass * up_m / 1000.0),
        None => None,
    };
    LeadWork {
        points: way.iter().map(|at| [at[0], at[1], ground.height(*at)]).collect(),
        ground_m,
        ground_half_width_95_m: half_width_m,
        drop_m: lead.outlet_height_m,
        up_m,
        loops_m,
        spare_m: laid_m.map(|laid| SPARE * laid),
        needed_m,
        bought_m: lead.bought_m,
        reach: reach(lead.bought_m, needed_m, half_width_m),
        trips: trips(&way, ground, &computed.yard.obstacles),
        mass_on_mast_kg,
        of_mast_percent: mass_on_mast_kg.and_then(|mass| Some(100.0 * mass / on_mast_kg(job, computed)?)),
    }
}

fn reach(bought_m: Option<f64>, needed_m: Option<f64>, half_width_m: f64) -> CordReach {
    match bought_m.zip(needed_m) {
        None => CordReach::NotKnown,
        Some((bought, needed)) if bought >= needed + half_width_m => CordReach::Reaches,
        Some((bought, needed)) if bought < needed - half_width_m => CordReach::TooShort,
        Some(_) => CordReach::Barely,
    }
}

/// Tubes, topper and strands; none while nobody has weighed a strand.
fn on_mast_kg(job: &Job, computed: &Computed) -> Option<f64> {
    let mass = job.rig.strands.as_ref()?.cord.mass_g_per_m?;
    let long_m: f64 = computed.plan.ring.as_ref()?.strand_lengths_m.iter().sum();
    let topper_kg = job.rig.topper.as_ref().map_or(0.0, |topper| topper.mass_kg);
    Some(computed.plan.mast.mass_kg + topper_kg + mass * long_m / 1000.0)
}

/// As long as a cord that lies on the ground, into every hollow.
fn along_ground_m(ground: &Ground, from: P2, to: P2) -> f64 {
    profile(ground, from, to)
        .windows(2)
        .map(|ends| hypot(ends[1][0] - ends[0][0], ends[1][1] - ends[0][1]))
        .sum()
}

/// A stretch of the lead within something: from so far to so far along the way, by piece and share of it.
type Stretch = [(usize, f64); 2];

/// Where it lies over patches: stretches that touch are one.
fn stretches(way: &[P2], patches: &[Patch]) -> Vec<Stretch> {
    let mut all: Vec<[f64; 2]> = Vec::new();
    for (piece, ends) in way.windows(2).enumerate() {
        let clips = patches.iter().filter_map(|patch| patch.clip(ends[0], ends[1]));
        all.extend(clips.map(|(from, to)| [piece as f64 + from, piece as f64 + to]));
    }
    all.sort_by(|a, b| a[0].total_cmp(&b[0]));
    let mut joined: Vec<[f64; 2]> = Vec::new();
    for next in all {
        match joined.last_mut() {
            Some(last) if next[0] <= last[1] + 1e-9 => last[1] = last[1].max(next[1]),
            _ => joined.push(next),
        }
    }
    let last = way.len().saturating_sub(2);
    let piece = |at: f64| {
        let piece = (at.floor() as usize).min(last);
        (piece, at - piece as f64)
    };
    joined.into_iter().map(|ends| ends.map(piece)).collect()
}

struct Along<'a> {
    way: &'a [P2],
    ground: &'a Ground,
}

impl Along<'_> {
    fn at(&self, (piece, share): (usize, f64)) -> P2 {
        match (self.way.get(piece), self.way.get(piece + 1)) {
            (Some(a), Some(b)) => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])],
            _ => self.way.last().copied().unwrap_or_default(),
        }
    }

    /// Along the ground from the way's beginning.
    fn m(&self, place: (usize, f64)) -> f64 {
        let before =
            self.way.windows(2).take(place.0).map(|ends| along_ground_m(self.ground, ends[0], ends[1]));
        let start = self.way.get(place.0).copied().unwrap_or_default();
        before.sum::<f64>() + along_ground_m(self.ground, start, self.at(place))
    }
}

fn trips(way: &[P2], ground: &Ground, obstacles: &[PlacedObstacle]) -> Vec<TripPoint> {
    let along = Along { way, ground };
    let mut trips: Vec<TripPoint> = Vec::new();
    for thing in obstacles {
        let PlacedShape::Path { used_by, line, width_m, .. } = &thing.shape else { continue };
        for [from, to] in stretches(way, &way_patches(line, *width_m)) {
            let middle = (from.0 as f64 + from.1 + to.0 as f64 + to.1) / 2.0;
            let piece = (middle.floor() as usize).min(way.len().saturating_sub(2));
            let middle = (piece, middle - piece as f64);
            trips.push(TripPoint {
                id: thing.id.clone(),
                name: thing.name.clone(),
                vehicles: *used_by == PathUse::Vehicles,
                at: along.at(middle),
                along_m: along.m(middle),
                on_it_m: along.m(to) - along.m(from),
            });
        }
    }
    trips.sort_by(|a, b| a.along_m.total_cmp(&b.along_m));
    trips
}

/// Buildings and ground to keep off through which the way goes, by id and name.
pub(super) fn goes_through(work: &LeadWork, obstacles: &[PlacedObstacle]) -> Vec<(String, String)> {
    let way: Vec<P2> = work.points.iter().map(|at| [at[0], at[1]]).collect();
    let within = |outline: &[P2]| way.windows(2).map(|ends| within_m(ends[0], ends[1], outline)).sum::<f64>();
    let goes = |thing: &&PlacedObstacle| match &thing.shape {
        PlacedShape::Building { outline, .. } | PlacedShape::KeepOff { outline } => {
            within(outline) > BESIDE_M
        }
        _ => false,
    };
    obstacles.iter().filter(goes).map(|thing| (thing.id.clone(), thing.name.clone())).collect()
}

/// How much of a straight piece lies within an outline: it is cut at every side, and each part asked by its middle.
fn within_m(from: P2, to: P2, outline: &[P2]) -> f64 {
    let way = [to[0] - from[0], to[1] - from[1]];
    let mut cuts = vec![0.0, 1.0];
    for (a, b) in sides(outline) {
        let (side, start) = ([b[0] - a[0], b[1] - a[1]], [a[0] - from[0], a[1] - from[1]]);
        let turn = way[0] * side[1] - way[1] * side[0];
        let share = (start[0] * side[1] - start[1] * side[0]) / turn;
        // Along the side, or not at all: nothing is cut there.
        cuts.extend(Some(share).filter(|share| turn != 0.0 && (0.0..=1.0).contains(share)));
    }
    cuts.sort_by(f64::total_cmp);
    let at = |share: f64| [from[0] + share * way[0], from[1] + share * way[1]];
    let inside = cuts.windows(2).filter(|ends| contains(outline, at((ends[0] + ends[1]) / 2.0)));
    inside.map(|ends| ends[1] - ends[0]).sum::<f64>() * hypot(way[0], way[1])
}
