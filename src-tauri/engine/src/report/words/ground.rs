//! The ground.

use crate::finding::ground::{GroundRemedy, GroundRule, OnGuessedGround};
use crate::quantity::Units;
use crate::report::format;

pub(super) fn sentence(rule: &GroundRule, units: Units) -> String {
    match rule {
        GroundRule::ReadingUnusable => {
            "This reading is left out: it is not a number, or its uncertainty is not above zero.".into()
        }
        GroundRule::WithoutCheck => {
            "There are just enough readings for a plane, so a misreading would not show.".into()
        }
        GroundRule::NotMeasured => {
            "Nobody has measured the ground yet: it is taken as level, which it hardly is.".into()
        }
        GroundRule::CrossSlopeNotMeasured => {
            "The ground was measured along one line only: across it, it is taken as level, give or take a lot.".into()
        }
        GroundRule::ReadingStandsOut => {
            "This reading does not agree with the others: it, or one of them, was misread or the ground bends there."
                .into()
        }
        GroundRule::ReadingsDisagree => {
            "The readings disagree with each other by more than they should, and no single one is to blame.".into()
        }
        GroundRule::SpotHeightStandsOut { at } => format!(
            "All spot heights but this one lie in one plane: it is a lump or hollow, or it was misread. Until that is \
             known, heights between the spot heights are taken from triangles.{}",
            whereabouts(*at, units)
        ),
        GroundRule::NotPlane { at } => format!(
            "The ground is not a plane: heights between the spot heights are taken from triangles, and this one \
             departs most.{}",
            whereabouts(*at, units)
        ),
        GroundRule::Guessed { stands } => {
            let (who, depends) = match stands {
                OnGuessedGround::AnchorOf(guy) => {
                    (format!("The anchor of {guy}"), "the length of its rope and its angle")
                }
                OnGuessedGround::Leg(leg) => (format!("The {leg} leg of the base"), "what goes under it"),
                OnGuessedGround::Obstacle(name) => (name.clone(), "how high it reaches beside the ropes"),
            };
            format!(
                "{who} stands outside the spot heights: the ground there is a guess, and so is {depends}. Against the mast \
                 it may be off by the height given here (95 %)."
            )
        }
    }
}

/// Where a spot height lies that departs from the plane: nobody knows it by its name.
fn whereabouts(at: Option<[f64; 2]>, units: Units) -> String {
    at.map_or_else(String::new, |at| format!(" It lies {}.", format::place(at, units)))
}

pub(super) fn remedy(remedy: &GroundRemedy) -> &'static str {
    match remedy {
        GroundRemedy::EnterReadingAgain => "Enter it again or strike it out.",
        GroundRemedy::ReadThirdBearing => "Read the slope once more, along a third bearing.",
        GroundRemedy::ReadSlopeThreeTimes => {
            "Read the slope along two bearings about a quarter turn apart, and a third as a check."
        }
        GroundRemedy::ReadSecondBearing => {
            "Read the slope along a second bearing, about a quarter turn from the first."
        }
        GroundRemedy::ReadAgainOrStrike => {
            "Read it again; strike it out if the new one agrees with the others."
        }
        GroundRemedy::CheckZeroAndReadAgain => {
            "Check the phone's zero by reading once each way round, and read again where the mast will stand."
        }
        GroundRemedy::MeasureHeightAgain => "Measure this height again, and add one or two beside it.",
        GroundRemedy::AddSpotHeights => {
            "Add spot heights where the ground bends, and where the base and the anchors go."
        }
        GroundRemedy::MeasureSpotThere => "Measure a spot height there, and one a little beyond.",
    }
}
