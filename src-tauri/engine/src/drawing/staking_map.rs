//! The staking map: the plan view that the work is pegged out from.

use crate::finding::Subject;
use crate::job::Job;
use crate::plan::Computed;

use super::canvas::Canvas;
use super::geometry::{bounds_of, plan};
use super::layers::{self, View};
use super::scene::{Bounds, Scene};

/// How the map is to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct MapOptions {
    /// Height of the lettering in metres at the map's present scale.
    pub text_m: f64,
    /// The point whose swing ties are drawn.
    pub ties_for: Option<Subject>,
    /// Radius in letter heights of the handle that a screen puts over the mast, for labels to keep clear of; 0 on
    /// paper.
    pub handle_em: f64,
}

impl MapOptions {
    /// Lettering of a size, no ties.
    pub fn lettering(text_m: f64) -> Self {
        Self { text_m, ties_for: None, handle_em: 0.0 }
    }
}

/// Draws the staking map of a computed plan.
///
/// # Units
/// Metres of the site frame, x east, y north.
pub fn staking_map(job: &Job, computed: &Computed, options: &MapOptions) -> Scene {
    let view = View { job, computed };
    let work = worth_showing(&view);
    let text_m = readable(options.text_m, &work);
    draw(&view, options, work.grown(2.0 * text_m), text_m)
}

/// The map of one part of the yard, as for a sheet of a given scale.
pub(crate) fn staking_map_of(job: &Job, computed: &Computed, bounds: Bounds, text_m: f64) -> Scene {
    draw(&View { job, computed }, &MapOptions::lettering(text_m), bounds, readable(text_m, &bounds))
}

/// The part of the yard that the work is pegged out in: the work with its fall circle, and the marks.
pub(crate) fn extent(job: &Job, computed: &Computed) -> Bounds {
    work_and_marks(&View { job, computed })
}

/// Lettering too small to read or too large to fit helps nobody, and would draw contours without end.
fn readable(text_m: f64, work: &Bounds) -> f64 {
    let span_m = work.width().max(work.height());
    let text_m = if text_m.is_finite() { text_m } else { 0.0 };
    text_m.clamp(span_m / 250.0, span_m / 12.0)
}

fn draw(view: &View, options: &MapOptions, bounds: Bounds, text_m: f64) -> Scene {
    let mut canvas = Canvas::new(bounds, text_m);
    canvas.handle_m = options.handle_em * text_m;
    paint(&mut canvas, view, options);
    canvas.finish(format!("Staking map: {}", view.job.name), super::words::map::of_map(view))
}

/// The map of one part of the yard with something over it, by its title and its description.
pub(super) fn draw_over(
    view: &View,
    bounds: Bounds,
    text_m: f64,
    [title, description]: [String; 2],
    over: impl FnOnce(&mut Canvas),
) -> Scene {
    let mut canvas = Canvas::new(bounds, readable(text_m, &bounds));
    paint(&mut canvas, view, &MapOptions::lettering(text_m));
    over(&mut canvas);
    canvas.finish(title, description)
}

/// In painting order: what lies under, then what stands, then the work, then what must not be missed. Nothing of
/// the yard depends on where the mast stands: the screen keeps it while the work is dragged over it.
fn paint(canvas: &mut Canvas, view: &View, options: &MapOptions) {
    layers::obstacles::draw(canvas, view);
    layers::ground::draw(canvas, view);
    layers::services::buried(canvas, view);
    layers::obstacles::boundary(canvas, view);
    layers::services::overhead_lines(canvas, view);
    canvas.static_until_here();
    // As wide as the mast is high over its ground, so not static; hatched, so that the yard shows through.
    layers::services::overhead_zones(canvas, view);
    layers::work::fall_circle(canvas, view);
    layers::work::ring(canvas, view);
    layers::work::base(canvas, view);
    layers::marks::ellipses(canvas, view);
    if let Some(subject) = &options.ties_for {
        layers::ties::draw(canvas, view, subject);
    }
    layers::as_built::planned_places(canvas, view);
    layers::work::guys(canvas, view);
    layers::work::mast(canvas, view);
    layers::ground::fall_line(canvas, view);
    layers::marks::marks(canvas, view);
    layers::marks::open_points(canvas, view);
    layers::conflicts::draw(canvas, view);
    layers::north_and_scale::draw(canvas, view);
}

