//! How near something comes on its whole way, with a bound that nothing in between is nearer.

/// Answers are within this of the true least distance: a millimetre, less than a mark of the tape.
pub const WITHIN_M: f64 = 1e-3;

/// The least of a function over an interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Least {
    pub value: f64,
    pub at: f64,
}

/// Finds the least of a function that changes by no more than `most_change` per unit, as far as it is below `cut`; nowhere on
/// the interval is it less by more than [`WITHIN_M`]. None where it is nowhere below `cut` by more than that.
///
/// Between two places `a` and `b` such a function is nowhere less than (f(a) + f(b) − most_change·(b − a))/2. Intervals whose
/// bound can't be less than the least value found so far are done with; the others are halved.
///
/// # References
/// Piyavskii, An algorithm for finding the absolute extremum of a function, USSR Comput. Math. Math. Phys. 12 (1972) 57–67;
/// Shubert, SIAM J. Numer. Anal. 9 (1972) 379–388 (both from memory).
pub fn least(
    mut of: impl FnMut(f64) -> f64,
    [from, to]: [f64; 2],
    most_change: f64,
    cut: f64,
) -> Option<Least> {
    let (first, last) = (of(from), of(to));
    let mut best = Least { value: cut, at: from };
    let take = |value: f64, at: f64, best: &mut Least| {
        if value < best.value {
            *best = Least { value, at };
        }
    };
    take(first, from, &mut best);
    take(last, to, &mut best);
    let mut open = vec![(from, first, to, last)];
    while let Some((a, of_a, b, of_b)) = open.pop() {
        let bound = 0.5 * (of_a + of_b - most_change * (b - a));
        if bound >= best.value - WITHIN_M || best.value <= 0.0 {
            continue;
        }
        let middle = 0.5 * (a + b);
        let of_middle = of(middle);
        take(of_middle, middle, &mut best);
        let halves = [(a, of_a, middle, of_middle), (middle, of_middle, b, of_b)];
        // The half that promises more is looked at first.
        let order = if of_a < of_b { [1, 0] } else { [0, 1] };
        open.extend(order.map(|half| halves[half]));
    }
    (best.value < cut).then_some(best)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{cos, sin};

    /// Two dips, the narrow one the deeper.
    #[test]
    fn the_narrow_dip_is_found() {
        let of = |x: f64| 2.0 + sin(3.0 * x) - 1.5 * (1.0 - 50.0 * (x - 0.6).abs()).max(0.0);
        let found = least(of, [0.0, 2.0], 3.0 + 75.0, f64::INFINITY).unwrap();
        let sampled = (0..=200_000).map(|i| of(f64::from(i) * 1e-5)).fold(f64::INFINITY, f64::min);
        assert!(found.value >= sampled - 1e-9 && found.value <= sampled + WITHIN_M, "{found:?} {sampled}");
        assert_eq!(of(found.at), found.value);
    }

    #[test]
    fn what_is_farther_than_the_cut_is_not_looked_for() {
        let mut asked = 0;
        let mut of = |x: f64| {
            asked += 1;
            5.0 + cos(x)
        };
        assert_eq!(least(&mut of, [0.0, 1.0], 1.0, 3.0), None);
        assert_eq!(asked, 2);
    }

    #[test]
    fn inside_is_inside() {
        let found = least(|x: f64| (x - 0.3).abs() - 0.1, [0.0, 1.0], 1.0, 9.0).unwrap();
        assert!(found.value <= 0.0);
    }
}
