//! What is seen from a standpoint, for people: beside the picture, and for who can't see it.

use serde::Serialize;

use super::words;
use crate::finding::Subject;
use crate::quantity::Units;
use crate::view::{HeightOf, ViewSeen};

/// What shows from a standpoint, in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ViewReport {
    pub title: String,
    /// How high the eyes are.
    pub standing: String,
    /// How much of the lit cone shows.
    pub cone: String,
    /// The nearest first.
    pub things: Vec<ViewThingText>,
    pub caution: String,
}

/// One thing in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ViewThingText {
    pub subject: Subject,
    pub name: String,
    pub says: String,
    /// Where to look for it.
    pub bearing_deg: f64,
    pub height_known: bool,
}

/// Puts a view into words.
pub fn view(seen: &ViewSeen, units: Units) -> ViewReport {
    let thing = |thing: &crate::view::ThingSeen| ViewThingText {
        subject: thing.subject.clone(),
        name: thing.name.clone(),
        says: words::seen::thing(thing, units),
        bearing_deg: thing.bearing_deg,
        height_known: thing.height != HeightOf::NotKnown,
    };
    ViewReport {
        title: words::seen::title(&seen.standpoint.name),
        standing: words::seen::standing(&seen.standpoint, units),
        cone: seen
            .cone
            .as_ref()
            .map_or_else(|| words::seen::NO_STRANDS.to_owned(), |cone| words::seen::cone(cone, units)),
        things: seen.things.iter().map(thing).collect(),
        caution: words::seen::CAUTION.to_owned(),
    }
}
