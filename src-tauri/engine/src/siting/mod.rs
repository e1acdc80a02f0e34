//! Where the mast can stand: every place of the yard at every turn, held against the rules of the plan.
//!
//! [`SitingSearch::begin`] asks the quick rules everywhere: what a plan view shows of pegs, timbers, crowns, wires and the
//! boundary. They refuse only what the whole plan refuses. What they pass is *possible*; [`SitingSearch::go_on`] plans such places
//! whole, by the same stages as [`crate::plan::compute`] on the same survey, and calls *good* what is clear by its whole
//! 95 % interval. [`SitingSearch::answer`] says what is known by then.
//!
//! [`SitingSearch::look_closer`] gives the best places the marks that take more than a plan: wind, view, walking.
//! [`SitingSearch::try_patterns`] looks where another pattern of guys opens what this one leaves closed. Where nothing fits,
//! [`SitingSearch::openings`] says what would have to change, and by how much.
//!
//! Nothing here is drawn by chance: one job has one answer, whatever the steps in which it was found.

mod best_marks;
mod change;
mod filter;
mod judge_place;
mod openings;
mod patterns;
mod poses;
mod refine;
mod results;
mod room;
mod score;
mod search;
mod wishes;
mod zones;

pub use change::SitingChange;
pub use filter::{BindingRule, SitingPart};
pub use results::*;
pub use score::{SitingMark, SitingMerit, SitingScore, SitingUnknown};
pub use search::SitingSearch;
pub use wishes::{SitingWeights, SitingWishes};
