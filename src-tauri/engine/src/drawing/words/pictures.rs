//! What pictures show, in words.

use crate::plan::{LegResult, Support};
use crate::quantity::Units;
use crate::report::{format, words};
use crate::wind_capacity::DirectionLimit;

pub(crate) const NO_LEG: &str = "No leg to draw.";

pub(crate) fn mast_falls(gust: &str, from: &str, why: &str) -> String {
    format!("In a gust of {gust} from {from} the mast does not stand. {why}")
}

pub(crate) fn top_moves(gust: &str, from: &str, moves: &str) -> String {
    format!("In a gust of {gust} from {from} the top of the mast moves {moves}.")
}

/// Shapes of a file before they are taken in.
pub(crate) fn import(shapes: usize, marks: usize) -> String {
    format!("{shapes} shapes of the file, with the yard’s {marks} marks and the mast.")
}

/// A line walked from a mark; `scale` is how it is drawn.
pub(crate) fn walk(points: usize, from: &str, out: &str, height: &str, scale: &str) -> String {
    format!(
        "{points} points from mark {from}, the last {out} out and {height} above the first mark; {scale}."
    )
}

/// A leg from the side; `known` where the ground under its tip was measured.
pub(crate) fn leg(leg: &LegResult, known: bool, units: Units) -> String {
    let under = match leg.support {
        _ if !known => "Nobody has measured the ground: what goes under its tip is not known.".to_string(),
        Support::OnGround => "Its tip rests on the ground.".to_string(),
        Support::Shim | Support::Foot => format!(
            "Under its tip the gap is {} at the inner face, {} at the centre and {} at the outer face; {}.",
            format::length(leg.gap_inner_m, units),
            format::length(leg.gap_centre_m.value, units),
            format::length(leg.gap_outer_m, units),
            bevel_words(leg)
        ),
    };
    format!(
        "The {} leg reaches {} from the mast's axis at true bearing {}. {under}",
        leg.id,
        format::length(leg.reach_m, units),
        format::bearing(leg.bearing_deg)
    )
}

/// The saw bevels in short.
pub(crate) fn bevel_words(leg: &LegResult) -> String {
    if leg.bevel_along_deg.abs() < 0.05 {
        "cut square".into()
    } else {
        format!("saw bevel {}", format::angle(leg.bevel_along_deg.abs()))
    }
}

/// The weakest direction of a rose; `name` says of which.
pub(crate) fn rose(name: &str, least: Option<&DirectionLimit>, units: Units) -> String {
    let Some(least) = least else { return format!("{name} the limit is not known yet.") };
    let part = least.weakest.as_ref().map_or_else(|| "nothing".to_owned(), |part| words::part(&part.name));
    format!(
        "{name} the weakest direction is wind from the {}, {}, with a gust limit of {}; the first part fully used: {part}.",
        format::compass_point(least.from_deg),
        format::bearing(least.from_deg),
        format::speed_rounded_down(least.gust_m_per_s, units)
    )
}
