//! Forces of the day on which the mast goes up: at the hands, at the hinge, in a line over a prop, in the tubes, and the gust up to which
//! anybody may begin.
//!
//! [`hands`] is the push that walks it up, [`line`] the other way, a line over a prop; [`hinge`] what the foot does meanwhile and what
//! holds it; [`bend`] the tubes as a beam under their own weight; [`tilt_gust`] the wind through the tilt, [`stage_gust`] the wind at
//! each stage of the cranking. [`lifting_work()`] gathers it. None of it is in the plan that follows a finger, and the first map does
//! not reach it. How and how well: `docs/methods/cards.md`.

pub mod bend;
pub mod body;
pub mod hands;
pub mod hinge;
pub mod line;
mod results;
mod stage_gust;
mod tilt_gust;
mod work;

pub use results::*;
pub use work::lifting_work;

/// What one person pulls at a line, starting it: HSE L23, as INDG143 has it, for women 15 kg, near 150 N (men 200 N): nobody says who pulls.
pub const ONE_PULLS_N: f64 = 150.0;

#[cfg(test)]
mod tests;
