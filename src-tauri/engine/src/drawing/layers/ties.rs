//! The swing ties of one point, when asked for.

use crate::drawing::canvas::Canvas;
use crate::drawing::geometry::{middle, reading_turn};
use crate::drawing::labels::{WhereTo, Wish};
use crate::drawing::scene::Role;
use crate::finding::Subject;
use crate::report::format;

use super::{View, priority};

pub(crate) fn draw(canvas: &mut Canvas, view: &View, subject: &Subject) {
    let Some(peg) = view.computed.plan.pegs.iter().find(|peg| peg.subject == *subject) else { return };
    let Some(ties) = &peg.ties else { return };
    let at = [peg.east_m, peg.north_m];
    for (mark, tape_m) in [(&ties.mark_a, ties.tape_a_m), (&ties.mark_b, ties.tape_b_m)] {
        let Some(mark) = view.computed.yard.marks.iter().find(|m| m.id == *mark) else { continue };
        let from = [mark.at[0], mark.at[1]];
        canvas.line(Role::Tie, Some(subject.clone()), vec![from, at]);
        canvas.ellipse(Role::PointEllipse, Some(subject.clone()), at, &ties.landing_95);
        canvas.label(Wish {
            lines: vec![format!("{} {}", mark.id, format::length(tape_m, view.units()))],
            role: Role::Label,
            subject: Some(subject.clone()),
            priority: priority::TIE,
            must: true,
            where_to: WhereTo::On { places: places(from, at, canvas.text_m) },
        });
    }
}

fn places(from: [f64; 2], to: [f64; 2], text_m: f64) -> Vec<([f64; 2], f64)> {
    let turn_deg = reading_turn(from, to);
    let up = crate::quantity::bearing::unit(turn_deg);
    let on = |share: f64| [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
    let mut places = Vec::new();
    for at in [middle(from, to), on(0.4), on(0.6), on(0.3), on(0.7)] {
        for side in [0.75, -0.75] {
            places.push(([at[0] + up[0] * side * text_m, at[1] + up[1] * side * text_m], turn_deg));
        }
    }
    places
}
