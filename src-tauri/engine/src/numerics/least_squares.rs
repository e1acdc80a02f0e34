//! Weighted linear least squares with covariance.
//!
//! # References
//! - Ghilani, *Adjustment Computations*, ch. 11 (weighted observation equations) and ch. 21 (standardised
//!   residuals and redundancy numbers). From memory.
//! - Golub & Van Loan, *Matrix Computations*, 4th ed., 5.4–5.5 (QR with column pivoting, rank). From memory.
//! - Accuracy is held against NIST StRD *Norris* in `tests/published/nist_norris.rs`.

pub use nalgebra::{DMatrix, DVector};

use super::product::square;

/// A column whose part not explained by the others is below this share of its length counts as dependent.
const RANK_TOLERANCE: f64 = 1e-11;

/// Redundancy below this is rounding: no other observation checks this one.
const UNCHECKED_REDUNDANCY: f64 = 1e-9;

/// A standardised residual beyond this is called out: 0.1 % (Baarda 1968, α₀ = 0.001; Ghilani, *Adjustment
/// Computations*, ch. 21, rejects there).
pub const WORST_STANDARDISED: f64 = 3.29;

/// The best parameters for observations = design · parameters, with everything that says how good they are.
#[derive(Debug, Clone, PartialEq)]
pub struct Fit {
    pub parameters: DVector<f64>,
    /// Covariance of the parameters with the sigmas taken as known, Qxx = (AᵀPA)⁻¹. Multiply by
    /// `variance_factor` to have it scaled by how well the observations really agree (S0²·Qxx).
    pub covariance: DMatrix<f64>,
    /// Observed minus computed, in the observations' own units.
    pub residuals: DVector<f64>,
    /// Standard deviation of each residual, σ_v = σ·√(redundancy).
    pub residual_sigmas: DVector<f64>,
    /// Residual over its own standard deviation; 0 where no other observation checks this one.
    pub standardised: DVector<f64>,
    /// The share of an error in each observation that shows in its own residual, 0 (unchecked) to 1.
    pub redundancy: DVector<f64>,
    /// Observations beyond the needed ones.
    pub degrees_of_freedom: usize,
    /// Sum of squares of residual/sigma.
    pub chi_square: f64,
    /// S0² = chi_square / degrees_of_freedom; none without redundancy.
    pub variance_factor: Option<f64>,
}

impl Fit {
    /// Standard deviation of a parameter with the sigmas taken as known.
    pub fn sigma(&self, parameter: usize) -> f64 {
        self.covariance[(parameter, parameter)].sqrt()
    }

    /// Standard deviation of a parameter scaled by the observations' own agreement; none without redundancy.
    pub fn scaled_sigma(&self, parameter: usize) -> Option<f64> {
        self.variance_factor.map(|factor| (factor * self.covariance[(parameter, parameter)]).sqrt())
    }
}

/// Why there is no fit.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum LeastSquaresError {
    /// The observations leave these parameters free.
    #[error("the observations do not determine the parameters {parameters:?}")]
    Underdetermined { parameters: Vec<usize> },
    #[error("{rows} rows of the design do not go with {observations} observations and {sigmas} sigmas")]
    Shape { rows: usize, observations: usize, sigmas: usize },
    #[error("observation {observation} has a sigma that is not a positive number")]
    BadSigma { observation: usize },
    #[error("observation {observation} is not a finite number or has a coefficient that is not")]
    NotFinite { observation: usize },
}

