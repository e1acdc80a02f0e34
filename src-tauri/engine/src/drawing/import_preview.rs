//! Shapes of another program's file where they would lie: to see at once whether the origin and north are right.

use crate::drawing::canvas::Canvas;
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::{Bounds, Role, Scene};
use crate::drawing::signs::half_size_em;
use crate::drawing::words::pictures;
use crate::exchange::geojson::{Imported, ImportedShape};
use crate::plan::Computed;

/// As in the profile, about 30 letters across.
const TEXT_SHARE: f64 = 1.0 / 30.0;

/// Draws the shapes with the yard's marks, its boundary and the mast, north up.
pub fn import_preview(shapes: &[Imported], computed: &Computed) -> Scene {
    let (yard, mast) = (&computed.yard, &computed.plan.mast);
    let mast = [mast.east_m, mast.north_m];
    let marks = yard.marks.iter().map(|mark| [mark.at[0], mark.at[1]]);
    let corners = shapes.iter().flat_map(|it| points(&it.shape)).copied();
    let around = |at: [f64; 2]| Bounds::around(at, 0.5);
    let whole = marks.chain(corners).map(around).fold(around(mast), Bounds::union);
    let text_m = TEXT_SHARE * whole.width().max(whole.height());
    let mut canvas = Canvas::new(whole.grown(2.0 * text_m), text_m);
    if let Some(outline) = &yard.boundary {
        let closed = outline.iter().chain(outline.first()).copied().collect();
        canvas.line(Role::Boundary, None, closed);
    }
    for (i, it) in shapes.iter().enumerate() {
        draw(&mut canvas, it, i + 1);
    }
    for mark in &yard.marks {
        let at = [mark.at[0], mark.at[1]];
        canvas.sign(Role::Mark, None, at, 0.0);
        words(&mut canvas, mark.id.clone(), at, Role::Mark);
    }
    canvas.sign(Role::MastAxis, None, mast, 0.0);
    words(&mut canvas, "mast".into(), mast, Role::MastAxis);
    let description = pictures::import(shapes.len(), yard.marks.len());
    canvas.finish("What would come in, north up".into(), description)
}

fn points(shape: &ImportedShape) -> &[[f64; 2]] {
    match shape {
        ImportedShape::Point(at) => std::slice::from_ref(at),
        ImportedShape::Line(points) | ImportedShape::Outline(points) => points,
    }
}

fn draw(canvas: &mut Canvas, it: &Imported, number: usize) {
    match &it.shape {
        ImportedShape::Point(at) => canvas.circle(Role::PostArea, None, *at, 0.35 * canvas.text_m),
        ImportedShape::Line(points) => canvas.line(Role::Fence, None, points.clone()),
        ImportedShape::Outline(corners) => canvas.area(Role::KeepOffArea, None, corners.clone()),
    }
    let all = points(&it.shape);
    let count = all.len().max(1) as f64;
    let middle = all.iter().fold([0.0, 0.0], |sum, at| [sum[0] + at[0] / count, sum[1] + at[1] / count]);
    let name = if it.name.is_empty() { number.to_string() } else { it.name.clone() };
    if matches!(it.shape, ImportedShape::Outline(_)) {
        label(canvas, name, WhereTo::On { places: vec![(middle, 0.0)] });
    } else {
        words(canvas, name, middle, Role::PostArea);
    }
}

fn words(canvas: &mut Canvas, text: String, at: [f64; 2], role: Role) {
    let clear_m = half_size_em(role) * canvas.text_m;
    label(canvas, text, WhereTo::Beside { at, clear_m, away_from: None });
}

fn label(canvas: &mut Canvas, text: String, where_to: WhereTo) {
    let lines = vec![text];
    canvas.label(Wish { lines, role: Role::Label, subject: None, priority: 1, must: true, where_to });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{demo, plan};

    #[test]
    fn everything_lies_within_the_picture() {
        let computed = plan::compute(&demo::yardstick()).unwrap();
        let far = [60.0, -45.0];
        let shapes = [Imported { name: String::new(), shape: ImportedShape::Point(far) }];
        let scene = import_preview(&shapes, &computed);
        assert!(scene.bounds.holds(far) && scene.bounds.holds([0.0, 0.0]));
        assert!(scene.shapes.iter().any(|shape| shape.role == Role::PostArea));
        let signs = scene.shapes.iter().filter(|shape| shape.role == Role::Mark).count();
        assert_eq!(signs, computed.yard.marks.len());
    }
}
