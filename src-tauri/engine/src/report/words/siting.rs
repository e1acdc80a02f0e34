//! Where the mast can stand.

use crate::quantity::Units;
use crate::report::format;
use crate::siting::{BindingRule, SitingChange, SitingEnd, SitingPart};

/// What keeps the mast from a place, with the name of what it is held against.
pub(crate) fn rule(rule: &BindingRule, against: &str) -> String {
    match rule.part {
        SitingPart::Mast => format!("The mast would stand too near to {against}."),
        SitingPart::Fall => format!("The falling mast would come too near to {against}."),
        SitingPart::Timber => format!("The base would lie too near to {against}, or over it."),
        SitingPart::Stake => format!("A stake of the base would come too near to {against}, or beyond it."),
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

/// A change as the beginning of a sentence.
pub(crate) fn change(change: SitingChange, units: Units) -> String {
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

pub(crate) fn place(number: usize, at: &str) -> String {
    format!("Place {number}: {at}")
}
