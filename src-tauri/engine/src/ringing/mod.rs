//! How tight a guy is, from how it swings: taps, a phone on the rope, a microphone, or a scale that pulls it aside.
//!
//! | file | what is in it |
//! |---|---|
//! | [`rhythm`] | the period of swings that somebody tapped along with, or timed by a watch |
//! | [`spectrum`] | how strong each frequency is in a recording, against the noise round it |
//! | [`note`] | the lowest note of a rope in a spectrum, and when there is none to be trusted |
//! | [`recording`] | from a phone's samples to a spectrum |
//! | [`rope`] | from that note to the pull at the rope's upper end: sag, length, what hangs on it |
//! | [`levels`] | all guys of a level beside each other and beside the plan; what to take in |

pub mod levels;
pub mod note;
pub mod recording;
pub mod rhythm;
pub mod rope;
pub mod spectrum;

#[cfg(test)]
mod synthetic;
#[cfg(test)]
mod tests;

pub use levels::{
    GuyTension, GuyTensions, LevelTension, MeasuredTension, TensionStanding, TimedSwings, levels,
};
pub use note::{NoNote, Note};
