//! The holes round the topper at full size, with what the dividers are set to; of a topper of two discs their rim and bore as well.

use super::wrap_strip::hole;
use crate::drawing::marks::{PageMark, Path, Stroke, ellipse_steps, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::numerics::real::{cos_deg, sin_deg};
use crate::quantity::{Units, sold};
use crate::report::format;
use crate::workshop::circle::holes::HoleCircle;
use crate::workshop::circle::topper::TopperBuild;

/// Outside the holes: room for their numbers.
const AROUND_MM: f64 = 12.0;
/// Centre's cross.
const CROSS_MM: f64 = 6.0;

pub(super) fn of(circle: &HoleCircle, discs: Option<&TopperBuild>, units: Units) -> FullSize {
    let small = |mm: f64| sold::tape(mm, units);
    let rim_mm = discs.map_or(0.0, |discs| discs.disc_mm / 2.0 + 1.0);
    let half = rim_mm.max(circle.radius_mm + circle.hole_mm / 2.0 + AROUND_MM);
    let two = discs.map_or(String::new(), |discs| {
        sentences::two_discs(&small(discs.disc_mm), &format::length_small(discs.bore_mm, units))
    });
    let holes = sentences::circle_how(
        circle.count,
        &sold::dividers(circle.divider_mm(), units),
        &small(circle.radius_mm),
        circle.hole_mm > 0.0,
    );
    FullSize {
        name: if discs.is_some() { sentences::TWO_DISCS } else { sentences::HOLE_CIRCLE }.to_owned(),
        size_mm: [2.0 * half, 2.0 * half],
        marks: marks(circle, discs, half, units),
        how: format!("{two}{holes}"),
        caution: sentences::CIRCLE_CAUTION.to_owned(),
        system: units.system,
    }
}

fn marks(circle: &HoleCircle, discs: Option<&TopperBuild>, half: f64, units: Units) -> Vec<PageMark> {
    let centre = [half, half];
    let radius = circle.radius_mm;
    // Up on paper is where y grows less.
    let on = |[right, up]: [f64; 2]| [centre[0] + right, centre[1] - up];
    let thin = || Stroke { dashes_mm: vec![6.0, 1.5, 1.0, 1.5], ..plain(GREY.paper(), 0.18) };
    let ring = Path { steps: ellipse_steps(centre, [radius, radius], 0.0), stroke: Some(thin()), fill: None };
    let mut marks = vec![
        PageMark::Path(ring),
        ruled(&[on([-CROSS_MM, 0.0]), on([CROSS_MM, 0.0])], plain(INK.paper(), 0.25)),
        ruled(&[on([0.0, -CROSS_MM]), on([0.0, CROSS_MM])], plain(INK.paper(), 0.25)),
    ];
    if let Some(discs) = discs {
        let heavy = || Some(plain(INK.paper(), 0.5));
        let round = |across_mm: f64| Path {
            steps: ellipse_steps(centre, [across_mm / 2.0, across_mm / 2.0], 0.0),
            stroke: heavy(),
            fill: None,
        };
        marks.extend([discs.disc_mm, discs.bore_mm].map(|across_mm| PageMark::Path(round(across_mm))));
    }
    let holes = circle.holes();
    for (number, (angle, at)) in (1..).zip(&holes) {
        marks.extend(hole(on(*at), circle.hole_mm, true));
        // Inside of the holes where a disc's rim lies outside.
        let beyond_mm = circle.hole_mm / 2.0 + 5.0;
        let out = if discs.is_some() { radius - beyond_mm } else { radius + beyond_mm };
        let beside = on([out * sin_deg(*angle), out * cos_deg(*angle)]);
        marks.push(words(beside, SMALL_MM, false, Align::Middle, &number.to_string()));
    }
    if let [first, second, ..] = holes.as_slice() {
        marks.push(ruled(&[on(first.1), on(second.1)], plain(INK.paper(), 0.35)));
    }
    let setting = sentences::divider(&sold::dividers(circle.divider_mm(), units));
    let under_mm = discs.map_or(CROSS_MM, |discs| discs.bore_mm / 2.0);
    marks.push(words(on([0.0, -under_mm - 4.0]), SMALL_MM, true, Align::Middle, &setting));
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    /// By hand: 4 holes at R 40 lie 40 mm up, right, down, left of the centre; the line between the first two is 40·√2 long.
    #[test]
    fn holes_are_drawn_where_they_are_drilled() {
        let circle = HoleCircle { radius_mm: 40.0, count: 4, sweep_deg: 360.0, hole_mm: 6.0 };
        let figure = of(&circle, None, Units { system: UnitSystem::Metric, inch_fraction: 16 });
        let middle = figure.size_mm[0] / 2.0;
        let rims = figure
            .marks
            .iter()
            .filter_map(PageMark::extent)
            .filter(|it| (it.w - 6.0).abs() < 0.1 && (it.h - 6.0).abs() < 0.1);
        let at: Vec<[f64; 2]> =
            rims.map(|it| [it.x + it.w / 2.0 - middle, middle - it.y - it.h / 2.0]).collect();
        assert_eq!(at.len(), 4, "{at:?}");
        for (found, by_hand) in at.iter().zip([[0.0, 40.0], [40.0, 0.0], [0.0, -40.0], [-40.0, 0.0]]) {
            assert!((0..2).all(|axis| (found[axis] - by_hand[axis]).abs() < 0.02), "{at:?}");
        }
        let chord = figure
            .marks
            .iter()
            .filter_map(PageMark::extent)
            .any(|it| (it.w - 40.0).abs() < 1e-6 && (it.h - 40.0).abs() < 1e-6);
        assert!(chord, "the dividers' line");
    }
}
