//! survey tilt
