//! Products of matrices, the same bits on every machine.
//!
//! nalgebra hands products of more than five rows and columns to a library that uses whatever vector instructions the
//! processor has, fused ones among them: the browser and the desktop would then differ in the last digits.

use super::least_squares::DMatrix;

/// A·B.
///
/// # Panics
/// Where A has not as many columns as B has rows, as nalgebra's own product.
pub fn product(a: &DMatrix<f64>, b: &DMatrix<f64>) -> DMatrix<f64> {
    let mut product = DMatrix::zeros(a.nrows(), b.ncols());
    for column in 0..b.ncols() {
        // One column at a time: nalgebra's product with a vector is plain arithmetic.
        product.set_column(column, &(a * b.column(column)));
    }
    product
}

/// A·Aᵀ.
pub fn square(a: &DMatrix<f64>) -> DMatrix<f64> {
    product(a, &a.transpose())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn multiplies_as_nalgebra_does() {
        let a = DMatrix::from_fn(7, 9, |i, j| (i * 9 + j) as f64 / 7.0 - 3.0);
        let b = DMatrix::from_fn(9, 6, |i, j| 1.0 / (1.0 + (i + 2 * j) as f64));
        assert!((product(&a, &b) - &a * &b).amax() < 1e-13);
        assert!((square(&a) - &a * a.transpose()).amax() < 1e-12);
    }
}
