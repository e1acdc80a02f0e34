//! What is said with every answer about wind, so that no face can leave it out.

use crate::job::{Job, TubeJoint};

/// Shown beside every limit, table and list of changes.
pub const CAUTIONS: [&str; 6] = [
    "This is no permission: local codes and a licensed engineer come before anything that this program reckons.",
    "The mast is not for climbing and not a permanent one. No ladder leans on it.",
    "Lower it before thunder, whatever the wind: lightning takes the highest thing. Keep away from it then.",
    "Keep mast, guys and strands farther from every overhead line than they could fall.",
    "Nobody stays within the fall circle in strong wind; keep children off guys, strands and anchors at all times.",
    "A gust is the strongest three seconds, not the mean wind that most forecasts name first. Thunderstorms and \
     squalls bring stronger gusts than any forecast: when in doubt, lay it down.",
];

/// What the limit does not look at.
pub const NOT_RECKONED: [&str; 5] = [
    "Gusts that rock the mast in its own rhythm, and ropes that sing or gallop.",
    "Fatigue, rust, dents, old or chafed rope, rotten wood.",
    "Ground that thaws, dries out or becomes wetter than was said: anchors may hold half as much.",
    "Stronger wind on a brow, between houses or behind a gap.",
    "Snow, and ice on the topper; a kite, a banner or anything else hung on later.",
];

pub fn cautions() -> Vec<String> {
    CAUTIONS.iter().map(|text| (*text).to_owned()).collect()
}

pub fn not_reckoned() -> Vec<String> {
    NOT_RECKONED.iter().map(|text| (*text).to_owned()).collect()
}

/// Parts of a job's mast that no rule here covers, by name.
pub fn look_at_by_eye(job: &Job) -> Vec<String> {
    let tubes = job.rig.tubes.get(1..).unwrap_or_default();
    let joined = |joint| tubes.iter().any(|tube| tube.joint == joint);
    let parts = [
        (true, "The collars that the guys are tied to"),
        (true, "Shackles and tensioners of the guys"),
        (joined(TubeJoint::Telescoped), "The pins that carry the upper tubes"),
        (joined(TubeJoint::Threaded), "The couplings of the tubes"),
        (true, "The joints of the base timbers, and what holds the mast's foot in its place"),
        (job.rig.strands.is_some(), "The strands' hooks and ties"),
        (job.rig.topper.is_some(), "What holds the topper"),
    ];
    parts.into_iter().filter(|(is_there, _)| *is_there).map(|(_, name)| name.to_owned()).collect()
}
