//! Turning the mast up and laying it down: about what it turns, what it sweeps, what each guy does meanwhile, and along which
//! bearings nothing stands in its way.
//!
//! [`motion::TiltMotion`] is the motion: a rigid body about a level line. [`body`] is what moves, [`certified`] how near it comes to a
//! thing over the whole way, [`lying`] how it lies, [`guys`] what the ropes do. [`check`] holds one way against the yard;
//! [`ways`] asks it all round. How and how well: `docs/methods/raising.md`.

pub mod body;
mod check;
mod corridor;
mod findings;
pub mod guys;
pub mod lying;
pub mod motion;
mod order;
mod results;
mod said;
mod trailing;
mod ways;

pub use crate::numerics::certified;
pub use check::{as_said, findings_as_said, order_as_said, radius_as_said};
pub use results::*;
pub use ways::{WayUpFound, raise_ways, way_up};
