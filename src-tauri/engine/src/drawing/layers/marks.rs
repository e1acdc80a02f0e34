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

/// Both places of each point that waits for its side to be named, joined by a dimension line.
pub(crate) fn open_points(canvas: &mut Canvas, view: &View) {
    for point in &view.computed.plan.open_points {
        let [left, right] = point.candidates[..] else { continue };
        canvas.line(Role::Dimension, Some(point.subject.clone()), vec![left, right]);
        for (at, side) in [(left, "left?"), (right, "right?")] {
            canvas.sign(Role::OpenPoint, Some(point.subject.clone()), at, 0.0);
            canvas.label(Wish {
                lines: vec![format!("{}: {side}", point.name)],
                role: Role::Label,
                subject: Some(point.subject.clone()),
                priority: priority::MARK,
                must: true,
                where_to: WhereTo::Beside {
                    at,
                    clear_m: half_size_em(Role::OpenPoint) * canvas.text_m,
                    away_from: Some(view.mast()),
                },
            });
        }
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
