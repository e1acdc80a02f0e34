//! The season's diary: the rounds on which the standing mast was looked at. What was seen, never what comes of it.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

use crate::quantity::whole;

/// Rounds of all seasons. They stay when the mast is taken down, and in every copy of the job.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Season {
    /// Days from one round to the next; none where nobody has chosen it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 1, max = 366)))]
    #[serde(deserialize_with = "whole::read_option")]
    pub every_days: Option<u16>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000)))]
    pub rounds: Vec<SeasonRound>,
    /// What is ticked off of the packing list.
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub packed: Vec<PackedPart>,
    /// Notes for the next time.
    #[cfg_attr(feature = "typegen", schemars(length(max = 500)))]
    pub lessons: Vec<SeasonLesson>,
}

impl super::unread::Filled for Season {
    const TEMPLATE: &'static str = r#"{
        "every_days": null,
        "rounds": [{
            "who": "", "cause": { "if kind": "wind", "gust_m_per_s": null }, "looked": [], "lean": { "?": true, "sigma_deg": null }, "note": ""
        }],
        "packed": [], "lessons": []
    }"#;
}

/// Something of the packing list that is done.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PackedPart {
    /// Such as `pack:tube:0` or `chore:holes-filled`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub part: String,
}

/// A note for the next time, shown where it belongs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SeasonLesson {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    /// The step card, such as `raise:walk-up`, or the part of the day, such as `raise`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 60)))]
    pub card: String,
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 1000)))]
    pub text: String,
    /// When, with the zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub noted_at: DateTime<FixedOffset>,
}

/// One entry of the diary. A photo of the job belongs to it whose `shows` names it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SeasonRound {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    /// When, with the zone.
    #[cfg_attr(feature = "typegen", ts(type = "string"))]
    pub taken_at: DateTime<FixedOffset>,
    /// Who looked; empty where nobody said.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub who: String,
    pub cause: RoundCause,
    /// What was looked at. What does not stand here was not looked at.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub looked: Vec<LookedAt>,
    /// How the mast leaned then; none where nobody measured it.
    #[serde(default)]
    pub lean: Option<RoundLean>,
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 4000)))]
    pub note: String,
}

/// Why somebody went round.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum RoundCause {
    /// It was just stood up: what is compared later begins here.
    StoodUp,
    Wind {
        /// The strongest gust, where somebody knows it.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 80)))]
        gust_m_per_s: Option<f64>,
    },
    /// Rain that lasted.
    Rain,
    Frost,
    Heat,
    /// Nothing happened: the usual day.
    Routine,
    /// It was taken down: nothing is due until it stands again.
    TakenDown,
}

/// One thing that was looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct LookedAt {
    /// Such as `anchor:upper-1`.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub item: String,
    /// What it was called then: next year's mast may have other parts.
    #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
    pub name: String,
    pub found: LookFound,
}

/// How a thing was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LookFound {
    Fine,
    ToMend,
}

/// How the mast leaned, along two legs of its base: by them whoever plumbs it stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct RoundLean {
    /// Towards the front leg; negative: away from it.
    #[cfg_attr(feature = "typegen", schemars(range(min = -30, max = 30)))]
    pub to_front_deg: f64,
    /// To the right of one who stands at the mast and looks along the front leg; negative: to the left.
    #[cfg_attr(feature = "typegen", schemars(range(min = -30, max = 30)))]
    pub to_right_deg: f64,
    /// Standard uncertainty of either; none: that of a slope read in this yard.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(range(min = 0.001, max = 10)))]
    pub sigma_deg: Option<f64>,
}
