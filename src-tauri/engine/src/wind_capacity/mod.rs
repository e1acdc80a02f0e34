//! What wind the mast can take: the gust limit from every direction, the use of every part, what to change first.
//!
//! One mast, one wind, one solution: the job's mast ([`standing`]) becomes a structure ([`mast`]) under a wind's loads
//! ([`loads`]); every part's use follows from where it comes to rest ([`parts`]); the limit is where the first part
//! that can be shown to hold is fully used ([`search`]). How and how well: `docs/methods/wind-capacity.md`.

pub mod air;
pub mod anchors;
mod ballast;
pub mod base;
pub mod bow;
mod bracket;
pub mod by_eye;
pub mod changes;
mod collars;
pub mod findings;
mod fold;
pub mod loads;
pub mod mast;
pub mod missing;
pub mod parts;
pub mod rose;
pub mod search;
pub mod section;
pub mod soil;
pub mod standing;
pub mod states;
pub mod still;
pub mod strand;
pub mod table;
pub mod timbers;
mod types;

pub use changes::{LEAST_GAIN_M_PER_S, RepeatedStep, WindStep, wind_changes};
pub use missing::missing_of;
pub use rose::{withstand, withstand_and_spent};
pub use table::{WindQuestion, wind_table};
pub use types::*;

use crate::finding::Finding;
use crate::job::Job;
use crate::plan::Layout;

/// Stop findings of a mast that does not stand in still air, and what is missing for a gust limit: all that a verdict
/// needs, without the search over the gusts.
pub fn still_and_missing(job: &Job, layout: &Layout) -> (Vec<Finding>, Vec<MissingEntry>) {
    let heights = rose::heights(job, layout);
    (still::still_air(&heights, &mut 0), missing::missing(&heights))
}

#[cfg(test)]
mod tests;
