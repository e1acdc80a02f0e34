//! The joint state that every point hangs on: the gradient of the tapes' ground, then the marks and the corners
//! that others follow from, with their joint covariance.
//!
//! It is built in two steps. First every point is found with the ground taken as known: what its errors then are
//! comes from tapes, bearings and sketches alone (`readings`), and how it would move with the ground is kept beside
//! (`by_gradient`). When the ground's own uncertainty is known, the two are joined (`joint`): the error of a point
//! is dx = dm + M·dg, so Σ_xx = Σ_mm + M·Σ_gm + Σ_mg·Mᵀ + M·Σ_gg·Mᵀ (law of propagation, GUM 5.2.2).

use super::fix::{Followed, Start};
use super::{PositionEstimate, Positions};
use crate::numerics::least_squares::DMatrix;

/// The state's covariance.
#[derive(Debug, Clone)]
pub(crate) struct FixState {
    /// Covariance of all points with the ground known: rows and columns 2i (east), 2i + 1 (north) of point i.
    pub readings: DMatrix<f64>,
    /// Change of all points with the gradient (dz/dx, dz/dy).
    pub by_gradient: DMatrix<f64>,
    /// Covariance of it all: rows and columns 0, 1 the ground's gradient, then 2 + 2i (east), 3 + 2i (north).
    pub joint: DMatrix<f64>,
}

impl FixState {
    pub fn of_points(count: usize) -> Self {
        let size = 2 * count;
        Self {
            readings: DMatrix::zeros(size, size),
            by_gradient: DMatrix::zeros(size, 2),
            joint: DMatrix::zeros(2 + size, 2 + size),
        }
    }

    /// Puts a point in.
    pub fn place(&mut self, point: usize, followed: &Followed) {
        let mut cross = DMatrix::zeros(2, self.readings.ncols());
        let mut moved = DMatrix::zeros(2, 2);
        for (first, by) in &followed.by_state {
            for (row, by_row) in by.iter().enumerate() {
                if *first == 0 {
                    moved[(row, 0)] += by_row[0];
                    moved[(row, 1)] += by_row[1];
                    continue;
                }
                let east = first - 2;
                for column in 0..self.readings.ncols() {
                    cross[(row, column)] += by_row[0] * self.readings[(east, column)]
                        + by_row[1] * self.readings[(east + 1, column)];
                }
                for axis in 0..2 {
                    moved[(row, axis)] += by_row[0] * self.by_gradient[(east, axis)]
                        + by_row[1] * self.by_gradient[(east + 1, axis)];
                }
            }
        }
        let first = 2 * point;
        for axis in 0..2 {
            for other in 0..self.readings.ncols() {
                self.readings[(first + axis, other)] = cross[(axis, other)];
                self.readings[(other, first + axis)] = cross[(axis, other)];
            }
            self.by_gradient[(first + axis, 0)] = moved[(axis, 0)];
            self.by_gradient[(first + axis, 1)] = moved[(axis, 1)];
        }
        let own = self.covariance_of(followed, &cross);
        for (row, own_row) in own.iter().enumerate() {
            for (column, value) in own_row.iter().enumerate() {
                self.readings[(first + row, first + column)] = *value;
            }
        }
    }

    /// J·Σ·Jᵀ and the readings' own part, for a point of this covariance with all others, the ground known.
    fn covariance_of(&self, followed: &Followed, cross: &DMatrix<f64>) -> [[f64; 2]; 2] {
        let mut covariance = followed.own;
        for (first, by) in followed.by_state.iter().filter(|(first, _)| *first > 0) {
            for (row, covariance_row) in covariance.iter_mut().enumerate() {
                for (column, cell) in covariance_row.iter_mut().enumerate() {
                    *cell +=
                        cross[(row, first - 2)] * by[column][0] + cross[(row, first - 1)] * by[column][1];
                }
            }
        }
        symmetric(covariance)
    }

    /// Joins the readings' part with the ground: `gradient` its covariance, `shared` that of the points (with the
    /// ground known) with the gradient, rows as in `readings`.
    pub fn join(&mut self, gradient: [[f64; 2]; 2], shared: &DMatrix<f64>) {
        let gradient = DMatrix::from_fn(2, 2, |row, column| gradient[row][column]);
        let moved = &self.by_gradient * &gradient;
        let back = shared * self.by_gradient.transpose();
        let points = &self.readings + &back + back.transpose() + &moved * self.by_gradient.transpose();
        let with_gradient = shared + moved;
        let size = points.nrows();
        self.joint.view_mut((0, 0), (2, 2)).copy_from(&gradient);
        self.joint.view_mut((2, 0), (size, 2)).copy_from(&with_gradient);
        self.joint.view_mut((0, 2), (2, size)).copy_from(&with_gradient.transpose());
        self.joint.view_mut((2, 2), (size, size)).copy_from(&points);
    }

    /// Covariance of one point.
    pub fn block(&self, point: usize) -> [[f64; 2]; 2] {
        let cell = |row, column| self.joint[(2 + 2 * point + row, 2 + 2 * point + column)];
        symmetric([[cell(0, 0), cell(0, 1)], [cell(1, 0), cell(1, 1)]])
    }
}

impl Positions {
    /// A point of the state by a mark's id; the origin for one that is not there.
    pub(super) fn start(&self, id: &str) -> Start {
        self.start_at(self.index.get(id).copied().unwrap_or(0))
    }

    pub(super) fn start_at(&self, point: usize) -> Start {
        Start { at: self.points.get(point).map_or([0.0; 2], |located| located.at), state: 2 + 2 * point }
    }

    pub(super) fn place(&mut self, point: usize, followed: &Followed) {
        self.state.place(point, followed);
        self.points[point] = PositionEstimate { at: followed.at, covariance: [[0.0; 2]; 2] };
    }

    /// Joins the points with the ground that their tapes ran along; see [`FixState::join`].
    pub(crate) fn join_ground(&mut self, gradient: [[f64; 2]; 2], shared: &DMatrix<f64>) {
        self.state.join(gradient, shared);
        for (point, located) in self.points.iter_mut().enumerate() {
            located.covariance = self.state.block(point);
        }
    }

    /// J·Σ·Jᵀ and the readings' own part.
    pub(super) fn covariance_of(&self, followed: &Followed) -> [[f64; 2]; 2] {
        let joint = &self.state.joint;
        let mut covariance = followed.own;
        for (first, by) in &followed.by_state {
            for (second, with) in &followed.by_state {
                let s = |row: usize, column: usize| joint[(first + row, second + column)];
                let half = |row: usize, column: usize| by[row][0] * s(0, column) + by[row][1] * s(1, column);
                for (row, cells) in covariance.iter_mut().enumerate() {
                    for (column, cell) in cells.iter_mut().enumerate() {
                        *cell += half(row, 0) * with[column][0] + half(row, 1) * with[column][1];
                    }
                }
            }
        }
        symmetric(covariance)
    }
}

/// Rounding must not make it lopsided.
fn symmetric([[ee, en], [ne, nn]]: [[f64; 2]; 2]) -> [[f64; 2]; 2] {
    let mixed = (en + ne) / 2.0;
    [[ee, mixed], [mixed, nn]]
}
