//! What can be wrong with what is cut, turned, drilled and lifted. Parts by their names.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum WorkshopRule {
    /// Nobody has said these.
    NotSaid {
        open: Vec<WorkshopQuestion>,
    },
    DoesNotEnter {
        inner: String,
        outer: String,
    },
    MayNotEnter {
        inner: String,
        outer: String,
    },
    /// Of its bore, or of its outside.
    DiameterNotKnown {
        tube: String,
        bore: bool,
    },
    OverlapBelowLeast {
        inner: String,
        by_bushings: bool,
    },
    Oval {
        tube: String,
    },
    BushingBinds {
        inner: String,
        upper: bool,
    },
    NothingToLift {
        tube: String,
    },
    RodTooShort {
        tube: String,
    },
    RodTooLong {
        tube: String,
    },
    HoleNearEnd {
        tube: String,
    },
    HolesTooClose {
        tube: String,
    },
    LiftMeetsTail {
        tube: String,
        inner: String,
    },
    PinThickerThanHole {
        tube: String,
    },
    /// Of a tube and the one below, as drilled: of the pair on which it stands, or of the second one.
    HolesDoNotMeet {
        tube: String,
        second: bool,
    },
    /// By the lifting holes as drilled.
    PullTooLong {
        tube: String,
    },
    /// In still air, or with every guy at its limit.
    PinTooWeak {
        tube: String,
        still: bool,
    },
    RodPinBends {
        tube: String,
    },
    Jams {
        tube: String,
    },
    RodBuckles {
        tube: String,
    },
    StrapTooWeak {
        tube: String,
    },
    HookTooWeak {
        tube: String,
    },
    CrankTooHard {
        tube: String,
    },
    WinchPlateTooThin,
    RodMeetsSpacers,
    /// Through the timber, or so that the tops do not lie flush.
    LapNotHalf {
        through: bool,
    },
    /// Guys by the name of their level.
    CollarClamped {
        guys: String,
    },
    /// In still air, or with every guy of it at its limit.
    CollarTooWeak {
        guys: String,
        still: bool,
    },
    CollarEdgeSharp {
        guys: String,
    },
    SocketTooWide,
    SocketTooDeep,
    NoRoomForBolts,
    BoltNearPlateEdge,
    StakeHoleTooWide,
    StakeHoleNearEnd,
    /// Under the crossing, or under a foot; for still air, or for every guy at its limit.
    BoardTooSmall {
        crossing: bool,
        still: bool,
    },
}

/// What is asked of the user.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WorkshopQuestion {
    PinHole,
    Pin,
    RodLength,
    WinchHeight,
    Rod,
    Drum,
    Crank,
    StrapThickness,
    StrapStrength,
    HookStrength,
    WinchHoles,
    StrandsWeight,
    CollarHeld,
    CollarSizes,
    CollarEdge,
    Soil,
    /// What the strands weigh, or what a rope may carry.
    WeightsAndRopes,
    GroundUnderFeet,
}

impl WorkshopRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::NotSaid { .. } => "workshop_not_said",
            Self::DoesNotEnter { .. } => "workshop_does_not_enter",
            Self::MayNotEnter { .. } => "workshop_may_not_enter",
            Self::DiameterNotKnown { .. } => "workshop_diameter_not_known",
            Self::OverlapBelowLeast { .. } => "workshop_overlap_below_least",
            Self::Oval { .. } => "workshop_oval",
            Self::BushingBinds { .. } => "workshop_bushing_binds",
            Self::NothingToLift { .. } => "workshop_nothing_to_lift",
            Self::RodTooShort { .. } => "workshop_rod_too_short",
            Self::RodTooLong { .. } => "workshop_rod_too_long",
            Self::HoleNearEnd { .. } => "workshop_hole_near_end",
            Self::HolesTooClose { .. } => "workshop_holes_too_close",
            Self::LiftMeetsTail { .. } => "workshop_lift_meets_tail",
            Self::HolesDoNotMeet { .. } => "workshop_holes_do_not_meet",
            Self::PullTooLong { .. } => "workshop_pull_too_long",
            Self::PinThickerThanHole { .. } => "workshop_pin_thicker_than_hole",
            Self::PinTooWeak { .. } => "workshop_pin_too_weak",
            Self::RodPinBends { .. } => "workshop_rod_pin_bends",
            Self::Jams { .. } => "workshop_jams",
            Self::RodBuckles { .. } => "workshop_rod_buckles",
            Self::StrapTooWeak { .. } => "workshop_strap_too_weak",
            Self::HookTooWeak { .. } => "workshop_hook_too_weak",
            Self::CrankTooHard { .. } => "workshop_crank_too_hard",
            Self::WinchPlateTooThin => "workshop_winch_plate_too_thin",
            Self::RodMeetsSpacers => "workshop_rod_meets_spacers",
            Self::LapNotHalf { .. } => "workshop_lap_not_half",
            Self::CollarClamped { .. } => "workshop_collar_clamped",
            Self::CollarTooWeak { .. } => "workshop_collar_too_weak",
            Self::CollarEdgeSharp { .. } => "workshop_collar_edge_sharp",
            Self::SocketTooWide => "workshop_socket_too_wide",
            Self::SocketTooDeep => "workshop_socket_too_deep",
            Self::NoRoomForBolts => "workshop_no_room_for_bolts",
            Self::BoltNearPlateEdge => "workshop_bolt_near_plate_edge",
            Self::StakeHoleTooWide => "workshop_stake_hole_too_wide",
            Self::StakeHoleNearEnd => "workshop_stake_hole_near_end",
            Self::BoardTooSmall { .. } => "workshop_board_too_small",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WorkshopRemedy {
    SayIt,
    /// Under Measure or under the rig.
    EnterIt,
    MeasureIt,
    /// A listed tube that does go in; none where none does.
    TakeInstead {
        nearest: Option<String>,
    },
    LeaveMoreInside {
        least_m: f64,
    },
    LessInside {
        most_m: f64,
    },
    TakeARounderTube,
    TurnItFurther {
        by_mm: f64,
    },
    LongerRodOrHigherWinch {
        least_m: f64,
    },
    ShorterRod {
        most_m: f64,
    },
    MoveTheHole {
        least_m: f64,
    },
    LongerPull {
        by_m: f64,
    },
    DrillFor {
        hole_mm: f64,
    },
    /// To be entered: the holes as drilled leave so much inside.
    SayWhatStaysInside {
        inside_m: f64,
    },
    /// From the lower tube's upper end; none where no place is left.
    DrillBothAtOnce {
        from_end_m: Option<f64>,
    },
    OneMoreLiftingHole {
        from_end_m: f64,
    },
    /// None where no pin of the shop's will do, or nothing is known of the load.
    ThickerPin {
        pin_mm: Option<f64>,
    },
    BoltOrShoulder,
    /// None where no bolt of the shop's will do, or nothing is known of the load.
    ThickerCollarBolt {
        bolt_mm: Option<f64>,
    },
    WiderShoulder,
    RounderEdge {
        radius_mm: f64,
    },
    MoreGuides {
        apart_m: Option<f64>,
    },
    StrongerStrap,
    StrongerHook,
    SlowerWinch,
    ThickerPlate {
        thickness_mm: f64,
    },
    ThinnerRod {
        most_mm: f64,
    },
    CutHalf {
        depth_mm: f64,
    },
    WiderTimber {
        width_mm: f64,
    },
    ShallowerSocket {
        depth_mm: f64,
    },
    LargerPlate {
        side_mm: f64,
    },
    StakesFartherIn {
        least_m: f64,
    },
    LargerBoard {
        side_mm: f64,
    },
}
