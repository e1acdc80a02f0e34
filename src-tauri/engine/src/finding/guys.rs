//! What a guy can be found fault with.

use serde::Serialize;

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
}
