//! What each reading is worth, and what to read again.

use crate::shares::FurtherReading;

pub(crate) const NOTHING_HELPS: &str = "No one more reading would make feet and guys surer by a twentieth of their ±: what is left is mostly how exactly you set out.";
pub(crate) const GROUND_FIRST: &str = "Not known yet: nobody measured the ground both ways, and that outweighs every reading there is. Read its slope along two bearings first, under Measure, Slopes.";
pub(crate) const NOT_LOOKED_FOR: &str = "Not known yet: it was stopped before its end, or hardly any yard like yours can be planned (two tapes that hardly meet?).";
pub(crate) const MEANS: &str = "Parts of a number’s variance: two of 50 each are as heavy as each other, and without one of them the ± would be 0.7 of what it is. \
     What nobody measured (an unknown cable, soft ground, a slip with the saw) is in none of them.";

pub(crate) const NORTH: &str = "north: how far the compass points beside it";
pub(crate) const TOGETHER: &str = "several at once: on which of its legs the base comes to lie";
pub(crate) const PEG_MAST: &str = "pegging out the mast";
pub(crate) const TURN_BASE: &str = "turning the base";
pub(crate) const THE_REST: &str = "all the rest together";

pub(crate) fn helps_most(what: &str) -> String {
    format!("What would help most: {what}.")
}

pub(crate) fn left_out(count: u32) -> String {
    match count {
        0 => String::new(),
        1 => "One spot height far off the mast counts as exact here.".to_owned(),
        more => format!("{more} spot heights far off the mast count as exact here."),
    }
}

pub(crate) fn gain(label: &str, before: &str, after: &str) -> String {
    format!("{label}: {before} becomes {after}")
}

pub(crate) fn would(what: &str, before: &str, after: &str) -> String {
    format!("{what}: {before} becomes {after}")
}

/// A share in hundredths.
pub(crate) fn of_hundred(share: f64) -> String {
    if share < 0.01 { "less than 1 of 100".to_owned() } else { format!("{:.0} of 100", 100.0 * share) }
}

pub(crate) fn anchor_place(guy: &str) -> String {
    format!("{guy}: where its anchor comes to stand")
}

pub(crate) fn slope(along: &str) -> String {
    format!("slope read along {along}")
}

pub(crate) fn spot_height(number: u32) -> String {
    format!("spot height {number}")
}

pub(crate) fn mark(id: &str) -> String {
    format!("mark {id}: how it was found")
}

pub(crate) fn tape(from: &str, to: &str) -> String {
    format!("tape from {from} to {to}")
}

pub(crate) fn bearing(from: &str, to: &str) -> String {
    format!("bearing from {from} to {to}")
}

pub(crate) fn point(thing: &str, number: Option<u32>) -> String {
    match number {
        Some(number) => format!("{thing}: point {number}"),
        None => format!("{thing}: where it stands"),
    }
}

pub(crate) fn height(thing: &str) -> String {
    format!("{thing}: its height")
}

pub(crate) fn peg_anchor(guy: &str) -> String {
    format!("pegging out the anchor of {guy}")
}

pub(crate) fn read_slope(along: &str) -> String {
    format!("read the slope by the mast along {along}, as your bearings are read")
}

pub(crate) fn read_height_under(leg: &str) -> String {
    format!("take the ground’s height where the {leg} leg’s tip will lie")
}

pub(crate) fn read_height_at(guy: &str) -> String {
    format!("take the ground’s height where the anchor of {guy} will stand")
}

pub(crate) fn read_tape(from: &str, to: &str) -> String {
    format!("tape from {from} to {to}")
}

pub(crate) fn read_again(what: &str) -> String {
    format!("read once more: {what}")
}

/// How it is done.
pub(crate) fn how(reading: &FurtherReading) -> &'static str {
    match reading {
        FurtherReading::Slope { .. } => {
            "Under Measure, Slopes: phone on a straight board, turned round for the second half."
        }
        FurtherReading::Height { .. } => {
            "Under Measure, Heights: by a water level or a board from ground whose height is known; its place by bearing and tape."
        }
        FurtherReading::Tape { .. } => "Under Measure, Between marks: pull the tape taut, read it twice.",
        FurtherReading::Again { .. } => {
            "Take it as if you had never read it, and enter the mean of both; never touch an overhead line to measure it."
        }
    }
}
