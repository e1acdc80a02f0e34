//! What the ground can hold: screw anchors, plates, deadmen, pickets, stakes, ballast, the footing.
//!
//! Every capacity names its soil, its factor and its publication. Where the soil is unknown nothing is shown to hold,
//! and [`proof_pull`] says what load to pull with instead.
//!
//! # Examples
//! Does a screw that took 60 N·m hold a guy of 700 N? And a stake in soil that nobody looked at?
//! ```
//! use mastwright_engine::anchor::Strength;
//! use mastwright_engine::anchor::proof_pull::proof_pull;
//! use mastwright_engine::anchor::screw::{Screw, Shaft};
//! use mastwright_engine::quantity::UnitSystem;
//! use mastwright_engine::anchor::stake::{CAUTIOUS_BAR_YIELD_PA, Stake};
//!
//! let screw = Screw {
//!     shaft: Shaft::Round { diameter_mm: 16.0 },
//!     torque_nm: Some(60.0),
//!     helix_m: Some(0.15),
//!     depth_m: Some(0.9),
//! };
//! let held = screw.resistance(Strength::Clay { undrained_pa: 25e3 }, 1.0);
//! assert!(held.utilisation(700.0).is_some_and(|used| used < 1.0));
//! // The same screw with its helix 0.1 m down is not shown to hold anything.
//! let shallow = Screw { depth_m: Some(0.1), ..screw };
//! assert_eq!(shallow.resistance(Strength::Clay { undrained_pa: 25e3 }, 1.0).utilisation(1.0), None);
//!
//! let stake =
//!     Stake { diameter_m: 0.016, embedded_m: 0.75, push_height_m: 0.05, yield_pa: CAUTIOUS_BAR_YIELD_PA };
//! assert_eq!(stake.resistance(Strength::Unknown).utilisation(700.0), None);
//! assert_eq!(proof_pull(700.0, UnitSystem::Metric).load_n, 1050.0);
//! ```

pub mod ballast;
pub mod deadman;
pub mod footing;
pub mod picket;
pub mod plate;
pub mod proof_pull;
pub mod screw;
pub mod soil;
pub mod stake;

pub use soil::{Soil, Strength};

/// Factor of safety of an anchor against its ultimate holding power: 2.0 (IBC on uplift by wind, as told by two public
/// texts; ICC-ES AC358 on helical anchors; ANSI/TIA-222-F, from memory).
pub const ANCHOR_FACTOR: f64 = 2.0;
