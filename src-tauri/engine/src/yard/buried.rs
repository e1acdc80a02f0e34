//! yard buried
