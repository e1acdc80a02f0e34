//! What is made in the workshop before anything goes into the yard.

use serde::{Deserialize, Serialize};

/// What was bought, cut, turned and drilled already, and what it measures as made.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Workshop {
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub done: Vec<WorkDone>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub made: Vec<WorkMade>,
    pub lift: Lift,
}

impl Workshop {
    /// What a part measures as made; none where nobody has measured it, and then it is as planned.
    pub fn made_mm(&self, part: &str) -> Option<f64> {
        self.made.iter().find(|made| made.part == part).map(|made| made.measured_mm)
    }

    pub fn is_done(&self, part: &str) -> bool {
        self.done.iter().any(|done| done.part == part)
    }
}

/// With what the tubes are cranked up. Every field may be left open: then what hangs on it is not known.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Lift {
    /// Of the steel pins, all of one thickness.
    #[cfg_attr(feature = "typegen", schemars(range(min = 2, max = 50)))]
    pub pin_mm: Option<f64>,
    /// The rod that lifts: a tube or a bar.
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 100)))]
    pub rod_outside_mm: Option<f64>,
    /// 0 where it is a bar.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 95)))]
    pub rod_bore_mm: f64,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 12)))]
    pub rod_length_m: Option<f64>,
    /// Middle of the winch's drum above the mast's foot, along the lower tube.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 3)))]
    pub winch_height_m: Option<f64>,
    /// The bare drum's diameter.
    #[cfg_attr(feature = "typegen", schemars(range(min = 8, max = 300)))]
    pub drum_mm: Option<f64>,
    /// Arm of its crank.
    #[cfg_attr(feature = "typegen", schemars(range(min = 50, max = 600)))]
    pub crank_mm: Option<f64>,
    /// Turns of the crank for one of the drum.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 60)))]
    pub gear: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 10)))]
    pub strap_thickness_mm: Option<f64>,
    /// What the strap's label says that it may lift in use.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 100000)))]
    pub strap_working_n: Option<f64>,
    /// The same of its hook.
    #[cfg_attr(feature = "typegen", schemars(range(min = 10, max = 100000)))]
    pub hook_working_n: Option<f64>,
    pub rubbing: Rubbing,
}

/// What slides on what while a tube is lifted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Rubbing {
    /// Nobody has said it: the worst is taken, dry steel.
    #[default]
    Unsaid,
    DrySteel,
    OiledSteel,
    /// Steel in plastic bushings.
    Plastic,
}

/// A part that is made. No time stands beside it: who ticks off what another ticked off has nothing to be asked about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkDone {
    /// Such as `tube:0`: what it is, and which of them.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
}

/// A part as it came out: the plan of the workshop goes on from that.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct WorkMade {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20000)))]
    pub measured_mm: f64,
}
