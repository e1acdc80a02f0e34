//! yard clearance
