//! drawing labels
