//! How to find each point on the ground.

pub mod pegs;
mod results;
pub mod ties;

pub use results::{Peg, PolarTape, SwingTies};
