//! How tight the guys were found to be: what was read, never what comes of it.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use crate::quantity::whole;

/// Readings of the guys' tension, of all days.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Tensions {
    #[cfg_attr(feature = "typegen", schemars(length(max = 5000)))]
    pub readings: Vec<TensionReading>,
    /// How much one whole turn of the turnbuckles takes in, both of their threads together; none where there are none.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.2, max = 30)))]
    pub turn_mm: Option<f64>,
}

impl super::unread::Filled for Tensions {
    const TEMPLATE: &'static str = r#"{
        "readings": [{
            "who": "", "hz": null, "sigma_hz": null, "swings": null, "plane": "sideways", "phone_at_m": null, "pull_n": null, "aside_m": null
        }],
        "turn_mm": null
    }"#;
}

/// How tight one guy was found on one day. Either it swung (`hz`), or it was pulled aside (`pull_n`, `aside_m`).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct TensionReading {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub id: String,
    /// The guy, such as `upper-1`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub guy: String,
    /// When, with the zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    /// Who took it; empty where nobody said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub who: String,
    pub way: TensionWay,
    /// Swings there and back in a second.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.05, max = 2000)))]
    pub hz: Option<f64>,
    /// Standard uncertainty of that.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
    pub sigma_hz: Option<f64>,
    /// How many swings were timed, where they were counted.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 1000)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub swings: Option<u16>,
    /// Which way it swung.
    #[serde(default)]
    pub plane: SwingPlane,
    /// How far from its lower end a phone hung on the rope.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 30)))]
    pub phone_at_m: Option<f64>,
    /// With what it was pulled aside at its middle.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.5, max = 2000)))]
    pub pull_n: Option<f64>,
    /// How far its middle came aside.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.005, max = 3)))]
    pub aside_m: Option<f64>,
}

/// How a guy's tension was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TensionWay {
    /// Somebody tapped along with its swings.
    Tapped,
    /// Swings counted, timed by a watch.
    Watch,
    /// A phone hung on the rope felt it.
    Felt,
    /// A microphone heard it.
    Heard,
    /// Pulled aside at its middle by a scale.
    PulledAside,
}

/// Which way a rope swings.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SwingPlane {
    /// To the sides, across the plane in which it sags.
    #[default]
    Sideways,
    /// Up and down, in the plane in which it sags.
    UpAndDown,
}
