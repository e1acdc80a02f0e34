//! The mast as the wind bends it, seen square to the wind, the bend drawn larger than it is.

use crate::finding::Subject;
use crate::job::Job;
use crate::plan::Plan;
use crate::report::{format, words};
use crate::wind_capacity::WindTable;
use crate::wind_capacity::rose::blows_to;

use super::canvas::Canvas;
use super::labels::{WhereTo, Wish};
use super::scene::{Align, Bounds, Role, Scene};
use super::words::pictures;

const TEXT_SHARE: f64 = 1.0 / 26.0;
/// The drawn movement is no more than this part of the mast's height.
const MOST_DRAWN: f64 = 0.16;

/// Draws the mast bent and upright, its guys, and how far its top moves.
///
/// # Units
/// Metres: x downwind from the mast's axis, y up in the site frame's heights.
pub fn bent_mast(job: &Job, plan: &Plan, table: &WindTable) -> Scene {
    let toward = blows_to(table.from_deg);
    let mast = [plan.mast.east_m, plan.mast.north_m];
    let seen = |at: [f64; 3]| [(at[0] - mast[0]) * toward[0] + (at[1] - mast[1]) * toward[1], at[2]];
    let upright: Vec<[f64; 2]> = table.upright.iter().map(|&at| seen(at)).collect();
    let bent: Vec<[f64; 2]> = table.bent.iter().map(|&at| seen(at)).collect();
    let foot = upright.first().copied().unwrap_or([0.0, plan.mast.foot_m]);
    let top = upright.last().copied().unwrap_or(foot);
    let height_m = (top[1] - foot[1]).max(0.5);
    let times = exaggeration(&upright, &bent, height_m);
    let drawn: Vec<[f64; 2]> = upright
        .iter()
        .zip(&bent)
        .map(|(from, to)| [from[0] + times * (to[0] - from[0]), from[1] + times * (to[1] - from[1])])
        .collect();
    let half_m = 0.62 * height_m;
    let bounds =
        Bounds { min: [-half_m, foot[1] - 0.14 * height_m], max: [half_m, top[1] + 0.16 * height_m] };
    let mut canvas = Canvas::new(bounds, TEXT_SHARE * bounds.width());
    canvas.line(
        Role::GroundLine,
        Some(Subject::Ground),
        vec![[-half_m, plan.mast.ground_m], [half_m, plan.mast.ground_m]],
    );
    guys(&mut canvas, plan, seen, &upright, &drawn, half_m);
    canvas.line(Role::LevelLine, Some(Subject::Mast), upright.clone());
    canvas.line(Role::MastBent, Some(Subject::Mast), if drawn.is_empty() { upright } else { drawn.clone() });
    labels(&mut canvas, job, table, times, drawn.last().copied().unwrap_or(top), half_m);
    let title = "The mast in the wind, seen from the side".to_owned();
    canvas.finish(title, description(job, table))
}

/// 1, 2, 5, 10, … times, as much as leaves the picture in its frame.
fn exaggeration(upright: &[[f64; 2]], bent: &[[f64; 2]], height_m: f64) -> f64 {
    let most = upright.iter().zip(bent).map(|(a, b)| (b[0] - a[0]).abs()).fold(0.0, f64::max);
    let fits = |times: &f64| times * most <= MOST_DRAWN * height_m;
    [100.0, 50.0, 20.0, 10.0, 5.0, 2.0].into_iter().find(fits).unwrap_or(1.0)
}

/// From the eyes that are within the frame, or its edge, to the bent mast.
fn guys(
    canvas: &mut Canvas,
    plan: &Plan,
    seen: impl Fn([f64; 3]) -> [f64; 2],
    upright: &[[f64; 2]],
    drawn: &[[f64; 2]],
    half_m: f64,
) {
    for guy in &plan.guys {
        let (eye, attach) = (seen(guy.eye), seen(guy.attach));
        // The node nearest in height has moved as the collar has.
        let near = upright
            .iter()
            .zip(drawn)
            .min_by(|(a, _), (b, _)| (a[1] - attach[1]).abs().total_cmp(&(b[1] - attach[1]).abs()));
        let to = near.map_or(attach, |(_, to)| *to);
        let share = ((half_m - to[0].abs()) / (eye[0] - to[0]).abs().max(1e-9)).clamp(0.0, 1.0);
        let from = [to[0] + share * (eye[0] - to[0]), to[1] + share * (eye[1] - to[1])];
        canvas.line(Role::Guy, Some(Subject::Guy { id: guy.id.clone() }), vec![from, to]);
    }
}

fn labels(canvas: &mut Canvas, job: &Job, table: &WindTable, times: f64, top: [f64; 2], half_m: f64) {
    let em = canvas.text_m;
    let mut label = |lines: Vec<String>, role, where_to| {
        canvas.label(Wish { lines, role, subject: Some(Subject::Mast), priority: 0, must: true, where_to });
    };
    let gust = crate::quantity::format::speed(table.gust_m_per_s, job.units);
    let above = top[1] + 1.2 * em;
    let at = |at: [f64; 2], align| WhereTo::At { at, align };
    label(vec![format!("gust {gust}")], Role::Label, at([-half_m + 0.5 * em, above], Align::Start));
    if table.bent.is_empty() {
        label(vec!["it does not stand".into()], Role::Label, at([0.8 * em, top[1]], Align::Start));
    } else {
        let moved = format::length(table.top_movement_m, job.units);
        let drawn = if times > 1.0 { vec![format!("drawn {times} times")] } else { Vec::new() };
        let lines = [vec![format!("top moves {moved}")], drawn].concat();
        label(lines, Role::Label, at([top[0] + 0.8 * em, top[1] - 0.3 * em], Align::Start));
    }
    canvas.sign(Role::WindArrow, None, [-half_m + 1.2 * em, top[1] - 0.6 * em], 90.0);
}

fn description(job: &Job, table: &WindTable) -> String {
    let gust = crate::quantity::format::speed(table.gust_m_per_s, job.units);
    let from = format::bearing(table.from_deg);
    match &table.falls_because {
        Some(why) => pictures::mast_falls(&gust, &from, words::collapse(*why)),
        None => pictures::top_moves(&gust, &from, &format::length(table.top_movement_m, job.units)),
    }
}
