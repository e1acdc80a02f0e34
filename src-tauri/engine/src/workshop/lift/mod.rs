//! Cranking the tubes up: what hangs on the strap, how hard the crank goes, whether a tube jams or the rod buckles.
//!
//! [`plan()`] gathers it; [`jam`] is friction where the rod pushes beside the axis, [`drum`] a flat strap on a narrow drum, [`plate`]
//! what carries the winch, [`rod`] what the rod carries between its guides. How and how well: `docs/methods/workshop.md`.

pub mod drum;
mod findings;
pub mod jam;
mod plan;
pub mod plate;
mod results;
pub mod rod;

pub use plan::plan;
pub use plate::{PlateBent, PlateWork, thickness_mm};
pub use results::*;
