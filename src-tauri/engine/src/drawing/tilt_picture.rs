//! The mast turning up, seen from the side: lying, where it is hardest to push, and plumb, with the push at the hands.

use crate::cards::TiltPlan;
use crate::lifting::body::Turning;
use crate::lifting::line::RiggedLine;
use crate::numerics::real::{cos_deg, sin_deg};
use crate::quantity::Units;
use crate::report::format;

use super::canvas::Canvas;
use super::geometry::circle_points;
use super::labels::{WhereTo, Wish};
use super::scene::{Bounds, Role, Scene};
use super::words::workshop as sentences;

/// Letter heights over the picture's height.
const HIGH_EM: f64 = 22.0;
/// Half the drawn thickness of the mast, in letter heights.
const HALF_EM: f64 = 0.35;

/// The letter height that the picture is laid out with.
pub(crate) fn picture_text_m(turning: &Turning) -> f64 {
    1.25 * turning.long_m / HIGH_EM
}

/// Draws it: the hinge at nought, the side on which the mast lies to the right.
///
/// # Units
/// Metres over the hinge, at scale; the mast is drawn thicker than it is.
pub fn tilt_picture(plan: &TiltPlan, units: Units) -> Scene {
    let TiltPlan { way, turning, hardest, line } = plan;
    let long_m = turning.long_m;
    let em = picture_text_m(turning);
    let ground_m = way.ground_m - way.hinge[2];
    let low_m = (long_m * sin_deg(way.lying_deg)).min(ground_m) - 2.6 * em;
    let back_m = line.map_or(0.0, |(line, _)| line.anchor[0].min(long_m)) + 9.0 * em;
    let bounds = Bounds { min: [-back_m, low_m], max: [long_m + 3.0 * em, long_m + 2.4 * em] };
    let mut canvas = Canvas::new(bounds, em);
    let on = |elevation_deg: f64, along_m: f64| {
        [along_m * cos_deg(elevation_deg), along_m * sin_deg(elevation_deg)]
    };
    canvas.line(Role::GroundLine, None, vec![[bounds.min[0], ground_m], [bounds.max[0], ground_m]]);
    let arc =
        (0..=30).map(|step| on(way.lying_deg + (90.0 - way.lying_deg) * f64::from(step) / 30.0, long_m));
    canvas.line(Role::LevelLine, None, arc.collect());
    for elevation_deg in [way.lying_deg, hardest.elevation_deg, 90.0] {
        let end = on(elevation_deg, long_m);
        let aside = [-HALF_EM * em * sin_deg(elevation_deg), HALF_EM * em * cos_deg(elevation_deg)];
        let corners = vec![
            [aside[0], aside[1]],
            [-aside[0], -aside[1]],
            [end[0] - aside[0], end[1] - aside[1]],
            [end[0] + aside[0], end[1] + aside[1]],
        ];
        canvas.area(Role::MastTube, None, corners);
        words(&mut canvas, format::angle(elevation_deg), Role::Label, [end[0], end[1] + 1.1 * em]);
    }
    canvas.line(Role::Conflict, None, circle_points([0.0, 0.0], 0.5 * em));
    words(&mut canvas, sentences::HINGE.to_owned(), Role::LabelQuiet, [-3.6 * em, 0.6 * em]);
    if let Some((line, pull)) = line {
        return over_a_prop(canvas, line, pull.elevation_deg, em, &format::force(pull.pull_n, units));
    }
    let grip = hardest.grip_m;
    let at = on(hardest.elevation_deg, grip);
    // Square to the tube, up.
    let tip = [
        at[0] - 2.6 * em * sin_deg(hardest.elevation_deg),
        at[1] + 2.6 * em * cos_deg(hardest.elevation_deg),
    ];
    canvas.line(Role::Conflict, None, vec![at, tip]);
    canvas.line(Role::Conflict, None, circle_points(at, 0.4 * em));
    let force = format::force(hardest.force_n, units);
    words(&mut canvas, force.clone(), Role::Label, [tip[0] - 2.2 * em, tip[1] + 0.6 * em]);
    canvas.finish(
        sentences::TILT_PICTURE.to_owned(),
        sentences::tilt(&force, hardest.elevation_deg, &format::length(grip, units)),
    )
}

/// The line from the mast over the prop's head, towards its anchor.
fn over_a_prop(mut canvas: Canvas, line: &RiggedLine, elevation_deg: f64, em: f64, force: &str) -> Scene {
    let [tie, head, anchor] = [
        [line.tied_m * cos_deg(elevation_deg), line.tied_m * sin_deg(elevation_deg)],
        [-line.head[0], line.head[1]],
        [-line.anchor[0], line.anchor[1]],
    ];
    canvas.line(Role::Conflict, None, vec![tie, head, anchor]);
    canvas.line(Role::MastTube, None, vec![[head[0], 0.0], head]);
    words(&mut canvas, force.to_owned(), Role::Label, [head[0] - 2.0 * em, head[1] + 1.2 * em]);
    canvas.finish(sentences::TILT_PICTURE.to_owned(), sentences::tilt_by_line(force, elevation_deg))
}

fn words(canvas: &mut Canvas, line: String, role: Role, at: [f64; 2]) {
    let where_to = WhereTo::On { places: vec![(at, 0.0)] };
    canvas.label(Wish { lines: vec![line], role, subject: None, priority: 0, must: true, where_to });
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::scene::Geometry;
    use crate::lifting::{Lie, hands};
    use crate::quantity::UnitSystem;
    use crate::{demo, plan, raising};

    #[test]
    fn the_mast_is_drawn_lying_half_way_and_plumb_with_its_push() {
        let job = demo::lantern_green();
        let computed = plan::compute(&job).expect("plan");
        let way = raising::as_said(&job, &computed).expect("way");
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let turning = Turning { moment_kg_m: 80.0, mass_kg: 40.0, long_m: 4.0 };
        let hardest = hands::hardest(&turning, &Lie::level(1.4), way.lying_deg);
        let scene = tilt_picture(&TiltPlan { way, turning, hardest, line: None }, units);
        let masts = scene.shapes.iter().filter(|shape| shape.role == Role::MastTube);
        let tops = masts.map(|shape| match &shape.geometry {
            Geometry::Area { points } => points.iter().map(|at| at[1]).fold(f64::MIN, f64::max),
            _ => 0.0,
        });
        let tops: Vec<f64> = tops.collect();
        assert_eq!(tops.len(), 3);
        assert!(tops[0] < tops[1] && tops[1] < tops[2] && (tops[2] - 4.0).abs() < 1e-9, "{tops:?}");
        assert!(scene.description.contains(&format::force(hardest.force_n, units)), "{}", scene.description);
    }
}
