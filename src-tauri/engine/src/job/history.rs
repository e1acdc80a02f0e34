//! Who last wrote which place of a job, and what each device had seen: what two devices need to bring their states of one job
//! together. It stands beside the job where that is handed over, and says nothing about the yard.

use serde::{Deserialize, Serialize};

/// A writing: by which device, and when by its clock.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Stamp {
    /// Milliseconds since 1970 by that device's clock, but more than in all it wrote or saw before: a clock that is set
    /// back makes no writing older than it is.
    #[cfg_attr(
        feature = "typegen",
        ts(type = "number"),
        schemars(range(min = 0, max = 9007199254740991_u64))
    )]
    pub at_ms: u64,
    /// The device, by the letters that it drew once.
    #[cfg_attr(feature = "typegen", schemars(length(max = 40)))]
    pub device: String,
}

/// What a device is called.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct DeviceName {
    #[cfg_attr(feature = "typegen", schemars(length(max = 40)))]
    pub device: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 80)))]
    pub name: String,
}

/// What was written at one place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct PlaceHistory {
    /// The place, with an item of a list by its id: `/yard/slopes/@slope-3`.
    #[cfg_attr(feature = "typegen", schemars(length(max = 400)))]
    pub place: String,
    /// The last writing; several, where devices wrote without knowing of each other.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 64)))]
    pub written: Vec<Writing>,
}

/// One writing at a place.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Writing {
    pub by: Stamp,
    /// Who had written it first, where it was put back: somebody took back what they had said of a conflict.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub first: Option<Stamp>,
    /// It took away what stood there.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub gone: bool,
    /// What it put there, as JSON, where that is not what the job has there.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000000)))]
    pub json: Option<String>,
}

/// The history of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct History {
    /// The job's own name among all jobs of all devices.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 80)))]
    pub job: String,
    /// Who made the job: every place that is not named below is as it was then.
    pub made: Stamp,
    /// The last writing of each device that is in the job.
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 1000)))]
    pub seen: Vec<Stamp>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000)))]
    #[serde(default)]
    pub names: Vec<DeviceName>,
    #[cfg_attr(feature = "typegen", schemars(length(max = 500000)))]
    #[serde(default)]
    pub places: Vec<PlaceHistory>,
    /// The last change of the order or number of the items of a list.
    #[cfg_attr(feature = "typegen", schemars(length(max = 100)))]
    #[serde(default)]
    pub orders: Vec<ListOrder>,
    /// What the items of lists are told apart by that have no ids in the job; none in a history from before there were keys.
    #[cfg_attr(feature = "typegen", schemars(length(max = 100)))]
    #[serde(default)]
    pub keys: Vec<ListKeys>,
    /// Check sum of the job that this is the history of: where it is not, somebody changed the file by hand, or with a
    /// program that keeps no history.
    #[cfg_attr(feature = "typegen", schemars(length(min = 16, max = 16)))]
    pub sum: String,
}

/// The keys of a list's items, in its order.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ListKeys {
    #[cfg_attr(feature = "typegen", schemars(length(max = 400)))]
    pub list: String,
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000)))]
    pub keys: Vec<String>,
}

/// Who last changed the order of a list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ListOrder {
    #[cfg_attr(feature = "typegen", schemars(length(max = 400)))]
    pub list: String,
    pub by: Stamp,
}
