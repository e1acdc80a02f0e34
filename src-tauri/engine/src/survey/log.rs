//! The survey log: what was read, when and by what; what was struck out and what took its place.
//!
//! The log holds every reading that the job ever held. What is new is found by comparing the job's readings with
//! what the log says they are, so that no way of editing can go unrecorded, and playing the log back always gives
//! the job's readings.

mod readings;
mod record;

pub use readings::{LoggedReading, readings};
pub use record::{How, compass_read, record, standing};

use crate::finding::Subject;

/// Names a reading: what it is of, and which of that thing's readings it is.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct ReadingKey {
    pub subject: Subject,
    pub part: String,
}

#[cfg(test)]
mod tests;
