//! Contours, the fall line, spot heights.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{along, clip, distance, reading_turn};
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::{Bounds, Role};
use crate::finding::Subject;
use crate::ground::{self, Extent, Surface};
use crate::numerics::real::{exp2, hypot, log2, pow};
use crate::quantity::UnitSystem;
use crate::report::format;

use super::{View, priority, quiet};

/// Contours stand at least this many letter heights apart.
const CONTOUR_SPACING_EM: f64 = 3.6;
/// Grade below which the ground is too level for contours to mean anything.
const LEVEL_GRADE: f64 = 1e-4;

pub(crate) fn draw(canvas: &mut Canvas, view: &View) {
    contours(canvas, view);
    measured_edge(canvas, view);
    spot_heights(canvas, view);
}

/// Outside it the heights are those of a plane that the ground inside is known to depart from.
fn measured_edge(canvas: &mut Canvas, view: &View) {
    let Some(surface) = &view.computed.ground.surface else { return };
    let mut edge = surface.hull().to_vec();
    edge.extend(surface.hull().first().copied());
    let places = super::along_line(&edge, 0.8 * canvas.text_m, &canvas.bounds);
    canvas.label(quiet(vec!["measured up to here".into()], Some(Subject::Ground), priority::CONTOUR, places));
    canvas.line(Role::MeasuredEdge, Some(Subject::Ground), edge);
}

/// Heights of contours: a round step, and every which one is drawn stronger and named.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct ContourStep {
    pub(crate) step_m: f64,
    pub(crate) index_every: i64,
}

/// The smallest round step whose contours stand far enough apart.
pub(crate) fn contour_step(grade: f64, spacing_m: f64, system: UnitSystem) -> ContourStep {
    let least_m = grade * spacing_m;
    let unit_m = match system {
        UnitSystem::Metric => 1.0,
        // Source: international foot, 0.3048 m exactly (1959 agreement).
        UnitSystem::Imperial => 0.3048,
    };
    for decade in -3..4 {
        for (digit, index_every) in [(1.0, 5), (2.0, 5), (5.0, 4)] {
            let step_m = digit * pow(10.0, f64::from(decade)) * unit_m;
            if step_m >= least_m {
                return ContourStep { step_m, index_every };
            }
        }
    }
    ContourStep { step_m: 1e4 * unit_m, index_every: 5 }
}

fn contours(canvas: &mut Canvas, view: &View) {
    let ground = &view.computed.ground;
    let gradient = ground.plane.gradient;
    // The length of all contours together is the ground's area times its mean grade over their step: rough ground
    // has a wider step than its best plane asks for.
    let rough = ground.surface.as_ref().map_or(0.0, Surface::mean_grade);
    let grade = hypot(gradient[0], gradient[1]).max(rough);
    if grade < LEVEL_GRADE && ground.surface.is_none() {
        return;
    }
    let spacing_m = CONTOUR_SPACING_EM * canvas.text_m;
    let step = contour_step(grade.max(LEVEL_GRADE), spacing_m, view.units().system);
    for contour in ground::contours(ground, reach(&canvas.bounds), step.step_m) {
        let number = (contour.level_m / step.step_m).round() as i64;
        let index = number.rem_euclid(step.index_every) == 0;
        if index && runs_m(&contour.points) > LABELLED_EM * canvas.text_m {
            let text = format::height(contour.level_m, view.units());
            let places = on_contour(&contour.points, &canvas.bounds);
            canvas.label(quiet(vec![text], Some(Subject::Ground), priority::CONTOUR, places));
        }
        let role = if index { Role::ContourIndex } else { Role::Contour };
        canvas.line(role, Some(Subject::Ground), contour.points);
    }
}

/// A contour shorter than this many letter heights has no room for its height beside it.
const LABELLED_EM: f64 = 8.0;

fn runs_m(points: &[[f64; 2]]) -> f64 {
    points.windows(2).map(|pair| distance(pair[0], pair[1])).sum()
}

/// How far contours are drawn: half as much again on every side, so that a moved view still has them, then out to
/// the lines of a coarse grid, so that they stay as they are while the mast is dragged a little.
fn reach(bounds: &Bounds) -> Extent {
    let span_m = bounds.width().max(bounds.height());
    let wide = bounds.grown(0.5 * span_m);
    // The next lower power of two: the grid itself must not change with every step of the mast.
    let grid_m = exp2(log2(span_m.max(1.0)).floor());
    Extent {
        low: wide.min.map(|low| (low / grid_m).floor() * grid_m),
        high: wide.max.map(|high| (high / grid_m).ceil() * grid_m),
    }
}

