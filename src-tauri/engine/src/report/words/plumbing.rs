//! Plumbing the mast, said while it is done.

/// Why nothing is said yet, or what holds.
pub(crate) fn state(state: crate::plumbing::PlumbState) -> &'static str {
    use crate::plumbing::PlumbState;
    match state {
        PlumbState::NoReadings => "No readings come.",
        PlumbState::AxesMissing => {
            "This phone does not report all three axes. Hang a plumb line beside the tube and look along both from two sides."
        }
        PlumbState::NotUpright => "Hold the phone upright along the tube, its back to it and its top end up.",
        PlumbState::Gathering => "Keep it there: it is being read.",
        PlumbState::NeedsOppositeSide => {
            "The phone’s own error is not known yet: take this side, then turn the phone to the opposite side and take that."
        }
        PlumbState::SwaysTooMuch => {
            "The mast sways too much to tell. Wait for a lull, or hang a plumb line in a bucket of water beside the tube and look along both from two sides."
        }
        PlumbState::Live => "Live: as the tube stands now.",
    }
}

pub(crate) fn sways(sway: &str) -> String {
    format!("sways by {sway} to either side")
}

pub(crate) fn turns(turns: &str) -> String {
    format!("about {turns} of its turnbuckle")
}

pub(crate) const SWING_NAME: &str = "Or swing the right end of the cross leg";

/// Seen from the mast, looking out along the leg.
pub(crate) fn swing(forwards: bool, by: &str) -> String {
    let which = if forwards { "clockwise" } else { "anticlockwise" };
    format!("{which}, as seen from above, by {by}")
}

pub(crate) fn foot(leg: &str, centre: &str) -> String {
    format!("Then cut the {leg} foot to {centre} at its centre")
}

pub(crate) fn edges(inner: &str, outer: &str, left: &str, right: &str) -> [String; 4] {
    [
        format!("inner face {inner}"),
        format!("outer face {outer}"),
        format!("left side {left}"),
        format!("right side {right}"),
    ]
}

pub(crate) const FOOT_IF: &str =
    "It holds where the block now is as high as planned, or as entered under What really stands.";

pub(crate) fn aloud_plumb(lean: &str) -> String {
    format!("Plumb. Lean {lean}.")
}

pub(crate) fn aloud_cannot_tell(lean: &str) -> String {
    format!("Lean {lean}: as near as this phone can tell. Hang a plumb line.")
}

pub(crate) fn aloud(lean: &str, towards: &str, name: &str, does: &str, turns: &str) -> String {
    let turns = if turns.is_empty() { String::new() } else { format!(", {turns}") };
    format!("Lean {lean} {towards}. {name}: {does}{turns}.")
}
