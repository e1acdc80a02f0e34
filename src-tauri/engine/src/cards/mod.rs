//! Step cards of the day on which the mast goes up: one thing to do on each, with its number.
//!
//! No order is written down anywhere. A card says in which states of the yard it may come ([`CardNeed`], each with its reason), and
//! which states it brings about and ends; [`Deck::progress()`] follows from the cards that are ticked off which may come next. Several
//! often may: the user chooses. [`deck()`] makes the cards of a job as planned from the numbers of [`crate::raising`] and
//! [`crate::workshop`], and from the forces of [`crate::lifting`]. How and how well: `docs/methods/cards.md`.

mod card;
mod make;
mod prepare;
mod progress;
mod state;
#[cfg(test)]
mod tests;

pub use card::*;
pub use make::{CardsPlan, TiltPlan, deck, planned, planned_around};
pub use prepare::{FirstUp, PhaseGust, PhasePrepared, PhaseStop, PhaseWays, Tool, WaysLooked, YardPeople};
pub use progress::{CardWaits, Deck, Progress};
pub use state::{NeedWhy, YardState};
