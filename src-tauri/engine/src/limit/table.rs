//! Every part's use at one gust from one direction, and how the mast bends.

use super::air;
use super::cautions::cautions;
use super::parts::{Check, Part, is_more, parts};
use super::rose::{DIRECTIONS, bearings, blows_to};
use super::search::{Search, Windy};
use super::standing::Standing;
use super::types::{MastHeight, PartKind, PartUse, WindTable};
use crate::job::Job;
use crate::numerics::vector::{add, norm};
use crate::plan::Plan;
use crate::resistance::en1993::FACTOR;
use crate::structure::{ModelError, Outcome, Solver, buckling_factor};

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
pub fn wind_table(job: &Job, plan: &Plan, question: &WindQuestion) -> Result<WindTable, ModelError> {
    let standing = Standing::of(job, plan, question.height);
    let parts = parts(&standing);
    let route = air::route(job);
    let from_deg = match question.from_deg {
        Some(from_deg) => from_deg,
        None => worst_direction(&standing, &parts, question.gust_m_per_s)?,
    };
    let mut windy = Windy::new(&standing, &route, blows_to(from_deg))?;
    windy.loads.set(&mut windy.case, question.gust_m_per_s * question.gust_m_per_s);
    let mut solver = Solver::new(&windy.model);
    let outcome = solver.solve(&windy.model, &windy.case);
    let mut table = WindTable {
        height: question.height,
        gust_m_per_s: question.gust_m_per_s,
        from_deg,
        worst: question.from_deg.is_none(),
        falls_because: None,
        parts: Vec::new(),
        upright: axis(&windy, None),
        bent: Vec::new(),
        top_movement_m: 0.0,
        buckling_factor: None,
        foot_down_n: 0.0,
        foot_sideways_n: 0.0,
        cautions: cautions(),
    };
    match outcome {
        Outcome::Unstable(fallen) => table.falls_because = Some(fallen.reason.sentence().to_owned()),
        Outcome::Stands(_) => fill(&mut table, &windy, &solver),
    }
    let stands = table.falls_because.is_none();
    let mut uses = uses(&parts, &windy, &solver, stands);
    if stands {
        let mut search = Search::new(&parts, &mut windy);
        let times = search.stands_times(&mut windy, question.gust_m_per_s * question.gust_m_per_s);
        for whole in uses.iter_mut().filter(|part| part.part.kind == PartKind::WholeMast) {
            whole.utilisation = Some(if question.gust_m_per_s > 0.0 { FACTOR / times } else { 0.0 });
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
    let top = windy.model.node_at(windy.model.height_m);
    table.top_movement_m = response.nodes.get(top).map_or(0.0, |node| norm(node.displacement_m));
    table.buckling_factor = buckling_factor(solver, &windy.model, &windy.case);
    let [east, north, up] = response.base.force_n;
    (table.foot_down_n, table.foot_sideways_n) = (up, norm([east, north, 0.0]));
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

fn uses(parts: &[Part], windy: &Windy, solver: &Solver, stands: bool) -> Vec<PartUse> {
    let of = |part: &Part| {
        let used = match part.check {
            _ if !stands => None,
            Check::NotShown => None,
            _ => Some(part.used(&windy.model, solver.response())),
        };
        PartUse {
            part: part.part.clone(),
            utilisation: used.map(|used| used.utilisation),
            force_n: used.and_then(|used| used.force_n),
            moment_nm: used.and_then(|used| used.moment_nm),
            carries: part.resistance.clone(),
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
        let used = search.at(&mut windy, gust_m_per_s * gust_m_per_s).utilisation;
        if is_more(used, worst.0) {
            worst = (used, from_deg);
        }
    }
    Ok(worst.1)
}
