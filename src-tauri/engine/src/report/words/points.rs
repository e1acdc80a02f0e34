//! Points, readings between them, and what really stands.

use crate::finding::points::{Misses, PointRemedy, PointRule, ReadingName, ReadingOf};
use crate::report::format;

pub(super) fn sentence(rule: &PointRule) -> String {
    match rule {
        PointRule::ReadingSetAside { reading, is } => format!(
            "{} is {} than everything else says, by far more than chance explains. It is set aside: the marks are \
             placed without it.",
            format::capital(&name(reading)),
            compared(*is)
        ),
        PointRule::MeasurementDisagrees { reading, is, or } => {
            let others: Vec<String> = or.iter().map(name).collect();
            let also = if others.is_empty() {
                String::new()
            } else {
                format!(" Or it is {}.", others.join(", or "))
            };
            format!(
                "The readings between the marks do not agree, and there are too few to tell which is wrong. {} may be \
                 {} than the others say.{also}",
                format::capital(&name(reading)),
                compared(*is)
            )
        }
        PointRule::ThreeTapesDisagree { from, is } => format!(
            "The three tapes do not meet in one point: the tape from {from} is {} than the other two have it. One of \
             the three, or one of their marks, is wrong; three tapes can't tell which.",
            compared(*is)
        ),
        PointRule::PoorCrossing => {
            "The tapes that fix this point cross at a poor angle, so a small error of a tape moves it far.".into()
        }
        PointRule::LongOffset => {
            "This point is set square off its line over a long way, so a small error of the right angle moves it far."
                .into()
        }
        PointRule::FarPastLine => {
            "This point lies far beyond the line that it is measured along, so a small error of the line's direction \
             moves it far."
                .into()
        }
        PointRule::SteepTape => {
            "This tape rises or falls so steeply that a small error of its angle moves the point far.".into()
        }
        PointRule::LongChain => {
            "Many corners of this outline are found one from the other, so an error early on grows with each.".into()
        }
        PointRule::SideNotKnown { name } => format!(
            "{}: two places fit its two tapes, one on each side of the line between the marks. Until you say which, it \
             is left out of the plan and nothing keeps clear of it.",
            named(name)
        ),
        PointRule::HangsOnOpenPoint { name } => format!(
            "{}: it is measured from a point that is not placed yet, so it is left out of the plan and nothing keeps \
             clear of it.",
            named(name)
        ),
        PointRule::StandsFarFromPlan => {
            "It stands farther from its planned place than pegging out and measuring explain (95 %).".into()
        }
        PointRule::MeasuredAnchorWithoutGuy => {
            "An anchor was measured whose guy is not in the job any more; it is left out.".into()
        }
        PointRule::SideNotKnownAsBuilt => {
            "Two places fit its two tapes; until a side is named it is taken to stand as planned.".into()
        }
    }
}

/// Such as `the further tape from A to C`.
fn name(reading: &ReadingName) -> String {
    let the = if reading.further { "the further" } else { "the" };
    match &reading.of {
        ReadingOf::Baseline { from, to } => format!("{the} baseline from {from} to {to}"),
        ReadingOf::SketchedPlace { id } => format!("{the} sketched place of {id}"),
        ReadingOf::TapeAlong { id, from, to } => {
            format!("{the} tape to {id} along the line from {from} to {to}")
        }
        ReadingOf::Offset { id, from, to } => {
            format!("{the} offset to {id} from the line from {from} to {to}")
        }
        ReadingOf::Tape { from, to } => format!("{the} tape from {from} to {to}"),
        ReadingOf::Bearing { from, to } => format!("{the} bearing from {from} to {to}"),
    }
}

fn compared(is: Misses) -> &'static str {
    match is {
        Misses::Longer => "longer",
        Misses::Shorter => "shorter",
        Misses::ToTheRight => "farther round to the right",
        Misses::ToTheLeft => "farther round to the left",
        Misses::Away => "farther away",
    }
}

/// A point's name as the start of a sentence.
fn named(name: &str) -> &str {
    let name = name.trim();
    if name.is_empty() { "A point" } else { name }
}

pub(super) fn remedy(remedy: &PointRemedy) -> &'static str {
    match remedy {
        PointRemedy::MeasureAgainOrStrike => {
            "Measure it again and correct it if it was misread, or strike it out."
        }
        PointRemedy::MeasureTheseAgain => "Measure these again, and take one more tape between these marks.",
        PointRemedy::TapeAllThreeAgain => "Tape all three again.",
        PointRemedy::TapeFromOtherMarks => {
            "Tape it from another pair of marks, or take a bearing and one tape."
        }
        PointRemedy::TapeFromBothMarks => "Tape it from both marks of the line instead.",
        PointRemedy::MeasureAlongLongerLine => "Measure along a longer line, or tape it from two marks.",
        PointRemedy::MeasureInShorterSteps => "Measure in two shorter steps, or from another mark.",
        PointRemedy::TapeAFarCorner => "Tape one of the far corners from two marks.",
        PointRemedy::ChooseASide => {
            "Look at the two places on the map, and choose left or right where the point was measured."
        }
        PointRemedy::AnswerTheOtherPoint => {
            "Answer the other point's question, left or right; then this one is placed too."
        }
        PointRemedy::MeasureWhatStandsAgain => {
            "Measure it again. If it is right, go on with the lengths as it stands, or move the peg."
        }
        PointRemedy::ClearTheAnchor => "Clear it on the page “What really stands”.",
        PointRemedy::NameItsSide => {
            "Say on which side of the line between the marks it stands, on the page “What really stands”."
        }
    }
}
