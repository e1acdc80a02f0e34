//! The seat under the mast at full size: the crossing from above with the foot's circle, socket or peg, the plate and the bolts' holes.

use super::wrap_strip::hole;
use crate::drawing::marks::{Area, PageMark, Path, Stroke, boxed, ellipse_steps, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::job::Job;
use crate::quantity::sold;
use crate::workshop::joints::{BaseJoints, MastSeat};

/// Round the crossing or its plate: room for the words.
const AROUND_MM: f64 = 12.0;

pub(super) fn of(job: &Job, joints: &BaseJoints) -> FullSize {
    let width_mm = job.rig.base.timber_width_mm;
    let plate_mm = match joints.seat {
        MastSeat::Plate { side_mm, .. } => side_mm,
        _ => 0.0,
    };
    let half = 0.5 * width_mm.max(plate_mm) + AROUND_MM;
    let units = job.units;
    let bolts = joints
        .bolts
        .map(|bolts| [sold::drill(bolts.hole_mm, units), sold::dividers(bolts.from_middle_mm, units)]);
    FullSize {
        name: sentences::SEAT.to_owned(),
        size_mm: [2.0 * half, 2.0 * half],
        marks: marks(width_mm, plate_mm, half, joints),
        how: sentences::seat_how(bolts.as_ref()),
        caution: sentences::BASE_CAUTION.to_owned(),
        system: units.system,
    }
}

fn marks(width_mm: f64, plate_mm: f64, half: f64, joints: &BaseJoints) -> Vec<PageMark> {
    let square = |side: f64, stroke: Stroke| {
        boxed(Area::new(half - 0.5 * side, half - 0.5 * side, side, side), Some(stroke), None)
    };
    let thin = || Stroke { dashes_mm: vec![6.0, 1.5, 1.0, 1.5], ..plain(GREY.paper(), 0.18) };
    let mut marks = vec![square(width_mm, plain(INK.paper(), 0.5))];
    if plate_mm > 0.0 && (plate_mm - width_mm).abs() > 0.5 {
        marks.push(square(plate_mm, Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.35) }));
    }
    // Middle lines to the edge of the drawing: they lie on those of the timbers.
    marks.push(ruled(&[[half, 4.0], [half, 2.0 * half - 4.0]], thin()));
    marks.push(ruled(&[[4.0, half], [2.0 * half - 4.0, half]], thin()));
    let circle = |across: f64, stroke: Stroke| {
        let steps = ellipse_steps([half, half], [0.5 * across, 0.5 * across], 0.0);
        PageMark::Path(Path { steps, stroke: Some(stroke), fill: None })
    };
    match joints.seat {
        MastSeat::Socket { bore_mm, .. } => marks.push(circle(bore_mm, plain(INK.paper(), 0.5))),
        MastSeat::Plate { peg_mm: Some(peg_mm), .. } | MastSeat::OnWood { peg_mm: Some(peg_mm) } => {
            marks.push(circle(peg_mm, plain(INK.paper(), 0.35)));
        }
        MastSeat::Plate { .. } | MastSeat::OnWood { .. } => {}
    }
    if let Some(bolts) = joints.bolts {
        for (number, way) in [(1, 1.0), (2, -1.0)] {
            let at = [half + way * bolts.from_middle_mm, half - way * bolts.from_middle_mm];
            marks.extend(hole(at, bolts.hole_mm, true));
            let beside = [at[0] - way * (0.5 * bolts.hole_mm + 4.0), at[1]];
            marks.push(words(beside, SMALL_MM, true, Align::Middle, &format!("D{number}")));
        }
    }
    marks.push(words([half + 2.0, 3.0], SMALL_MM, true, Align::Start, sentences::FRONT));
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::drawing::sample::sample;
    use crate::quantity::UnitSystem;
    use crate::workshop::{fit::fit, joints::joints};

    /// By hand: timbers 100 mm wide and a foot of 48.3 mm: bolts of 12 mm have 50 − 18 = 32 mm off both middle lines, √2·32 = 45.3
    /// beside 24.15 + 12 = 36.2 mm; holes 13.5 mm.
    #[test]
    fn holes_lie_across_the_diagonal() {
        let (mut job, computed) = sample(UnitSystem::Metric);
        job.rig.base.timber_width_mm = 100.0;
        job.workshop.base.foot_outside_mm = Some(48.3);
        let found = joints(&job, &computed, &fit(&job).unwrap()).unwrap();
        let figure = of(&job, &found);
        let middle = figure.size_mm[0] / 2.0;
        let rims = figure.marks.iter().filter_map(PageMark::extent);
        let rims = rims.filter(|it| (it.w - 13.5).abs() < 0.05 && (it.h - 13.5).abs() < 0.05);
        let at: Vec<[f64; 2]> =
            rims.map(|it| [it.x + it.w / 2.0 - middle, middle - it.y - it.h / 2.0]).collect();
        assert_eq!(at.len(), 2, "{at:?}");
        for (found, by_hand) in at.iter().zip([[32.0, 32.0], [-32.0, -32.0]]) {
            assert!((0..2).all(|axis| (found[axis] - by_hand[axis]).abs() < 0.02), "{at:?}");
        }
    }
}
