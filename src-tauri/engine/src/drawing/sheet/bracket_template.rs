//! A bracket of the ring at full size: the flat bar with its bolts' and its clamp's holes and where it is bent.

use super::wrap_strip::hole;
use crate::drawing::marks::{PageMark, Stroke, line as ruled, plain};
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
/// Under the bar, for the holes' letters.
const LETTERS_MM: f64 = 6.0;
/// How much bare bar is drawn beside what is marked on it, and from how much of it on it is left out: a sheet of nothing but two edges
/// tells nothing that a tape does not tell better.
const BARE_MM: f64 = 30.0;
const MOST_BARE_MM: f64 = 100.0;
/// Between the two pieces of a bar that is drawn broken, where what is left out is written.
const BETWEEN_MM: f64 = 10.0;

/// None where nobody has measured the pipe, or no bar of the shop's carries it.
pub(super) fn of(bracket: &RingBracket, units: Units) -> Option<FullSize> {
    let (clamp_mm, bar_mm) = (bracket.clamp_mm?, bracket.bar_mm?);
    let pieces = pieces(bracket, clamp_mm);
    let widest = pieces.iter().map(Piece::drawn_mm).fold(0.0, f64::max);
    let bar = BarDrawn { bracket, clamp_mm };
    let mut marks: Vec<PageMark> = pieces.iter().flat_map(|piece| bar.piece(piece)).collect();
    let mut how = sentences::bracket_how(
        &sold::thickness(bar_mm, units),
        &sold::drill(bracket.bolt_hole_mm, units),
        &sold::drill(bracket.clamp_hole_mm, units),
        &crate::report::format::length(bracket.rise_m.abs(), units),
        bracket.rise_m < 0.0,
    );
    if let [_, second] = &pieces[..] {
        let apart = sold::tape(clamp_mm[0] - bracket.bolts_mm[1], units);
        let at = [AROUND_MM, second.top_mm - 0.5 * BETWEEN_MM];
        marks.push(words(at, SMALL_MM, true, Align::Start, &sentences::bracket_apart(&apart)));
        how.push_str(&sentences::bracket_broken(&apart, &sold::tape(bracket.length_mm, units)));
    }
    let bottom_mm = pieces.last()?.top_mm + bracket.width_mm + LETTERS_MM;
    Some(FullSize {
        name: sentences::bracket_name(&bracket.leg),
        size_mm: [widest + 2.0 * AROUND_MM, bottom_mm + AROUND_MM],
        marks,
        how,
        caution: sentences::BRACKET_CAUTION.to_owned(),
        system: units.system,
    })
}

/// From where to where of the bar, and how far down its upper edge lies.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    from_mm: f64,
    to_mm: f64,
    top_mm: f64,
}

impl Piece {
    fn drawn_mm(&self) -> f64 {
        self.to_mm - self.from_mm
    }

    fn at(&self, along_mm: f64) -> f64 {
        AROUND_MM + along_mm - self.from_mm
    }

    fn shows(&self, along_mm: f64) -> bool {
        (self.from_mm..=self.to_mm).contains(&along_mm)
    }
}

/// Where the timber ends the bar may be bent: as far beyond the outer bolt as half of what lies between the bolts.
fn tip_mm(bracket: &RingBracket) -> f64 {
    let [inner, outer] = bracket.bolts_mm;
    outer + 0.5 * (outer - inner)
}

/// The bar as one piece, or its two ends one under the other.
fn pieces(bracket: &RingBracket, clamp_mm: [f64; 2]) -> Vec<Piece> {
    let whole = Piece { from_mm: 0.0, to_mm: bracket.length_mm, top_mm: AROUND_MM };
    let inner_to_mm = tip_mm(bracket) + BARE_MM;
    let outer_from_mm = clamp_mm[0] - BARE_MM;
    if outer_from_mm - inner_to_mm < MOST_BARE_MM {
        return vec![whole];
    }
    let down_mm = bracket.width_mm + LETTERS_MM + BETWEEN_MM;
    vec![
        Piece { to_mm: inner_to_mm, ..whole },
        Piece { from_mm: outer_from_mm, top_mm: whole.top_mm + down_mm, ..whole },
    ]
}

struct BarDrawn<'a> {
    bracket: &'a RingBracket,
    clamp_mm: [f64; 2],
}

