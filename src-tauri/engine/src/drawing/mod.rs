//! Pictures of a plan: one scene of shapes in metres, written as SVG here or painted by the screen.

pub mod bent_mast;
mod canvas;
mod description;
mod geometry;
mod import_preview;
pub mod key;
pub mod labels;
mod layers;
pub mod leg_profile;
mod paint;
#[cfg(test)]
pub(crate) mod sample;
pub mod scene;
pub mod sheet;
pub mod signs;
pub mod staking_map;
pub mod svg;
mod walk;
pub mod wind_rose;

pub use bent_mast::bent_mast;
pub use import_preview::import_preview;
pub use leg_profile::leg_profile;
pub use sheet::{Paper, map_sheet};
pub use staking_map::{MapOptions, staking_map};
pub use svg::{SvgStyle, svg};
pub use walk::walk_section;
pub use wind_rose::wind_rose;
