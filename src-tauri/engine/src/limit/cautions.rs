//! What is said with every answer about wind, so that no face can leave it out.

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
pub const NOT_RECKONED: [&str; 6] = [
    "Pins, collars, couplings, shackles, tensioners and the strands' hooks: look at each of them.",
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
