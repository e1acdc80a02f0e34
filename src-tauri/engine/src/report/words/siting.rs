//! Where the mast can stand.

use crate::quantity::Units;
use crate::report::format;
use crate::siting::{BindingRule, SitingChange, SitingEnd, SitingMerit, SitingPart, SitingUnknown};

use super::missing;

/// What keeps the mast from a place, with the name of what it is held against.
pub(crate) fn rule(rule: &BindingRule, against: &str) -> String {
    match rule.part {
        SitingPart::Mast => format!("The mast would stand too near to {against}."),
        SitingPart::Fall => format!("The falling mast would come too near to {against}."),
        SitingPart::Timber => format!("The base would lie too near to {against}, or over it."),
        SitingPart::Stake => format!("A stake of the base would come too near to {against}, or beyond it."),
        SitingPart::GuyToThing => format!("No guy points at {against} from there."),
        SitingPart::Anchor => format!("An anchor would come too near to {against}, or beyond it."),
    }
}

/// The whole in one or two sentences.
pub(crate) fn headline(
    end: SitingEnd,
    good_m2: &str,
    as_far_as_known: bool,
    places: usize,
    binds: Option<&str>,
) -> String {
    if end == SitingEnd::Waits {
        return "Nobody can say yet where it can stand: enter the boundary first.".to_owned();
    }
    let unfinished = if end == SitingEnd::Stopped { " Not every place was planned." } else { "" };
    match (places, binds) {
        (0, Some(binds)) => format!(
            "It fits nowhere that was looked at. Most of the yard is closed by this: {binds}{unfinished}"
        ),
        (0, None) => format!("It fits nowhere that was looked at.{unfinished}"),
        _ if as_far_as_known => format!(
            "As far as anybody knows it can stand on {good_m2} of the yard. What is still open may close all of it.{unfinished}"
        ),
        _ if end == SitingEnd::Stopped => {
            format!("It can stand on at least {good_m2} of the yard. Not every possible place was planned.")
        }
        _ => format!("It can stand on {good_m2} of the yard."),
    }
}

/// A change as the beginning of a sentence, with the name of the thing that it is about.
pub(crate) fn change(change: SitingChange, thing: Option<&str>, units: Units) -> String {
    let length = |metres| format::length(metres, units);
    let angle = |degrees| format::angle(degrees);
    match change {
        SitingChange::OneGuyNearer { by_m } => {
            format!("One guy's anchor {} nearer to the mast", length(by_m))
        }
        SitingChange::OneGuyFarther { by_m } => format!("One guy's anchor {} farther out", length(by_m)),
        SitingChange::GuysNearer { by_m } => format!("All anchors {} nearer to the mast", length(by_m)),
        SitingChange::GuysFarther { by_m } => format!("All anchors {} farther out", length(by_m)),
        SitingChange::GuysSteeper { by_deg } => format!("All guys {} steeper", angle(by_deg)),
        SitingChange::GuysFlatter { by_deg } => format!("All guys {} flatter", angle(by_deg)),
        SitingChange::MastLower { by_m } => format!("The mast {} lower", length(by_m)),
        SitingChange::GuyCount { count } => format!("{count} guys a level"),
        SitingChange::GuyToThing { .. } => {
            format!("One guy made fast to {}", thing.unwrap_or("a thing of the yard"))
        }
        SitingChange::FallReaches => "The wish given up that the falling mast reaches nothing".to_owned(),
    }
}

pub(crate) fn opens(change: &str) -> String {
    format!("{change}: then it can stand here.")
}

/// Of a change that was tried by as much as this, and less.
pub(crate) fn opens_nothing(change: &str, switch: bool) -> String {
    if switch { format!("{change} opens nothing.") } else { format!("{change}, or less, opens nothing.") }
}

/// With a change that opens a place: what was not looked at.
pub(crate) const OPENING_CAUTION: &str =
    "A changed mast holds another wind: look at its wind capacity again before you build it so.";

/// What to do about what is wished and what was found, whatever came out.
pub(crate) const CAUTION: &str = "A place on this list is clear by what was measured, and by nothing else. Look up for wires and \
have buried services marked before you drive anything in, whatever the map shows; then plan the place and read its checks.";

