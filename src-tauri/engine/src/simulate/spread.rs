//! How drawn values spread.

use serde::{Deserialize, Serialize};

/// The spread of drawn values, in the unit that the field's name states.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Spread {
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// 2.5 % of the draws lie below.
    pub low: f64,
    pub median: f64,
    /// 2.5 % of the draws lie above.
    pub high: f64,
}

impl Spread {
    /// Of a column of draws, which is put in order.
    pub fn of(draws: &mut [f64]) -> Self {
        let count = draws.len() as f64;
        let mean = draws.iter().sum::<f64>() / count;
        let squares: f64 = draws.iter().map(|x| (x - mean) * (x - mean)).sum();
        draws.sort_unstable_by(f64::total_cmp);
        // Linear between order statistics: Hyndman & Fan, Am. Stat. 50 (1996) 361, definition 7.
        let quantile = |share: f64| {
            let place = share * (count - 1.0);
            let below = place.floor();
            let at = |i: f64| draws.get(i as usize).copied().unwrap_or(f64::NAN);
            at(below) + (place - below) * (at((below + 1.0).min(count - 1.0)) - at(below))
        };
        let sd = if draws.len() > 1 { (squares / (count - 1.0)).sqrt() } else { 0.0 };
        Self { mean, sd, low: quantile(0.025), median: quantile(0.5), high: quantile(0.975) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spread_of_a_known_column() {
        let mut column: Vec<f64> = (0..=200).rev().map(f64::from).collect();
        let spread = Spread::of(&mut column);
        assert_eq!((spread.mean, spread.low, spread.median, spread.high), (100.0, 5.0, 100.0, 195.0));
        // Var of 0..n−1 as a sample is n(n + 1)/12.
        assert!((spread.sd * spread.sd - 201.0 * 202.0 / 12.0).abs() < 1e-9);
    }
}
