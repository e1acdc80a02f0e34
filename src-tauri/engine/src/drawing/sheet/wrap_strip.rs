//! The strip for cross holes at full size: as long as the tube is round, so that its holes lie on either side of the tube's axis.

use std::f64::consts::PI;

use crate::drawing::marks::{PageMark, Path, Stroke, ellipse_steps, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::quantity::{Units, sold};
use crate::report::format;

/// Half of the strip's width, over and under the line of the holes.
const HALF_MM: f64 = 25.0;
/// The strip's end laps over its beginning by this, to be stuck down.
const LAP_MM: f64 = 12.0;
/// Left of the seam, for the words.
const BESIDE_MM: f64 = 3.0;

/// What is drilled.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct CrossHoles {
    /// Which tube, as people call it.
    pub(super) tube: String,
    /// Where on it the strip lies: which end, or which collar.
    pub(super) end: String,
    /// As measured, else by the table.
    pub(super) outside_mm: f64,
    pub(super) measured: bool,
    pub(super) hole_mm: f64,
}

/// Where the holes of the first pair lie along the strip: a quarter and three quarters round, clear of the seam.
fn first_pair_mm(round_mm: f64) -> [f64; 2] {
    [0.25 * round_mm, 0.75 * round_mm]
}

/// A second pair lies at right angles to the first: at the seam and half round.
fn second_pair_mm(round_mm: f64) -> [f64; 2] {
    [0.0, 0.5 * round_mm]
}

pub(super) fn of(holes: &CrossHoles, units: Units) -> FullSize {
    let round_mm = PI * holes.outside_mm;
    let small = |mm: f64| format::length_small(mm, units);
    let name = sentences::strip_name(&holes.tube, &holes.end);
    FullSize {
        name,
        size_mm: [BESIDE_MM + round_mm + LAP_MM + 2.0, 2.0 * HALF_MM + 10.0],
        marks: marks(holes, round_mm, units),
        how: sentences::strip_how(&small(holes.outside_mm), &sold::dividers(round_mm, units), holes.measured),
        caution: sentences::STRIP_CAUTION.to_owned(),
        system: units.system,
    }
}

fn marks(holes: &CrossHoles, round_mm: f64, units: Units) -> Vec<PageMark> {
    let [left, right] = [BESIDE_MM, BESIDE_MM + round_mm];
    let end = right + LAP_MM;
    let (bottom, middle) = (2.0 * HALF_MM, HALF_MM);
    let cut = |points: &[[f64; 2]]| ruled(points, plain(INK.paper(), 0.25));
    let seam = |x: f64| ruled(&[[x, 0.0], [x, bottom]], plain(INK.paper(), 0.5));
    let mut marks = vec![
        cut(&[[left, 0.0], [end, 0.0], [end, bottom], [left, bottom], [left, 0.0]]),
        seam(left),
        seam(right),
        ruled(&[[left, middle], [end, middle]], dashed()),
    ];
    for (letter, places) in [("A", first_pair_mm(round_mm)), ("B", second_pair_mm(round_mm))] {
        for (number, place) in (1..).zip(places) {
            marks.extend(hole([left + place, middle], holes.hole_mm, letter == "A"));
            let at = [left + place + 1.5, middle - holes.hole_mm / 2.0 - 4.0];
            marks.push(words(at, SMALL_MM + 0.6, true, Align::Start, &format!("{letter}{number}")));
        }
    }
    marks.push(words([left + 2.0, bottom - 3.0], SMALL_MM, false, Align::Start, sentences::SEAM));
    let round = sentences::strip_round(&sold::dividers(round_mm, units));
    marks.push(words([(left + right) / 2.0, bottom + 5.0], SMALL_MM, true, Align::Middle, &round));
    marks.push(words([right + 1.0, bottom - 3.0], SMALL_MM, false, Align::Start, sentences::LAP));
    marks
}

fn dashed() -> Stroke {
    Stroke { dashes_mm: vec![3.0, 1.5], ..plain(GREY.paper(), 0.18) }
}

/// A hole with its centre marks; a second pair's is drawn dashed.
pub(super) fn hole([x, y]: [f64; 2], across_mm: f64, whole: bool) -> Vec<PageMark> {
    let pen = plain(INK.paper(), 0.35);
    let pen = if whole { pen } else { Stroke { dashes_mm: vec![1.2, 0.8], ..pen } };
    let reach = across_mm / 2.0 + 2.0;
    let cross = || plain(INK.paper(), 0.18);
    let rim = Path {
        steps: ellipse_steps([x, y], [across_mm / 2.0, across_mm / 2.0], 0.0),
        stroke: Some(pen),
        fill: None,
    };
    let mut marks = vec![
        ruled(&[[x - reach, y], [x + reach, y]], cross()),
        ruled(&[[x, y - reach], [x, y + reach]], cross()),
    ];
    if across_mm > 0.0 {
        marks.push(PageMark::Path(rim));
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    /// By hand: a tube of 48.3 mm is 151.74 mm round; pair A at 37.93 and 113.80 mm, half round apart; B a quarter round off it.
    #[test]
    fn holes_of_a_pair_lie_half_round_apart() {
        let round = PI * 48.3;
        assert!((round - 151.739).abs() < 1e-3);
        let (a, b) = (first_pair_mm(round), second_pair_mm(round));
        assert!((a[0] - 37.935).abs() < 1e-3 && (a[1] - 113.804).abs() < 1e-3);
        assert!((a[1] - a[0] - round / 2.0).abs() < 1e-9 && (b[1] - b[0] - round / 2.0).abs() < 1e-9);
        assert!((a[0] - b[0] - round / 4.0).abs() < 1e-9);
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let holes = CrossHoles {
            tube: "Lower".into(),
            end: "upper end".into(),
            outside_mm: 48.3,
            measured: false,
            hole_mm: 8.5,
        };
        let strip = of(&holes, units);
        // From seam to seam.
        let seams: Vec<f64> = [1, 2].map(|at| strip.marks[at].extent().unwrap().x).to_vec();
        assert!((seams[1] - seams[0] - round).abs() < 1e-6, "{seams:?}");
        let rims = strip
            .marks
            .iter()
            .filter_map(PageMark::extent)
            .filter(|it| (it.w - 8.5).abs() < 0.2 && (it.h - 8.5).abs() < 0.2);
        let middles: Vec<f64> = rims.map(|it| it.x + it.w / 2.0 - seams[0]).collect();
        assert_eq!(middles.len(), 4);
        for (found, by_hand) in middles.iter().zip([a[0], a[1], b[0], b[1]]) {
            assert!((found - by_hand).abs() < 0.01, "{middles:?}");
        }
    }
}
