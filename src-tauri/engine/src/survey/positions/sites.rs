//! Points of the yard as sums of independent standard normal numbers, for drawing whole yards by chance.

use super::fix::Followed;
use super::{Pegged, Positions};
use crate::job::PointFix;
use crate::numerics::least_squares::DMatrix;
use crate::numerics::lower_root::lower_root;
use crate::quantity::FieldError;

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
        let [by_state, by_own] = [self.by_the_state(state), self.by_its_own(own)];
        [by_state[0] + by_own[0], by_state[1] + by_own[1]]
    }

    /// The part of its own readings.
    pub fn by_its_own(&self, numbers: [f64; 2]) -> [f64; 2] {
        self.own_root.map(|root| root[0] * numbers[0] + root[1] * numbers[1])
    }

    /// Variance of its own readings' part along (east, north).
    pub fn own_variance(&self, [east, north]: [f64; 2]) -> f64 {
        let along = |column: usize| east * self.own_root[0][column] + north * self.own_root[1][column];
        along(0) * along(0) + along(1) * along(1)
    }

    /// Change of east·x + north·y of the point with each coordinate of the state's points: first index, derivatives
    /// by its pair.
    pub fn by_points(&self, [east, north]: [f64; 2]) -> impl Iterator<Item = (usize, [f64; 2])> + '_ {
        let pairs = self.by_state.iter().filter(|(first, _)| *first >= 2);
        pairs.map(move |(first, by)| (first - 2, [0, 1].map(|i| east * by[0][i] + north * by[1][i])))
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
    pub(crate) fn site(&self, fix: &PointFix, path: &str) -> Result<Site, FieldError> {
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

    /// The covariance of the points of the state with the ground known.
    pub(crate) fn readings_covariance(&self) -> &DMatrix<f64> {
        &self.state.readings
    }

    /// Change of east·x + north·y of a point with the gradient of the tapes' ground, its marks' moves counted in.
    pub(crate) fn by_ground(&self, site: &Site, along: [f64; 2]) -> [f64; 2] {
        let own = site.by_state.iter().filter(|(first, _)| *first == 0);
        let mut change = [0.0; 2];
        for (_, by) in own {
            (0..2).for_each(|axis| change[axis] += along[0] * by[0][axis] + along[1] * by[1][axis]);
        }
        for (first, by) in site.by_points(along) {
            for (axis, change) in change.iter_mut().enumerate() {
                let moved = |row: usize| self.state.by_gradient[(first + row, axis)];
                *change += by[0] * moved(0) + by[1] * moved(1);
            }
        }
        change
    }
}
