//! From readings to angles, bearings and positions, each with its uncertainty.

pub mod adjustment;
pub mod declination;
pub mod hold;
pub mod positions;
pub mod tilt;
mod wmm2025;
