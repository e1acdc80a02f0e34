//! Control marks, and the 95 % ellipses of the points fixed from them. Ellipses are drawn at true size.

use crate::drawing::canvas::Canvas;
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::Role;
use crate::drawing::signs::half_size_em;
use crate::finding::Subject;

use super::{View, priority};

pub(crate) fn ellipses(canvas: &mut Canvas, view: &View) {
    for point in &view.computed.plan.points {
        if !(point.path.starts_with("/yard/marks/") || point.path == "/placement/mast") {
            continue;
        }
        canvas.ellipse(Role::PointEllipse, None, [point.east_m, point.north_m], &point.ellipse_95);
    }
}

pub(crate) fn marks(canvas: &mut Canvas, view: &View) {
    for mark in &view.computed.yard.marks {
        let at = [mark.at[0], mark.at[1]];
        let subject = Some(Subject::Mark { id: mark.id.clone() });
        canvas.sign(Role::Mark, subject.clone(), at, 0.0);
        canvas.label(Wish {
            lines: vec![mark_words(&mark.id, &mark.name)],
            role: Role::Label,
            subject,
            priority: priority::MARK,
            must: true,
            where_to: WhereTo::Beside {
                at,
                clear_m: half_size_em(Role::Mark) * canvas.text_m,
                away_from: Some(view.mast()),
            },
        });
    }
}

fn mark_words(id: &str, name: &str) -> String {
    if name.is_empty() || name == id { id.to_string() } else { format!("{id} {name}") }
}
