//! Why a part is not shown to hold: the numbers that its rule needs are unknown, or outside what its publication covers.
//! Data without a sentence; `report::words::unshown` makes those, subject by subject as here.

use serde::Serialize;

use super::tube::TubeCode;

macro_rules! gathered {
    ($($(#[$of:meta])* $variant:ident($subject:ident);)*) => {
        /// Why a part is not shown to hold.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
        #[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
        #[serde(untagged)]
        pub enum Unshown {
            $($(#[$of])* $variant($subject),)*
        }

        $(impl From<$subject> for Unshown {
            fn from(subject: $subject) -> Self {
                Self::$variant(subject)
            }
        })*
    };
}

gathered! {
    Number(NumberUnshown);
    Tube(TubeUnshown);
    Rope(RopeUnshown);
    Timber(TimberUnshown);
    /// What the ground holds: anchors, stakes, feet.
    Ground(GroundUnshown);
    /// The mast as a whole, and what is counted on without a rule.
    Mast(MastUnshown);
}

/// A number of any rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NumberUnshown {
    MissingNumber,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TubeUnshown {
    TubeSizeMissing,
    /// It would dent before it yields.
    WallTooThin {
        code: TubeCode,
    },
    ThreadUnknown,
    ThreadOfLargerTube,
    ThreadLeavesNoWall,
    PinHoleTooWide,
    /// Nobody has said how wide the holes of the pin are.
    PinHoleUnmeasured,
    /// The same of the pin itself.
    PinUnmeasured,
    /// Nobody has measured the coupling over its outside.
    CouplingUnmeasured,
    /// It is no wider than the tube inside it.
    CouplingTooThin,
    /// Nobody has said what keeps the collar from sliding down, or how thick that is.
    CollarUnmeasured,
    /// It is only squeezed onto the tube.
    CollarSqueezed,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RopeUnshown {
    BreakingStrengthUnknown,
    /// Divided by less than any rule allows.
    FactorTooSmall,
    FibreUnnamed,
    ReefKnot,
    KnotInHmpe,
    EndNotForMaterial,
    NoEndForAMast,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TimberUnshown {
    ContactSizeMissing,
    FootSizeMissing,
    FootTooSlender,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GroundUnshown {
    /// A formula needs a soil that nobody has looked at.
    SoilUnknown,
    /// The same of a screw, which needs it for two things.
    SoilUnknownForScrew,
    /// Nobody has said what the guy is made fast to.
    NothingSaid,
    /// Nobody has said what the thing of the yard may be pulled with.
    FixingHoldUnknown,
    NoGuyPulls,
    ScrewInRock,
    HelixUnmeasured,
    HelixTooShallow,
    /// No shaft as thin was tested, and the soil tells nothing.
    ShaftThinnerThanTested,
    ShaftNotCovered,
    PlateSizeMissing,
    PlateTooShallow,
    SandTooLoose,
    DeadmanTooLong,
    /// Which end of the published table is passed, or both.
    OutsideDeadmanTable {
        too_shallow: bool,
        too_steep: bool,
    },
    PicketRowInSand,
    PicketInRock,
    /// A single bar that a guy pulls up at.
    BarDrawnOut,
    StakeSizeMissing,
    StakesHoldNothing,
    BallastFrictionUnpublished,
    BallastSlidesByItself,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum MastUnshown {
    StrandThicknessUnknown,
    StrandMassUnknown,
    /// How guys are made fast when the mast is run down is not said.
    RunDownUnsaid,
    /// The foot is counted on against turning.
    FootHoldsTurning,
    StrandsAsGuys,
}
