//! Weighted least squares for the three numbers of a plane, with a wide prior where nothing was measured.

use nalgebra::{Matrix3, Vector3};

use super::UNMEASURED_SLOPE_SIGMA_DEG;
use super::shared::{ErrorLoading, SharedErrors};
use crate::numerics::least_squares::DMatrix;
use crate::numerics::real::{atan2, cos, hypot, sin, tan_deg};

/// Below this share of a reading's variance left to its residual, the other readings say nothing of it.
const LEAST_REDUNDANCY: f64 = 1e-6;

/// One observation: factors · (h₀, gE, gN) = value ± sigma, and how errors that several observations share load it.
#[derive(Debug, Clone)]
pub(super) struct ReadingRow {
    pub factors: [f64; 3],
    pub value: f64,
    pub sigma: f64,
    pub load: ErrorLoading,
}

/// The best plane.
#[derive(Debug, Clone)]
pub(super) struct Solution {
    /// (h₀, gE, gN)
    pub unknowns: [f64; 3],
    pub covariance: [[f64; 3]; 3],
    pub chi_square: f64,
    pub degrees_of_freedom: usize,
    /// Directions (east, north) in which the slope was not measured but taken as level, give or take.
    pub unmeasured: Vec<[f64; 2]>,
    measured_anything: bool,
    shared_errors: SharedErrors,
}

impl Solution {
    /// What the plane gives for a row.
    pub fn computed(&self, row: &ReadingRow) -> f64 {
        dot(row.factors, self.unknowns)
    }

    /// What a row read more than the plane gives.
    fn residual(&self, row: &ReadingRow) -> f64 {
        row.value - self.computed(row)
    }

    /// Residual in units of its own standard deviation; 0 where no other reading tells of this one.
    /// Source: Baarda 1968, w = (V⁻¹v)ᵢ/√(V⁻¹QᵥV⁻¹)ᵢᵢ for readings that share errors; without shared ones it is
    /// Ghilani's v / (σ·√r) with the redundancy number r.
    pub fn standardised(&self, row: &ReadingRow) -> f64 {
        let seen = self.shared_errors.seen(row);
        let c = &self.covariance;
        let told = dot(seen.factors, [0, 1, 2].map(|i| dot(c[i], seen.factors)));
        let left = seen.weight - told;
        if left < LEAST_REDUNDANCY * seen.weight {
            return 0.0;
        }
        self.shared_errors.weighted(row, self.residual(row)) / left.sqrt()
    }

    /// What the plane answers to one unit of a row's value: C·AᵀV⁻¹ of that row.
    pub fn answer(&self, row: &ReadingRow) -> [f64; 3] {
        let seen = self.shared_errors.seen(row);
        self.covariance.map(|c| dot(c, seen.factors))
    }

    /// No reading tells of the slope in any direction.
    pub fn nothing_known(&self) -> bool {
        !self.measured_anything
    }

    /// Widens the covariance by χ² over the degrees of freedom (Birge 1932); gives the factor.
    pub fn widen(&mut self) -> f64 {
        let factor = (self.chi_square / self.degrees_of_freedom.max(1) as f64).max(1.0);
        self.covariance = self.covariance.map(|row| row.map(|c| c * factor));
        factor
    }
}

