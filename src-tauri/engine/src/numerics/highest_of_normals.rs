//! The distribution of the greatest of several jointly normal numbers.
//!
//! The numbers are d + L·z with z standard normal. Along each direction u of z they are straight in its length r, which
//! is chi distributed whatever the direction: so the chance of an event is the mean over directions of a difference of
//! chi's distribution function, and only the direction is left to be averaged over.
//!
//! # References
//! `genz1998` (spherical-radial integration): Genz and Monahan, SIAM J. Sci. Comput. 19 (1998), by its abstract.

use super::chi_square::upper_tail;
use super::least_squares::DMatrix;
use super::real::{cos, sin};

/// Directions that are averaged over: in a plane equally spaced, which for a smooth function is exact long before.
const IN_PLANE: u32 = 48;
/// In space on a spiral, each with its opposite.
const IN_SPACE: u32 = 60;

/// A direction left with less than this share of the greatest variance is not followed by itself.
const LEAST_SHARE: f64 = 0.01;

/// Half-width of the interval about nought that holds 95 % of the greatest of the numbers.
const COVERAGE: f64 = 0.95;

/// The coverage is found when it is nearer than this to what is asked for: closer than any rounding of what goes in.
const SETTLED: f64 = 1e-9;
const MOST_ROUNDS: u32 = 40;

/// Several jointly normal numbers, of which the first to be highest has mean 0 and no other has a higher one.
#[derive(Debug, Clone)]
pub struct Normals {
    means: Vec<f64>,
    /// For each direction the rate of every number with its length.
    rates: Vec<Vec<f64>>,
    dimensions: usize,
    greatest_sigma: f64,
}

impl Normals {
    /// From their means, none above 0, and their covariance.
    ///
    /// # Accuracy
    /// Followed in its three greatest independent parts; what is left of a number's variance after them is spread over
    /// them, so that each keeps its own variance.
    pub fn new(means: Vec<f64>, covariance: &DMatrix<f64>) -> Self {
        let root = main_root(covariance);
        let dimensions = root.first().map_or(0, Vec::len);
        let rates = directions(dimensions)
            .iter()
            .map(|u| root.iter().map(|row| row.iter().zip(u).map(|(l, u)| l * u).sum()).collect())
            .collect();
        let greatest_sigma = (0..covariance.nrows()).map(|i| covariance[(i, i)]).fold(0.0, f64::max).sqrt();
        Self { means, rates, dimensions, greatest_sigma }
    }

    /// The half-width w for which the greatest of the numbers lies in −w…w in 95 of 100 cases.
    pub fn half_width_95(&self) -> f64 {
        let (mut low, mut high) = (0.0, 6.0 * self.greatest_sigma);
        if self.dimensions == 0 || high <= 0.0 {
            return 0.0;
        }
        // Regula falsi with halving (Illinois), as the coverage never falls with the width.
        let (mut below, mut above) = (self.inside(low) - COVERAGE, 1.0 - COVERAGE);
        let mut middle = high;
        for round in 0..MOST_ROUNDS {
            let share = below / (below - above);
            middle = if round == 0 { self.greatest_sigma * 1.96 } else { low + share * (high - low) };
            let at = self.inside(middle) - COVERAGE;
            if at.abs() < SETTLED {
                break;
            }
            if at < 0.0 {
                (low, below, above) = (middle, at, 0.5 * above);
            } else {
                (high, above, below) = (middle, at, 0.5 * below);
            }
        }
        middle
    }

    /// The chance that the greatest lies in −w…w.
    fn inside(&self, w: f64) -> f64 {
        let within = |rates: &Vec<f64>| self.not_above(rates, w) - self.below(rates, -w);
        let sum: f64 = self.rates.iter().map(within).sum();
        sum / self.rates.len().max(1) as f64
    }

    /// The chance, along a direction, that none is above w ≥ 0.
    fn not_above(&self, rates: &[f64], w: f64) -> f64 {
        let until = |(mean, rate): (&f64, &f64)| if *rate > 0.0 { (w - mean) / rate } else { f64::INFINITY };
        let until = self.means.iter().zip(rates).map(until).fold(f64::INFINITY, f64::min);
        1.0 - self.beyond(until)
    }

    /// The chance, along a direction, that all are below w ≤ 0.
    fn below(&self, rates: &[f64], w: f64) -> f64 {
        let (mut from, mut until) = (0.0_f64, f64::INFINITY);
        for (mean, rate) in self.means.iter().zip(rates) {
            // mean + rate·r < w
            let at = (w - mean) / rate;
            if *rate < 0.0 {
                from = from.max(at);
            } else if *rate > 0.0 && *mean < w {
                until = until.min(at);
            } else if *mean >= w {
                return 0.0;
            }
        }
        (self.beyond(from) - self.beyond(until)).max(0.0)
    }