pub(crate) fn place(sign: &str, at: &str) -> String {
    format!("Place {sign}: {at}")
}

/// What a place is marked for.
pub(crate) fn merit(merit: SitingMerit) -> &'static str {
    match merit {
        SitingMerit::Clearance => "Room to the nearest thing",
        SitingMerit::LowFoot => "A low foot",
        SitingMerit::GuyAngles => "Guys near 45°",
        SitingMerit::Fall => "Nothing within its fall",
        SitingMerit::Ties => "Two tapes that cross well",
        SitingMerit::Wind => "A high gust limit",
        SitingMerit::View => "Lights seen from your standpoints",
        SitingMerit::Walking => "A short walk when pegging out",
    }
}

/// Why a mark is not known, as what is missing.
pub(crate) fn unknown(unknown: &SitingUnknown) -> String {
    match unknown {
        SitingUnknown::NotLookedAt => "not looked at before the search was stopped".to_owned(),
        SitingUnknown::NothingEntered => "nothing that stands in the yard was entered".to_owned(),
        SitingUnknown::GroundNotMeasured => "nobody measured the ground".to_owned(),
        SitingUnknown::TooFewMarks => "fewer than two marks were entered".to_owned(),
        SitingUnknown::NoStandpoint => "no standpoint was entered (Seen from)".to_owned(),
        SitingUnknown::StandpointNotFound { name } => format!("nobody knows where the standpoint {name} is"),
        SitingUnknown::NoStrands => "no light strands are planned".to_owned(),
        SitingUnknown::NoGustLimit { missing: entries } => {
            let names = entries.iter().take(MISSING_SHOWN).map(|it| missing(it.kind, it.about.as_deref()));
            let names: Vec<String> = names.collect();
            let more = if entries.len() > MISSING_SHOWN { ", and more" } else { "" };
            match names.is_empty() {
                true => "the mast cannot be looked at in the wind".to_owned(),
                false => format!("missing: {}{more}", names.join("; ")),
            }
        }
    }
}

/// So many missing entries are enough to begin with.
const MISSING_SHOWN: usize = 2;

pub(crate) fn not_known(why: &str) -> String {
    format!("not known yet: {why}")
}

pub(crate) fn of_hundred(mark: f64) -> String {
    format!("{:.0} of 100", 100.0 * mark)
}

pub(crate) fn weighs(weight: f64) -> String {
    format!("counts {weight}")
}

/// All marks together; what is not known is said beside them and adds nothing.
pub(crate) fn marks(total: u32, not_known: u32) -> String {
    match not_known {
        0 => format!("{total} marks of 100"),
        more => format!("At least {total} marks of 100; {more} are not known yet"),
    }
}

/// What another pattern of guys opens.
pub(crate) fn pattern_opens(change: &str, area: &str, may: Option<&str>) -> String {
    match may {
        None => format!("{change}: opens {area} more."),
        Some(may) => format!("{change}: opens {area} more, and perhaps {may} that were not planned."),
    }
}

/// Of a pattern that was tried as a whole, or not.
pub(crate) fn pattern_opens_nothing(change: &str, may: Option<&str>) -> String {
    match may {
        None => format!("{change} opens nothing more."),
        Some(may) => format!("{change} opened nothing so far; {may} were not planned."),
    }
}

/// What the map says where another pattern opens a place, or may.
pub(crate) fn pattern_here(sign: &str, change: &str, accepted: bool) -> String {
    if accepted {
        format!("{sign}: {change}: then it can stand here.")
    } else {
        format!("{sign}: {change}: then it may stand here; this place was not planned whole.")
    }
}

pub(crate) const WAY_UP_NOT_LOOKED_AT: &str = "not looked at yet";
pub(crate) const WAY_UP_NOT_SAID: &str = "not known: say first how it turns up (Build, How it goes up)";

pub(crate) fn no_way_up(looked_at: u32) -> String {
    format!(
        "STOP: something stands in its way along each of {looked_at} bearings all round; it can’t be walked up here"
    )
}