/// Solves design · parameters ≈ observed, each observation with its standard deviation.
///
/// # Errors
/// When the shapes differ, a number is not finite, a sigma is not positive, or the observations leave a
/// parameter free.
///
/// # Accuracy
/// The whitened and column-scaled system is factored by QR with column pivoting; the normal equations, which
/// would square its condition number, are never formed.
///
/// # Examples
/// ```
/// use mastwright_engine::numerics::least_squares::{DMatrix, DVector, solve};
/// // A length taped three times.
/// let design = DMatrix::from_element(3, 1, 1.0);
/// let fit = solve(&design, &DVector::from_vec(vec![10.0, 10.1, 10.2]), &[0.1; 3]).unwrap();
/// assert!((fit.parameters[0] - 10.1).abs() < 1e-12);
/// assert_eq!(fit.degrees_of_freedom, 2);
/// ```
pub fn solve(
    design: &DMatrix<f64>,
    observed: &DVector<f64>,
    sigmas: &[f64],
) -> Result<Fit, LeastSquaresError> {
    check_input(design, observed, sigmas)?;
    let (rows, columns) = design.shape();
    let whitened = DMatrix::from_fn(rows, columns, |row, column| design[(row, column)] / sigmas[row]);
    let scales = column_scales(&whitened);
    let scaled = DMatrix::from_fn(rows, columns, |row, column| whitened[(row, column)] / scales[column]);
    if columns == 0 || rows < columns {
        return if columns == 0 {
            Ok(without_parameters(observed, sigmas))
        } else {
            Err(LeastSquaresError::Underdetermined { parameters: free_parameters(&scaled) })
        };
    }

    let factored = scaled.clone().col_piv_qr();
    let r = factored.r();
    let largest = r[(0, 0)];
    // Pivoting sorts R's diagonal from largest to smallest, so the last one tells the rank.
    if r[(columns - 1, columns - 1)] <= RANK_TOLERANCE * largest {
        return Err(LeastSquaresError::Underdetermined { parameters: free_parameters(&scaled) });
    }
    let r_inverse = upper_inverse(&r);

    let mut rotated = DVector::from_fn(rows, |row, _| observed[row] / sigmas[row]);
    factored.q_tr_mul(&mut rotated);
    let mut parameters = &r_inverse * rotated.rows(0, columns);
    let mut half = r_inverse; // Qxx = (P R⁻¹)(P R⁻¹)ᵀ
    factored.p().inv_permute_rows(&mut parameters);
    factored.p().inv_permute_rows(&mut half);
    for column in 0..columns {
        parameters[column] /= scales[column];
        half.row_mut(column).unscale_mut(scales[column]);
    }
    let covariance = square(&half);

    // The leverage of an observation is the squared length of its row of Q: diag(A·Qxx·Aᵀ·P).
    let q = factored.q();
    let redundancy = DVector::from_fn(rows, |row, _| (1.0 - q.row(row).norm_squared()).max(0.0));
    let residuals = observed - design * &parameters;
    Ok(judge(Solved { parameters, covariance, residuals, redundancy }, sigmas, rows - columns))
}

struct Solved {
    parameters: DVector<f64>,
    covariance: DMatrix<f64>,
    residuals: DVector<f64>,
    redundancy: DVector<f64>,
}

fn judge(solved: Solved, sigmas: &[f64], degrees_of_freedom: usize) -> Fit {
    let Solved { parameters, covariance, residuals, redundancy } = solved;
    let rows = residuals.len();
    let residual_sigmas = DVector::from_fn(rows, |row, _| sigmas[row] * redundancy[row].sqrt());
    let standardised = DVector::from_fn(rows, |row, _| {
        if redundancy[row] > UNCHECKED_REDUNDANCY { residuals[row] / residual_sigmas[row] } else { 0.0 }
    });
    let chi_square =
        (0..rows).map(|row| (residuals[row] / sigmas[row]) * (residuals[row] / sigmas[row])).sum();
    let variance_factor = (degrees_of_freedom > 0).then(|| chi_square / degrees_of_freedom as f64);
    Fit {
        parameters,
        covariance,
        residuals,
        residual_sigmas,
        standardised,
        redundancy,
        degrees_of_freedom,
        chi_square,
        variance_factor,
    }
}

fn without_parameters(observed: &DVector<f64>, sigmas: &[f64]) -> Fit {
    let rows = observed.len();
    let solved = Solved {
        parameters: DVector::zeros(0),
        covariance: DMatrix::zeros(0, 0),
        residuals: observed.clone(),
        redundancy: DVector::from_element(rows, 1.0),
    };
    judge(solved, sigmas, rows)
}

fn check_input(
    design: &DMatrix<f64>,
    observed: &DVector<f64>,
    sigmas: &[f64],
) -> Result<(), LeastSquaresError> {
    let rows = design.nrows();
    if observed.len() != rows || sigmas.len() != rows {
        return Err(LeastSquaresError::Shape { rows, observations: observed.len(), sigmas: sigmas.len() });
    }
    if let Some(observation) = sigmas.iter().position(|sigma| !(sigma.is_finite() && *sigma > 0.0)) {
        return Err(LeastSquaresError::BadSigma { observation });
    }
    let finite =
        |row: &usize| observed[*row].is_finite() && design.row(*row).iter().all(|value| value.is_finite());
    match (0..rows).find(|row| !finite(row)) {
        Some(observation) => Err(LeastSquaresError::NotFinite { observation }),
        None => Ok(()),
    }
}

