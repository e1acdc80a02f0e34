//! The table of pegs.

use crate::drawing::scene::Align;
use crate::drawing::svg::{number, rect};
use crate::job::{Job, Side};
use crate::plan::{Computed, Peg};
use crate::quantity::Units;
use crate::report::say;

use super::Block;
use super::blocks::{SMALL, aligned, cut, line, wrapped};

const ROW: f64 = 3.9;
const HEAD: f64 = 4.6;
/// Parts of the table's width that the columns take.
const COLUMNS: [(&str, f64); 7] = [
    ("Point", 0.214),
    ("Tape", 0.124),
    ("Read", 0.07),
    ("Height", 0.169),
    ("Tie", 0.158),
    ("Tie", 0.158),
    ("Side", 0.107),
];

/// Lettering of the cells: the longest of every column have to stand beside each other.
const CELL: f64 = 2.1;
/// How much wider than reckoned the digits of the fonts are that a browser takes where it has no Helvetica: DejaVu Sans.
const WIDER_FONT: f64 = 1.06;

/// Rows that a plan's pegs need.
pub(super) fn row_count(computed: &Computed) -> usize {
    computed.plan.pegs.len()
}

/// Height of a table of so many rows, with its heading and its foot line.
pub(super) fn height_mm(rows: usize) -> f64 {
    HEAD + ROW * (rows as f64 + 1.0)
}

/// Writes the table; what finds no room is counted in its last line, never dropped in silence.
pub(super) fn pegs(out: &mut String, job: &Job, computed: &Computed, block: Block) {
    let pegs = &computed.plan.pegs;
    let room = (((block.h - HEAD) / ROW).floor() as usize).saturating_sub(1);
    let mut x = block.x;
    rect(out, [block.x, block.y, block.w, HEAD], "fill=\"#e9edf0\" stroke=\"none\"");
    for (name, share) in COLUMNS {
        line(out, [x + 0.6, block.y + HEAD / 2.0], SMALL, true, name);
        x += share * block.w;
    }
    for (i, peg) in pegs.iter().take(room).enumerate() {
        row(out, &cells(peg, job.units), block, block.y + HEAD + ROW * i as f64);
    }
    let last = block.y + HEAD + ROW * pegs.len().min(room) as f64 + ROW / 2.0;
    let words = if pegs.len() > room {
        format!(
            "and {} more points, which this sheet has no room for: see the list in the app",
            pegs.len() - room
        )
    } else {
        "Tape along the ground from the mast; read: bearing as read in this yard; height against the ground at the mast; ties: tapes from two marks, and the angle they cross at."
            .to_string()
    };
    for (i, part) in wrapped(&words, 1.8, block.w).iter().enumerate() {
        line(out, [block.x, last + 2.4 * i as f64], 1.8, pegs.len() > room, part);
    }
}

fn row(out: &mut String, cells: &[String; 7], block: Block, y: f64) {
    let mut x = block.x;
    for (cell, (_, share)) in cells.iter().zip(COLUMNS) {
        let width = share * block.w;
        aligned(
            out,
            [x + 0.6, y + ROW / 2.0],
            CELL,
            false,
            Align::Start,
            &cut(cell, CELL * WIDER_FONT, width - 0.8),
        );
        x += width;
    }
    let [from, to, level] = [block.x, block.x + block.w, y + ROW].map(number);
    out.push_str(&format!(
        "<path d=\"M{from},{level} H{to}\" fill=\"none\" stroke=\"{}\" stroke-width=\"0.13\"/>\n",
        crate::drawing::paint::GREY.paper()
    ));
}

/// The peg's name; of an anchor that several guys share, what their names end in alike is written once, so that all of
/// them find room: `Lower + Upper guy 1`.
fn short_name(peg: &Peg) -> String {
    if peg.guys.len() < 2 {
        return peg.name.clone();
    }
    let names = peg.name.strip_suffix(" anchor").unwrap_or(&peg.name);
    let words: Vec<Vec<&str>> = names.split(" + ").map(|name| name.split(' ').collect()).collect();
    let Some((first, others)) = words.split_first() else { return peg.name.clone() };
    let nth_last = |words: &[&str], n: usize| {
        words.len().checked_sub(n + 1).and_then(|i| words.get(i).map(|w| (*w).to_owned()))
    };
    let alike = (0..first.len())
        .take_while(|&n| {
            others
                .iter()
                .all(|other| nth_last(other, n).is_some() && nth_last(other, n) == nth_last(first, n))
        })
        .count();
    let own = |words: &Vec<&str>| words.get(..words.len() - alike).unwrap_or_default().join(" ");
    let ending = first.get(first.len() - alike..).unwrap_or_default().join(" ");
    let heads: Vec<String> = words.iter().map(own).collect();
    if heads.iter().any(String::is_empty) {
        return peg.name.clone();
    }
    format!("{} {ending}", heads.join(" + ")).trim().to_owned()
}

fn cells(peg: &Peg, units: Units) -> [String; 7] {
    let none = || "–".to_string();
    let polar = peg.from_mast.as_ref();
    let ties = peg.ties.as_ref();
    [
        short_name(peg),
        polar.map_or_else(none, |p| say::length(p.tape_m, units)),
        polar.map_or_else(none, |p| say::bearing(p.reading_deg)),
        polar.map_or_else(none, |p| say::up_or_down(p.height_difference_m, units)),
        ties.map_or_else(none, |t| format!("{} {}", t.mark_a, say::length(t.tape_a_m, units))),
        ties.map_or_else(none, |t| format!("{} {}", t.mark_b, say::length(t.tape_b_m, units))),
        ties.map_or_else(none, |t| {
            let side = if t.side == Side::Left { "left" } else { "right" };
            let poor = if t.good { "" } else { "!" };
            format!("{side} {:.0}°{poor}", t.crossing_deg)
        }),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Subject;

    fn named(name: &str, guys: usize) -> String {
        let peg = Peg {
            subject: Subject::Mast,
            name: name.into(),
            guys: vec![String::new(); guys],
            east_m: 0.0,
            north_m: 0.0,
            ground_m: 0.0,
            from_mast: None,
            ties: None,
        };
        short_name(&peg)
    }

    /// A tie of 43' 11 15/16", the longest that a yard has, must not run into the one beside it, whatever the font.
    #[test]
    fn the_longest_of_each_column_finds_room_on_either_paper() {
        let longest = [
            "Lower + Upper guy 1",
            "15' 3 13/16\"",
            "103.6°",
            "1' 3 13/16\" down",
            "C 43' 11 15/16\"",
            "C 43' 11 15/16\"",
            "right 115°!",
        ];
        // The table's width on Letter, the narrower one of the two.
        let width = 113.0;
        for (text, (name, share)) in longest.iter().zip(COLUMNS) {
            let needed = crate::drawing::labels::text_width_em(text) * CELL * WIDER_FONT;
            assert!(needed <= share * width - 0.8, "{name}: {text} takes {needed} of {}", share * width);
        }
        assert!((COLUMNS.iter().map(|(_, share)| share).sum::<f64>() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_shared_anchor_names_every_guy_in_the_room_there_is() {
        assert_eq!(named("Lower guy 1 + Upper guy 1 anchor", 2), "Lower + Upper guy 1");
        assert_eq!(named("Lower 2 + Upper 1 anchor", 2), "Lower 2 + Upper 1");
        assert_eq!(named("Upper guy 1 anchor", 1), "Upper guy 1 anchor");
        assert_eq!(named("A 1 + A 1 anchor", 2), "A 1 + A 1 anchor");
    }
}
