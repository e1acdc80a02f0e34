//! The legend: a sample of each kind of thing that the map shows, and of no other.

use crate::drawing::geometry::bounds_of;
use crate::drawing::scene::{Bounds, Geometry, Role, Scene};
use crate::drawing::svg::{number, sign, stroke};
use crate::drawing::{key, paint};

use super::Block;
use super::blocks::{SMALL, cut, line};

/// Heights of a row where there is room, and where there is not.
const ROW: f64 = 3.7;
const LEAST_ROW: f64 = 3.0;
const SAMPLE: f64 = 9.0;

/// How a role shows itself.
#[derive(Debug, Clone, Copy, PartialEq)]
enum Kind {
    Line,
    Area,
    Round,
    Sign,
}

pub(super) fn draw(out: &mut String, scene: &Scene, block: Block) {
    let entries = entries(scene);
    let most = ((block.h / LEAST_ROW).floor() as usize).max(1);
    let columns = entries.len().div_ceil(most).max(if block.w > 80.0 { 2 } else { 1 });
    let rows = entries.len().div_ceil(columns).max(1);
    let step = ROW.min(block.h / rows as f64);
    let width = block.w / columns as f64;
    for (i, (role, kind, words)) in entries.iter().enumerate() {
        let x = block.x + width * (i / rows) as f64;
        let y = block.y + step * ((i % rows) as f64 + 0.5);
        sample(out, *role, *kind, [x, y]);
        let text = cut(words, SMALL, width - SAMPLE - 2.0);
        line(out, [x + SAMPLE + 1.2, y], SMALL, false, &text);
    }
}

/// Every named role of the scene once, the work first.
fn entries(scene: &Scene) -> Vec<(Role, Kind, &'static str)> {
    let mut entries: Vec<(Role, Kind, &'static str)> = Vec::new();
    // The last painted lie on top and matter most.
    for shape in scene.shapes.iter().rev() {
        let Some(words) = key::name(shape.role) else { continue };
        if !shows(&shape.geometry, &scene.bounds) {
            continue;
        }
        let kind = match shape.geometry {
            Geometry::Line { .. } => Kind::Line,
            Geometry::Area { .. } => Kind::Area,
            Geometry::Circle { .. } | Geometry::Ellipse { .. } => Kind::Round,
            Geometry::Sign { .. } => Kind::Sign,
            Geometry::Words { .. } => continue,
        };
        if !entries.iter().any(|entry| entry.0 == shape.role) {
            entries.push((shape.role, kind, words));
        }
    }
    entries
}

/// Whether any of a shape lies in the picture, by the box around it.
fn shows(geometry: &Geometry, bounds: &Bounds) -> bool {
    let own = match geometry {
        Geometry::Line { points } | Geometry::Area { points } => bounds_of(points),
        Geometry::Circle { centre, radius_m } => Some(Bounds::around(*centre, *radius_m)),
        Geometry::Ellipse { centre, semi_major_m, .. } => Some(Bounds::around(*centre, *semi_major_m)),
        Geometry::Sign { at, .. } | Geometry::Words { at, .. } => Some(Bounds { min: *at, max: *at }),
    };
    own.is_some_and(|own| own.intersection(*bounds).is_some())
}

fn sample(out: &mut String, role: Role, kind: Kind, at: [f64; 2]) {
    let [left, y] = at;
    let [x, right, level] = [left, left + SAMPLE, y].map(number);
    match kind {
        Kind::Line => {
            // Started within its first stroke, so that a short sample shows the gap and the dots too.
            let offset = number(
                0.65 * paint::of(role).line.pattern().first().unwrap_or(&0.0) * paint::of(role).pen.mm(),
            );
            out.push_str(&format!(
                "<path d=\"M{x},{level} H{right}\" stroke-dashoffset=\"{offset}\" {}/>\n",
                stroke(role, false)
            ));
        }
        Kind::Area => {
            let top = number(y - 1.2);
            out.push_str(&format!(
                "<rect x=\"{x}\" y=\"{top}\" width=\"{}\" height=\"2.4\" {}/>\n",
                number(SAMPLE),
                stroke(role, true)
            ));
        }
        Kind::Round => {
            let cx = number(left + SAMPLE / 2.0);
            out.push_str(&format!(
                "<ellipse cx=\"{cx}\" cy=\"{level}\" rx=\"{}\" ry=\"1.3\" {}/>\n",
                number(SAMPLE / 2.0 - 0.5),
                stroke(role, true)
            ));
        }
        Kind::Sign => sign(out, role, [left + SAMPLE / 2.0, y], 0.0, 2.2),
    }
}
