//! The lead of the lights on the ground, from the outlet to the mast, with the places where somebody may trip over it.

use crate::job::Job;
use crate::lighting::LeadWork;
use crate::plan::Computed;
use crate::report::format;

use super::geometry::{bounds_of, plan};
use super::labels::{WhereTo, Wish};
use super::layers::View;
use super::scene::{Bounds, Role, Scene};
use super::staking_map::draw_over;
use super::words::map as sentences;

/// Letter heights over the picture's width.
const WIDE_EM: f64 = 34.0;

/// The letter height that the picture is laid out with.
pub(crate) fn picture_text_m(scene: &Scene) -> f64 {
    scene.bounds.width().max(scene.bounds.height()) / WIDE_EM
}

/// Draws it on the part of the staking map round the lead, the mast and the ring.
///
/// # Units
/// Metres of the site frame, x east, y north.
pub fn lead_map(job: &Job, computed: &Computed, lead: &LeadWork) -> Scene {
    let way: Vec<[f64; 2]> = lead.points.iter().copied().map(plan).collect();
    let ring = computed.plan.ring.iter().flat_map(|ring| ring.points.iter().copied().map(plan));
    let all: Vec<[f64; 2]> = way.iter().copied().chain(ring).collect();
    let view = View { job, computed };
    let bounds = bounds_of(&all).unwrap_or(Bounds::around(view.mast(), 1.0));
    let wide_m = bounds.width().max(bounds.height()).max(1.0);
    let bounds = bounds.grown(wide_m / 8.0);
    let text_m = bounds.width().max(bounds.height()) / WIDE_EM;
    let trips: Vec<String> = lead.trips.iter().map(|trip| trip.name.clone()).collect();
    let title = sentences::lead_title(&job.name);
    let said = sentences::lead(&format::length(lead.ground_m, job.units), &trips);
    draw_over(&view, bounds, text_m, [title, said], |canvas| {
        canvas.line(Role::Lead, None, way.clone());
        let marked = |words: String, at: [f64; 2]| Wish {
            lines: vec![words],
            role: Role::Label,
            subject: None,
            priority: 0,
            must: true,
            where_to: WhereTo::Beside { at, clear_m: 0.7 * text_m, away_from: None },
        };
        for (number, trip) in (1..).zip(&lead.trips) {
            canvas.sign(Role::TripPoint, None, trip.at, 0.0);
            canvas.label(marked(sentences::trip(number, &format::length(trip.along_m, job.units)), trip.at));
        }
        canvas.label(marked(sentences::OUTLET.to_owned(), way.first().copied().unwrap_or_default()));
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::scene::Geometry;
    use crate::{demo, lighting, plan as plans, workshop};

    /// The line runs where the lead lies, each trip point has its sign there, and the outlet is in the picture.
    #[test]
    fn the_lead_is_drawn_where_it_lies_with_a_sign_where_it_is_crossed() {
        let job = demo::lantern_green();
        let computed = plans::compute(&job).expect("it can be placed");
        let stages = workshop::bench_work(&job, &computed).expect("every section is known").stages;
        let lead = lighting::lights(&job, &computed, &stages)
            .and_then(|work| work.lead)
            .expect("the demo has a lead");
        let scene = lead_map(&job, &computed, &lead);
        let line = scene.shapes.iter().find(|shape| shape.role == Role::Lead).expect("a line");
        let way: Vec<[f64; 2]> = lead.points.iter().copied().map(plan).collect();
        assert_eq!(line.geometry, Geometry::Line { points: way.clone() });
        let signs = scene.shapes.iter().filter_map(|shape| match (&shape.geometry, shape.role) {
            (Geometry::Sign { at, .. }, Role::TripPoint) => Some(*at),
            _ => None,
        });
        assert_eq!(signs.collect::<Vec<_>>(), lead.trips.iter().map(|trip| trip.at).collect::<Vec<_>>());
        assert!(way.iter().all(|at| scene.bounds.holds(*at)));
    }
}
