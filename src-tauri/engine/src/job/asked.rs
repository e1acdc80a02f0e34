//! What was asked about dangers that nobody sees on a map: what lies underground, and what hangs overhead. A list
//! without an entry says nothing: nobody may have looked.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

/// What the utilities answered when they were asked what lies underground. Their lines stand in the list of buried
/// services; this says whether that list is all.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Underground {
    /// Nobody has asked, or nobody has answered.
    #[default]
    NotAsked,
    /// They answered that none of their lines lies in the work area.
    NoneThere {
        /// When they answered, with the zone.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
        answered_at: Option<DateTime<FixedOffset>>,
        /// Until when the notice holds, as it says itself; none: by the usual least time.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
        holds_until: Option<DateTime<FixedOffset>>,
        /// The number of the notice.
        #[serde(default)]
        #[cfg_attr(feature = "typegen", schemars(length(max = 200)))]
        reference: String,
    },
    /// They marked lines, which are entered as buried services.
    Marked,
}

/// When anything is first driven into the ground, and how long before that the locate service wants to know.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Digging {
    /// With the zone; none where nobody has said it.
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub begins_at: Option<DateTime<FixedOffset>>,
    /// Whole working days between the call and the digging, as the locate service asks for; none where nobody has asked.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 60)))]
    pub notice_working_days: Option<u8>,
    /// Calls that were made, of those that leave no other trace in the job.
    #[cfg_attr(feature = "typegen", schemars(length(max = 5)))]
    pub calls_made: Vec<CallMade>,
}

/// A call that somebody ticks off.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CallMade {
    BuildingOffice,
    PrivateLines,
    Neighbours,
    LocateService,
    Forecast,
}

/// Whether somebody looked up for wires. Those that hang there stand in the list of overhead lines.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum Overhead {
    #[default]
    NotLooked,
    /// Somebody stood there and looked: no wire hangs over the work, nor within this distance of where the mast, an
    /// anchor or the ring stands.
    NoneWithin {
        #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 1000)))]
        distance_m: f64,
    },
}
