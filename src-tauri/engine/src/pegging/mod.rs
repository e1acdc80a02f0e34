//! Pegging out, one peg after another: in which order, from where, how far off each may be, what goes into the ground, and
//! which tapes from peg to peg show that one was set or read wrongly.
//!
//! [`guide()`] gathers it. [`network`] is where each peg comes to lie by its tapes, and how surely; [`order`] the way;
//! [`tolerance`] what moving a peg does to the plan; [`checks`] the tapes to read; [`blunders`] what they tell.
//! How and how well: `docs/methods/pegging.md`.

pub mod blunders;
pub mod checks;
mod guide;
mod into_ground;
pub mod network;
pub mod order;
mod places;
mod results;
pub mod tolerance;

pub use guide::{guide, network as network_of, walk_m};
pub use results::*;
