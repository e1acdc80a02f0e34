//! The timber base on the slope: the level frame, its feet and shims, its stakes.

pub mod contour;
pub mod foot;
pub mod frame;
pub mod stakes;
