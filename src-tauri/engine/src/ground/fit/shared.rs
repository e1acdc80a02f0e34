//! Errors that several readings share, such as those of the marks from which spot heights were placed.
//!
//! The readings' covariance is V = D + B·Σ·Bᵀ: D their own variances, Σ the covariance of the shared errors, B how these
//! load each reading. Its inverse never has to be written out: V⁻¹ = W − W·B·T·Bᵀ·W with W = D⁻¹ and
//! T = L·(I + Lᵀ·BᵀWB·L)⁻¹·Lᵀ, L·Lᵀ = Σ (Woodbury's identity; Golub & Van Loan, *Matrix Computations*, 2.1.4).
//! The work grows with the readings once and with the cube of the shared errors.

use super::solve::ReadingRow;
use crate::numerics::least_squares::{DMatrix, DVector};
use crate::numerics::lower_root::lower_root;
use crate::numerics::product::product;

/// Shared errors of a reading: number, change of the reading with it.
pub(super) type ErrorLoading = Vec<(usize, f64)>;

/// What the shared errors take off the readings' weight.
#[derive(Debug, Clone, Default)]
pub(super) struct SharedErrors {
    /// T.
    inner: DMatrix<f64>,
    /// BᵀWA.
    factors: DMatrix<f64>,
    /// BᵀWv of the residuals v.
    residuals: DVector<f64>,
}

/// A row of V⁻¹ as seen by the unknowns: its part of V⁻¹A, and its own cell of V⁻¹.
pub(super) struct WeightedRow {
    pub factors: [f64; 3],
    pub weight: f64,
}

impl SharedErrors {
    pub fn of(rows: &[ReadingRow], shared: &DMatrix<f64>) -> Self {
        let size = shared.nrows();
        if size == 0 {
            return Self::default();
        }
        let mut between = DMatrix::zeros(size, size);
        let mut factors = DMatrix::zeros(size, 3);
        for row in rows {
            let weight = weight(row);
            for &(i, by_i) in &row.load {
                for &(j, by_j) in &row.load {
                    between[(i, j)] += weight * by_i * by_j;
                }
                for (column, factor) in row.factors.iter().enumerate() {
                    factors[(i, column)] += weight * by_i * factor;
                }
            }
        }
        let root = lower_root(shared);
        let middle = DMatrix::identity(size, size) + product(&product(&root.transpose(), &between), &root);
        // I plus a positive semidefinite matrix: it has a Cholesky factor as long as it is finite.
        let inner = match middle.cholesky() {
            Some(factor) => product(&root, &factor.solve(&root.transpose())),
            None => DMatrix::zeros(size, size),
        };
        Self { inner, factors, residuals: DVector::zeros(size) }
    }

    /// Takes note of the residuals; gives χ² = vᵀV⁻¹v.
    pub fn settle(&mut self, rows: &[ReadingRow], residuals: &[f64]) -> f64 {
        let own: f64 = rows.iter().zip(residuals).map(|(row, v)| weight(row) * v * v).sum();
        for (row, v) in rows.iter().zip(residuals) {
            for &(i, by) in &row.load {
                self.residuals[i] += weight(row) * by * v;
            }
        }
        if self.residuals.is_empty() {
            own
        } else {
            own - self.residuals.dot(&(&self.inner * &self.residuals))
        }
    }

    /// bᵀ·T.
    fn through(&self, row: &ReadingRow) -> DVector<f64> {
        let mut through = DVector::zeros(self.inner.ncols());
        for &(i, by) in &row.load {
            through.axpy(by, &self.inner.column(i), 1.0);
        }
        through
    }

    pub fn seen(&self, row: &ReadingRow) -> WeightedRow {
        let weight = weight(row);
        if row.load.is_empty() {
            return WeightedRow { factors: row.factors.map(|factor| weight * factor), weight };
        }
        let through = self.through(row);
        let pulled: f64 = row.load.iter().map(|&(i, by)| by * through[i]).sum();
        let factors = std::array::from_fn(|column| {
            weight * (row.factors[column] - through.dot(&self.factors.column(column)))
        });
        WeightedRow { factors, weight: weight - weight * weight * pulled }
    }

    /// (V⁻¹v) of a row whose residual is `v`.
    pub fn weighted(&self, row: &ReadingRow, v: f64) -> f64 {
        let shared = if row.load.is_empty() { 0.0 } else { self.through(row).dot(&self.residuals) };
        weight(row) * (v - shared)
    }
}

fn weight(row: &ReadingRow) -> f64 {
    1.0 / (row.sigma * row.sigma)
}

#[cfg(test)]
mod tests {
    use super::super::solve::solve;
    use super::*;

    /// The same by the whole covariance, inverted as it stands.
    #[test]
    fn it_is_generalised_least_squares() {
        let shared = DMatrix::from_row_slice(2, 2, &[4e-4, 1e-4, 1e-4, 9e-4]);
        let row = |east: f64, north: f64, value, sigma, load: &[(usize, f64)]| ReadingRow {
            factors: [1.0, east, north],
            value,
            sigma,
            load: load.to_vec(),
        };
        let rows = [
            row(3.0, 1.0, 0.31, 0.01, &[(0, 1.0), (1, 0.4)]),
            row(-2.0, 4.0, 0.12, 0.02, &[(0, -0.5)]),
            row(1.0, -5.0, -0.4, 0.01, &[(1, 1.5)]),
            row(-6.0, -2.0, -0.25, 0.03, &[]),
            row(0.0, 0.0, 0.0, 0.01, &[]),
        ];
        let a = DMatrix::from_fn(5, 3, |i, j| rows[i].factors[j]);
        let z = DVector::from_fn(5, |i, _| rows[i].value);
        let mut b = DMatrix::zeros(5, 2);
        for (i, row) in rows.iter().enumerate() {
            row.load.iter().for_each(|&(j, by)| b[(i, j)] = by);
        }
        let own = DMatrix::from_diagonal(&DVector::from_fn(5, |i, _| rows[i].sigma * rows[i].sigma));
        let inverse = (own + &b * &shared * b.transpose()).try_inverse().unwrap();
        let covariance = (a.transpose() * &inverse * &a).try_inverse().unwrap();
        let unknowns = &covariance * a.transpose() * &inverse * &z;
        let v = &z - &a * &unknowns;
        let spread = &inverse - &inverse * &a * &covariance * a.transpose() * &inverse;
        let found = solve(&rows, &shared);
        for i in 0..3 {
            assert!((found.unknowns[i] - unknowns[i]).abs() < 1e-12);
            for j in 0..3 {
                assert!((found.covariance[i][j] - covariance[(i, j)]).abs() < 1e-12);
            }
        }
        assert!((found.chi_square - v.dot(&(&inverse * &v))).abs() < 1e-9);
        let gains = &covariance * a.transpose() * &inverse;
        for (i, row) in rows.iter().enumerate() {
            let expected = (&inverse * &v)[i] / spread[(i, i)].sqrt();
            assert!((found.standardised(row) - expected).abs() < 1e-9);
            let answer = found.answer(row);
            assert!((0..3).all(|k| (answer[k] - gains[(k, i)]).abs() < 1e-12));
        }
    }
}
