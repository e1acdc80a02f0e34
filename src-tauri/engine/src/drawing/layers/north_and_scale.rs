//! North and the scale bar, in the corners of the picture.

use crate::drawing::canvas::Canvas;
use crate::drawing::labels::{WhereTo, Wish, text_width_em};
use crate::drawing::scene::{Bounds, Role};
use crate::drawing::signs::half_size_em;
use crate::job::BearingReference;
use crate::numerics::real::pow;
use crate::quantity::{UnitSystem, Units};
use crate::report::format;

use super::View;

pub(crate) fn draw(canvas: &mut Canvas, view: &View) {
    north(canvas, view);
    scale_bar(canvas, view);
}

fn north(canvas: &mut Canvas, view: &View) {
    let em = canvas.text_m;
    let half = half_size_em(Role::North) * em;
    let lines = north_words(view);
    let words = lines.iter().map(|l| text_width_em(l)).fold(0.0, f64::max);
    let size = [(0.85 * words * em).max(2.0 * half) + 0.4 * em, 2.0 * half + (0.8 + lines.len() as f64) * em];
    let corner = freest(canvas, size, [[1.0, 1.0], [0.0, 1.0], [1.0, 0.0], [0.0, 0.0]]);
    let x = (corner.min[0] + corner.max[0]) / 2.0;
    let at = [x, corner.max[1] - 1.25 * half];
    canvas.sign(Role::North, None, at, 0.0);
    canvas.keep_clear(corner);
    let words_y = corner.max[1] - 2.25 * half - 0.5 * 1.02 * lines.len() as f64 * em;
    canvas.label(furniture_words(lines, [x, words_y]));
}

/// Of the corners named (0 left or below, 1 right or above), the box of a size with the least in it.
fn freest(canvas: &Canvas, size: [f64; 2], corners: [[f64; 2]; 4]) -> Bounds {
    let b = &canvas.bounds;
    let boxed = |corner: [f64; 2]| {
        let min =
            [b.min[0] + corner[0] * (b.width() - size[0]), b.min[1] + corner[1] * (b.height() - size[1])];
        Bounds { min, max: [min[0] + size[0], min[1] + size[1]] }
    };
    let mut best = (f64::INFINITY, boxed(corners[0]));
    for own in corners.map(boxed) {
        let cost = canvas.crowding(&own, best.0);
        if cost < best.0 {
            best = (cost, own);
        }
    }
    best.1
}

/// What north is, and where the compass points instead.
pub(crate) fn north_words(view: &View) -> Vec<String> {
    let add = view.computed.plan.north.add_to_reading_deg;
    match &view.job.yard.bearings {
        BearingReference::True => vec!["true north".into()],
        BearingReference::Magnetic { .. } if add.abs() < 0.05 => vec!["true and compass north".into()],
        BearingReference::Magnetic { .. } => {
            let side = if add > 0.0 { "east" } else { "west" };
            vec!["true north".into(), format!("compass {} {side}", format::angle(add.abs()))]
        }
        BearingReference::Baseline { from, to, .. } => {
            vec!["north of the drawing".into(), format!("readings from {from}→{to}")]
        }
    }
}

fn scale_bar(canvas: &mut Canvas, view: &View) {
    let units = view.units();
    let length_m = bar_length_m(0.3 * canvas.bounds.width(), units);
    let em = canvas.text_m;
    let note = ellipse_note(super::marks::larger(view, em));
    let room = if note.is_some() { 3.3 * em } else { 2.2 * em };
    let words_m = note.as_deref().map_or(0.0, |note| 0.85 * text_width_em(note) * em);
    let corner = freest(
        canvas,
        [length_m.max(words_m) + 1.2 * em, room],
        [[0.0, 0.0], [1.0, 0.0], [0.0, 1.0], [1.0, 1.0]],
    );
    let start = [corner.min[0] + 0.6 * em, corner.min[1] + 0.6 * em];
    let end = [start[0] + length_m, start[1]];
    let tick = 0.35 * em;
    let half = start[0] + length_m / 2.0;
    let line = |x: f64, up: f64| vec![[x, start[1]], [x, start[1] + up]];
    canvas.line(Role::ScaleBar, None, vec![start, end]);
    for (x, up) in [(start[0], tick), (half, 0.6 * tick), (end[0], tick)] {
        canvas.line(Role::ScaleBar, None, line(x, up));
    }
    let above = start[1] + tick + 0.6 * em;
    canvas.keep_clear(corner);
    let text = format!("0 – {}", format::length_short(length_m, units));
    canvas.label(furniture_words(vec![text], [half, above]));
    if let Some(note) = note {
        let middle = (corner.min[0] + corner.max[0]) / 2.0;
        canvas.label(furniture_words(vec![note], [middle, above + 1.1 * em]));
    }
}

/// Says so where the points' ellipses are drawn larger than they are.
fn ellipse_note(larger: f64) -> Option<String> {
    (larger > 1.0).then(|| format!("points' ellipses × {larger}"))
}

fn furniture_words(lines: Vec<String>, at: [f64; 2]) -> Wish {
    Wish {
        lines,
        role: Role::LabelQuiet,
        subject: None,
        priority: 0,
        must: true,
        where_to: WhereTo::On { places: vec![(at, 0.0)] },
    }
}

/// The longest round length that is not longer than `most_m`.
pub(crate) fn bar_length_m(most_m: f64, units: Units) -> f64 {
    let unit_m = if units.system == UnitSystem::Metric { 1.0 } else { 0.3048 };
    let mut best = unit_m * 1e-3;
    for decade in -3..5 {
        for digit in [1.0, 2.0, 5.0] {
            let length = unit_m * digit * pow(10.0, f64::from(decade));
            if length <= most_m {
                best = length;
            }
        }
    }
    best
}
