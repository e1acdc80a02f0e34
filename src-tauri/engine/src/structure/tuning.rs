//! The mast shortens as its guys are tightened, which slackens them: lengths for the tensions set.

use super::loads::LoadCase;
use super::model::{Model, unstressed_m};
use super::parts::ModelError;
use super::solve::{Outcome, Solver};
use crate::numerics::vector::{Vector, add, subtract};

/// More than enough: each round leaves some hundredth of the error.
const ROUNDS: usize = 4;

impl Model {
    /// Gives every guy with a set tension the length that has it in still air, where the mast stands plumb but
    /// as much shorter as it then is. Guys of unlike slopes or tensions that pull the mast to one side still do
    /// so: no lengths can have tensions that don't balance.
    ///
    /// # Errors
    /// Where a tension is too small for its span.
    pub fn tune(&mut self) -> Result<(), ModelError> {
        let still = LoadCase::still_air(self);
        let mut solver = Solver::new(self);
        for _ in 0..ROUNDS {
            let Outcome::Stands(_) = solver.solve(self, &still) else { return Ok(()) };
            for i in 0..self.guys.len() {
                let guy = &self.guys[i];
                let Some(tension_n) = guy.set_tension_n else { continue };
                let sunk: Vector = [0.0, 0.0, solver.response().nodes[guy.node].displacement_m[2]];
                let place_m = add(add(self.nodes[guy.node].place_m, guy.collar_offset_m), sunk);
                let chord_m = subtract(place_m, guy.anchor_m);
                let length = unstressed_m(guy.rope.stiffness_n, guy.set_n_per_m, chord_m, tension_n);
                self.guys[i].rope.unstressed_m =
                    length.map_err(|cause| ModelError::GuyLength { guy: i, cause })?;
            }
        }
        Ok(())
    }
}
