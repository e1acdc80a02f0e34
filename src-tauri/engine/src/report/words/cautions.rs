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
        ByEye::Shackles => "Shackles and tensioners of the guys",
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

/// Once something stands.
pub(crate) const AS_BUILT: &str = "The rest of the plan now goes on from what stands. A rope that was cut to the first plan may \
be too short: measure it before you count on it. An anchor that was pulled, bent or driven anew holds what its own \
proof pull shows, nothing more.";

/// Beside the base as a whole.
pub(crate) const FEET: &str = "Cut each foot a little long and try it in place with a level: the ground under the tip \
decides. Before a stake is driven, have buried services marked by the one-call service or the utilities, and dig \
by hand inside a tolerance zone.";

/// Beside the nearest approaches.
pub(crate) const CLEARANCES: &str = "A power line kills without being touched. Keep the mast, the guys and the people out of \
its band, also while raising, also if it falls; never measure its height by touching; ask the utility for its \
voltage, and for more distance where local rules say so. Lines of services under the ground are only where \
somebody marked them.";

/// Beside each guy.
pub(crate) const GUYS: &str = "Before an anchor goes in, have buried services marked by the one-call service or the \
utilities. A tensioned rope that lets go whips: stand aside of its line, wear eye protection, never stand \
astride it. Flag each guy where people pass. The anchor's strength in your soil is for you to prove by pulling.";

/// Beside the mast and its tubes.
pub(crate) const MAST: &str = "Not for climbing, and nobody leans a ladder on it. Lift and lower it only with enough \
people for its weight, nobody under it, and no wind to speak of; the fall circle stays empty meanwhile. Lower it \
before wind, ice or lightning. Local rules for temporary structures come first.";

/// Beside each point at which something goes into the ground.
pub(crate) const DIGGING: &str = "Call before you dig, wherever it is said that nothing lies there: private lines are nobody's to \
mark. Dig the first part by hand.";

/// Beside the ring.
pub(crate) const STRANDS: &str = "Strands carry wind: let them down with the mast. Plug lights into an outlet with a \
ground-fault (residual-current) device, joints off the ground, and keep them clear of every power line.";

/// What makes a rough height surer.
pub const ROUGH_HEIGHT: &str = "This is rough. Stand so that the top is seen at about 45°, go back twice as far for the \
     second angle, lean the phone on a post while you aim, and take the zero error out by a pair first.";

/// Beside how readings were brought to north, which is often by compass.
pub(crate) const COMPASS: &str =
    "Steel turns a compass: read it at arm's length or more from tubes, stakes, cars and fences.";

/// Beside the proof pulls.
pub(crate) const PROOF_PULLED: &str = "Stand aside: a rope under load that lets go kills.";

/// Beside what is missing.
pub(crate) const MISSING: &str = "While any of this is not known, nobody can say what wind the mast takes: do not leave it \
     standing in wind.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_stands_beside_a_rope_that_is_pulled() {
        assert!(PROOF_PULL.iter().any(|step| step.contains("stands well aside")));
    }
}
