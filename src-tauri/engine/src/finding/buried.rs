//! What lies underground, and whether anybody asked.

use chrono::{DateTime, FixedOffset};
use serde::Serialize;

use super::Clear;
use super::yard::{PegKind, PegName};

/// Services by their names.
#[derive(Debug, Clone, PartialEq)]
pub enum BuriedRule {
    LocationGuessed {
        service: String,
    },
    ToleranceByHabit {
        service: String,
        width_known: bool,
    },
    PegInZone {
        peg: PegName,
        service: String,
        in_doubt: bool,
    },
    RingInZone {
        service: String,
    },
    ServicesUnknown {
        because: NotAsked,
    },
    /// The utilities said that nothing of theirs is there.
    Answer(ServiceAnswer),
}

/// What nobody knows of the ground.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NotAsked {
    NobodySaid,
    /// Lines are entered, and the utilities were not asked for others.
    NotTheUtilities,
    /// Lines were marked, and none is entered.
    NoneEntered,
    AnswerWithoutDate,
}

/// An answer of the utilities and how long it holds.
#[derive(Debug, Clone, PartialEq)]
pub struct ServiceAnswer {
    pub at: DateTime<FixedOffset>,
    /// The number of their notice; empty where there is none.
    pub notice: String,
    /// As they said.
    pub holds_until: Option<DateTime<FixedOffset>>,
    /// The soonest day that such an answer ends on.
    pub usually_until: DateTime<FixedOffset>,
    /// The job goes on after that.
    pub is_old: bool,
}

impl BuriedRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::LocationGuessed { .. } => "buried_location_guessed",
            Self::ToleranceByHabit { .. } => "buried_tolerance_by_habit",
            Self::PegInZone { peg: PegName { kind: PegKind::Anchor, .. }, .. } => "anchor_in_buried_zone",
            Self::PegInZone { peg: PegName { kind: PegKind::Stake, .. }, .. } => "stake_in_buried_zone",
            Self::RingInZone { .. } => "ring_in_buried_zone",
            Self::ServicesUnknown { .. } => "buried_services_unknown",
            Self::Answer(ServiceAnswer { is_old: true, .. }) => "buried_answer_old",
            Self::Answer(ServiceAnswer { is_old: false, .. }) => "buried_answer_none",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum BuriedRemedy {
    CallFirst,
    AskForTheZone,
    MovePeg { kind: PegKind, clear: Clear },
    WeighTheRingDown,
    EnterTheMarkedLines,
    EnterWhenTheyAnswered,
    AskAgainFirst,
    AskAgainLater,
}
