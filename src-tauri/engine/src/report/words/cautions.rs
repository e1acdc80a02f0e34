//! What is said beside every answer about wind, and wherever somebody works under the mast.

use crate::wind_capacity::by_eye::ByEye;

/// Shown beside every limit, table and list of changes.
pub const WIND: [&str; 6] = [
    "This is no permission: local codes and a licensed engineer come before anything that this program reckons.",
    "The mast is not for climbing and not a permanent one. No ladder leans on it.",
    "Lower it before thunder, whatever the wind: lightning takes the highest thing. Keep away from it then.",
    "Keep mast, guys and strands farther from every overhead line than they could fall.",
    "Nobody stays within the fall circle in strong wind; keep children off guys, strands and anchors at all times.",
    "A gust is the strongest three seconds, not the mean wind that most forecasts name first. Thunderstorms and \
     squalls bring stronger gusts than any forecast: when in doubt, lay it down.",
];

/// What the limit does not look at.
pub(crate) const NOT_RECKONED: [&str; 5] = [
    "Gusts that rock the mast in its own rhythm, and ropes that sing or gallop.",
    "Fatigue, rust, dents, old or chafed rope, rotten wood.",
    "Ground that thaws, dries out or becomes wetter than was said: anchors may hold half as much.",
    "Stronger wind on a brow, between houses or behind a gap.",
    "Snow, and ice on the topper; a kite, a banner or anything else hung on later.",
];

pub(crate) fn by_eye(part: ByEye) -> &'static str {
    match part {
        ByEye::Collars => "The collars that the guys are tied to",
        ByEye::Shackles => "Shackles and tensioners of the guys",
        ByEye::Pins => "The pins that carry the upper tubes",
        ByEye::Couplings => "The couplings of the tubes",
        ByEye::BaseJoints => "The joints of the base timbers, and what holds the mast's foot in its place",
        ByEye::StrandHooks => "The strands' hooks and ties",
        ByEye::TopperHold => "What holds the topper",
    }
}

/// The proof pull, a sentence a step; its numbers stand beside it.
pub(crate) const PROOF_PULL: [&str; 7] = [
    "Do it before the mast stands, with the mast nowhere near the pull.",
    "Fasten a ratchet winch and a crane scale between the anchor and something far stronger, such as a car with its \
     brakes on or a stout tree, and pull in the direction and at the angle of the guy.",
    "Everybody stands well aside, farther off than the rope is long, never in line with it; lay a coat over the rope.",
    "Mark where the anchor comes out of the ground. Pull slowly to the load.",
    "Hold the load for the time given, and tighten up again if it falls.",
    "If the anchor comes out, creeps on farther than the limit or keeps moving, it does not hold: set another one.",
    "Wet ground may hold half as much as dry. Pull in the wet, or pull again after long rain.",
];

/// Said wherever a standing mast is moved (common practice).
pub const PLUMBING: &str = "One person at each rope, and nobody under the mast. First take in the ropes on the side it \
     leans away from, a little at a time, while those opposite are let out by as much: no rope is ever loose or left \
     alone. Not in wind.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_stands_beside_a_rope_that_is_pulled() {
        assert!(PROOF_PULL.iter().any(|step| step.contains("stands well aside")));
    }
}
