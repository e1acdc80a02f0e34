//! Anchors, stakes and feet in the ground.

use crate::quantity::UnitSystem;
use crate::resistance::GroundUnshown;
use crate::round_figures::rule;

pub(super) fn unshown(reason: GroundUnshown, system: UnitSystem) -> String {
    let words = match reason {
        GroundUnshown::SoilUnknown => {
            "The soil is not known, so this is not shown to hold: dig and feel it, or make the proof pull."
        }
        GroundUnshown::SoilUnknownForScrew => {
            "The soil is not known: whether it softens when wet, and what lies over the helix, decides what a screw \
             holds. Dig and feel it, or make the proof pull."
        }
        GroundUnshown::NothingSaid => {
            "Nobody has said what this guy is made fast to: say it, or make the proof pull."
        }
        GroundUnshown::FixingHoldUnknown => {
            "Nobody has said what this thing of the yard may be pulled with: its owner and a licensed person decide that."
        }
        GroundUnshown::NoGuyPulls => "No guy pulls at this anchor.",
        GroundUnshown::ScrewInRock => "No screw goes into rock.",
        GroundUnshown::HelixUnmeasured => {
            "The diameter of the helix and its depth are not known: measure both. A shallow helix comes out whatever \
             turning moment it took."
        }
        GroundUnshown::HelixTooShallow => {
            "The helix lies less than five of its diameters deep: the ground above it may break out at once. Turn it in \
             deeper."
        }
        GroundUnshown::ShaftThinnerThanTested => {
            "Turning moments were tested on thicker shafts only than this one, and for this soil no rule tells what the \
             ground over the helix holds: make the proof pull."
        }
        GroundUnshown::ShaftNotCovered => "No published torque factor covers a shaft of this shape and size.",
        GroundUnshown::PlateSizeMissing => "The plate's size and depth are missing.",
        GroundUnshown::PlateTooShallow => "The plate lies less deep than it is wide: bury it deeper.",
        GroundUnshown::SandTooLoose => "The published values don't reach sand as loose as this.",
        GroundUnshown::DeadmanTooLong => {
            "The timber is too long for its thickness and may break: take a thicker one."
        }
        GroundUnshown::OutsideDeadmanTable { too_shallow, too_steep } => {
            return outside_table(too_shallow, too_steep, system);
        }
        GroundUnshown::PicketRowInSand => "No published value for rows of pickets in sand.",
        GroundUnshown::PicketInRock => "No published value for pickets in rock or hardpan.",
        GroundUnshown::BarDrawnOut => {
            "No rule shows that a single bar is not drawn out by a guy that pulls up: take a screw, a plate or a \
             deadman, or make the proof pull."
        }
        GroundUnshown::StakeSizeMissing => "The stake's size is missing.",
        GroundUnshown::StakesHoldNothing => "The stakes hold nothing.",
        GroundUnshown::BallastFrictionUnpublished => {
            "No published friction for a weight on this ground: pull at it with a scale to find out."
        }
        GroundUnshown::BallastSlidesByItself => {
            "The ground is too steep for the weight to lie still by itself."
        }
    };
    words.into()
}

/// Which end of the published table is passed, or both.
fn outside_table(too_shallow: bool, too_steep: bool, system: UnitSystem) -> String {
    let least = rule::DEADMAN_DEEP.said(system);
    let deeper =
        format!("It lies too near the surface: the published table begins at {least} down to its middle.");
    let steep = "The guy pulls too steeply: the published table ends at 45°. Set the anchor farther out.";
    match (too_shallow, too_steep) {
        (true, true) => format!("{deeper} {steep}"),
        (true, false) => deeper,
        (false, _) => steep.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The depth is said in the user's unit, and only the end that is passed.
    #[test]
    fn it_is_said_which_end_of_the_table_is_passed() {
        for (system, least) in [(UnitSystem::Metric, "0.92 m"), (UnitSystem::Imperial, "3'")] {
            let said = |too_shallow, too_steep| {
                unshown(GroundUnshown::OutsideDeadmanTable { too_shallow, too_steep }, system)
            };
            let shallow = said(true, false);
            assert!(
                shallow.contains(&format!("begins at {least} down")) && !shallow.contains("45°"),
                "{shallow}"
            );
            let steep = said(false, true);
            assert!(steep.contains("45°") && !steep.contains("surface"), "{steep}");
            let both = said(true, true);
            assert!(both.contains(least) && both.contains("45°"), "{both}");
        }
    }
}
