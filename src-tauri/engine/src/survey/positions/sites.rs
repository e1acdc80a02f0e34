//! Points of the yard as sums of independent standard normal numbers, for drawing whole yards by chance.

use super::fix::Followed;
use super::{Pegged, Positions};
use crate::job::{FieldError, Fix};
use crate::numerics::least_squares::DMatrix;

/// A point as it depends on the joint state (gradient of the tapes' ground, then the marks) and its own readings.
#[derive(Debug, Clone)]
pub(crate) struct Site {
    pub at: [f64; 2],
    by_state: Vec<(usize, [[f64; 2]; 2])>,
    /// Lower root of the covariance from its own readings.
    own_root: [[f64; 2]; 2],
}

impl Site {
    fn of(followed: &Followed) -> Self {
        let [[ee, en], [_, nn]] = followed.own;
        let east = ee.max(0.0).sqrt();
        let mixed = if east > 0.0 { en / east } else { 0.0 };
        let own_root = [[east, 0.0], [mixed, (nn - mixed * mixed).max(0.0).sqrt()]];
        Site { at: followed.at, by_state: followed.by_state.clone(), own_root }
    }

    /// How far the point lies from where the plan has it, for a change of the state and two normal numbers for its
    /// own readings.
    pub fn displacement(&self, state: &[f64], own: [f64; 2]) -> [f64; 2] {
        let mut moved = self.by_the_state(state);
        for (axis, root) in self.own_root.iter().enumerate() {
            moved[axis] += root[0] * own[0] + root[1] * own[1];
        }
        moved
    }

    /// The state's part of it.
    pub fn by_the_state(&self, state: &[f64]) -> [f64; 2] {
        let mut moved = [0.0; 2];
        for (first, by) in &self.by_state {
            for (axis, row) in by.iter().enumerate() {
                moved[axis] += row[0] * state[*first] + row[1] * state[first + 1];
            }
        }
        moved
    }
}

impl Positions {
    /// A fixed point with what it depends on.
    ///
    /// # Errors
    /// As [`Positions::locate`].
    pub(crate) fn site(&self, fix: &Fix, path: &str) -> Result<Site, FieldError> {
        Ok(Site::of(&self.follow(fix, path)?))
    }

    /// A pegged point with what it depends on.
    pub(crate) fn pegged_site(&self, pegged: &Pegged) -> Site {
        Site::of(&pegged.followed)
    }

    /// The joint covariance's readings part as its lower Cholesky root: the points' east and north with the ground
    /// known. Directions without uncertainty (the origin, a baseline) have rows of zeros.
    pub(crate) fn readings_root(&self) -> DMatrix<f64> {
        lower_root(&self.state.readings)
    }

    /// Change of every point of the state with the gradient of the tapes' ground.
    pub(crate) fn by_gradient(&self) -> &DMatrix<f64> {
        &self.state.by_gradient
    }
}

/// Lower root of a covariance that may be flat.
pub(crate) fn lower_root(covariance: &DMatrix<f64>) -> DMatrix<f64> {
    let size = covariance.nrows();
    let mut root = DMatrix::<f64>::zeros(size, size);
    for i in 0..size {
        for j in 0..i {
            let known: f64 = (0..j).map(|k| root[(i, k)] * root[(j, k)]).sum();
            let pivot: f64 = root[(j, j)];
            root[(i, j)] = if pivot > 0.0 { (covariance[(i, j)] - known) / pivot } else { 0.0 };
        }
        let known: f64 = (0..i).map(|k| root[(i, k)] * root[(i, k)]).sum();
        let left = covariance[(i, i)] - known;
        // What is left below this share of the variance is rounding.
        root[(i, i)] = if left > 1e-12 * covariance[(i, i)] { left.sqrt() } else { 0.0 };
    }
    root
}
