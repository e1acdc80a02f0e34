//! Guys.

use crate::finding::guys::{GuyRemedy, GuyRule, NoAnchor};

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
        GuyRule::AnchorsTooNear { guys: [a, b] } => {
            return format!(
                "The anchors of {a} and {b} stand so near to each other that they loosen each other's ground: together \
                 they count as one."
            );
        }
    };
    words.to_owned()
}

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
        GuyRemedy::OneFartherOrShared => {
            "Set one of them farther out or to the side, or make both guys fast to one anchor."
        }
    }
}
