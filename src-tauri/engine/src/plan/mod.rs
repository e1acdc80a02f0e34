//! The Plan: where everything goes, how long everything is, how sure that is, and what is wrong.
//!
//! [`compute()`] goes through the stages in their order; each can be used alone, and as often as wanted on what came before:
//! [`survey()`] the yard once, [`lay_out()`] a rig in a place, [`check()`] the layout against the yard. What wind a layout
//! can take is the fourth, [`withstand()`](crate::wind_capacity::withstand()).

mod as_built;
mod checked;
mod compute;
mod fixes;
mod fixings;
mod known_line;
mod layout;
mod open;
mod points;
pub(crate) mod surveyed;
mod trial;
mod types;
mod unmeasured;
mod yard_bearing;

pub use checked::{Checked, check, check_near, check_placed, surfaces};
pub use compute::{compute, compute_on, compute_on_points, compute_placed, lay_out_as_built};
pub use fixings::GuyThings;
pub use known_line::{KnownLine, known_line};
pub use layout::{Layout, PlacedWork, lay_out, lay_out_for_map};
pub use points::FixedPoints;
pub use surveyed::{Surveyed, survey};
pub use trial::{Trial, try_placed};
pub use types::*;
pub use yard_bearing::{BearingHow, YardBearing, yard_bearing};

/// A plan with what it was computed on, as the drawings need it.
#[derive(Debug, Clone)]
pub struct Computed {
    pub plan: Plan,
    /// What the plan was gathered from, as it stands: what the wind is asked of.
    pub layout: Layout,
    pub yard: crate::yard::PlacedYard,
    pub ground: crate::ground::Ground,
}

#[cfg(test)]
mod tests;
