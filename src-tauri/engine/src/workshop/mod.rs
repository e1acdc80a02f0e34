//! The workshop: what is bought, cut, turned and drilled between the plan and the standing mast.
//!
//! A folder a subject, each with its results beside its work; none of it is in the plan that follows a finger. Parts are called
//! by one spelling everywhere ([`key`]): where they are ticked off, where they are measured as made, on paper.
//!
//! | folder | what is in it |
//! |---|---|
//! | [`fit`] | which tube slides in which, with how much play; bushings, least overlap, what to look at in the shop |
//! | [`stages`] | how the tubes go up one after another: holes from the end, pins, who reaches them |
//! | [`joints`] | the base: half-lap, seat, bolts, stakes, feet, boards; which shapes the ground takes |
//! | [`collars`] | what carries the guys on the mast: bolt or shoulder, eyes, how round their steel |
//! | [`lift`] | rod, strap and winch: forces, turns, jamming, buckling |
//!
//! What a part measures as made goes before what was planned ([`crate::job::Workshop::made_mm`]), so that the next part fits the one
//! that really lies on the bench.

mod bench;
pub mod circle;
pub mod collars;
pub mod cutting;
pub mod fit;
pub mod joints;
pub mod lift;
pub mod shopping;
pub mod stages;

pub use bench::{BenchWork, bench_work};

/// What a part is called where it is ticked off and measured as made, such as `tube:0`.
pub fn key(kind: &str, which: usize) -> String {
    format!("{kind}:{which}")
}
