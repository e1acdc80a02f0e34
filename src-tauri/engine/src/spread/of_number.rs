//! How drawn values spread.

use serde::{Deserialize, Serialize};

/// The spread of drawn values, in the unit that the field's name states.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Spread {
    pub mean: f64,
    /// Standard deviation.
    pub sd: f64,
    /// 2.5 % of the draws lie below.
    pub low: f64,
    pub median: f64,
    /// 2.5 % of the draws lie above.
    pub high: f64,
    pub histogram: Histogram,
}

/// Draws counted in bins of equal width. One draw in a thousand at each end is left out, so that a single odd one
/// does not push all others into the middle.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct Histogram {
    pub from: f64,
    pub to: f64,
    pub counts: Vec<u32>,
}

/// Bars of a histogram: enough for the shape of 10,000 draws, few enough for the width of a phone.
const BINS: usize = 25;

impl Histogram {
    /// Of draws in order, from one value to another.
    fn of(sorted: &[f64], from: f64, to: f64) -> Self {
        let mut counts = vec![0; if to > from { BINS } else { 1 }];
        let last = counts.len() - 1;
        let per_unit = if to > from { counts.len() as f64 / (to - from) } else { 0.0 };
        for value in sorted.iter().filter(|value| (from..=to).contains(*value)) {
            if let Some(count) = counts.get_mut((((value - from) * per_unit) as usize).min(last)) {
                *count += 1;
            }
        }
        Self { from, to, counts }
    }
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
        let (low, median, high) = (quantile(0.025), quantile(0.5), quantile(0.975));
        Self {
            mean,
            sd,
            low,
            median,
            high,
            histogram: Histogram::of(draws, quantile(0.001), quantile(0.999)),
        }
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
        // 0 to 200 without one in a thousand at each end: 0.2 to 199.8, so 199 whole numbers in 25 bins of 7.984.
        assert_eq!(spread.histogram.counts.iter().sum::<u32>(), 199);
        assert!(spread.histogram.counts.iter().all(|count| (7..=8).contains(count)));
        // Var of 0..n−1 as a sample is n(n + 1)/12.
        assert!((spread.sd * spread.sd - 201.0 * 202.0 / 12.0).abs() < 1e-9);
    }

    #[test]
    fn draws_that_do_not_differ_make_one_bar() {
        let spread = Spread::of(&mut [0.4; 300]);
        assert_eq!(spread.histogram, Histogram { from: 0.4, to: 0.4, counts: vec![300] });
    }
}
