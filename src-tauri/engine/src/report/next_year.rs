//! What is packed, and the same place again, in words.

use serde::Serialize;

use super::format;
use super::words::next_year as say;
use super::words::shopping::piece;
use crate::job::Job;
use crate::quantity::Units;
use crate::season::again::{MarkCheck, MarkSeen, MarkTape, SamePlace};
use crate::season::packing::{PackItem, PackWhat, PackingList};

/// The packing list, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PackingReport {
    pub headline: String,
    pub longest: String,
    pub total: String,
    pub items: Vec<PackItemText>,
    pub chores: Vec<PackChoreText>,
    pub caution: String,
}

/// Things that are alike.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PackItemText {
    pub part: String,
    pub name: String,
    /// That it is not known yet, where it is not.
    pub length: String,
    pub mass: String,
    pub packed: bool,
}

/// Something that is easily forgotten.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct PackChoreText {
    pub part: String,
    pub name: String,
    pub why: String,
    pub source: String,
    pub done: bool,
}

/// The same place again, for people.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SamePlaceReport {
    pub north: String,
    /// What to do about it.
    pub north_does: String,
    pub tapes_say: String,
    pub tapes: Vec<MarkTapeText>,
    pub marks: Vec<MarkWatchedText>,
    pub changes_say: String,
    pub caution: String,
}

/// A tape between two marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MarkTapeText {
    pub name: String,
    pub tape: String,
    pub doubt: String,
}

/// What the tapes show of a mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MarkWatchedText {
    pub name: String,
    pub says: String,
    /// A shift is found whichever way it went.
    pub every_way: bool,
}

/// Puts the packing list into words.
pub fn packing(job: &Job, list: &PackingList) -> PackingReport {
    let units = job.units;
    let packed = list.items.iter().filter(|item| item.packed).count();
    let longest = list.items.iter().find(|item| list.longest.as_ref() == Some(&item.part));
    let longest = longest.and_then(|item| Some((pack_name(&item.what), item.length_m?)));
    PackingReport {
        headline: say::packed(packed, list.items.len()),
        longest: match longest {
            Some((name, length_m)) => {
                say::longest(&name, &format::length(length_m, units), list.lengths_missing)
            }
            None => say::NO_LENGTH.to_owned(),
        },
        total: say::total(&format::mass(list.known_kg, units), list.masses_missing),
        items: list.items.iter().map(|item| item_text(item, units)).collect(),
        chores: list
            .chores
            .iter()
            .map(|it| PackChoreText {
                part: it.chore.part(),
                name: say::chore(it.chore).to_owned(),
                why: say::chore_why(it.chore).to_owned(),
                source: it.chore.source().source().citation.to_owned(),
                done: it.done,
            })
            .collect(),
        caution: say::PACK_CAUTION.to_owned(),
    }
}

fn item_text(item: &PackItem, units: Units) -> PackItemText {
    let name = pack_name(&item.what);
    let of_each = |words: Option<String>| {
        let words = words.unwrap_or_else(|| say::NOT_KNOWN.to_owned());
        if item.count > 1 { say::each(&words) } else { words }
    };
    PackItemText {
        part: item.part.clone(),
        name: if item.count > 1 { say::many(item.count, &name) } else { format::capital(&name) },
        length: of_each(item.length_m.map(|length_m| format::length(length_m, units))),
        mass: of_each(item.mass_kg.map(|mass_kg| format::mass(mass_kg, units))),
        packed: item.packed,
    }
}

fn pack_name(what: &PackWhat) -> String {
    match what {
        PackWhat::Cut { piece: of } => piece(of),
        other => say::pack_name(other),
    }
}

/// Puts the same place again into words. `changes` is how many things differ from then; none where nobody has the job as it was.
pub fn same_place(job: &Job, place: &SamePlace, changes: Option<usize>) -> SamePlaceReport {
    let units = job.units;
    let check = &place.check;
    SamePlaceReport {
        north: say::north(&place.north),
        north_does: say::north_does(&place.north).to_owned(),
        tapes_say: say::tapes(check.tapes.len(), check.marks_left_out),
        tapes: check.tapes.iter().map(|tape| tape_text(check, tape, units)).collect(),
        marks: check
            .marks
            .iter()
            .map(|mark| MarkWatchedText {
                name: mark.name.clone(),
                says: seen(mark.seen, units),
                every_way: matches!(mark.seen, MarkSeen::EveryWay { .. }),
            })
            .collect(),
        changes_say: say::changes(changes),
        caution: say::AGAIN_CAUTION.to_owned(),
    }
}

fn tape_text(check: &MarkCheck, tape: &MarkTape, units: Units) -> MarkTapeText {
    let name = |id: &String| check.marks.iter().find(|mark| mark.mark == *id).map_or("", |mark| &mark.name);
    MarkTapeText {
        name: say::tape(name(&tape.from), name(&tape.to)),
        tape: format::length(tape.tape_m, units),
        doubt: say::doubt(&format::length(tape.doubt_from_m, units)),
    }
}

fn seen(seen: MarkSeen, units: Units) -> String {
    let least = |least_m: f64| format::length(least_m, units);
    match seen {
        MarkSeen::EveryWay { least_m } => say::every_way(&least(least_m)),
        MarkSeen::OneWay { least_m, bearing_deg } => {
            say::one_way(&least(least_m), &format::bearing(bearing_deg))
        }
        MarkSeen::NotAtAll => say::NOT_SEEN.to_owned(),
    }
}

/// A day's notes for the next year, of a card or a part of the day by its key.
pub(super) fn lessons(job: &Job, key: &str) -> Vec<String> {
    let own = job.season.lessons.iter().filter(|lesson| lesson.card == key);
    own.map(|lesson| say::lesson(&lesson.text, &lesson.noted_at.date_naive().to_string())).collect()
}
