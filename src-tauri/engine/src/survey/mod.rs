//! From readings to angles, bearings and positions, each with its uncertainty.

pub mod adjustment;
pub mod compass;
pub mod declination;
pub mod ellipse;
pub mod flat;
pub mod heights;
pub mod hold;
pub mod log;
pub mod measured_height;
pub mod north;
pub mod plumb;
pub mod positions;
mod results;
pub mod sights;
pub mod snooping;
pub mod tilt;
pub mod walk;
mod wmm2025;
pub mod zero;

pub use ellipse::Ellipse;
pub use results::{LocatedPoint, North, NorthFrom, OpenPoint, PlacedMark};
