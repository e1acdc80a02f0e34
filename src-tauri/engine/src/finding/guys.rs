//! What a guy can be found fault with.

use serde::Serialize;

use super::yard::Thing;

#[derive(Debug, Clone, PartialEq)]
pub enum GuyRule {
    DoesNotRise,
    Steep,
    Flat,
    OnGround,
    WithoutAnchor {
        because: NoAnchor,
    },
    TensionTooSmall,
    LeaveASideOpen,
    FarApart,
    /// It is to be made fast to a thing of the yard.
    WithoutFixing {
        because: NoFixing,
    },
    /// It is made fast to a thing of the yard, by its name.
    MadeFastToThing {
        thing: Thing,
        name: String,
    },
    /// Nobody has said what that may be pulled with.
    FixingHoldUnknown {
        name: String,
    },
    /// Two guys by their names.
    AnchorsTooNear {
        guys: [String; 2],
    },
}

/// Why a guy has no anchor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoAnchor {
    /// The ground falls away as steeply as the rope comes down.
    RopeNeverMeetsGround,
    /// The ground at the collar is already above the rope.
    GroundAboveAttachment,
    /// The anchor is under the collar: no room for a rope.
    UnderCollar,
}

/// Why a guy can't be made fast to the thing that was chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFixing {
    /// The job gives no leave for it, or the thing is not there any more.
    NoLeave,
    /// Two places fit it, and nobody has named its side.
    PlaceNotKnown,
    /// Nothing of it stands up.
    NothingStands,
    /// It would be higher than the thing is.
    AboveThing,
    /// The guy's line in plan goes past it.
    Missed,
    /// The mast stands at it.
    AtMast,
    TooFar,
    /// The level has no such guy.
    NoSuchGuy,
}

impl GuyRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::DoesNotRise => "guy_does_not_rise",
            Self::Steep => "guy_steep",
            Self::Flat => "guy_flat",
            Self::OnGround => "guy_on_ground",
            Self::WithoutAnchor { .. } => "guy_without_anchor",
            Self::TensionTooSmall => "guy_tension_too_small",
            Self::LeaveASideOpen => "guys_leave_a_side_open",
            Self::FarApart => "guys_far_apart",
            Self::WithoutFixing { .. } => "guy_without_fixing",
            Self::MadeFastToThing { .. } => "guy_made_fast_to_thing",
            Self::FixingHoldUnknown { .. } => "fixing_hold_unknown",
            Self::AnchorsTooNear { .. } => "anchors_too_near",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GuyRemedy {
    AnchorDownhillOrAttachHigher,
    AnchorFartherOut,
    AnchorNearer,
    TurnOrRaise,
    SteeperOrByDistance,
    AttachHigherOrElsewhere,
    AnchorOutFromMast,
    MoreTensionOrLighterRope,
    SpreadAnchors,
    /// Of two anchors too near to each other.
    OneFartherOrShared,
    /// Of a guy that is to be made fast to a thing of the yard.
    GiveLeaveOrGround,
    NameTheThingsSide,
    FixLowerOrGround,
    TurnGuysOrAnotherThing,
    StandElsewhereOrGround,
    ChooseAnotherGuy,
    OwnerAndLicensedPerson,
    /// The same of a tree.
    BandRoundTheTree,
    EnterWhatItHolds,
}
