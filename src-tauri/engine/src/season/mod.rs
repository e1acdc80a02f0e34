//! While the mast stands: what to look at and why, what changed since last time, when to go round again.
//!
//! | file | what is in it |
//! |---|---|
//! | [`look`] | what there is to look at of this plan, and why after wind, rain, frost, heat |
//! | [`trend`] | whether readings go one way, and how quickly |
//! | [`changes`] | lean and guys against the time before |
//! | [`diary`] | all rounds together: what is to be mended, what nobody has looked at, when the next one is due |
//! | [`packing`] | what is packed when it has come down, with lengths and weights |
//! | [`again`] | the same place again: the compass's north, tapes that would show a mark that has moved |

pub mod again;
pub mod changes;
pub mod diary;
pub mod look;
pub mod packing;
pub mod trend;

#[cfg(test)]
mod tests;

pub use again::{SamePlace, same_place};
pub use changes::{GuyHistory, LeanChange, LeanHistory, LeanReading, SeasonTensionChange};
pub use diary::{NextRound, OpenItem, SeasonDiary, SeasonMissing, SeasonRoundFound, SeasonStanding, diary};
pub use look::{LookCause, LookItem, LookList, LookWhy, SeasonThing, lists, things};
pub use packing::{PackingList, packing};
pub use trend::SeasonTrend;