/// Solves the normal equations. Directions in which the rows leave the slope wider than the prior (level,
/// ± [`UNMEASURED_SLOPE_SIGMA_DEG`]) are filled up to it: what the rows tell there and what the prior adds
/// make ± that together. So a further reading never makes the ground less sure, as it would if the prior were
/// added whole and fell away at some point.
pub(super) fn solve(rows: &[ReadingRow], shared: &DMatrix<f64>) -> Solution {
    let with_height = rows.iter().any(|row| row.factors[0] != 0.0);
    let mut shared_errors = SharedErrors::of(rows, shared);
    let (mut normal, right) = normal_equations(rows, &shared_errors, with_height);
    let prior = 1.0 / (tan_deg(UNMEASURED_SLOPE_SIGMA_DEG) * tan_deg(UNMEASURED_SLOPE_SIGMA_DEG));
    let known = gradient_information(&normal);
    let weak: Vec<_> = principal(known).into_iter().filter(|&(information, _)| information < prior).collect();
    for &(information, u) in &weak {
        for (i, j) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
            normal[(i + 1, j + 1)] += (prior - information.max(0.0)) * u[i] * u[j];
        }
    }
    let (unknowns, covariance) = inverted(&normal, &right, with_height);
    let mut solution = Solution {
        unknowns,
        covariance,
        chi_square: 0.0,
        degrees_of_freedom: 0,
        measured_anything: principal(known).iter().any(|&(information, _)| information > 1e-9 * prior),
        unmeasured: weak.into_iter().map(|(_, u)| u).collect(),
        shared_errors: SharedErrors::default(),
    };
    let parameters = if with_height { 3 } else { 2 } - solution.unmeasured.len();
    solution.degrees_of_freedom = rows.len().saturating_sub(parameters);
    let residuals: Vec<f64> = rows.iter().map(|row| solution.residual(row)).collect();
    solution.chi_square = shared_errors.settle(rows, &residuals);
    solution.shared_errors = shared_errors;
    solution
}

fn normal_equations(
    rows: &[ReadingRow],
    shared_errors: &SharedErrors,
    with_height: bool,
) -> (Matrix3<f64>, Vector3<f64>) {
    let (mut normal, mut right) = (Matrix3::<f64>::zeros(), Vector3::zeros());
    for row in rows {
        let seen = shared_errors.seen(row);
        for i in 0..3 {
            right[i] += seen.factors[i] * row.value;
            for j in 0..3 {
                normal[(i, j)] += seen.factors[i] * row.factors[j];
            }
        }
    }
    // Summed row by row it is lopsided by rounding.
    let mut normal: Matrix3<f64> = 0.5 * (normal + normal.transpose());
    if !with_height {
        // No row tells of h₀: it is 0 by definition. A one here keeps the matrix regular.
        normal[(0, 0)] = 1.0;
    }
    (normal, right)
}

/// What the rows tell of (gE, gN) once h₀ is eliminated (Schur complement).
fn gradient_information(n: &Matrix3<f64>) -> [[f64; 2]; 2] {
    let at = |i: usize, j: usize| n[(i, j)] - n[(i, 0)] * n[(0, j)] / n[(0, 0)];
    [[at(1, 1), at(1, 2)], [at(2, 1), at(2, 2)]]
}

/// Eigenvalues of a symmetric 2×2 matrix, each with its unit vector.
fn principal(m: [[f64; 2]; 2]) -> [(f64, [f64; 2]); 2] {
    let half_difference = 0.5 * (m[0][0] - m[1][1]);
    let (mean, radius) = (0.5 * (m[0][0] + m[1][1]), hypot(half_difference, m[0][1]));
    let angle = 0.5 * atan2(m[0][1], half_difference);
    let (c, s) = (cos(angle), sin(angle));
    [(mean + radius, [c, s]), (mean - radius, [-s, c])]
}

/// Solution and inverse of the normal matrix, by Cholesky on unknowns scaled to one size.
fn inverted(normal: &Matrix3<f64>, right: &Vector3<f64>, with_height: bool) -> ([f64; 3], [[f64; 3]; 3]) {
    let scale = Vector3::from_fn(|i, _| 1.0 / normal[(i, i)].max(f64::MIN_POSITIVE).sqrt());
    let scaled = Matrix3::from_fn(|i, j| normal[(i, j)] * scale[i] * scale[j]);
    let Some(cholesky) = scaled.cholesky() else {
        return ([0.0; 3], [[0.0; 3]; 3]);
    };
    let inverse = cholesky.inverse();
    let solved = cholesky.solve(&Vector3::from_fn(|i, _| right[i] * scale[i]));
    let mut covariance = [0, 1, 2].map(|i| [0, 1, 2].map(|j| inverse[(i, j)] * scale[i] * scale[j]));
    if !with_height {
        covariance[0][0] = 0.0;
    }
    ([0, 1, 2].map(|i| solved[i] * scale[i]), covariance)
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}
