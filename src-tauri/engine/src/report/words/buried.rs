//! What lies underground, and whether anybody asked.

use chrono::{DateTime, FixedOffset};

use super::at_least;
use super::yard::{named_peg, peg};
use crate::finding::buried::{BuriedRemedy, BuriedRule, NotAsked, ServiceAnswer};
use crate::quantity::UnitSystem;

const CALL_FIRST: &str = "Call the one-call service (811 in the US; elsewhere its local equivalent) and wait \
     for the marks before driving anything. Private lines, such as those to a shed, a pool or a septic tank, are not \
     marked: ask whoever laid them.";

const DIG_BY_HAND: &str = "Private lines, such as those to a shed, a pool or a septic tank, are not in their answer: ask \
     whoever laid them, and dig the first part of every hole by hand.";

pub(super) fn sentence(rule: &BuriedRule) -> String {
    match rule {
        BuriedRule::LocationGuessed { service } => {
            format!("Where {service} lies is remembered or guessed, so distances to it prove nothing.")
        }
        BuriedRule::ToleranceByHabit { service, width_known } => {
            let edge = if *width_known {
                "from its outside edge"
            } else {
                "from its middle, because its width is not known: half of that comes on top"
            };
            format!(
                "The usual tolerance zone is kept round {service}, {edge}. Some places ask for more: Michigan for twice \
                 as much."
            )
        }
        BuriedRule::PegInZone { peg, service, in_doubt } => {
            let stands = if *in_doubt { "may stand" } else { "stands" };
            format!("{} {stands} in the tolerance zone of {service}.", named_peg(peg))
        }
        BuriedRule::RingInZone { service } => format!("Strands end in the tolerance zone of {service}."),
        BuriedRule::ServicesUnknown { because } => unknown(*because).to_owned(),
        BuriedRule::Answer(answer) => answered(answer),
    }
}

fn unknown(because: NotAsked) -> &'static str {
    match because {
        NotAsked::NobodySaid => "Nobody has said what lies underground; private lines are not marked.",
        NotAsked::NotTheUtilities => {
            "Nobody has asked the utilities what else lies underground than the lines entered."
        }
        NotAsked::NoneEntered => {
            "The utilities marked lines, and none is entered: nothing keeps clear of them."
        }
        NotAsked::AnswerWithoutDate => {
            "The utilities' answer that nothing of theirs lies here has no date: nobody can tell whether it still holds."
        }
    }
}

fn answered(answer: &ServiceAnswer) -> String {
    let date = |moment: DateTime<FixedOffset>| moment.format("%-d %B %Y");
    let notice =
        if answer.notice.is_empty() { String::new() } else { format!(" (notice {})", answer.notice.trim()) };
    let holds = match (answer.holds_until, answer.is_old) {
        (Some(until), false) => format!("It holds until {}.", date(until)),
        (Some(until), true) => format!("It held until {}, and this job goes on after that.", date(until)),
        (None, false) => format!(
            "How long it holds differs by place, 14 to 30 days in those that were looked up: count on {} at most.",
            date(answer.usually_until)
        ),
        (None, true) => format!(
            "How long it holds differs by place, and this job goes on after {}, when the first of them ends.",
            date(answer.usually_until)
        ),
    };
    format!(
        "The utilities answered on {}{notice} that none of their lines lies in the work area. {holds}",
        date(answer.at)
    )
}

pub(super) fn remedy(remedy: &BuriedRemedy, system: UnitSystem) -> String {
    match remedy {
        BuriedRemedy::CallFirst => CALL_FIRST.into(),
        BuriedRemedy::AskForTheZone => {
            "Ask the one-call service which distance holds where you are, and enter it.".into()
        }
        BuriedRemedy::MovePeg { kind, clear } => format!(
            "Move the {} {}, or dig by hand with a blunt tool until the service is seen; never drive there. {CALL_FIRST}",
            peg(*kind),
            at_least(clear, system)
        ),
        BuriedRemedy::WeighTheRingDown => {
            "Drive no pegs for the ring there: weigh it down instead, or end those strands elsewhere.".into()
        }
        BuriedRemedy::EnterTheMarkedLines => "Enter each line as it is marked on the ground.".into(),
        BuriedRemedy::EnterWhenTheyAnswered => format!("Enter when they answered. {DIG_BY_HAND}"),
        BuriedRemedy::AskAgainFirst => format!("Ask them again before anything is driven. {DIG_BY_HAND}"),
        BuriedRemedy::AskAgainLater => {
            format!("Ask again if anything is driven later than that. {DIG_BY_HAND}")
        }
    }
}
