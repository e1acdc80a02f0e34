//! The gust up to which each tube may be cranked up: at the top of its way, the guys that rise with it slack, the strands loose.
//!
//! Where guys stay fast, the mast as it then stands is followed in a rising wind by the search of the wind capacity, all round. Where none
//! does, only helpers at the ropes hold it: each no more than one pulls, together in whichever direction they hold least; the mast's own
//! lean of one in ten comes first. The strap holds what goes up, and besides it what the wind adds by friction: the wind's moment about the
//! mouth presses on both bearings, and both rub.

use super::ONE_PULLS_N;
use super::results::{GustBy, GustFound, GustLimit, GustMissing, StageGust};
use crate::guys::spacing;
use crate::job::Job;
use crate::numerics::real::hypot;
use crate::numerics::vector::{add, dot, norm, scale, subtract};
use crate::plan::{Computed, GuyResult};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising::guys::LEAN;
use crate::resistance::MastUnshown;
use crate::wind::drag::SUBCRITICAL;
use crate::wind::member::{Member, MemberLoad};
use crate::wind::{Route, Stream};
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::air;
use crate::wind_capacity::parts::{Part, parts};
use crate::wind_capacity::rose::{bearings, blows_to};
use crate::wind_capacity::search::{Search, Windy};
use crate::wind_capacity::standing::Standing;
use crate::workshop::BenchWork;
use crate::workshop::stages::WorkStage;

/// Every thirty degrees: three and four guys are met alike, and their middles.
const DIRECTIONS: u32 = 12;

/// Every stage in the order of the cranking.
pub fn stage_gusts(job: &Job, computed: &Computed, bench: &BenchWork) -> Vec<StageGust> {
    let stages = bench.stages.stages.iter();
    stages
        .map(|stage| StageGust { tube: stage.tube, found: Cranked { job, computed, bench, stage }.limit() })
        .collect()
}

struct Cranked<'a> {
    job: &'a Job,
    computed: &'a Computed,
    bench: &'a BenchWork,
    stage: &'a WorkStage,
}

impl<'a> Cranked<'a> {
    fn limit(&self) -> GustFound {
        let standing = self.standing();
        let route = air::route(self.job);
        let strap = self.by_strap(&standing, &route);
        let held = if standing.guys.is_empty() {
            self.by_ropes_in_hands(&standing, &route)
        } else {
            by_search(&standing, &route)
        };
        GustFound::least([strap, held])
    }

    fn tube(&self) -> usize {
        self.stage.tube as usize
    }

