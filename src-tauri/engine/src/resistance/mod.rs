//! What the parts above the ground can safely carry: tubes, threads, ropes, timber.
//!
//! Each number names its publication and its factor. What the ground can hold stands in [`crate::anchor`].

pub mod verdict;

pub use verdict::{Resistance, ShownResistance};
