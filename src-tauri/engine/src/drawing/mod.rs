//! Pictures of a plan: one scene of shapes in metres, written as SVG here or painted by the screen.

pub mod labels;
pub mod leg_profile;
pub mod scene;
pub mod staking_map;
pub mod svg;