    /// The mast with this tube and those within it up, everything else run down, and only those guys that stay fast.
    fn standing(&self) -> Standing<'a> {
        let layout = &self.computed.layout;
        let mut standing = Standing::of(self.job, layout, MastHeight::Lowered);
        let raised = &layout.mast.stages;
        // How far each stands in the one below once it is up.
        let overlap_m = |place: usize| match (raised.get(place - 1), raised.get(place)) {
            (Some(below), Some(stage)) => below.top_height_m - stage.bottom_height_m,
            _ => 0.0,
        };
        for place in self.tube().max(1)..standing.tubes.len() {
            let below_m = standing.tubes[place - 1].top_m;
            let long_m = standing.tubes[place].top_m - standing.tubes[place].bottom_m;
            standing.tubes[place].bottom_m = below_m - overlap_m(place);
            standing.tubes[place].top_m = below_m - overlap_m(place) + long_m;
        }
        let mouth_m = self
            .tube()
            .checked_sub(1)
            .and_then(|it| layout.mast.stages.get(it))
            .map_or(0.0, |it| it.top_height_m);
        standing.guys.retain(|guy| guy.planned.attach[2] - layout.mast.foot_m <= mouth_m);
        standing.top_m = standing.tubes.iter().map(|tube| tube.top_m).fold(0.0, f64::max);
        standing.strands_top_m = self.strands_top_m(standing.top_m);
        let planned: Vec<&GuyResult> = standing.guys.iter().map(|guy| guy.planned).collect();
        standing.anchors = spacing::counted_once(&planned, &self.job.rig.guy_levels, self.job.yard.soil);
        standing.strands.iter_mut().for_each(|strand| strand.slack = true);
        // Every guy that is fast was set as it stands, and every pin that is set is one of the raised mast.
        standing.height = MastHeight::Raised;
        standing.unknown = standing.unknown.filter(|it| *it != MastUnshown::RunDownUnsaid);
        standing
    }

    /// As far below the top as on the raised mast.
    fn strands_top_m(&self, top_m: f64) -> f64 {
        let strands = self.job.rig.strands.as_ref();
        strands.map_or(0.0, |it| {
            (top_m - (self.computed.layout.mast.raised_height_m - it.top_height_m)).max(0.0)
        })
    }

    /// Wind of 1 m/s on all above a height of the mast, about that height.
    fn wind(&self, standing: &Standing, route: &Route, from_m: f64) -> MemberLoad {
        let pressure = |height_m: f64| route.pressure_pa(1.0, height_m);
        let stream = Stream {
            direction: [1.0, 0.0, 0.0],
            pressure_pa: &pressure,
            ground_m: -standing.foot_above_ground_m,
        };
        let about = [0.0, 0.0, from_m];
        let mut load = MemberLoad::default();
        let mut low_m = from_m;
        for tube in &standing.tubes {
            if tube.top_m > low_m {
                let piece = Member {
                    lower: [0.0, 0.0, low_m],
                    upper: [0.0, 0.0, tube.top_m],
                    diameter_m: tube.outside_m,
                    coefficient: SUBCRITICAL,
                };
                load.add(&piece.load(&stream, about));
                low_m = tube.top_m;
            }
        }
        if let Some(topper) = &self.job.rig.topper {
            let at = [0.0, 0.0, standing.top_m + 0.5 * topper.height_m];
            load.add(&topper.in_wind(at).load(&stream, about));
        }
        // Half of each loose strand's wind comes onto the mast, as if it hung square to the wind: as the wind capacity has it.
        let cord_m = self.job.rig.strands.as_ref().and_then(|it| it.cord.diameter_mm).unwrap_or(0.0) / 1000.0;
        for strand in &standing.strands {
            let top = [0.0, 0.0, standing.strands_top_m];
            let half = Member {
                lower: add(top, [0.0, 0.0, -0.25 * strand.length_m]),
                upper: add(top, [0.0, 0.0, 0.25 * strand.length_m]),
                diameter_m: cord_m,
                coefficient: SUBCRITICAL,
            };
            load.add(&half.load(&stream, about));
        }
        load
    }

    fn by_strap(&self, standing: &Standing, route: &Route) -> Result<GustLimit, GustMissing> {
        let lift = &self.job.workshop.lift;
        let (strap_n, hook_n) =
            lift.strap_working_n.zip(lift.hook_working_n).ok_or(GustMissing::StrapLabel)?;
        let stage = self.bench.lift.stages.iter().find(|it| it.tube == self.stage.tube);
        let stage = stage.ok_or(GustMissing::RodAndWinch)?;
        if self.cord_unknown() {
            return Err(GustMissing::CordThickness);
        }
        let still_n = stage.strap_n.ok_or(if stage.mass_kg.is_none() {
            GustMissing::CordWeight
        } else {
            GustMissing::RodAndWinch
        })?;
        let mouth_m = standing.tubes.get(self.tube().saturating_sub(1)).map_or(0.0, |tube| tube.top_m);
        let moment_nm = self.wind(standing, route, mouth_m).overturning_nm();
        // The couple M/b at either bearing, and friction on both.
        let rubs_n = 2.0 * self.bench.lift.friction * moment_nm / stage.bearing_m.max(1e-3);
        let left_n = (strap_n.min(hook_n) - still_n).max(0.0);
        Ok(standing_limit(left_n / rubs_n.max(1e-12), GustBy::Strap))
    }

    fn cord_unknown(&self) -> bool {
        self.job.rig.strands.as_ref().is_some_and(|it| it.cord.diameter_mm.is_none())
    }

    /// Helpers alone.
    fn by_ropes_in_hands(&self, standing: &Standing, route: &Route) -> Result<GustLimit, GustMissing> {
        if self.cord_unknown() {
            return Err(GustMissing::CordThickness);
        }
        if self.job.rig.strands.as_ref().is_some_and(|it| it.cord.mass_g_per_m.is_none()) {
            return Err(GustMissing::CordWeight);
        }
        let rises_m = self.computed.layout.mast.raised_height_m - standing.top_m;
        let mast = &self.computed.layout.mast;
        let pulls: Vec<[f64; 3]> = self
            .computed
            .layout
            .guys
            .iter()
            .map(|guy| {
                let collar_m = (guy.attach[2] - mast.foot_m - rises_m).max(0.0);
                let collar = [mast.east_m, mast.north_m, mast.foot_m + collar_m];
                let run = subtract(guy.eye, collar);
                let [east, north, _] = scale(run, ONE_PULLS_N / norm(run).max(1e-9));
                [east * collar_m, north * collar_m, 0.0]
            })
            .collect();
        let held_nm = least_held(&pulls).ok_or(GustMissing::NothingHolds)?;
        let weight: f64 = standing.tubes.iter().map(|it| it.mass_kg * 0.5 * (it.bottom_m + it.top_m)).sum();
        let end_kg = self.bench.lift.stages.iter().filter_map(|it| it.mass_kg).fold(0.0, f64::max);
        let leans_nm = LEAN * STANDARD_GRAVITY * (weight + end_kg * standing.top_m);
        let moment_nm = self.wind(standing, route, 0.0).overturning_nm();
        Ok(standing_limit((held_nm - leans_nm).max(0.0) / moment_nm.max(1e-12), GustBy::RopesInHands))
    }
}