/// Lengths of the columns, so that a parameter in metres and one in radians meet the rank test on equal terms.
fn column_scales(matrix: &DMatrix<f64>) -> Vec<f64> {
    matrix.column_iter().map(|column| column.norm()).map(|norm| if norm > 0.0 { norm } else { 1.0 }).collect()
}

/// Inverse of the square upper triangle of R by back substitution.
fn upper_inverse(r: &DMatrix<f64>) -> DMatrix<f64> {
    let size = r.ncols();
    let mut inverse = DMatrix::identity(size, size);
    // The diagonal was found to be non-zero by the rank test.
    let _ = r.solve_upper_triangular_mut(&mut inverse);
    inverse
}

/// The parameters that take part in the null space: those that the observations leave free.
fn free_parameters(scaled: &DMatrix<f64>) -> Vec<usize> {
    let columns = scaled.ncols();
    // Rows of zeros make the SVD give all right singular vectors, also those of a flat system.
    let mut padded = DMatrix::zeros(scaled.nrows().max(columns), columns);
    padded.rows_mut(0, scaled.nrows()).copy_from(scaled);
    let svd = padded.svd(false, true);
    let Some(v_t) = svd.v_t else { return (0..columns).collect() };
    let largest = svd.singular_values.max();
    let free = |column: &usize| {
        (0..columns).any(|row| svd.singular_values[row] <= 1e-9 * largest && v_t[(row, *column)].abs() > 1e-6)
    };
    let named: Vec<usize> = (0..columns).filter(free).collect();
    // The two rank tests differ by a hair: an error never comes without a name.
    if named.is_empty() { (0..columns).collect() } else { named }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn matrix<const C: usize>(rows: &[[f64; C]]) -> DMatrix<f64> {
        DMatrix::from_fn(rows.len(), C, |row, column| rows[row][column])
    }

    fn vector(values: &[f64]) -> DVector<f64> {
        DVector::from_column_slice(values)
    }

    #[test]
    fn weights_pull_towards_the_better_observation() {
        // Weighted mean: weights 4 and 1 give (4·10 + 1·11)/5, variance 1/(4 + 1) in units of sigma 1.
        let fit = solve(&matrix(&[[1.0], [1.0]]), &vector(&[10.0, 11.0]), &[0.5, 1.0]).unwrap();
        assert!((fit.parameters[0] - 10.2).abs() < 1e-13);
        assert!((fit.covariance[(0, 0)] - 0.2).abs() < 1e-14);
        // Redundancy numbers add up to the degrees of freedom.
        assert!((fit.redundancy.sum() - 1.0).abs() < 1e-13);
        // With one degree of freedom all standardised residuals are equally large.
        assert!((fit.standardised[0].abs() - fit.standardised[1].abs()).abs() < 1e-12);
    }

    #[test]
    fn a_bare_fit_has_no_variance_factor_and_checks_nothing() {
        let fit = solve(&matrix(&[[2.0, 0.0], [1.0, 1.0]]), &vector(&[4.0, 5.0]), &[0.1, 0.1]).unwrap();
        assert_eq!((fit.degrees_of_freedom, fit.variance_factor), (0, None));
        assert_eq!(fit.standardised, vector(&[0.0, 0.0]));
        assert!((fit.parameters - vector(&[2.0, 3.0])).norm() < 1e-14);
    }

    #[test]
    fn free_parameters_are_named() {
        let check = |design: DMatrix<f64>, parameters: Vec<usize>| {
            let observed = DVector::zeros(design.nrows());
            let sigmas = vec![1.0; design.nrows()];
            assert_eq!(
                solve(&design, &observed, &sigmas),
                Err(LeastSquaresError::Underdetermined { parameters })
            );
        };
        check(matrix(&[[1.0, 0.0, 0.0], [0.0, 1.0, 1.0], [0.0, 2.0, 2.0]]), vec![1, 2]);
        check(matrix(&[[1.0, 0.0], [2.0, 0.0]]), vec![1]);
        check(matrix(&[[1.0, 0.0, 0.0], [0.0, 0.0, 1.0]]), vec![1]);
    }

    #[test]
    fn bad_input_is_an_error() {
        let one = matrix(&[[1.0]]);
        assert_eq!(solve(&one, &vector(&[1.0]), &[0.0]), Err(LeastSquaresError::BadSigma { observation: 0 }));
        assert_eq!(
            solve(&one, &vector(&[f64::NAN]), &[1.0]),
            Err(LeastSquaresError::NotFinite { observation: 0 })
        );
        assert!(matches!(solve(&one, &vector(&[1.0, 2.0]), &[1.0]), Err(LeastSquaresError::Shape { .. })));
    }
}