impl BarDrawn<'_> {
    fn piece(&self, piece: &Piece) -> Vec<PageMark> {
        let bracket = self.bracket;
        let [left, right] = [piece.at(piece.from_mm), piece.at(piece.to_mm)];
        let (top, bottom) = (piece.top_mm, piece.top_mm + bracket.width_mm);
        let middle = 0.5 * (top + bottom);
        let edge = || plain(INK.paper(), 0.5);
        let mut marks = vec![
            ruled(&[[left, top], [right, top]], edge()),
            ruled(&[[left, bottom], [right, bottom]], edge()),
            end([left, top], bracket.width_mm, piece.from_mm > 0.0),
            end([right, top], bracket.width_mm, piece.to_mm < bracket.length_mm),
            ruled(
                &[[left - 4.0, middle], [right + 4.0, middle]],
                Stroke { dashes_mm: vec![6.0, 1.5, 1.0, 1.5], ..plain(GREY.paper(), 0.18) },
            ),
        ];
        for (letter, at_mm, hole_mm) in self.holes().into_iter().filter(|it| piece.shows(it.1)) {
            marks.extend(hole([piece.at(at_mm), middle], hole_mm, true));
            marks.push(words([piece.at(at_mm), bottom + 5.0], SMALL_MM, true, Align::Middle, letter));
        }
        let tip_mm = tip_mm(bracket);
        if bracket.beyond_tip_m > 0.0 && tip_mm < self.clamp_mm[0] && piece.shows(tip_mm) {
            let bend = Stroke { dashes_mm: vec![3.0, 1.5], ..plain(INK.paper(), 0.25) };
            marks.push(ruled(&[[piece.at(tip_mm), top], [piece.at(tip_mm), bottom]], bend));
        }
        marks
    }

    fn holes(&self) -> [(&'static str, f64, f64); 4] {
        let RingBracket { bolts_mm: [b1, b2], bolt_hole_mm, clamp_hole_mm, .. } = *self.bracket;
        let [c1, c2] = self.clamp_mm;
        [
            ("B1", b1, bolt_hole_mm),
            ("B2", b2, bolt_hole_mm),
            ("C1", c1, clamp_hole_mm),
            ("C2", c2, clamp_hole_mm),
        ]
    }
}

/// The bar's end: square where it is cut, a zigzag where only the drawing ends (ISO 128-2:2020, line type 01.1 with
/// zigzags: the limit of an interrupted view; from memory).
fn end([x, top]: [f64; 2], width_mm: f64, broken: bool) -> PageMark {
    let bottom = top + width_mm;
    if !broken {
        return ruled(&[[x, top], [x, bottom]], plain(INK.paper(), 0.5));
    }
    let (middle, half) = (0.5 * (top + bottom), 3.0);
    let zigzag = [
        [x, top - 2.0],
        [x, middle - half],
        [x - half, middle - 1.0],
        [x + half, middle + 1.0],
        [x, middle + half],
    ];
    let whole: Vec<[f64; 2]> = zigzag.into_iter().chain([[x, bottom + 2.0]]).collect();
    ruled(&whole, plain(INK.paper(), 0.25))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::UnitSystem;

    /// Where the rims of one width lie, from the figure's edge.
    fn rims(figure: &FullSize, across: f64) -> Vec<[f64; 2]> {
        let all = figure.marks.iter().filter_map(PageMark::extent);
        let rims = all.filter(|it| (it.w - across).abs() < 0.05 && (it.h - across).abs() < 0.05);
        rims.map(|it| [it.x + it.w / 2.0 - AROUND_MM, it.y + it.h / 2.0 - AROUND_MM]).collect()
    }

    /// By hand: holes 19, 119, 600 and 627.3 mm from the bar's inner end, all on its middle line. Its timber ends at 169 mm, so it is drawn
    /// to 199 and again from 570 mm on, 40 + 6 + 10 mm lower: the clamp's holes come 30 and 57.3 mm from that piece's edge.
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
        for (across, places) in [(9.5, [[19.0, 20.0], [119.0, 20.0]]), (7.5, [[30.0, 76.0], [57.3, 76.0]])] {
            let found = rims(&figure, across);
            assert_eq!(found.len(), 2, "{found:?}");
            for (at, place) in found.iter().zip(places) {
                assert!((at[0] - place[0]).abs() < 0.02 && (at[1] - place[1]).abs() < 0.02, "{at:?}");
            }
        }
        assert!((figure.size_mm[0] - 215.0).abs() < 1e-9, "{:?}", figure.size_mm);
        assert!(figure.how.contains("mark C1 481 mm from B2"), "{}", figure.how);
        // With 99 mm of bare bar the whole of it is drawn, with 101 mm it is not.
        for (clamp_mm, broken) in [([328.0, 355.3], false), ([330.0, 357.3], true)] {
            let figure =
                of(&RingBracket { clamp_mm: Some(clamp_mm), length_mm: 370.0, ..bracket.clone() }, units)
                    .expect("all is known");
            let across = [clamp_mm[0], 30.0][usize::from(broken)];
            assert!((rims(&figure, 7.5)[0][0] - across).abs() < 0.02);
            assert_eq!(figure.how.contains("are drawn"), broken);
        }
        assert!(of(&RingBracket { clamp_mm: None, ..bracket.clone() }, units).is_none());
        assert!(of(&RingBracket { bar_mm: None, ..bracket }, units).is_none());
    }
}