fn standing_limit(gust_squared: f64, by: GustBy) -> GustLimit {
    GustLimit { gust_m_per_s: gust_squared.sqrt(), by, at_deg: None }
}

/// What ropes that each pull up to so much (as a level vector) hold in the direction in which they hold least: all pulls together reach a
/// polygon, whose nearest side is square to one of them. None where they do not hold all round.
fn least_held(pulls: &[[f64; 3]]) -> Option<f64> {
    let reach = |way: [f64; 3]| pulls.iter().map(|pull| dot(*pull, way).max(0.0)).sum::<f64>();
    let sides = pulls.iter().filter(|pull| norm(**pull) > 1e-9).flat_map(|pull| {
        let long = hypot(pull[0], pull[1]);
        let square = [-pull[1] / long, pull[0] / long, 0.0];
        [square, scale(square, -1.0)]
    });
    let least = sides.map(reach).fold(f64::INFINITY, f64::min);
    (least.is_finite() && least > 1e-6).then_some(least)
}

/// The least gust of all directions, by the search of the wind capacity.
fn by_search(standing: &Standing, route: &Route) -> Result<GustLimit, GustMissing> {
    let parts: Vec<Part> = parts(standing);
    if !parts.iter().all(Part::is_shown) {
        return Err(GustMissing::PartsInWind);
    }
    let mut least: Option<GustLimit> = None;
    let mut search: Option<Search> = None;
    let mut guess = 100.0;
    for from_deg in bearings(DIRECTIONS) {
        // What can't be made a structure of stands in no wind.
        let Ok(mut windy) = Windy::new(standing, route, blows_to(from_deg)) else {
            return Err(GustMissing::PartsInWind);
        };
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let found = search.limit(&mut windy, guess);
        guess = found.gust_squared.max(1.0);
        let Some(part) = parts.get(found.part) else { continue };
        let limit = standing_limit(found.gust_squared, GustBy::Part { part: part.part.clone() });
        if least.as_ref().is_none_or(|least| limit.gust_m_per_s < least.gust_m_per_s) {
            least = Some(limit);
        }
    }
    least.ok_or(GustMissing::PartsInWind)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{cos_deg, sin_deg};

    fn all_round(count: u32) -> Vec<[f64; 3]> {
        bearings(count).map(|deg| [sin_deg(deg), cos_deg(deg), 0.0]).collect()
    }

    /// By hand: three ropes of 1 hold at least cos 30° = 0.866, where the wind is 30° off one of them (1 along it, 0.5 square to it, and 0.5 of the
    /// next to balance that); four hold 1 along one of them. All on one side hold nothing.
    #[test]
    fn ropes_hold_least_between_two_of_them() {
        assert!((least_held(&all_round(3)).expect("round") - 0.8660).abs() < 1e-4);
        assert!((least_held(&all_round(4)).expect("round") - 1.0).abs() < 1e-9);
        assert_eq!(least_held(&all_round(4)[..2]), None);
        assert_eq!(least_held(&[]), None);
    }
}
