//! Linear least squares against NIST StRD.
//!
//! Source: National Institute of Standards and Technology, Statistical Reference Datasets, linear regression,
//! *Norris* (Norris, J., "Calibration of Ozone Monitors"): 36 observations, lower level of difficulty, certified
//! values of Norris.dat. The covariance of the two parameters is the one printed in the tests of the GNU
//! Scientific Library.
//!
//! Tolerance 1e-10 relative, as the certified values carry 15 digits.

use mastwright_engine::numerics::least_squares::{DMatrix, DVector, solve};

const X: [f64; 36] = [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0,
    447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3,
    229.2, 669.1, 448.9, 0.5,
];

const Y: [f64; 36] = [
    0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3,
    448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6,
    228.9, 668.4, 449.2, 0.2,
];

fn check(computed: f64, certified: f64) {
    let error = ((computed - certified) / certified).abs();
    assert!(error < 1e-10, "{computed} is not {certified}: {error:e}");
}

#[test]
fn norris() {
    let design = DMatrix::from_fn(36, 2, |row, column| if column == 0 { 1.0 } else { X[row] });
    let fit = solve(&design, &DVector::from_column_slice(&Y), &[1.0; 36]).unwrap();
    let variance = fit.variance_factor.unwrap();
    check(fit.parameters[0], -0.262323073774029);
    check(fit.parameters[1], 1.00211681802045);
    check(fit.scaled_sigma(0).unwrap(), 0.232818234301152);
    check(fit.scaled_sigma(1).unwrap(), 0.429796848199937e-3);
    check(variance * fit.covariance[(0, 1)], -7.74327536339570e-05);
    check(fit.chi_square, 26.6173985294224);
    check(variance, 0.782864662630069);
    check(variance.sqrt(), 0.884796396144373);
    assert_eq!(fit.degrees_of_freedom, 34);
    let mean = Y.iter().sum::<f64>() / 36.0;
    let total: f64 = Y.iter().map(|y| (y - mean) * (y - mean)).sum();
    check(1.0 - fit.chi_square / total, 0.999993745883712); // R²
}

/// Sigmas only scale: one common sigma changes no parameter, and divides chi-square by its square.
#[test]
fn norris_with_a_common_sigma() {
    let design = DMatrix::from_fn(36, 2, |row, column| if column == 0 { 1.0 } else { X[row] });
    let fit = solve(&design, &DVector::from_column_slice(&Y), &[0.5; 36]).unwrap();
    check(fit.parameters[1], 1.00211681802045);
    check(fit.chi_square, 26.6173985294224 / 0.25);
    check(fit.scaled_sigma(0).unwrap(), 0.232818234301152);
}
