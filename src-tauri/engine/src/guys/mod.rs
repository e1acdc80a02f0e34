//! The guys: where their anchors go, how the rope hangs, how long to cut it.

pub mod catenary;
pub mod cut_length;
pub mod layout;
pub mod pluck;
