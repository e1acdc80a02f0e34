//! drawing svg
