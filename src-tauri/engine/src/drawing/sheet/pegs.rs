//! The table of pegs.

use crate::drawing::pages::table::{Column, Table};
use crate::drawing::words::sheet::{COLUMNS_OF_PEGS, fixing_up};
use crate::job::{Job, Side};
use crate::plan::{Computed, Peg};
use crate::quantity::Units;
use crate::report::format;

/// Parts of the table's width that the columns take.
const COLUMNS: [Column; 7] = [
    Column { head: "Point", share: 0.2 },
    Column { head: "Tape", share: 0.13 },
    Column { head: "Read", share: 0.075 },
    Column { head: "Height", share: 0.165 },
    Column { head: "Tie", share: 0.16 },
    Column { head: "Tie", share: 0.16 },
    Column { head: "Side", share: 0.11 },
];

/// Every peg of the plan.
pub(super) fn table(job: &Job, computed: &Computed) -> Table {
    let rows = computed.plan.pegs.iter().map(|peg| cells(peg, job.units)).collect();
    Table { columns: COLUMNS.to_vec(), rows, note: COLUMNS_OF_PEGS.to_owned() }
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

fn cells(peg: &Peg, units: Units) -> Vec<String> {
    let none = || "–".to_string();
    let polar = peg.from_mast.as_ref();
    let ties = peg.ties.as_ref();
    let name = match peg.fixing_height_m {
        Some(height_m) => fixing_up(&short_name(peg), &format::length(height_m, units)),
        None => short_name(peg),
    };
    vec![
        name,
        polar.map_or_else(none, |p| format::length(p.tape_m, units)),
        polar.map_or_else(none, |p| format::bearing(p.reading_deg)),
        polar.map_or_else(none, |p| format::up_or_down(p.height_difference_m, units)),
        ties.map_or_else(none, |t| format!("{} {}", t.mark_a, format::length(t.tape_a_m, units))),
        ties.map_or_else(none, |t| format!("{} {}", t.mark_b, format::length(t.tape_b_m, units))),
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
            fixing_height_m: None,
            from_mast: None,
            ties: None,
        };
        short_name(&peg)
    }

    /// A tie of 43' 11 15/16", the longest that a yard has, stands on one line in the narrowest column there is: that of
    /// a table beside the map on Letter, or of one under it.
    #[test]
    fn the_longest_of_each_column_finds_room_on_one_line() {
        let longest = [
            "Lower + Upper guy 1",
            "15' 3 13/16\"",
            "103.6°",
            "1' 3 13/16\" down",
            "C 43' 11 15/16\"",
            "C 43' 11 15/16\"",
            "right 115°!",
        ];
        let row: Vec<String> = longest.iter().map(|&cell| cell.to_owned()).collect();
        let table = |rows: Vec<Vec<String>>| Table { columns: COLUMNS.to_vec(), rows, note: String::new() };
        let short = vec!["A".to_owned(); 7];
        let width = super::super::map_page::COLUMN_MM;
        assert!((table(vec![row]).height_mm(width) - table(vec![short]).height_mm(width)).abs() < 1e-9);
        assert!((COLUMNS.iter().map(|column| column.share).sum::<f64>() - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_shared_anchor_names_every_guy_in_the_room_there_is() {
        assert_eq!(named("Lower guy 1 + Upper guy 1 anchor", 2), "Lower + Upper guy 1");
        assert_eq!(named("Lower 2 + Upper 1 anchor", 2), "Lower 2 + Upper 1");
        assert_eq!(named("Upper guy 1 anchor", 1), "Upper guy 1 anchor");
        assert_eq!(named("A 1 + A 1 anchor", 2), "A 1 + A 1 anchor");
    }
}
