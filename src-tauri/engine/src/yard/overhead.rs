//! yard overhead
