//! Bracketed roots of one variable.

/// Why no root was found.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum RootError {
    /// The function has the same sign at both ends.
    #[error("the function has the same sign at both ends of the interval")]
    NotBracketed,
    /// The function gave something that is not a number.
    #[error("the function is not a finite number inside the interval")]
    NotFinite,
    /// The steps ran out before the tolerance was reached.
    #[error("no root within the allowed number of steps")]
    NotConverged,
}

/// When to stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RootRules {
    /// The root is wanted to this distance, in the unit of the variable.
    pub tolerance: f64,
    pub max_steps: usize,
}

impl Default for RootRules {
    fn default() -> Self {
        Self { tolerance: 1e-12, max_steps: 100 }
    }
}

/// The root of `f` between `low` and `high` by Brent's method: inverse quadratic interpolation or the secant
/// where they behave, bisection where they do not, so it is never much slower than bisection.
///
/// # Errors
/// Where the ends do not bracket a root, a value is not finite, or the steps run out.
///
/// # References
/// R. P. Brent, Algorithms for Minimization without Derivatives (1973), ch. 4, procedure `zero`.
pub fn brent(f: impl Fn(f64) -> f64, low: f64, high: f64, rules: RootRules) -> Result<f64, RootError> {
    // The book's letters: b is the best guess, a the one before it, c the other end of the bracket.
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (finite(f(a))?, finite(f(b))?);
    if fa * fb > 0.0 {
        return Err(RootError::NotBracketed);
    }
    let (mut c, mut fc) = (a, fa);
    let (mut d, mut e) = (b - a, b - a);
    for _ in 0..rules.max_steps {
        if (fb > 0.0) == (fc > 0.0) {
            (c, fc) = (a, fa);
            d = b - a;
            e = d;
        }
        if fc.abs() < fb.abs() {
            (a, fa) = (b, fb);
            (b, fb) = (c, fc);
            (c, fc) = (a, fa);
        }
        let tolerance = 2.0 * f64::EPSILON * b.abs() + 0.5 * rules.tolerance;
        let m = 0.5 * (c - b);
        if m.abs() <= tolerance || fb == 0.0 {
            return Ok(b);
        }
        (d, e) = next_step(Bracket { a, b, c, fa, fb, fc }, d, e, m, tolerance);
        (a, fa) = (b, fb);
        b += if d.abs() > tolerance { d } else { tolerance.copysign(m) };
        fb = finite(f(b))?;
    }
    Err(RootError::NotConverged)
}

struct Bracket {
    a: f64,
    b: f64,
    c: f64,
    fa: f64,
    fb: f64,
    fc: f64,
}

/// The next step and the one before it: interpolation if it falls well inside the bracket and shrinks fast
/// enough, else bisection.
fn next_step(k: Bracket, d: f64, e: f64, m: f64, tolerance: f64) -> (f64, f64) {
    if e.abs() < tolerance || k.fa.abs() <= k.fb.abs() {
        return (m, m);
    }
    let s = k.fb / k.fa;
    let (mut p, mut q) = if k.a == k.c {
        (2.0 * m * s, 1.0 - s)
    } else {
        let (q, r) = (k.fa / k.fc, k.fb / k.fc);
        (s * (2.0 * m * q * (q - r) - (k.b - k.a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
    };
    if p > 0.0 {
        q = -q;
    } else {
        p = -p;
    }
    if 2.0 * p < (3.0 * m * q - (tolerance * q).abs()).min((e * q).abs()) { (p / q, d) } else { (m, m) }
}

fn finite(value: f64) -> Result<f64, RootError> {
    if value.is_finite() { Ok(value) } else { Err(RootError::NotFinite) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{cos, exp};

    fn check(f: impl Fn(f64) -> f64, low: f64, high: f64, root: f64) {
        let found = brent(f, low, high, RootRules::default()).unwrap();
        assert!((found - root).abs() < 1e-11, "{found} against {root}");
    }

    #[test]
    fn known_roots() {
        check(|x| x * x - 2.0, 0.0, 2.0, std::f64::consts::SQRT_2);
        // Dottie number, OEIS A003957.
        check(|x| cos(x) - x, 0.0, 1.0, 0.739_085_133_215_160_6);
        check(|x| exp(x) - 1.0, -5.0, 40.0, 0.0);
        check(|x| x, 0.0, 1.0, 0.0);
    }

    #[test]
    fn a_flat_root_takes_its_time_but_ends() {
        // Interpolation is useless at a triple root; Brent's bound is the square of bisection's steps.
        let rules = RootRules { tolerance: 1e-9, max_steps: 32 * 32 };
        let root = brent(|x| (x - 1.0) * (x - 1.0) * (x - 1.0), 0.0, 3.0, rules).unwrap();
        assert!((root - 1.0).abs() < 1e-5);
    }

    #[test]
    fn says_why_not() {
        let rules = RootRules::default();
        assert_eq!(brent(|x| x * x + 1.0, -1.0, 1.0, rules), Err(RootError::NotBracketed));
        assert_eq!(brent(|_| f64::NAN, -1.0, 1.0, rules), Err(RootError::NotFinite));
        let rules = RootRules { tolerance: 1e-12, max_steps: 2 };
        assert_eq!(brent(|x| x * x - 2.0, 0.0, 2.0, rules), Err(RootError::NotConverged));
    }
}
