//! The mast in still air and in the wind.

use crate::finding::wind::{Collapse, NotCounted, WindRemedy, WindRule};

pub(super) fn sentence(rule: &WindRule) -> String {
    match rule {
        WindRule::StandsNotInStillAir { lowered, because } => format!(
            "The mast does not stand even in still air, {}. {}",
            height(*lowered),
            collapse(*because)
        ),
        WindRule::OverloadedInStillAir { part, lowered } => format!(
            "Even in still air more than it may carry rests on: {}, mast {}.",
            super::part(part),
            height(*lowered)
        ),
        WindRule::LimitBelowAskedGust { part, even_in_still_air } => {
            let part = part.as_ref().map_or_else(|| "the mast".to_owned(), super::part);
            if *even_in_still_air {
                format!("Even in still air more than it may carry rests on: {part}.")
            } else {
                format!("The mast is not shown to take the gust that you ask for; the first to be fully used: {part}.")
            }
        }
        WindRule::GuysWhenLowered { guys, made_fast: true } => format!(
            "The limit of the mast run down counts on this: the guys of {guys} are made fast again where their collar \
             then is, and tightened as they were."
        ),
        WindRule::GuysWhenLowered { guys, made_fast: false } => {
            format!("When the mast is run down the guys of {guys} hang slack: they are left as they are.")
        }
        WindRule::TerrainNotCounted { because: NotCounted::ShortFetch } => {
            "Houses or wood all round are not counted: nobody has said that they reach far enough on every side. Open \
             ground is taken, where the wind is stronger."
                .into()
        }
        WindRule::TerrainNotCounted { because: NotCounted::LocalGust } => {
            "Houses or wood all round are not counted: a gust of a forecast or station for this place is already one for \
             its own ground, and nothing may be taken off twice."
                .into()
        }
        WindRule::TubeYieldAssumed => "The tubes' yield is not known: the least of their kind is taken.".into(),
        WindRule::LimitNotFound { error } => format!("No gust limit could be found: {error}."),
    }
}

fn height(lowered: bool) -> &'static str {
    if lowered { "lowered" } else { "raised" }
}

/// Why a mast does not stand.
pub(crate) fn collapse(because: Collapse) -> &'static str {
    match because {
        Collapse::LeansAway => "The mast gives way: no position within 29° of plumb holds this load.",
        Collapse::Buckles => "The mast buckles: it balances, but the least push makes it give way.",
        Collapse::NotSettled => "No position was found in which the mast holds this load.",
    }
}

pub(super) fn remedy(remedy: &WindRemedy) -> &'static str {
    match remedy {
        WindRemedy::AnchorsAllRound => {
            "Set the anchors all round the mast, and rope and tension so that the guys hold it."
        }
        WindRemedy::RelieveGround => {
            "Put boards under the feet and under the joint, larger ones where there are some, set the guys less tight, or \
             hang less on the mast."
        }
        WindRemedy::RelieveBaseTimber => {
            "Pack a board tight under the joint, take thicker timbers, set the guys less tight, or hang less on the mast."
        }
        WindRemedy::RelieveFootTimber => {
            "Put a larger or thicker plate under the mast's foot, set the guys less tight, or hang less on the mast."
        }
        WindRemedy::RelievePart => "Set the guys less tight, take a stronger part, or hang less on the mast.",
        WindRemedy::ChangeOrLower => "Look at what to change first, or lower the mast in good time.",
        WindRemedy::StandsWithWhenToAct => {
            "Height and tension stand with when to act. If you will not do that, say so in the guys' settings: they are \
             then taken to hang slack."
        }
        WindRemedy::MakeThemFastAgain => {
            "Make them fast again where their collar then is, and tighten them: then the lowered mast is held."
        }
        WindRemedy::SayHowFar => "Say on the page of the wind how far it is like that.",
        WindRemedy::SayIfForOpenCountry => {
            "Only if you will go by a gust told for open country, such as an airport's, say so on the page of the wind."
        }
        WindRemedy::EnterYield => "Enter the yield strength from the tube's papers, if there are any.",
        WindRemedy::PutRightWhatIsNamed => {
            "Put right what is named; the other findings of the plan may say more."
        }
    }
}
