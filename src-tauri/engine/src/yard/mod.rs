//! What stands in the yard, hangs over it and lies under it, and how far the work keeps from it.
//!
//! [`place()`] finds every point of the yard, [`check`] measures the work against all of it.

pub mod approach;
pub mod asked;
pub mod boundary;
pub mod buried;
pub mod clearance;
pub mod cone;
pub mod default_clearances;
pub mod flat;
pub(crate) mod measure;
pub mod obstacle;
pub mod overhead;
pub(crate) mod parts;
pub(crate) mod pieces;
pub mod place;
mod placed;
pub mod sight;
pub mod solid;

pub use asked::notice_holds_until;
pub use clearance::{Clearance, Work, check};
pub use place::place;
pub use placed::*;

#[cfg(test)]
mod tests;
