//! Tubes: section tables and how they telescope.

mod findings;
mod mast;
pub mod section;
pub mod tables;
pub mod telescope;
pub mod tolerance;

pub use findings::{LEAST_OVERLAP_DIAMETERS, PLAY_DEG};
pub use mast::{MastResult, Stage};
pub use section::TubeSection;
pub use tables::{TubeSize, TubeTable, sizes, source};
pub use telescope::{MastTube, Telescope, telescope};
pub use tolerance::{DiameterLimits, DiameterRange};
