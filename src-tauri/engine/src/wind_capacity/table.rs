//! Every part's use at one gust from one direction, and how the mast bends.

use super::air;
use super::ballast;
use super::bow::combinations;
use super::parts::{Check, Part, is_more, larger, parts};
use super::rose::{DIRECTIONS, bearings, blows_to};
use super::search::{Search, Windy};
use super::standing::Standing;
use super::states::States;
use super::still::collapse;
use super::types::{MastHeight, PartKind, PartUse, WindTable};
use crate::job::Job;
use crate::numerics::vector::{add, norm};
use crate::plan::Layout;
use crate::resistance::Unshown;
use crate::resistance::en1993::FACTOR;
use crate::resistance::factors::LOADS;
use crate::structure::{ModelError, Response, Solver, buckling_factor};

/// What is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindQuestion {
    pub height: MastHeight,
    pub gust_m_per_s: f64,
    /// The worst of all directions where none is given.
    pub from_deg: Option<f64>,
}

/// The table of a gust.
///
/// # Errors
/// Where the mast can't be made a structure of, such as a guy too heavy for its tension.
pub fn wind_table(job: &Job, layout: &Layout, question: &WindQuestion) -> Result<WindTable, ModelError> {
    let standing = Standing::of(job, layout, question.height);
    let parts = parts(&standing);
    let route = air::route(job);
    let from_deg = match question.from_deg {
        Some(from_deg) => from_deg,
        None if standing.unknown.is_some() => 0.0,
        None => worst_direction(&standing, &parts, question.gust_m_per_s)?,
    };
    let mut windy = Windy::new(&standing, &route, blows_to(from_deg))?;
    let mut table = WindTable {
        height: question.height,
        gust_m_per_s: question.gust_m_per_s,
        from_deg,
        worst: question.from_deg.is_none() && standing.unknown.is_none(),
        not_known_because: standing.unknown.map(Unshown::from),
        falls_because: None,
        parts: Vec::new(),
        upright: axis(&windy, None),
        bent: Vec::new(),
        top_movement_m: 0.0,
        buckling_factor: None,
        foot_down_n: 0.0,
        foot_sideways_n: 0.0,
        box_ballast_kg: None,
    };
    if standing.unknown.is_some() {
        // Not even solved for: no number can slip out that rests on a guess.
        table.parts = uses(&parts, &windy, None);
        return Ok(table);
    }
    let gust_squared = question.gust_m_per_s * question.gust_m_per_s;
    let mut states = States::new(&windy.model);
    let outcome = states.settle_service(&mut windy, gust_squared);
    match &outcome {
        Err(fallen) => table.falls_because = Some(collapse(fallen.reason)),
        Ok(()) => {
            fill(&mut table, &windy, states.service());
            table.box_ballast_kg = ballast::box_ballast_kg(job, table.foot_sideways_n, table.foot_down_n);
        }
    }
    let stands = outcome.is_ok();
    let (designs, fell_at) =
        if stands { designs(&mut states, &mut windy, gust_squared) } else { Default::default() };
    let at_rest = stands.then(|| {
        let design = designs.iter().map(|response| (response, 1.0 / LOADS));
        std::iter::once((states.service().response(), 1.0)).chain(design).collect()
    });
    let mut uses = uses(&parts, &windy, at_rest);
    if stands {
        let mut search = Search::new(&parts, &mut windy);
        let times = search.stands_times(&mut windy, gust_squared);
        for whole in uses.iter_mut().filter(|part| part.part.kind == PartKind::WholeMast) {
            let by_wind = if question.gust_m_per_s > 0.0 { FACTOR / times } else { 0.0 };
            whole.utilisation = Some(larger(by_wind, fell_at.map_or(0.0, |share| 1.0 / share.max(1e-3))));
        }
    }
    // Most used first; a stable sort keeps the order foot to top among equals, and the unshown come last.
    let by = |part: &PartUse| part.utilisation.unwrap_or(f64::NEG_INFINITY);
    uses.sort_by(|a, b| by(b).total_cmp(&by(a)));
    table.parts = uses;
    Ok(table)
}

fn fill(table: &mut WindTable, windy: &Windy, solver: &Solver) {
    let response = solver.response();
    table.bent = axis(windy, Some(solver));
    table.top_movement_m = top_movement_m(windy, solver);
    table.buckling_factor = buckling_factor(solver, &windy.model, &windy.case);
    let [east, north, up] = response.base.force_n;
    (table.foot_down_n, table.foot_sideways_n) = (up, norm([east, north, 0.0]));
}

/// How far the mast's top is from where it stands without loads.
pub(super) fn top_movement_m(windy: &Windy, solver: &Solver) -> f64 {
    let top = windy.model.node_at(windy.model.height_m);
    solver.response().nodes.get(top).map_or(0.0, |node| norm(node.displacement_m))
}

/// The outermost tube's axis, foot to top, in the site frame.
fn axis(windy: &Windy, solver: Option<&Solver>) -> Vec<[f64; 3]> {
    let model = &windy.model;
    let mut points = Vec::new();
    let mut level = None;
    for (index, node) in model.nodes.iter().enumerate() {
        // The first node of a level is the outermost tube's.
        if level.replace(node.level) == Some(node.level) {
            continue;
        }
        let moved =
            solver.and_then(|solver| solver.response().nodes.get(index)).map(|node| node.displacement_m);
        points.push(add(add(model.foot_m, node.place_m), moved.unwrap_or_default()));
    }
    points
}

/// The mast under the design loads, its spans bent in every combination; and the share of them in which it still stood,
/// where it falls.
fn designs(states: &mut States, windy: &mut Windy, gust_squared: f64) -> (Vec<Response>, Option<f64>) {
    let (mut found, mut fell_at) = (Vec::new(), None);
    for signs in combinations(windy.bows.spans()) {
        states.bend(signs);
        match states.settle_design(windy, gust_squared) {
            Ok(()) => found.push(states.design().clone()),
            Err(fallen) => fell_at = Some(fallen.stood_at_share.min(fell_at.unwrap_or(1.0))),
        }
    }
    (found, fell_at)
}

/// Nothing is used of a mast that does not stand.
fn uses(parts: &[Part], windy: &Windy, at_rest: Option<Vec<(&Response, f64)>>) -> Vec<PartUse> {
    let of = |part: &Part| {
        let used = match part.check {
            Check::NotShown => None,
            _ => at_rest.clone().map(|at_rest| part.used(&windy.model, at_rest)),
        };
        PartUse {
            part: part.part.clone(),
            utilisation: used.map(|used| used.utilisation),
            force_n: used.and_then(|used| used.force_n),
            moment_nm: used.and_then(|used| used.moment_nm),
            carries: part.carries(at_rest.clone().unwrap_or_default()),
            carries_nm: part.allowable_nm,
        }
    };
    parts.iter().map(of).collect()
}

/// The direction in which the gust uses some part most.
fn worst_direction(standing: &Standing, parts: &[Part], gust_m_per_s: f64) -> Result<f64, ModelError> {
    let route = air::route(standing.job);
    let mut search: Option<Search> = None;
    let mut worst = (f64::NEG_INFINITY, 0.0);
    for from_deg in bearings(DIRECTIONS) {
        let mut windy = Windy::new(standing, &route, blows_to(from_deg))?;
        let search = search.get_or_insert_with(|| Search::new(parts, &mut windy));
        search.begin(&mut windy);
        let used = search.at(&mut windy, gust_m_per_s * gust_m_per_s).utilisation;
        if is_more(used, worst.0) {
            worst = (used, from_deg);
        }
    }
    Ok(worst.1)
}