/// The work, the marks, and what of the yard lies close to them.
fn worth_showing(view: &View) -> Bounds {
    let work = work_and_marks(view);
    let close = work.grown(0.15 * work.width().max(work.height()));
    things_of(view).into_iter().filter_map(|thing| thing.intersection(close)).fold(work, Bounds::union)
}

/// The work with its fall circle, and the marks.
fn work_and_marks(view: &View) -> Bounds {
    let plan_ = &view.computed.plan;
    let circle = Bounds::around(view.mast(), plan_.mast.fall_radius_m.max(1.0));
    let mut points: Vec<[f64; 2]> = plan_.guys.iter().map(|guy| [guy.east_m, guy.north_m]).collect();
    points.extend(view.computed.yard.marks.iter().map(|mark| plan(mark.at)));
    points.extend(plan_.ring.iter().flat_map(|ring| ring.points.iter().copied().map(plan)));
    points.extend(plan_.base.legs.iter().flat_map(|leg| leg.outline.iter().copied()));
    bounds_of(&points).map_or(circle, |bounds| bounds.union(circle))
}

/// Extents of the obstacles and the boundary.
fn things_of(view: &View) -> Vec<Bounds> {
    let yard = &view.computed.yard;
    let mut things = layers::obstacles::extents(yard);
    things.extend(view.computed.plan.open_points.iter().filter_map(|open| bounds_of(&open.candidates)));
    things.extend(yard.boundary.as_deref().and_then(bounds_of));
    things
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::SvgStyle;
    use crate::drawing::geometry::along;
    use crate::drawing::labels::text_width_em;
    use crate::drawing::sample::sample;
    use crate::drawing::scene::{Align, Geometry, Role, SceneShape};
    use crate::numerics::real::hypot;
    use crate::quantity::UnitSystem;

    fn map(text_m: f64) -> Scene {
        let (job, computed) = sample(UnitSystem::Metric);
        staking_map(&job, &computed, &MapOptions::lettering(text_m))
    }

    #[test]
    fn every_guy_has_a_line_a_sign_an_ellipse_and_its_words() {
        let scene = map(0.4);
        for id in ["upper-1", "upper-2", "upper-3"] {
            let subject = Some(Subject::Guy { id: id.into() });
            let roles: Vec<Role> =
                scene.shapes.iter().filter(|s| s.subject == subject).map(|s| s.role).collect();
            for role in [Role::Guy, Role::Anchor, Role::AnchorEllipse, Role::Label] {
                assert!(roles.contains(&role), "{id} {role:?}");
            }
        }
    }

    #[test]
    fn the_anchor_sign_stands_where_the_plan_says() {
        let (job, computed) = sample(UnitSystem::Metric);
        let scene = staking_map(&job, &computed, &MapOptions::lettering(0.4));
        let signs: Vec<[f64; 2]> = scene
            .shapes
            .iter()
            .filter_map(|s| match (s.role, &s.geometry) {
                (Role::Anchor, Geometry::Sign { at, .. }) => Some(*at),
                _ => None,
            })
            .collect();
        let planned: Vec<[f64; 2]> = computed.plan.guys.iter().map(|g| [g.east_m, g.north_m]).collect();
        assert_eq!(signs, planned);
    }

    #[test]
    fn what_is_forbidden_is_marked_on_the_guy_and_where_it_is_too_near() {
        let scene = map(0.4);
        let conflicts: Vec<_> = scene.shapes.iter().filter(|s| s.role == Role::Conflict).collect();
        let guy = Some(Subject::Guy { id: "upper-2".into() });
        assert_eq!(conflicts.len(), 3, "guy line, gap line and cross");
        assert!(conflicts.iter().all(|s| s.subject == guy));
    }

    #[test]
    fn ties_are_drawn_only_when_asked_for() {
        let (job, computed) = sample(UnitSystem::Metric);
        let ties = |scene: Scene| scene.shapes.iter().filter(|s| s.role == Role::Tie).count();
        assert_eq!(ties(map(0.4)), 0);
        let subject = Some(Subject::Guy { id: "upper-1".into() });
        assert_eq!(
            ties(staking_map(
                &job,
                &computed,
                &MapOptions { ties_for: subject, ..MapOptions::lettering(0.4) }
            )),
            2
        );
    }

    #[test]
    fn the_description_says_where_and_how_much_is_wrong() {
        let words = map(0.4).description;
        assert!(words.contains("5.600 m east and 4.600 m north of mark A"), "{words}");
        assert!(words.contains("falls 7.0° to the south-west"), "{words}");
        assert!(words.contains("Guy 3: anchor at tape"), "{words}");
        assert!(words.ends_with("STOP: 1 finding says not to build it like this."), "{words}");
    }

    #[test]
    fn the_mast_s_label_keeps_clear_of_the_handle() {
        let (job, computed) = sample(UnitSystem::Metric);
        let options = MapOptions { handle_em: 3.0, ..MapOptions::lettering(0.4) };
        let from_mast = |scene: Scene| {
            let is_label =
                |shape: &&SceneShape| shape.role == Role::Label && shape.subject == Some(Subject::Mast);
            let label = scene.shapes.iter().find(is_label).map(|shape| shape.geometry.clone());
            let Some(Geometry::Words { at, .. }) = label else { panic!("a label") };
            hypot(at[0] - computed.plan.mast.east_m, at[1] - computed.plan.mast.north_m)
        };
        assert!(from_mast(staking_map(&job, &computed, &options)) >= 3.0 * 0.4);
        assert!(from_mast(map(0.4)) < 3.0 * 0.4);
    }

    /// As far as there is room: no label of the work lies under a turning knob.
    #[test]
    fn labels_keep_clear_of_the_turning_knobs() {
        let (job, computed) = sample(UnitSystem::Metric);
        let text_m = 0.4;
        let options = MapOptions { handle_em: 3.2, ..MapOptions::lettering(text_m) };
        let scene = staking_map(&job, &computed, &options);
        let mast = [computed.plan.mast.east_m, computed.plan.mast.north_m];
        let front_m: f64 = (job.rig.base.front_reach_m + 2.9 * text_m).max(6.5 * text_m);
        let front_deg = job.placement.front_bearing_deg;
        let knobs = [(front_deg, front_m), (front_deg + job.placement.guy_turn_deg, front_m + 5.1 * text_m)];
        for knob in knobs.map(|(bearing_deg, far_m)| along(mast, bearing_deg, far_m)) {
            for shape in scene.shapes.iter().filter(|shape| shape.role == Role::Label) {
                let Geometry::Words { at, text, align, .. } = &shape.geometry else { continue };
                let width_m = text_width_em(text) * text_m;
                let from = match align {
                    Align::Start => at[0],
                    Align::Middle => at[0] - width_m / 2.0,
                    Align::End => at[0] - width_m,
                };
                let aside_m = (from - knob[0]).max(knob[0] - from - width_m).max(0.0);
                let far_m = hypot(aside_m, ((at[1] - knob[1]).abs() - 0.5 * text_m).max(0.0));
                assert!(far_m > 1.1 * text_m, "{text} lies under a knob: {far_m}");
            }
        }
    }

    #[test]
    fn odd_lettering_does_no_harm() {
        for text_m in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
            assert!(!map(text_m).shapes.is_empty());
        }
    }

    #[test]
    fn mast_and_anchors_lie_within_the_frame_that_is_printed() {
        for system in [UnitSystem::Metric, UnitSystem::Imperial] {
            let (job, computed) = sample(system);
            let rough = staking_map(&job, &computed, &MapOptions::lettering(0.4));
            let text_m = SvgStyle::fitted(95.0, 110.0, 3.0).text_m(&rough.bounds);
            let scene = staking_map(&job, &computed, &MapOptions::lettering(text_m));
            crate::drawing::sample::assert_within_bounds(&scene, |shape| {
                matches!(shape.subject, Some(Subject::Mast | Subject::Guy { .. }))
            });
        }
    }
}
