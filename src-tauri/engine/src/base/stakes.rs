//! base stakes
