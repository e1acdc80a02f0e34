//! survey adjustment
