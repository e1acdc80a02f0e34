//! The lower triangular root of a covariance that may be flat.

use super::least_squares::DMatrix;

/// L with L·Lᵀ = the covariance. A direction without uncertainty of its own (a fixed point, a point that hangs wholly
/// on others) has zeros from the diagonal on, where a plain Cholesky factor would not exist.
///
/// # References
/// Golub & Van Loan, *Matrix Computations*, 4.2.8 (positive semidefinite systems). From memory.
pub fn lower_root(covariance: &DMatrix<f64>) -> DMatrix<f64> {
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_flat_covariance_comes_back_from_its_root() {
        let part = DMatrix::from_row_slice(4, 2, &[1.0, 0.0, 2.0, 0.0, 0.5, 3.0, 0.0, 0.0]);
        let covariance = &part * part.transpose();
        let root = lower_root(&covariance);
        assert!((&root * root.transpose() - covariance).amax() < 1e-12);
        assert_eq!(root[(3, 3)], 0.0);
    }
}