    /// The chance that the length of z exceeds r.
    fn beyond(&self, r: f64) -> f64 {
        if r.is_finite() { upper_tail(r * r, self.dimensions) } else { 0.0 }
    }
}

/// The rows of a root L of a covariance, L·Lᵀ = C, in its three greatest independent parts at most: Cholesky's factor,
/// each time by the number with most left.
/// Source: `higham2002`, 10.3 (complete pivoting). From memory.
fn main_root(covariance: &DMatrix<f64>) -> Vec<Vec<f64>> {
    let count = covariance.nrows();
    let mut left = covariance.clone();
    let greatest = (0..count).map(|i| left[(i, i)]).fold(0.0, f64::max);
    let mut rows: Vec<Vec<f64>> = vec![Vec::new(); count];
    for _ in 0..3 {
        let next = (0..count).max_by(|&a, &b| left[(a, a)].total_cmp(&left[(b, b)]));
        let Some(next) = next.filter(|&i| left[(i, i)] > LEAST_SHARE * greatest) else { break };
        let pivot = left[(next, next)].sqrt();
        let column: Vec<f64> = (0..count).map(|i| left[(i, next)] / pivot).collect();
        for i in 0..count {
            for j in 0..count {
                left[(i, j)] -= column[i] * column[j];
            }
        }
        rows.iter_mut().zip(&column).for_each(|(row, l)| row.push(*l));
    }
    for (i, row) in rows.iter_mut().enumerate() {
        let kept: f64 = row.iter().map(|l| l * l).sum();
        if kept > 0.0 {
            let scale = (covariance[(i, i)] / kept).sqrt();
            row.iter_mut().for_each(|l| *l *= scale);
        }
    }
    rows
}

fn directions(dimensions: usize) -> Vec<Vec<f64>> {
    let turn = std::f64::consts::TAU;
    match dimensions {
        0 => Vec::new(),
        1 => vec![vec![1.0], vec![-1.0]],
        2 => (0..IN_PLANE)
            .map(|i| {
                let angle = (f64::from(i) + 0.5) / f64::from(IN_PLANE) * turn;
                vec![cos(angle), sin(angle)]
            })
            .collect(),
        // A spiral of equal areas over half the sphere: the golden angle from one to the next.
        // Source: `gonzalez2010`, the Fibonacci lattice.
        _ => (0..IN_SPACE)
            .flat_map(|i| {
                let up = (f64::from(i) + 0.5) / f64::from(IN_SPACE);
                let out = (1.0 - up * up).sqrt();
                let angle = f64::from(i) * (3.0 - 5.0_f64.sqrt()) * std::f64::consts::PI;
                let (x, y) = (out * cos(angle), out * sin(angle));
                [vec![x, y, up], vec![-x, -y, -up]]
            })
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn half_width(means: &[f64], covariance: &[f64]) -> f64 {
        let count = means.len();
        Normals::new(means.to_vec(), &DMatrix::from_row_slice(count, count, covariance)).half_width_95()
    }

    /// GUM 2008, Table G.1: 1.960 for 95 %.
    #[test]
    fn one_number_has_the_tables_factor() {
        assert!((half_width(&[0.0], &[4.0]) - 2.0 * 1.960).abs() < 3e-3);
        assert_eq!(half_width(&[0.0], &[0.0]), 0.0);
    }

    /// The greater of x and −x is |x|: 1.960 again. The greater of x and 0 has half of its cases at 0: 1.645, the
    /// factor for 90 % (GUM 2008, Table G.1).
    #[test]
    fn a_kink_in_one_direction() {
        assert!((half_width(&[0.0, 0.0], &[1.0, -1.0, -1.0, 1.0]) - 1.960).abs() < 2e-3);
        assert!((half_width(&[0.0, 0.0], &[1.0, 0.0, 0.0, 0.0]) - 1.645).abs() < 2e-3);
    }

    /// The greater of two independent ones: Φ(w)² − Φ(−w)² = Φ(w) − Φ(−w), since both add to one: 1.960 once more.
    /// Of three, Φ(w)³ − Φ(−w)³ = 0.95, bisected with the error function of another language (Python's `math.erf`): 2.1212.
    #[test]
    fn independent_ones() {
        assert!((half_width(&[0.0; 2], &[1.0, 0.0, 0.0, 1.0]) - 1.960).abs() < 0.01);
        let three = half_width(&[0.0; 3], &[1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0]);
        assert!((three - 2.1212).abs() < 0.02, "{three}");
    }

    /// A second number far below changes nothing.
    #[test]
    fn a_number_far_below_is_as_none() {
        let alone = half_width(&[0.0], &[1.0]);
        assert!((half_width(&[0.0, -9.0], &[1.0, 0.3, 0.3, 2.0]) - alone).abs() < 5e-3);
    }
}
