//! The mast under load: beams, guys, and the state in which they stand in equilibrium.
//!
//! A [`Mast`] describes it, a [`Model`] is its chain of nodes and beams, a [`LoadCase`] the wind and pulls on
//! it, and a [`Solver`] finds where it comes to rest or says that it does not. How and how well:
//! `docs/methods/structure.md`.
//!
//! ```
//! use mastwright_engine::structure::*;
//!
//! let tube = TubePart::of_steel(0.0, 6.0, 48.3e-3, 3.2e-3);
//! let guy = |bearing_deg: f64| GuyPart {
//!     attach_height_m: 5.5,
//!     collar_offset_m: [0.0; 3],
//!     anchor_m: [
//!         5.0 * mastwright_engine::numerics::real::sin_deg(bearing_deg),
//!         5.0 * mastwright_engine::numerics::real::cos_deg(bearing_deg),
//!         0.0,
//!     ],
//!     stiffness_n: 60e3,
//!     weight_n_per_m: 0.4,
//!     length: GuyLength::UpperTension { tension_n: 250.0 },
//! };
//! let mast = Mast { guys: vec![guy(0.0), guy(120.0), guy(240.0)], ..Mast::standing_on([0.0; 3], vec![tube]) };
//! let model = Model::build(&mast)?;
//! let mut wind = LoadCase::still_air(&model);
//! wind.wind_on_elements_n_per_m.fill([20.0, 0.0, 0.0]);
//! let mut solver = Solver::new(&model);
//! assert!(matches!(solver.solve(&model, &wind), Outcome::Stands(_)));
//! let top = solver.response().nodes.last().unwrap();
//! assert!(top.displacement_m[0] > 0.0);
//! # Ok::<(), ModelError>(())
//! ```

mod beam;
mod buckling;
mod cable;
pub mod catenary;
mod loads;
mod model;
mod parts;
mod response;
mod solve;
mod system;
mod tuning;

pub use beam::{Beam, Forces};
pub use buckling::buckling_factor;
pub use cable::{CableRope, Pull};
pub use loads::{LoadCase, PointLoad};
pub use model::{Element, Guy, Model, Node};
pub use parts::{BaseSupport, GuyLength, GuyPart, Mast, ModelError, TubePart};
pub use response::{BaseReaction, ElementResponse, GuyResponse, NodeResponse, Response};
pub use solve::{Instability, Outcome, Reason, SolveEffort, Solver};
pub use system::State;
