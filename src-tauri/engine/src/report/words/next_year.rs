//! What is packed, and what to look at before it stands in the same place again.

use crate::season::again::NorthAgain;
use crate::season::packing::{PackChore, PackWhat};

pub(crate) const NOT_KNOWN: &str = "not known yet";
pub(crate) const NO_LENGTH: &str = "How long the longest piece is is not known yet.";
pub(crate) const PACK_CAUTION: &str = "Two carry what one can hardly lift, and nobody lifts a tube by its end alone. A screw that is turned out comes \
with a jerk: keep your face away. Holes are filled the same day.";
pub(crate) const AGAIN_CAUTION: &str = "Last year’s pegs and answers do not hold: what lies underground is asked for and marked anew, somebody looks up for wires again, and ropes, \
anchors and timber are looked at as if they were new to you. Tapes find a mark that moved by itself; marks that moved together, as on a slope that creeps, they do not find.";
pub(crate) const NOT_SEEN: &str = "None of these tapes shows it: read one from it, too, or do not use it.";

pub(crate) fn packed(packed: usize, of: usize) -> String {
    format!("{packed} of {of} packed.")
}

pub(crate) fn longest(name: &str, length: &str, missing: u32) -> String {
    match missing {
        0 => format!("The longest piece is {length}: {name}."),
        1 => format!(
            "The longest piece whose length is known is {length}: {name}. Of one the length is not known yet."
        ),
        missing => {
            format!(
                "The longest piece whose length is known is {length}: {name}. Of {missing} the length is not known yet."
            )
        }
    }
}

pub(crate) fn total(known: &str, missing: u32) -> String {
    match missing {
        0 => format!("All of it weighs {known}."),
        1 => format!("What it all weighs is not known yet: {known}, and one thing that nobody has weighed."),
        missing => format!(
            "What it all weighs is not known yet: {known}, and {missing} things that nobody has weighed."
        ),
    }
}

pub(crate) fn each(words: &str) -> String {
    format!("{words} each")
}

pub(crate) fn many(count: u32, name: &str) -> String {
    format!("{count} × {name}")
}

pub(crate) fn pack_name(what: &PackWhat) -> String {
    match what {
        // Said by the words of the cut list.
        PackWhat::Cut { .. } => String::new(),
        PackWhat::Anchors { name, .. } => format!("anchor of {name}"),
        PackWhat::Collars { name, .. } => format!("collar of {name}, with shackles and pins"),
        PackWhat::Strands => "strand of lights".to_owned(),
        PackWhat::Topper => "topper".to_owned(),
        PackWhat::WinchAndStrap => "winch with its strap".to_owned(),
        PackWhat::Lead => "lead to the mast".to_owned(),
    }
}

pub(crate) fn chore(chore: PackChore) -> &'static str {
    match chore {
        PackChore::RopesDried => "Ropes dried",
        PackChore::StrandsDried => "Strands dried, numbered, each rolled up by itself",
        PackChore::TubesDrained => "Tubes drained, wiped and oiled where they slide",
        PackChore::ScrewsOut => "Anchors out",
        PackChore::StakesOut => "Base stakes out",
        PackChore::HolesFilled => "Holes filled and trodden firm",
        PackChore::MarksKept => "Marks left where they are",
        PackChore::TakenDownWritten => "“Taken down” written into the diary",
    }
}

pub(crate) fn chore_why(chore: PackChore) -> &'static str {
    match chore {
        PackChore::RopesDried => "A rope that is packed wet is weaker next year, and may rot.",
        PackChore::StrandsDried => {
            "Water in a socket is next year’s short circuit; the number says where it hung."
        }
        PackChore::TubesDrained => "Water that stays in a tube rusts it, and splits it in frost.",
        PackChore::ScrewsOut => "A mower or a foot finds what is left in the grass.",
        PackChore::StakesOut => "They stand up from the ground where somebody falls.",
        PackChore::HolesFilled => "A hole breaks an ankle, and water in it softens the ground for next year.",
        PackChore::MarksKept => {
            "From them the whole survey can be used again: a photo of each helps to find it."
        }
        PackChore::TakenDownWritten => {
            "Then no round is due, and nothing of this year is compared with the next."
        }
    }
}

pub(crate) fn lesson(text: &str, day: &str) -> String {
    format!("Noted before: {text} ({day})")
}

fn degrees(value_deg: f64) -> String {
    super::super::format::angle(value_deg)
}

pub(crate) fn north(north: &NorthAgain) -> String {
    match north {
        NorthAgain::AsItWas => "Bearings here do not hang on a compass: they are as they were.".to_owned(),
        NorthAgain::Turned { then_deg, now_deg, shows_more_deg, .. } => {
            let way = if *shows_more_deg < 0.0 { "less" } else { "more" };
            format!(
                "Magnetic declination was {} and is {}: for the same direction a compass shows {} {way} than then.",
                degrees(*then_deg),
                degrees(*now_deg),
                degrees(shows_more_deg.abs())
            )
        }
        NorthAgain::GivenThen { declination_deg } => format!(
            "A declination of {} was entered then; what it is now is not known yet.",
            degrees(*declination_deg)
        ),
        NorthAgain::NotKnown => {
            "What the compass shows against then is not known yet: place and day of the survey are missing."
                .to_owned()
        }
    }
}

pub(crate) fn north_does(north: &NorthAgain) -> &'static str {
    match north {
        NorthAgain::AsItWas => "",
        NorthAgain::Turned { out_of_date: true, .. } => {
            "The magnetic model does not reach to this day: take a bearing along two old marks and see."
        }
        NorthAgain::Turned { .. } => {
            "Keep the day of the survey as it is for the old bearings. New compass readings go with the new day: enter them in a copy with its own day, or take them from a line between two marks."
        }
        NorthAgain::GivenThen { .. } => "Look it up for the new day before you read a compass.",
        NorthAgain::NotKnown => "Enter place and day, or take bearings from a line between two marks.",
    }
}

pub(crate) fn tapes(count: usize, left_out: u32) -> String {
    let says = match count {
        0 => "There are no two marks to tape between: whether one has moved can’t be told.".to_owned(),
        1 => "Read this tape before you trust the old survey.".to_owned(),
        count => format!("Read these {count} tapes before you trust the old survey."),
    };
    if left_out == 0 {
        says
    } else {
        format!("{says} {left_out} marks were left out: there are too many to try.")
    }
}

pub(crate) fn tape(from: &str, to: &str) -> String {
    format!("{from} to {to}")
}

pub(crate) fn doubt(from: &str) -> String {
    format!("doubt it from {from} off")
}

pub(crate) fn every_way(least: &str) -> String {
    format!("A shift of {least} and more is found 19 times in 20, whichever way it went.")
}

pub(crate) fn one_way(least: &str, bearing: &str) -> String {
    format!("A shift of {least} and more along {bearing} is found 19 times in 20; one across that is not.")
}

pub(crate) fn changes(count: Option<usize>) -> String {
    match count {
        None => {
            "What changed since is not known yet: there is no state of the job from then to hold it against."
                .to_owned()
        }
        Some(0) => "Nothing of yard and parts has changed since.".to_owned(),
        Some(1) => "One thing of yard and parts has changed since.".to_owned(),
        Some(count) => format!("{count} things of yard and parts have changed since."),
    }
}
