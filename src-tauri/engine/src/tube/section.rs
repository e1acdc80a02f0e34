//! tube section
