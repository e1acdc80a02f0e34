//! What cranking comes to.

use serde::Serialize;

use crate::finding::Finding;

/// Cranking the mast up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LiftPlan {
    /// Where rod and winch stand beside the tubes; none where the rod is not known.
    pub stand_off: Option<StandOff>,
    /// Strap with its dead turns; none where drum or strap are not known.
    pub strap: Option<StrapOnDrum>,
    /// None where nobody has said how the winch is drilled, or the rod is not known.
    pub plate: Option<super::PlateWork>,
    pub friction: f64,
    /// In the order of the work.
    pub stages: Vec<LiftStage>,
    pub findings: Vec<Finding>,
}

/// Where rod and winch stand.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StandOff {
    /// From the tubes' axis to the rod's: the arm at which it pushes.
    pub arm_mm: f64,
    /// From the lower tube's surface to the winch's frame, so that the rod slides behind it.
    pub winch_frame_mm: f64,
    /// From the lower tube's surface to the middle of the drum, so that the strap hangs along the rod; none without a drum.
    pub drum_middle_mm: Option<f64>,
    /// Between rod and each tube, on its pin: from the bottom tube up.
    pub spacers_mm: Vec<f64>,
}

/// The strap on its drum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct StrapOnDrum {
    /// From the drum to the hook at its lowest, with the turns that always stay on.
    pub length_m: f64,
    /// With the hook at its highest.
    pub layers: f64,
    pub full_mm: f64,
}

/// One tube going up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct LiftStage {
    pub tube: u32,
    pub name: String,
    /// What goes up, rod and all; none where a weight is not known.
    pub mass_kg: Option<f64>,
    /// Of what goes up above the foot, before and after; guys and strands not counted.
    pub centre_before_m: f64,
    pub centre_after_m: f64,
    /// At its hardest, with the least overlap left; none where it jams or something is not known.
    pub strap_n: Option<f64>,
    /// Overlap at which it jams.
    pub jams_at_m: Option<f64>,
    pub bearing_m: f64,
    /// A dent as deep as this may hold the tube: all of the least play that it slides with. None where that is not known.
    pub dent_mm: Option<f64>,
    /// On the crank, with the drum at its fullest.
    pub hand_n: Option<f64>,
    /// Turns of the crank for each pull.
    pub crank_turns: Option<f64>,
    pub rod: Option<RodPushed>,
    /// What the pin that sticks out to the rod may carry.
    pub rod_pin_n: Option<f64>,
}

/// The rod while a tube goes up.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RodPushed {
    /// Its longest free piece: hook to winch, winch to the mouth's guide, guide to pin.
    pub free_m: f64,
    pub allowable_n: f64,
    pub euler_n: f64,
    /// Guides at most so far apart; none where nothing is known of the push.
    pub guides_apart_m: Option<f64>,
    /// What guides it between hook and pin: behind the winch and at the lower tube's mouth, above the foot.
    pub guides_at_m: [f64; 2],
}