/// Places for a contour's height: on its longest parts in view, rather towards their ends.
fn on_contour(points: &[[f64; 2]], bounds: &Bounds) -> Vec<([f64; 2], f64)> {
    let mut parts: Vec<[[f64; 2]; 2]> =
        points.windows(2).filter_map(|pair| clip(pair[0], pair[1], bounds)).collect();
    parts.sort_by(|a, b| distance(b[0], b[1]).total_cmp(&distance(a[0], a[1])));
    let on = |[a, b]: [[f64; 2]; 2], share: f64| {
        ([a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share], reading_turn(a, b))
    };
    parts
        .into_iter()
        .take(3)
        .flat_map(|part| [0.12, 0.88, 0.25, 0.75, 0.5].map(|share| on(part, share)))
        .collect()
}

/// An arrow the way water runs, out in the open beside the mast, with the slope in words. Drawn after the work,
/// so that it finds where there is room.
pub(crate) fn fall_line(canvas: &mut Canvas, view: &View) {
    let ground = &view.computed.plan.ground;
    let Some(fall_deg) = ground.fall_bearing_deg else { return };
    let em = canvas.text_m;
    let length = (8.0 * em).min(0.3 * canvas.bounds.width().min(canvas.bounds.height()));
    let tail = open_spot(canvas, view, fall_deg, length);
    let tip = along(tail, fall_deg, length);
    canvas.line(Role::FallLine, Some(Subject::Ground), vec![tail, tip]);
    canvas.sign(Role::FallLine, Some(Subject::Ground), tip, fall_deg);
    let text = format!("falls {} to {}", format::angle(ground.slope_deg.value), format::bearing(fall_deg));
    let places = super::along_line(&[tail, tip], 0.8 * em, &canvas.bounds);
    let own = Some(Subject::Ground);
    canvas.label(quiet(vec![text], own, priority::FALL_LINE, places));
}

/// Where the arrow has most room: of the places around the mast, the one with least drawn there already.
fn open_spot(canvas: &Canvas, view: &View, fall_deg: f64, length_m: f64) -> [f64; 2] {
    let things = super::obstacles::extents(&view.computed.yard);
    let fall_radius = view.computed.plan.mast.fall_radius_m;
    let mut best = (f64::INFINITY, view.mast());
    for place in 0..48 {
        // Twenty-four ways from the mast, inside the fall circle and outside it.
        let radius = if place < 24 { 0.72 * fall_radius } else { 1.15 * fall_radius };
        let centre = along(view.mast(), 15.0 * f64::from(place) + 7.5, radius);
        let (tail, tip) = (along(centre, fall_deg, -length_m / 2.0), along(centre, fall_deg, length_m / 2.0));
        if !canvas.bounds.holds(tail) || !canvas.bounds.holds(tip) {
            continue;
        }
        let own = Bounds { min: tail, max: tail }.union(Bounds { min: tip, max: tip }).grown(canvas.text_m);
        let on_things = things.iter().filter(|thing| thing.intersection(own).is_some()).count();
        let besides = 20.0 * on_things as f64 + if place < 24 { 0.0 } else { 2.0 };
        let cost = canvas.crowding(&own, best.0 - besides) + besides;
        if cost < best.0 {
            best = (cost, tail);
        }
    }
    best.1
}

fn spot_heights(canvas: &mut Canvas, view: &View) {
    for spot in &view.computed.yard.spot_heights {
        let subject = Some(Subject::Reading { id: spot.id.clone() });
        canvas.sign(Role::SpotHeight, subject.clone(), spot.at, 0.0);
        canvas.label(Wish {
            lines: vec![format::height(spot.height_m, view.units())],
            role: Role::LabelQuiet,
            subject,
            priority: priority::SPOT,
            must: false,
            where_to: WhereTo::Beside { at: spot.at, clear_m: 0.25 * canvas.text_m, away_from: None },
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn contours_reach_as_far_after_a_small_move() {
        let before = reach(&Bounds { min: [-8.0, -9.0], max: [11.0, 13.0] });
        let after = reach(&Bounds { min: [-8.3, -9.2], max: [11.0, 13.0] });
        assert_eq!((before.low, before.high), (after.low, after.high));
        assert_eq!((before.low, before.high), ([-32.0, -32.0], [32.0, 32.0]));
    }

    #[test]
    fn the_step_is_round_and_wide_enough() {
        let step = contour_step(0.12, 1.5, UnitSystem::Metric);
        assert_eq!(step, ContourStep { step_m: 0.2, index_every: 5 });
        let step = contour_step(0.12, 1.5, UnitSystem::Imperial);
        assert!((step.step_m - 0.3048).abs() < 1e-12, "{step:?}");
    }
}
