//! From readings to angles, bearings and positions, each with its uncertainty.

pub mod adjustment;
pub mod compass;
pub mod declination;
pub mod ellipse;
pub mod heights;
pub mod hold;
pub mod north;
pub mod positions;
pub mod tilt;
mod wmm2025;
