//! What was done of the step cards on the day, and what was chosen for them.

use serde::{Deserialize, Serialize};

use crate::quantity::whole;

/// Step cards that are ticked off, and who is there.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct CardWork {
    /// In the order of ticking.
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub done: Vec<CardDone>,
    /// The bare lower tube is stood up first, to find plumb and to measure the foot.
    pub bare_tube_first: bool,
    /// How many push at the mast while it is walked up; none where nobody has said it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 20)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub lifters: Option<u8>,
    /// Strongest gust forecast for the hours of the work; none where nobody has entered one.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 80)))]
    pub forecast_gust_m_per_s: Option<f64>,
    /// In how many minutes that gust is forecast; none where nobody has entered it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 20000)))]
    pub forecast_in_minutes: Option<f64>,
    /// It stands, and the cards are those by which it comes down.
    pub comes_down: bool,
    /// Running the tubes down, as it was rehearsed.
    pub lower_rehearsed: RehearsedTime,
    /// Laying the mast down, as it was rehearsed.
    pub lay_down_rehearsed: RehearsedTime,
}

impl super::unread::Filled for CardWork {
    const TEMPLATE: &'static str = r#"{
        "done": [], "bare_tube_first": false, "lifters": null, "forecast_gust_m_per_s": null, "forecast_in_minutes": null,
        "comes_down": false, "lower_rehearsed": { "minutes": null, "people": null },
        "lay_down_rehearsed": { "minutes": null, "people": null }
    }"#;
}

/// How long something took those who rehearsed it. Nothing is assumed of what nobody has entered.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct RehearsedTime {
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 2000)))]
    pub minutes: Option<f64>,
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 40)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub people: Option<u8>,
}

impl CardWork {
    /// The keys that are ticked off, in that order.
    pub fn ticked(&self) -> Vec<String> {
        self.done.iter().map(|done| done.card.clone()).collect()
    }
}

/// A card that was done. No time stands beside it: who ticks off what another ticked off has nothing to be asked about.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CardDone {
    /// Such as `raise:walk-up`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub card: String,
}
