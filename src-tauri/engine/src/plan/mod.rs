//! The Plan: where everything goes, how long everything is, how sure that is, and what is wrong.

mod as_built;
mod build;
mod compute;
mod fixes;
mod known_line;
pub(crate) mod measured;
mod open;
mod types;
mod unmeasured;
mod yard_bearing;

pub use as_built::STANDS_FAR;
pub use compute::compute;
pub use known_line::{KnownLine, known_line};
pub use types::*;
pub use yard_bearing::{YardBearing, yard_bearing};

/// A plan with what it was computed on, as the drawings need it.
#[derive(Debug, Clone)]
pub struct Computed {
    pub plan: Plan,
    pub yard: crate::yard::PlacedYard,
    pub ground: crate::ground::Ground,
}

#[cfg(test)]
mod tests;
