//! base frame
