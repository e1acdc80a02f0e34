//! How to find each point on the ground.

pub mod pegs;
pub mod ties;
