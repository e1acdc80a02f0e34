//! Round scales.

use crate::drawing::scene::Bounds;
use crate::quantity::UnitSystem;

/// A scale with how it is written.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scale {
    pub(crate) denominator: f64,
    pub(crate) words: String,
}

/// ISO 5455 reduction scales 1:20 … 1:10 000 (from memory), with the steps between that a triangular scale rule
/// has: common practice.
const METRIC: [f64; 15] = [
    20.0, 25.0, 50.0, 75.0, 100.0, 125.0, 200.0, 250.0, 300.0, 400.0, 500.0, 1000.0, 2000.0, 5000.0, 10_000.0,
];

/// Inches on paper to feet on the ground, as on architects' and engineers' scales: common practice.
const IMPERIAL: [(f64, &str); 12] = [
    (24.0, "1/2\" = 1'"),
    (48.0, "1/4\" = 1'"),
    (96.0, "1/8\" = 1'"),
    (120.0, "1\" = 10'"),
    (192.0, "1/16\" = 1'"),
    (240.0, "1\" = 20'"),
    (360.0, "1\" = 30'"),
    (480.0, "1\" = 40'"),
    (600.0, "1\" = 50'"),
    (1200.0, "1\" = 100'"),
    (2400.0, "1\" = 200'"),
    (12_000.0, "1\" = 1000'"),
];

/// The largest round scale at which the bounds fit into a frame.
pub(crate) fn choose(bounds: &Bounds, width_mm: f64, height_mm: f64, system: UnitSystem) -> Scale {
    let needed = 1000.0 * (bounds.width() / width_mm).max(bounds.height() / height_mm);
    match system {
        UnitSystem::Metric => {
            let fits = METRIC.into_iter().find(|d| *d >= needed);
            let denominator = fits.unwrap_or_else(|| beyond(needed));
            Scale { denominator, words: format!("1:{denominator}") }
        }
        UnitSystem::Imperial => match IMPERIAL.iter().find(|(d, _)| *d >= needed) {
            Some((denominator, words)) => {
                Scale { denominator: *denominator, words: format!("{words} (1:{denominator})") }
            }
            None => {
                let denominator = beyond(needed);
                Scale { denominator, words: format!("1:{denominator}") }
            }
        },
    }
}

/// Beyond the tables: the next whole ten thousand.
fn beyond(needed: f64) -> f64 {
    (needed / 10_000.0).ceil() * 10_000.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_is_the_largest_that_fits() {
        let bounds = Bounds::around([0.0, 0.0], 9.0);
        // 18 m on 190 mm is 1:94.7.
        assert_eq!(choose(&bounds, 190.0, 200.0, UnitSystem::Metric).words, "1:100");
        assert_eq!(choose(&bounds, 190.0, 200.0, UnitSystem::Imperial).words, "1/8\" = 1' (1:96)");
        assert_eq!(choose(&bounds, 180.0, 200.0, UnitSystem::Metric).denominator, 100.0);
        assert_eq!(choose(&bounds, 179.9, 200.0, UnitSystem::Metric).denominator, 125.0);
    }
}
