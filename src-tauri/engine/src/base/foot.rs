//! base foot
