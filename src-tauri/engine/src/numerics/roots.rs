//! Bracketed roots of one variable.
