//! The lights' current: what the labels say, the lead that brings it, the circuit that gives it.

use serde::{Deserialize, Serialize};

use super::yard::PointFix;
use crate::quantity::whole;

/// What is known of the lights' current. Every field may be left open: then nothing is assumed, and what hangs on it is not known.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Lights {
    pub strand: StrandLabel,
    pub circuit: LightCircuit,
    pub lead: LightLead,
    /// Strands that were plugged in on the ground.
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub tested: Vec<StrandTest>,
    /// Somebody has measured how a strand stretches, or read it: the stretch among the strands' parts is then theirs. Without,
    /// that is the stiff one with which wind is reckoned.
    pub stretch_measured: bool,
    /// With what the spring or elastic at a strand's lower end was pulled; none where there is none.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 1000)))]
    pub spring_pull_n: Option<f64>,
    /// How much longer it came by that.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 2000)))]
    pub spring_gives_mm: Option<f64>,
}

impl super::unread::Filled for Lights {
    const TEMPLATE: &'static str = r#"{
        "strand": {
            "load_watts": null, "load_amps": null, "plug_volts": null, "most_end_to_end": null, "end_to_end": null, "outdoors": "unsaid"
        },
        "circuit": { "supply_volts": null, "breaker_amps": null, "other_amps": null, "residual_current_device": "unsaid" },
        "lead": {
            "way": [], "outlet_height_m": null, "feeds": "unsaid", "bought_m": null, "conductor": "unsaid", "rated_amps": null,
            "mass_g_per_m": null, "outdoors": "unsaid"
        },
        "tested": [], "stretch_measured": false, "spring_pull_n": null, "spring_gives_mm": null
    }"#;
}

/// What the label on one strand's plug says.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct StrandLabel {
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.1, max = 3000)))]
    pub load_watts: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 30)))]
    pub load_amps: Option<f64>,
    /// At the plug that goes into the lead: of the transformer, where there is one.
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 480)))]
    pub plug_volts: Option<f64>,
    /// How many may be plugged one behind the other, the first one counted: 1 where none may.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 200)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub most_end_to_end: Option<u16>,
    /// How many are.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 200)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub end_to_end: Option<u16>,
    pub outdoors: LabelSays,
}

/// What a label says, or what somebody has looked for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LabelSays {
    /// Nobody has looked.
    #[default]
    Unsaid,
    Yes,
    No,
}

/// The circuit that gives the current.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct LightCircuit {
    #[cfg_attr(feature = "typegen", schemars(range(min = 3, max = 480)))]
    pub supply_volts: Option<f64>,
    /// What stands on its breaker or fuse.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 125)))]
    pub breaker_amps: Option<f64>,
    /// What else runs on it at the same time; 0 where nothing does.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 125)))]
    pub other_amps: Option<f64>,
    /// Whether a residual-current device (GFCI) guards it.
    pub residual_current_device: LabelSays,
}

/// The cord from the outlet to the mast.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct LightLead {
    /// The outlet, then every bend on the way; the mast's foot is its end.
    #[cfg_attr(feature = "typegen", schemars(length(max = 40)))]
    pub way: Vec<PointFix>,
    /// Of the outlet above the ground.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 30)))]
    pub outlet_height_m: Option<f64>,
    pub feeds: LeadFeeds,
    /// Length of the cord in hand, or that is to be bought.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.3, max = 500)))]
    pub bought_m: Option<f64>,
    pub conductor: CordConductor,
    /// The most that it may carry, by its label.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 125)))]
    pub rated_amps: Option<f64>,
    /// With its insulation: weighed, or by its label.
    #[cfg_attr(feature = "typegen", schemars(range(min = 5, max = 2000)))]
    pub mass_g_per_m: Option<f64>,
    pub outdoors: LabelSays,
}

/// Where the strands are plugged into the lead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LeadFeeds {
    /// Nobody has said it.
    #[default]
    Unsaid,
    /// At the mast's foot: nothing of it goes up.
    Foot,
    /// At the circle from which the strands hang.
    Top,
}

/// What each wire of a cord is, as printed on it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CordConductor {
    /// Nobody has read it.
    #[default]
    Unsaid,
    Awg18,
    Awg16,
    Awg14,
    Awg12,
    Awg10,
    #[serde(rename = "mm2_0_75")]
    Mm2_0_75,
    #[serde(rename = "mm2_1")]
    Mm2_1,
    #[serde(rename = "mm2_1_5")]
    Mm2_1_5,
    #[serde(rename = "mm2_2_5")]
    Mm2_2_5,
}

/// A strand that was plugged in on the ground.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct StrandTest {
    /// Its number on its bundle, such as `7`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 10)))]
    pub strand: String,
    /// All of its lamps were lit.
    pub lit: bool,
}
