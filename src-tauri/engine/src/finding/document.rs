//! What the job's document can be found fault with, whatever stands in it.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum DocumentRule {
    /// A newer program may have put fields into it that this one does not know.
    NewerFields,
}

impl DocumentRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::NewerFields => "newer_fields",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum DocumentRemedy {
    UpdateTheApp,
}
