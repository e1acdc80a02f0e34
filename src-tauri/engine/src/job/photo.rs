//! Photos of the yard. The job names each by what it is made of; its bytes lie beside the job.

use chrono::{DateTime, FixedOffset};
use serde::{Deserialize, Serialize};

/// A photo that belongs to the job. Nothing is computed from it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Photo {
    #[cfg_attr(feature = "typegen", schemars(length(min = 1, max = 40)))]
    pub id: String,
    /// SHA-256 of its bytes (FIPS 180-4), in 64 small hexadecimal digits: under this it is kept and handed over.
    #[cfg_attr(feature = "typegen", schemars(length(min = 64, max = 64)))]
    pub sha256: String,
    /// The id of the thing or mark that it shows, or of the season's round that it was taken on; empty for the yard.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 40)))]
    pub shows: String,
    /// What is to be seen.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", schemars(length(max = 1000)))]
    pub note: String,
    /// By the phone's clock, with its zone.
    #[serde(default)]
    #[cfg_attr(feature = "typegen", ts(type = "string | null"))]
    pub taken_at: Option<DateTime<FixedOffset>>,
}

/// Whether a text is a SHA-256 as photos are named by. It becomes a file's name, so it is nothing else.
pub fn is_sha256(text: &str) -> bool {
    text.len() == 64 && text.bytes().all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'))
}
