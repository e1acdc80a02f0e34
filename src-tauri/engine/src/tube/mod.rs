//! Tubes: section tables and how they telescope.

pub mod section;
pub mod telescope;
