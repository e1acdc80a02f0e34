//! Guys.

use crate::finding::guys::{GuyRemedy, GuyRule, NoAnchor, NoFixing};
use crate::finding::yard::Thing;

pub(super) fn sentence(rule: &GuyRule) -> String {
    let words = match rule {
        GuyRule::DoesNotRise => {
            "The anchor is as high as the guy's attachment, so the guy can't hold the mast down."
        }
        GuyRule::Steep => {
            "This guy is steep: it must pull much harder to hold the same wind, and presses the mast down."
        }
        GuyRule::Flat => {
            "This guy lies flat: it takes up a lot of yard, sags more and is easily tripped over."
        }
        GuyRule::OnGround => "The ground rises into this guy's line between the mast and its anchor.",
        GuyRule::WithoutAnchor { because: NoAnchor::RopeNeverMeetsGround } => {
            "At this angle the guy never comes down to the ground, which falls away too steeply; it is left out."
        }
        GuyRule::WithoutAnchor { because: NoAnchor::GroundAboveAttachment } => {
            "The ground beside the mast is above this guy's attachment; the guy is left out."
        }
        GuyRule::WithoutAnchor { because: NoAnchor::UnderCollar } => {
            "This anchor is right under the mast's collar, so there is no room for a guy; it is left out."
        }
        GuyRule::TensionTooSmall => {
            "The set tension can't hold up the rope's own weight over this distance; a slack rope is shown instead, and \
             its lengths are not for cutting."
        }
        GuyRule::LeaveASideOpen => {
            "All guys of this level pull to one side: nothing holds the mast from falling away from them."
        }
        GuyRule::FarApart => {
            "The gap clockwise of this guy is wide: wind from there loads the two guys beside it heavily."
        }
        GuyRule::WithoutFixing { because } => without_fixing(*because),
        GuyRule::MadeFastToThing { thing: Thing::Tree, name } => {
            return format!(
                "This guy is made fast to {name}. A tree sways and its roots give: the guy goes slack and jerks tight in wind, \
                 which no number here counts."
            );
        }
        GuyRule::MadeFastToThing { name, .. } => {
            return format!(
                "This guy is made fast to {name}. Whether that bears the pull is not looked at here: what somebody entered is \
                 taken as it stands."
            );
        }
        GuyRule::FixingHoldUnknown { name } => {
            return format!(
                "What {name} may be pulled with by a guy is not known yet, so nothing shows that this guy holds."
            );
        }
        GuyRule::AnchorsTooNear { guys: [a, b] } => {
            return format!(
                "The anchors of {a} and {b} stand so near to each other that they loosen each other's ground: together \
                 they count as one."
            );
        }
    };
    words.to_owned()
}

fn without_fixing(because: NoFixing) -> &'static str {
    match because {
        NoFixing::NoLeave => {
            "This guy is to be made fast to a thing of the yard for which the job gives no leave; it is left out."
        }
        NoFixing::PlaceNotKnown => {
            "The thing that this guy is to be made fast to fits two places, and nobody has said which; the guy is left out."
        }
        NoFixing::NothingStands => {
            "Nothing stands up where this guy is to be made fast to a thing of the yard; it is left out."
        }
        NoFixing::AboveThing => {
            "This guy is to be made fast higher up than the thing itself is; it is left out."
        }
        NoFixing::Missed => {
            "This guy's line goes past the thing that it is to be made fast to; it is left out."
        }
        NoFixing::AtMast => {
            "The mast stands at the thing that this guy is to be made fast to: no room for a rope; it is left out."
        }
        NoFixing::TooFar => {
            "The thing that this guy is to be made fast to is farther than a guy can reach; it is left out."
        }
        NoFixing::NoSuchGuy => {
            "The guy that is to be made fast to a thing of the yard is not there in this level."
        }
    }
}

/// In place of what a thing of the yard may be pulled with.
pub(crate) const HOLD_NOT_KNOWN: &str = "not known yet: ask whoever answers for it";

pub(super) fn remedy(remedy: &GuyRemedy) -> &'static str {
    match remedy {
        GuyRemedy::AnchorDownhillOrAttachHigher => "Move the anchor downhill or raise the attachment.",
        GuyRemedy::AnchorFartherOut => {
            "Move its anchor farther out; as far out as the attachment is high gives 45° on level ground."
        }
        GuyRemedy::AnchorNearer => "Move its anchor nearer to the mast, or mark the rope where people walk.",
        GuyRemedy::TurnOrRaise => "Turn the guys, move this anchor, or raise the rope's lower end.",
        GuyRemedy::SteeperOrByDistance => {
            "Choose a steeper angle, or place this level's anchors by distance."
        }
        GuyRemedy::AttachHigherOrElsewhere => "Raise the attachment or stand the mast elsewhere.",
        GuyRemedy::AnchorOutFromMast => "Move the anchor out from the mast.",
        GuyRemedy::MoreTensionOrLighterRope => "Set more tension, or use a lighter rope.",
        GuyRemedy::SpreadAnchors => "Spread the anchors more evenly round the mast.",
        GuyRemedy::GiveLeaveOrGround => {
            "Ask its owner, and say on the thing's page that a guy may be made fast there; or anchor this guy in the ground."
        }
        GuyRemedy::NameTheThingsSide => "Say on which side the thing's points lie.",
        GuyRemedy::FixLowerOrGround => {
            "Enter a lower fixing on the thing's page, or anchor this guy in the ground."
        }
        GuyRemedy::TurnGuysOrAnotherThing => {
            "Turn the guys so that this one points at it, choose another guy for it, or anchor this one in the ground."
        }
        GuyRemedy::StandElsewhereOrGround => "Stand the mast elsewhere, or anchor this guy in the ground.",
        GuyRemedy::ChooseAnotherGuy => "Choose one of the level's guys for the thing, or none.",
        GuyRemedy::OwnerAndLicensedPerson => {
            "Let its owner and a licensed person decide whether it holds, how the guy is made fast and what it may pull."
        }
        GuyRemedy::BandRoundTheTree => {
            "Let its owner and a tree surgeon decide. Lay a broad band round the trunk over padding, no screw and no nail; look \
             at the guy again in wind."
        }
        GuyRemedy::EnterWhatItHolds => {
            "Ask whoever answers for it what it may be pulled with, and enter that on the thing's page; or anchor this guy in \
             the ground."
        }
        GuyRemedy::OneFartherOrShared => {
            "Set one of them farther out or to the side, or make both guys fast to one anchor."
        }
    }
}
