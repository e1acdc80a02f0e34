//! How tight the guys are: what was found, what to do about it, why a reading is none.

use crate::job::TensionWay;
use crate::ringing::{NoNote, TensionStanding};

pub(crate) const CAUTION: &str = "Change a guy by half of what is said, then read all of its level again: one guy pulls at the others \
through the mast. Never loosen one so far that the mast leans on the rest, and let nobody stand under it. All of it rests on \
the rope’s weight a metre as entered; a wet rope is heavier and seems slacker than it is.";

pub(crate) const WATCH: &str = "Push the rope sideways at its middle in its own time, let go, say nought at one end of a swing \
and count each time it is there again.";

pub(crate) fn headline(measured: usize, of: usize, worst: TensionStanding) -> String {
    match (measured, worst) {
        (0, _) => format!("None of the {of} guys is measured yet: how tight they are is not known."),
        (measured, _) if measured < of => {
            format!("{measured} of {of} guys are measured; how tight the rest are is not known yet.")
        }
        (_, TensionStanding::AsPlanned) => format!("All {of} guys are as tight as planned."),
        (_, TensionStanding::CannotTell) => {
            format!("All {of} guys are measured, but not all surely enough to tell.")
        }
        _ => format!("All {of} guys are measured; some are not as tight as planned."),
    }
}

pub(crate) fn standing(standing: TensionStanding) -> &'static str {
    match standing {
        TensionStanding::NotKnown => "not known yet",
        TensionStanding::AsPlanned => "as planned",
        TensionStanding::Slacker => "too slack",
        TensionStanding::Tighter => "too tight",
        TensionStanding::CannotTell => "cannot be told yet: read it again",
    }
}

pub(crate) fn level(mean: Option<&str>, odd: Option<&str>) -> String {
    match (mean, odd) {
        (None, _) => "How even the level is shows once each of its guys is measured.".to_owned(),
        (Some(mean), Some(odd)) => {
            format!("On average {mean}. Begin with {odd}: it is farthest from the others.")
        }
        (Some(mean), None) => format!("On average {mean}, and no guy stands out from the others."),
    }
}

pub(crate) fn tolerance(percent: u32) -> String {
    format!("As planned is within {percent} % of the planned tension.")
}

pub(crate) fn way(way: TensionWay) -> &'static str {
    match way {
        TensionWay::Tapped => "tapped along",
        TensionWay::Watch => "by a watch",
        TensionWay::Felt => "phone on the rope",
        TensionWay::Heard => "by ear of the phone",
        TensionWay::PulledAside => "pulled aside",
    }
}

pub(crate) const NOT_THIS_ROPE: &str =
    "no tension of this rope gives this: look at the rope’s weight and which guy it was";
pub(crate) const HARDLY_EVER: &str = "Noise alone hardly ever makes a peak as high.";

pub(crate) fn by_chance(one_in: u32) -> String {
    format!("Noise alone would make a peak as high in one recording of {one_in}.")
}

pub(crate) fn turns(quarters: i64) -> String {
    let (whole, rest) = (quarters / 4, quarters % 4);
    let part = ["", "1/4", "1/2", "3/4"][rest.unsigned_abs() as usize % 4];
    match (whole, part) {
        (0, "") => "less than a quarter turn".to_owned(),
        (0, part) => format!("{part} of a turn"),
        (1, "") => "1 turn".to_owned(),
        (whole, "") => format!("{whole} turns"),
        (whole, part) => format!("{whole} {part} turns"),
    }
}

pub(crate) const TOO_QUICK_FOR_A_WATCH: &str = "too quick to count by eye: use the phone, or pull it aside";

pub(crate) const NOT_KNOWN: &str = "a time not known yet";

pub(crate) const HANGS_AT_NO_SUCH_TENSION: &str =
    "not known yet: the planned tension can't hold this rope up so far and so high";

pub(crate) fn seconds(swings: u16, planned: &str) -> String {
    format!("{swings} swings in {planned}")
}

pub(crate) fn seconds_beside(tighter: &str, slacker: &str) -> String {
    format!("{tighter} a fifth tighter, {slacker} a fifth slacker")
}

/// Why a recording or a count gives no note, and what to do instead.
pub(crate) fn no_note(why: NoNote) -> [&'static str; 2] {
    match why {
        NoNote::NoSignal => [
            "Nothing came from the sensor.",
            "Tap along with the swings, time them by a watch, or pull the rope aside with a scale.",
        ],
        NoNote::TooShort => ["That was too short.", "Let it run for ten seconds after the push."],
        NoNote::Gaps => [
            "The phone left out readings in between.",
            "Close what else runs on the phone and try again, or tap along with the swings.",
        ],
        NoNote::TooNoisy => [
            "Too noisy: no swing stands out.",
            "Wait for a lull, push the rope harder, hang the phone farther from the end; or tap along, or pull the rope aside with a scale.",
        ],
        NoNote::TwoNotes => [
            "Two notes are there, and which one is the rope’s cannot be told.",
            "Push it to the side only, let go gently, and let nobody touch the other ropes or the mast; or pull it aside with a scale.",
        ],
        NoNote::Hum => [
            "What was heard is the hum of the mains.",
            "Go away from lamps, leads and chargers, or hang the phone on the rope instead.",
        ],
        NoNote::TooFewSwings => [
            "Too few swings to tell.",
            "Go on for twenty swings; where the rope stops sooner, push it again and begin anew.",
        ],
        NoNote::Uneven => [
            "The taps do not keep time with any even swing.",
            "Tap once each time the rope is at the same end, and begin anew when you lose it.",
        ],
        NoNote::TooQuick => {
            ["Too quick to count.", "Hang the phone on the rope, or pull the rope aside with a scale."]
        }
        NoNote::Unsharp => [
            "It swings, but how quickly is not clear enough.",
            "Push it harder and let the phone feel it for the whole ten seconds.",
        ],
    }
}
