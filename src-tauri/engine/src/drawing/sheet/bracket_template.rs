//! A bracket of the ring at full size: the flat bar with its bolts' and its clamp's holes and where it is bent.

use super::wrap_strip::hole;
use crate::drawing::marks::{Area, PageMark, Stroke, boxed, line as ruled, plain};
use crate::drawing::pages::full_size::FullSize;
use crate::drawing::pages::text::SMALL_MM;
use crate::drawing::paint::{GREY, INK};
use crate::drawing::scene::Align;
use crate::drawing::scene_marks::words;
use crate::drawing::words::workshop as sentences;
use crate::quantity::{Units, sold};
use crate::workshop::circle::bracket::RingBracket;

/// Round the bar.
const AROUND_MM: f64 = 8.0;

/// None where nobody has measured the pipe, or no bar of the shop's carries it.
pub(super) fn of(bracket: &RingBracket, units: Units) -> Option<FullSize> {
    let (clamp_mm, bar_mm) = (bracket.clamp_mm?, bracket.bar_mm?);
    Some(FullSize {
        name: sentences::bracket_name(&bracket.leg),
        size_mm: [bracket.length_mm + 2.0 * AROUND_MM, bracket.width_mm + 2.0 * AROUND_MM + 6.0],
        marks: marks(bracket, clamp_mm),
        how: sentences::bracket_how(
            &sold::thickness(bar_mm, units),
            &sold::drill(bracket.bolt_hole_mm, units),
            &sold::drill(bracket.clamp_hole_mm, units),
            &crate::report::format::length(bracket.rise_m.abs(), units),
            bracket.rise_m < 0.0,
        ),
        caution: sentences::BRACKET_CAUTION.to_owned(),
        system: units.system,
    })
}

fn marks(bracket: &RingBracket, clamp_mm: [f64; 2]) -> Vec<PageMark> {
    let middle = AROUND_MM + 0.5 * bracket.width_mm;
    let [left, right] = [AROUND_MM, AROUND_MM + bracket.length_mm];
    let outline = Area::new(left, AROUND_MM, bracket.length_mm, bracket.width_mm);
    let mut marks = vec![
        boxed(outline, Some(plain(INK.paper(), 0.5)), None),
        ruled(
            &[[left - 4.0, middle], [right + 4.0, middle]],
            Stroke { dashes_mm: vec![6.0, 1.5, 1.0, 1.5], ..plain(GREY.paper(), 0.18) },
        ),
    ];
    let letters = [
        ("B1", bracket.bolts_mm[0], bracket.bolt_hole_mm),
        ("B2", bracket.bolts_mm[1], bracket.bolt_hole_mm),
        ("C1", clamp_mm[0], bracket.clamp_hole_mm),
        ("C2", clamp_mm[1], bracket.clamp_hole_mm),
    ];
    for (letter, at_mm, hole_mm) in letters {
        marks.extend(hole([left + at_mm, middle], hole_mm, true));
        let under = [left + at_mm, AROUND_MM + bracket.width_mm + 5.0];
        marks.push(words(under, SMALL_MM, true, Align::Middle, letter));
    }
    // Where the timber ends the bar may be bent.
    let tip_mm = bracket.bolts_mm[1] + 0.5 * (bracket.bolts_mm[1] - bracket.bolts_mm[0]);
    if bracket.beyond_tip_m > 0.0 && tip_mm < clamp_mm[0] {
        let at = left + tip_mm;
        let bend = Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.25) };
        marks.push(ruled(&[[at, AROUND_MM], [at, AROUND_MM + bracket.width_mm]], bend));
    }
    marks
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    /// By hand: holes 19, 119, 600 and 627.3 mm from the bar's inner end, all on its middle line.
    #[test]
    fn holes_lie_on_the_bar_s_middle_line() {
        let bracket = RingBracket {
            part: "bracket:front".into(),
            leg: "front".into(),
            beyond_tip_m: 0.4,
            rise_m: -0.1,
            width_mm: 40.0,
            length_mm: 642.3,
            bolts_mm: [19.0, 119.0],
            bolt_hole_mm: 9.5,
            clamp_mm: Some([600.0, 627.3]),
            clamp_hole_mm: 7.5,
            pull_n: Some(20.0),
            moment_nm: Some(9.0),
            bolt_pull_n: Some(110.0),
            least_mm: Some(4.0),
            bar_mm: Some(5.0),
        };
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let figure = of(&bracket, units).expect("all is known");
        let rims = |across: f64| -> Vec<[f64; 2]> {
            let all = figure.marks.iter().filter_map(PageMark::extent);
            let rims = all.filter(|it| (it.w - across).abs() < 0.05 && (it.h - across).abs() < 0.05);
            rims.map(|it| [it.x + it.w / 2.0 - AROUND_MM, it.y + it.h / 2.0 - AROUND_MM]).collect()
        };
        for (across, places) in [(9.5, [19.0, 119.0]), (7.5, [600.0, 627.3])] {
            let found = rims(across);
            assert_eq!(found.len(), 2, "{found:?}");
            for (at, place) in found.iter().zip(places) {
                assert!((at[0] - place).abs() < 0.02 && (at[1] - 20.0).abs() < 0.02, "{at:?}");
            }
        }
        assert!(of(&RingBracket { clamp_mm: None, ..bracket.clone() }, units).is_none());
        assert!(of(&RingBracket { bar_mm: None, ..bracket }, units).is_none());
    }
}
