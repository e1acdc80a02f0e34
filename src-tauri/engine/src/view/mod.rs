//! What somebody sees who stands in the yard and looks: house, trees and wires with the mast, its guys and the lit strands
//! among them, as in perspective from a pair of eyes.
//!
//! [`YardToSee::of`] takes from the plan what there is to see. [`YardToSee::seen_from`] says what of it shows from one
//! place: what hides what hangs on where the eyes are, and not on which way they look, so that a [`Camera`] that turns only
//! projects. Nothing that nobody measured stands up in it.

mod camera;
mod draped;
mod eyes;
mod hidden;
mod results;
mod seen;
mod shadow;
mod world;

pub use camera::{Camera, FIELD_DEG, Look, PITCH_DEG, USUAL_FIELD_DEG};
pub use eyes::{Eyes, eyes_of};
pub use results::{ConeSeen, HeightOf, LookTaken, Shown, StandpointSeen, ThingKind, ThingSeen, ViewSeen};
pub use seen::{FaceKind, LineKind, Seen, SeenFace, SeenLine};
pub use shadow::Shadow;
pub use world::YardToSee;

#[cfg(test)]
mod tests;
