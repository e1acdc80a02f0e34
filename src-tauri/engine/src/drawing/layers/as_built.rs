//! Where things were planned, once they were measured: what stands is drawn as the work.

use crate::drawing::canvas::Canvas;
use crate::drawing::scene::Role;

use super::View;

pub(crate) fn planned_places(canvas: &mut Canvas, view: &View) {
    for item in view.computed.plan.as_built.iter().flat_map(|built| &built.items) {
        let Some(moved) = &item.moved else { continue };
        let subject = Some(item.subject.clone());
        canvas.line(Role::MovedFrom, subject.clone(), vec![item.planned, moved.found]);
        canvas.sign(Role::PlannedPlace, subject, item.planned, 0.0);
    }
}
