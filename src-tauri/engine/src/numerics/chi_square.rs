//! The chi-square distribution: how unlikely a misfit is.

use super::real::{erfc, exp, lgamma, ln};

/// Above this many degrees of freedom the exact sum gives way to an approximation that is better than 1e-4
/// in the tail.
const EXACT_UP_TO: usize = 200;

/// 95 % point of chi-square with two degrees of freedom, −2·ln 0.05 in closed form: the squared half-axes of a 95 %
/// ellipse in variances. Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4.
pub const CHI_SQUARE_95_2: f64 = 5.991_464_547_107_98;

/// Chance of a chi-square of at least `chi_square` at `degrees_of_freedom`; 1 without any.
///
/// # References
/// Abramowitz & Stegun, Handbook of Mathematical Functions (1964), 26.4.4 and 26.4.5 (exact sums for odd and
/// even degrees of freedom), 26.4.14 (Wilson–Hilferty) above 200.
pub fn upper_tail(chi_square: f64, degrees_of_freedom: usize) -> f64 {
    if degrees_of_freedom == 0 || chi_square <= 0.0 {
        return 1.0;
    }
    if degrees_of_freedom > EXACT_UP_TO {
        return wilson_hilferty(chi_square, degrees_of_freedom as f64);
    }
    let half = 0.5 * chi_square;
    let odd = degrees_of_freedom % 2 == 1;
    let (mut tail, first) = if odd { (erfc(half.sqrt()), 0.5) } else { (exp(-half), 1.0) };
    // Each two further degrees of freedom add (x/2)^(k/2) e^(−x/2) / Γ(k/2 + 1).
    for step in 0..(degrees_of_freedom - 1) / 2 {
        let k = first + step as f64;
        tail += exp(k * ln(half) - half - lgamma(k + 1.0));
    }
    tail.clamp(0.0, 1.0)
}

/// A&S 26.4.14: the cube root of chi-square over its mean is nearly normal.
fn wilson_hilferty(chi_square: f64, nu: f64) -> f64 {
    let spread = 2.0 / (9.0 * nu);
    let z = (super::real::pow(chi_square / nu, 1.0 / 3.0) - (1.0 - spread)) / spread.sqrt();
    0.5 * erfc(z * std::f64::consts::FRAC_1_SQRT_2)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Upper 5 % and 1 % points: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4.
    #[test]
    fn nist_table() {
        let rows = [
            (1, 3.841, 6.635),
            (2, 5.991, 9.210),
            (3, 7.815, 11.345),
            (5, 11.070, 15.086),
            (10, 18.307, 23.209),
            (29, 42.557, 49.588),
            (100, 124.342, 135.807),
        ];
        for (dof, five, one) in rows {
            assert!((upper_tail(five, dof) - 0.05).abs() < 3e-5, "{dof}");
            assert!((upper_tail(one, dof) - 0.01).abs() < 1e-5, "{dof}");
        }
    }

    #[test]
    fn the_approximation_meets_the_sum() {
        for x in [180.0, 200.0, 250.0] {
            assert!((wilson_hilferty(x, 200.0) - upper_tail(x, 200)).abs() < 3e-4);
        }
        assert!((upper_tail(1e5, 100_000) - 0.4994).abs() < 1e-3);
    }
}
