//! yard solid
