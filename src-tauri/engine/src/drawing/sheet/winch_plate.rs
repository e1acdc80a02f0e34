//! The winch's plate at full size: its outline, the winch's holes, the clamps' holes, the tube behind it.

use super::wrap_strip::hole;
use crate::drawing::marks::{Area, PageMark, Stroke, boxed, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::quantity::{Units, sold};
use crate::workshop::lift::PlateWork;

/// Round the plate.
const AROUND_MM: f64 = 8.0;

pub(super) fn of(plate: &PlateWork, tube_mm: f64, units: Units) -> FullSize {
    let least = plate.least_mm.map(|mm| crate::report::format::length_small(mm, units));
    FullSize {
        name: sentences::WINCH_PLATE.to_owned(),
        size_mm: [plate.width_mm + 2.0 * AROUND_MM, plate.height_mm + 2.0 * AROUND_MM],
        marks: marks(plate, tube_mm),
        how: sentences::plate_how(
            &sold::drill(plate.hole_mm, units),
            &sold::drill(plate.clamp_hole_mm, units),
            &sold::tape(plate.spacer_mm, units),
            least.as_deref(),
        ),
        caution: sentences::PLATE_CAUTION.to_owned(),
        system: units.system,
    }
}

fn marks(plate: &PlateWork, tube_mm: f64) -> Vec<PageMark> {
    let (x, y) = (AROUND_MM + 0.5 * plate.width_mm, AROUND_MM + 0.5 * plate.height_mm);
    let bottom = 2.0 * y - AROUND_MM;
    let thin = || Stroke { dashes_mm: vec![6.0, 1.5, 1.0, 1.5], ..plain(GREY.paper(), 0.18) };
    let outline = Area::new(AROUND_MM, AROUND_MM, plate.width_mm, plate.height_mm);
    let mut marks = vec![
        boxed(outline, Some(plain(INK.paper(), 0.5)), None),
        ruled(&[[x, 2.0], [x, 2.0 * y - 2.0]], thin()),
        ruled(&[[2.0, y], [2.0 * x - 2.0, y]], thin()),
    ];
    for side in [-0.5, 0.5] {
        let at = x + side * tube_mm;
        marks.push(ruled(
            &[[at, AROUND_MM], [at, bottom]],
            Stroke { dashes_mm: vec![1.2, 0.8], ..plain(GREY.paper(), 0.18) },
        ));
    }
    for (letter, [across, along], hole_mm) in
        [("W", plate.holes_mm, plate.hole_mm), ("C", plate.clamps_mm, plate.clamp_hole_mm)]
    {
        for (right, down) in [(-0.5, -0.5), (0.5, -0.5), (-0.5, 0.5), (0.5, 0.5)] {
            let at = [x + right * across, y + down * along];
            marks.extend(hole(at, hole_mm, true));
            let beside = [at[0], at[1] + 0.5 * hole_mm + 4.0];
            marks.push(words(beside, SMALL_MM, true, Align::Middle, letter));
        }
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    /// By hand: the winch's holes 80 by 50 mm about the middle, the clamps' 56 by 100.
    #[test]
    fn holes_lie_about_the_middle() {
        let plate = PlateWork {
            width_mm: 120.0,
            height_mm: 140.0,
            holes_mm: [80.0, 50.0],
            hole_mm: 9.0,
            clamps_mm: [56.0, 100.0],
            clamp_hole_mm: 11.0,
            spacer_mm: 31.3,
            room_mm: 40.0,
            moment_nm: None,
            least_mm: None,
            thickness_mm: None,
        };
        let figure = of(&plate, 48.3, Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let rims = |across: f64| -> Vec<[f64; 2]> {
            let all = figure.marks.iter().filter_map(PageMark::extent);
            let rims = all.filter(|it| (it.w - across).abs() < 0.05 && (it.h - across).abs() < 0.05);
            rims.map(|it| [it.x + it.w / 2.0 - 68.0, it.y + it.h / 2.0 - 78.0]).collect()
        };
        for (across, [right, down]) in [(9.0, [40.0, 25.0]), (11.0, [28.0, 50.0])] {
            let found = rims(across);
            assert_eq!(found.len(), 4, "{found:?}");
            assert!(
                found
                    .iter()
                    .all(|at| (at[0].abs() - right).abs() < 0.02 && (at[1].abs() - down).abs() < 0.02)
            );
        }
    }
}
