//! What is seen from a standpoint, in sentences.

use crate::quantity::Units;
use crate::report::format;
use crate::view::{ConeSeen, HeightOf, Shown, StandpointSeen, ThingKind, ThingSeen};

pub(crate) const NOT_KNOWN: &str = "height not known yet";

pub(crate) fn title(standpoint: &str) -> String {
    format!("Seen from {standpoint}")
}

pub(crate) const NO_STRANDS: &str = "No light strands are planned.";

pub(crate) const CAUTION: &str = "A picture of what was entered, and no measurement: what nobody entered is not in it. Buildings are blocks as \
     high as their highest part, crowns are eggs in full leaf, fences hide like walls, wires hang in still air. How near \
     the work comes to a power line is said by the checks, never by this picture.";

/// Whole percent, and neither nought nor all unless it is.
fn percent(share: f64) -> u32 {
    let whole = (100.0 * share).round() as u32;
    if share > 0.0 && whole == 0 {
        1
    } else if share < 0.999 && whole >= 100 {
        99
    } else {
        whole.min(100)
    }
}

pub(crate) fn standing(at: &StandpointSeen, units: Units) -> String {
    let eye = format::length_short(at.eye_height_m, units);
    if at.floor_height_m > 0.0 {
        let (floor, all) = (
            format::length_short(at.floor_height_m, units),
            format::length_short(at.floor_height_m + at.eye_height_m, units),
        );
        return format!(
            "Your eyes are {eye} over a floor that is {floor} up: {all} over the ground outside."
        );
    }
    format!("Your eyes are {eye} over the ground.")
}

pub(crate) fn cone(cone: &ConeSeen, units: Units) -> String {
    let (seen, all) = (format::length_short(cone.seen_m, units), format::length_short(cone.length_m, units));
    let hidden = match cone.wholly_hidden {
        0 => String::new(),
        1 => "; one is hidden wholly".to_owned(),
        count => format!("; {count} are hidden wholly"),
    };
    format!(
        "{} % of the lit cone shows from here: {seen} of the {all} of its {} strands{hidden}.",
        percent(cone.share),
        cone.strands
    )
}

/// How far, which way, how high, and how much of it shows.
pub(crate) fn thing(thing: &ThingSeen, units: Units) -> String {
    if thing.shown == Shown::AroundYou {
        return "You stand in it: it is not drawn, and hides nothing.".to_owned();
    }
    let mut parts = vec![format!(
        "{} away to the {} ({})",
        format::length_short(thing.distance_m, units),
        format::compass_point(thing.bearing_deg),
        format::bearing(thing.bearing_deg)
    )];
    parts.push(match thing.height {
        HeightOf::Known { height_m, sigma_m } if sigma_m > 0.0 => format!(
            "{} high (± {} at 95 %)",
            format::length_short(height_m, units),
            format::length_short(crate::quantity::estimate::COVERAGE_95 * sigma_m, units)
        ),
        HeightOf::Known { height_m, .. } => format!("{} high", format::length_short(height_m, units)),
        HeightOf::NotKnown => format!("{NOT_KNOWN}, so only its outline on the ground is drawn"),
        HeightOf::OnGround => "on the ground".to_owned(),
    });
    if let Some(top_deg) = thing.top_deg.filter(|_| thing.kind == ThingKind::Mast) {
        let way = if top_deg < 0.0 { "below" } else { "above" };
        parts.push(format!("its top {} {way} the level of your eyes", format::angle(top_deg.abs())));
    }
    let shown = match thing.shown {
        Shown::Wholly => return parts.join(", ") + ".",
        Shown::Partly => format!("{} % of it shows", percent(thing.share)),
        _ => "hidden".to_owned(),
    };
    format!("{}; {shown}.", parts.join(", "))
}
