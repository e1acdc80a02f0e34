//! How the tubes go up, the innermost first: how each stands run down, where its cross holes go, in how many pulls it rises, at
//! what height its pins are set.
//!
//! [`plan()`] gathers it; [`holes`] is what a hole needs round it and what it takes of the tube, [`rises`] how far one pull of the rod
//! lifts; what a pin carries stands in [`crate::resistance::pin`]. How and how well: `docs/methods/workshop.md`.

mod findings;
pub mod holes;
mod plan;
mod results;
pub mod rises;

pub use plan::{FootPush, foot_push, plan, weight_kg};
pub use results::*;
