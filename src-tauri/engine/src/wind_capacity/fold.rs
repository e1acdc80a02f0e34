//! Where a mast on its way up will lose its stability, from how its stiffness goes.
//!
//! Near a limit point the load that is left to it goes with the square of the movement that is left, and the least
//! eigenvalue of the tangent with that movement: the square of the determinant goes along a straight line to nothing. That
//! says where to look next and is no answer: what stands is found by looking.

use super::search::NEAR;
use crate::numerics::real;

/// The last two gusts, by their squares, in which the mast stood on one way up, each with the logarithm of its stiffness's
/// determinant there.
#[derive(Debug, Clone, Copy, Default)]
pub struct WayUp {
    before: Option<(f64, f64)>,
    last: Option<(f64, f64)>,
}

impl WayUp {
    pub fn stood(&mut self, gust_squared: f64, firmness: f64) {
        self.before = self.last.replace((gust_squared, firmness));
    }

    /// Where the stability will be lost by those two; none where that is farther off than they are apart: there the line
    /// says little, what softens otherwise counts as much.
    fn ends_at(&self) -> Option<f64> {
        let ((from, firm), (to, soft)) = (self.before?, self.last?);
        let end = to + (to - from) / (real::exp(2.0 * (firm - soft)) - 1.0);
        (to > from && end > to && end - to < to - from).then_some(end)
    }

    /// Where to look next between what stands and what fell: most of the way to the end, or, near it, just beyond.
    pub fn look_at(&self, stands: f64, falls: f64) -> Option<f64> {
        let left = self.ends_at()? - stands;
        // The line comes out a little too far.
        let next = stands + (0.85 * left).max(0.8 * NEAR * stands);
        (next < falls).then_some(next)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A shallow arch: load P = x·(1 − x²) by the rise x of what is left of it, stiffness 1 − 3·x², greatest load at
    /// x² = 1/3.
    #[test]
    fn the_greatest_load_of_an_arch_is_seen_from_below() {
        let at = |x: f64| (x * (1.0 - x * x), real::ln(1.0 - 3.0 * x * x));
        let most = 2.0 / 27.0_f64.sqrt();
        let mut way = WayUp::default();
        assert!(way.ends_at().is_none());
        let mut off = f64::INFINITY;
        for x in [0.1, 0.4, 0.5, 0.55] {
            let (load, firmness) = at(x);
            way.stood(load, firmness);
            if let Some(end) = way.ends_at() {
                let now = (end / most - 1.0).abs();
                assert!(now < 0.5 * off, "{now} after {off}");
                off = now;
            }
        }
        assert!(off < 0.002, "{off}");
        // What gets firmer has no end, and what hardly softens none that is seen.
        for firmness in [1.0, 0.9] {
            way.stood(0.5 - 0.1 * firmness, firmness);
            assert!(way.ends_at().is_none());
        }
    }

    /// From 100 to 120 the determinant's square falls to a third, by as much again in 10 more: the end is seen at 130. Looked
    /// at is 85 % of the way there, or just beyond where it is near; nothing where it fell before.
    #[test]
    fn what_is_looked_at_next_lies_before_the_end() {
        let mut way = WayUp::default();
        assert!(way.look_at(120.0, 200.0).is_none());
        way.stood(100.0, 0.5 * real::ln(3.0));
        way.stood(120.0, 0.0);
        assert!((way.look_at(120.0, 200.0).unwrap() - 128.5).abs() < 1e-9);
        assert!((way.look_at(129.99, 200.0).unwrap() - 129.99 * (1.0 + 0.8 * NEAR)).abs() < 1e-9);
        assert!(way.look_at(120.0, 125.0).is_none());
    }
}
