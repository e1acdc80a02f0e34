//! Whom to call or ask before anything is driven into the ground, and by when.
//!
//! Nothing is known of holidays and of local law: a locate service's own notice, a building office's own time go before these
//! dates.

mod list;
mod working_days;

pub use list::{Call, CallKind, CallList, CallState, calls};
pub use working_days::{last_call_before, working_day_before};
