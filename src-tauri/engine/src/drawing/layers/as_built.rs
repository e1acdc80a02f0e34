//! Where things were planned, once they were measured: what stands is drawn as the work.

use crate::drawing::canvas::Canvas;
use crate::drawing::scene::Role;

use super::View;

pub(crate) fn planned_places(canvas: &mut Canvas, view: &View) {
    for item in view.computed.plan.as_built.iter().flat_map(|built| &built.items) {
        let Some(deviation) = &item.deviation else { continue };
        let subject = Some(item.subject.clone());
        canvas.line(Role::MovedFrom, subject.clone(), vec![item.planned, deviation.measured_at]);
        canvas.sign(Role::PlannedPlace, subject, item.planned, 0.0);
    }
}

#[cfg(test)]
mod tests {
    use crate::drawing::scene::{Geometry, Role, Scene};
    use crate::drawing::staking_map::{MapOptions, staking_map};
    use crate::job::{AsBuilt, AsBuiltAnchor, Job, PointFix};

    fn map(job: &Job) -> Scene {
        let computed = crate::plan::compute(job).expect("the demo can be placed");
        staking_map(job, &computed, &MapOptions::lettering(0.4))
    }

    fn signs(scene: &Scene, role: Role) -> Vec<[f64; 2]> {
        let of = |shape: &crate::drawing::scene::SceneShape| match &shape.geometry {
            Geometry::Sign { at, .. } if shape.role == role => Some(*at),
            _ => None,
        };
        scene.shapes.iter().filter_map(of).collect()
    }

    #[test]
    fn a_measured_anchor_is_drawn_where_it_stands_and_hollow_where_it_was_planned() {
        let mut job = crate::demo::yardstick();
        let planned = map(&job);
        assert_eq!(signs(&planned, Role::PlannedPlace), Vec::<[f64; 2]>::new());
        let at = PointFix::Coordinates { east_m: -6.8, north_m: -22.8 };
        let anchor = AsBuiltAnchor { guy: "upper-1".to_owned(), at: Some(at), eye_height_m: None };
        job.as_built = Some(AsBuilt { anchors: vec![anchor], ..AsBuilt::default() });
        let stands = map(&job);
        assert_eq!(signs(&stands, Role::PlannedPlace), signs(&planned, Role::Anchor)[..1]);
        assert_eq!(signs(&stands, Role::Anchor)[0], [-6.8, -22.8]);
    }
}
