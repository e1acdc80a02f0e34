//! Pictures of a plan: one scene of shapes in metres, painted by the screen or set on paper; pages of them, laid out once,
//! written as SVG here and as PDF by `mastwright-paper`.

pub mod bent_mast;
mod blockers;
mod canvas;
mod geometry;
mod import_preview;
pub mod key;
pub mod labels;
mod layers;
pub mod lead_map;
pub mod leg_profile;
pub mod letters;
pub mod marks;
pub mod pages;
mod paint;
mod paint_seen;
#[cfg(test)]
pub(crate) mod sample;
pub mod scene;
mod scene_marks;
pub mod seen;
pub mod sheet;
mod sign_paths;
pub mod signs;
pub mod stages_picture;
pub mod staking_map;
pub mod svg;
pub mod tilt_picture;
mod walk;
pub mod wind_rose;
pub(crate) mod words;

pub use bent_mast::bent_mast;
pub use import_preview::import_preview;
pub use leg_profile::leg_profile;
pub use pages::Paper;
pub use sheet::sheets;
pub use staking_map::{MapOptions, staking_map};
pub use svg::{SvgStyle, svg};
pub use walk::walk_section;
pub use wind_rose::wind_rose;
