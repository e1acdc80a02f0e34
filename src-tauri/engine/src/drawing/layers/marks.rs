//! Control marks, and the 95 % ellipses of the points fixed from them. Ellipses are drawn at true size where that
//! shows, else larger by a round number that the map states.

use crate::drawing::canvas::Canvas;
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::Role;
use crate::drawing::signs::half_size_em;
use crate::finding::Subject;
use crate::plan::{Ellipse, LocatedPoint};
use crate::pointer;

use super::{View, priority};

/// Steps by which ellipses too small to be seen are drawn larger.
const LARGER: [f64; 6] = [1.0, 2.0, 5.0, 10.0, 20.0, 50.0];

/// The largest ellipse is drawn at most this many letter heights long, unless it is larger in truth.
const LARGEST_EM: f64 = 2.0;

pub(crate) fn ellipses(canvas: &mut Canvas, view: &View) {
    let larger = larger(view, canvas.text_m);
    for point in shown(view) {
        let ellipse = Ellipse {
            semi_major_m: larger * point.ellipse_95.semi_major_m,
            semi_minor_m: larger * point.ellipse_95.semi_minor_m,
            ..point.ellipse_95
        };
        canvas.ellipse(Role::PointEllipse, None, [point.east_m, point.north_m], &ellipse);
    }
}

/// By how much the points' ellipses are drawn larger than they are: 1 where the largest shows as it is.
pub(crate) fn larger(view: &View, text_m: f64) -> f64 {
    let largest_m = shown(view).map(|point| point.ellipse_95.semi_major_m).fold(0.0, f64::max);
    let fits = |step: &f64| step * largest_m <= LARGEST_EM * text_m;
    LARGER.into_iter().filter(fits).fold(1.0, f64::max)
}

/// Marks, the mast, and what stands on a single point: corners of outlines would crowd the map.
fn shown<'a>(view: &'a View) -> impl Iterator<Item = &'a LocatedPoint> + 'a {
    let single =
        |point: &&LocatedPoint| point.path.ends_with("/at") || point.path == pointer!(placement.mast);
    view.computed.plan.points.iter().filter(single).filter(|point| point.ellipse_95.semi_major_m > 0.0)
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
