//! The guys: where their anchors go, how the rope hangs, how long to cut it.

pub mod cut_length;
mod findings;
pub mod fixing;
pub mod guy;
pub mod layout;
pub mod pluck;
mod results;
#[cfg(test)]
pub(crate) mod samples;
pub mod shared;
pub mod spacing;
pub mod statics;

pub use fixing::MadeFast;
pub use guy::{GuyInput, guys};
pub use results::GuyResult;
