//! The picture from a standpoint in words, and the names in it.

use crate::quantity::Units;
use crate::report::format;
use crate::report::words::seen::NOT_KNOWN;
pub(crate) use crate::report::words::seen::title;
use crate::view::{HeightOf, Look, Shown, ThingKind, ThingSeen};

/// What is in the picture, from left to right.
pub(crate) fn picture(things: &[ThingSeen], drawn: &[bool], look: &Look) -> String {
    let looking = format!(
        "Looking {}, true bearing {}.",
        format::compass_point(look.toward_deg),
        format::bearing(look.toward_deg)
    );
    let from_left =
        |thing: &ThingSeen| crate::quantity::bearing::turn_deg(look.toward_deg, thing.bearing_deg);
    let mut shown: Vec<&ThingSeen> = (things.iter().zip(drawn))
        .filter(|(thing, drawn)| **drawn && thing.shown != Shown::Hidden && thing.kind != ThingKind::Guy)
        .map(|(thing, _)| thing)
        .collect();
    shown.sort_by(|a, b| from_left(a).total_cmp(&from_left(b)));
    let names: Vec<&str> = shown.iter().map(|thing| thing.name.as_str()).collect();
    if names.is_empty() {
        return format!("{looking} Nothing of the job is in the picture.");
    }
    format!("{looking} From left to right: {}.", names.join(", "))
}

/// A name in the picture, with its height where one is known.
pub(crate) fn label(thing: &ThingSeen, units: Units) -> String {
    let stands = !matches!(thing.kind, ThingKind::Path | ThingKind::Boundary);
    match thing.height {
        HeightOf::Known { height_m, .. } => {
            format!("{} {}", thing.name, format::length_short(height_m, units))
        }
        HeightOf::NotKnown if stands => format!("{}: {NOT_KNOWN}", thing.name),
        _ => thing.name.clone(),
    }
}

/// In place of the picture from a standpoint that nobody can place.
pub(crate) fn not_placed(standpoint: &str) -> String {
    format!("Seen from {standpoint}: its place can't be found yet, so nothing is drawn.")
}

/// Under a picture on paper: how large it looks.
pub(crate) fn held_off(distance_mm: f64, units: Units) -> String {
    format!(
        "Held {} from one eye, the picture looks as large as the yard does.",
        format::length_short(distance_mm / 1000.0, units)
    )
}
