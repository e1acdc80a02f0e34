//! What gusts do, and what to do about it.

use crate::wind_capacity::{MastPart, PartKind};

pub(crate) const WHICH_WIND: &str = "The gust, the strongest three seconds: a forecast names it beside the mean wind, which \
     is the smaller number. Inland a gust is about 1.7 times the ten-minute mean.";

pub(crate) const NOT_REHEARSED: &str = "not known: rehearse it once with everybody on a calm day, and enter the minutes under Build, Step by step";

pub(crate) fn took(minutes: f64, people: Option<u8>) -> String {
    let people = match people {
        Some(1) => " with one person".to_owned(),
        Some(people) => format!(" with {people} people"),
        None => ", with how many is not known".to_owned(),
    };
    format!("{:.0} min{people}, as you rehearsed it", minutes.ceil())
}

pub(crate) const NO_TIME_FORECAST: &str =
    "; enter the forecast gust and in how many minutes it comes, and it is counted here";

pub(crate) fn need_not(gust: &str) -> String {
    format!("; the gusts of {gust} that are forecast do not ask for it")
}

pub(crate) fn begin_within(gust: &str, in_minutes: f64, left: f64) -> String {
    format!(
        "; gusts of {gust} are forecast in {:.0} min: begin within {:.0} min",
        in_minutes.floor(),
        left.floor()
    )
}

pub(crate) fn too_late(gust: &str, in_minutes: f64) -> String {
    format!(
        "; gusts of {gust} are forecast in {:.0} min: too late to begin, keep everybody out of its fall",
        in_minutes.floor()
    )
}

/// Behind the speed at which one acts.
pub(crate) fn top_moves(shown: &str) -> String {
    format!(" Its top then moves by up to about {shown} in the gust.")
}

pub(crate) fn not_known_because(reason: &str) -> String {
    format!("Not known yet. {reason}")
}

/// So many parts are not shown to hold.
pub(crate) fn not_shown(parts: usize) -> String {
    let parts = if parts == 1 { "one part is".into() } else { format!("{parts} parts are") };
    format!("Not known yet: {parts} not shown to.")
}

pub(crate) fn nothing_to_change(most: &str) -> String {
    format!("Nothing: no part is fully used in gusts up to {most}, and none stronger is looked at.")
}

/// Where no step that was tried helps.
pub(crate) fn no_step_helps(weakest: Option<&MastPart>) -> String {
    let part = weakest.map_or_else(|| "the mast".to_owned(), |part| super::part(&part.name));
    let way = weakest.map_or("", |part| farther(part.kind));
    format!(
        "None of these steps is large enough, alone or several together. The first to be fully used is {part}: {way} \
         Till then keep to the limit, and lower the mast in good time."
    )
}

/// What to build otherwise where no step of those that are tried brings anything: by the part that is the weakest.
fn farther(kind: PartKind) -> &'static str {
    match kind {
        PartKind::Tube | PartKind::PinHole | PartKind::Thread => {
            "take tubes a whole size stouter all the way up, build lower by a third, or hang half as much on it."
        }
        PartKind::Pin => {
            "take pins a whole size thicker, of bolt steel with papers, or slacken the guys above."
        }
        PartKind::Coupling => {
            "take stouter couplings with papers, or tubes that slide in one another instead of such that are screwed on."
        }
        PartKind::Collar => {
            "take a collar with a thicker bolt and thicker walls, or let it lie on a shoulder."
        }
        PartKind::Rope => "take rope twice as strong with better ends, and anchors farther out.",
        PartKind::Anchor => {
            "set other anchors, deeper and larger ones, four to a level, or hang half as much on the mast."
        }
        PartKind::Timber | PartKind::BaseTimber | PartKind::Foot => {
            "build the base of timbers twice as thick, with a large plate under the mast and a board packed under the joint."
        }
        PartKind::Ground => "spread the base on boards twice as large, or move the mast to firmer ground.",
        PartKind::BaseSliding => {
            "drive longer and thicker stakes on every leg, or move the mast to firmer ground."
        }
        PartKind::WholeMast => {
            "add a second level of guys, take stiffer rope and stouter tubes, and build lower."
        }
        PartKind::Strands | PartKind::BaseTurning => "do not count on it: let the guys alone hold the mast.",
    }
}
