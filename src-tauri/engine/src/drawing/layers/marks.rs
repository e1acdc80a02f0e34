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
        let clear_m = half_size_em(Role::Mark) * canvas.text_m;
        let where_to = WhereTo::Beside { at, clear_m, away_from: Some(view.mast()) };
        canvas.label(Wish {
            lines: vec![mark.id.clone()],
            role: Role::Label,
            subject: subject.clone(),
            priority: priority::MARK,
            must: true,
            where_to: where_to.clone(),
        });
        if !mark.name.is_empty() && mark.name != mark.id {
            canvas.label(Wish {
                lines: vec![mark.name.clone()],
                role: Role::LabelQuiet,
                subject,
                priority: priority::OBSTACLE,
                must: false,
                where_to,
            });
        }
    }
}
