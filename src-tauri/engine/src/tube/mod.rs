//! Tubes: section tables and how they telescope.

mod findings;
pub mod section;
pub mod tables;
pub mod telescope;

pub use section::{TubeSection, section};
pub use tables::{TubeSize, sizes, source};
pub use telescope::{Telescope, telescope};
