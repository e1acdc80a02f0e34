//! Wind: what a forecast's gust does to tubes, ropes and strands.
//!
//! A *gust* is the strongest three seconds; a *mean* is taken over ten minutes (one or two in some countries).
//! The two differ by half and more, and force goes with the square: every name in here says which one it means.
//! Speeds are in m/s, heights in metres above the ground at the mast, pressures in pascal.

pub mod asce7;
pub mod beaufort;
pub mod body;
pub mod density;
pub mod drag;
pub mod en1991;
pub mod forecast;
pub mod gust;
pub mod ice;
pub mod member;
pub mod pressure;

pub use body::Body;
pub use member::{Cone, Load, Member, Stream};
pub use pressure::Route;
