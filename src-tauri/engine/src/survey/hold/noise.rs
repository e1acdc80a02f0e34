//! Robust means and honest standard errors of a run of accelerometer readings.

use crate::numerics::real::{exp, hypot};

/// Standard deviation of a normal distribution over its median absolute deviation: 1/Φ⁻¹(¾).
/// Source: Hampel, The influence curve and its role in robust estimation (1974).
const SIGMA_PER_MAD: f64 = 1.482_602_218_505_602;

/// Blocks for the standard error: long enough each to outlast a phone's filter, enough of them to scatter.
const BLOCKS: usize = 8;

/// Rounding steps that browsers and drivers use, coarsest first, in m/s². Chromium rounds to 0.1.
const KNOWN_STEPS: [f64; 4] = [0.1, 0.05, 0.01, 0.001];

/// The middle value; the mean of the two middle ones for an even count; 0 for none.
pub(super) fn median(values: &[f64]) -> f64 {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    match (sorted.len() % 2, half.checked_sub(1).and_then(|low| sorted.get(low)), sorted.get(half)) {
        (0, Some(low), Some(high)) => 0.5 * (low + high),
        (_, _, Some(middle)) => *middle,
        _ => 0.0,
    }
}

/// Robust standard deviation, from the median absolute deviation.
pub(super) fn spread(values: &[f64]) -> f64 {
    let middle = median(values);
    SIGMA_PER_MAD * median(&values.iter().map(|v| (v - middle).abs()).collect::<Vec<_>>())
}

pub(super) fn mean_of(readings: &[[f64; 3]]) -> [f64; 3] {
    let count = readings.len().max(1) as f64;
    [0, 1, 2].map(|axis| readings.iter().map(|r| r[axis]).sum::<f64>() / count)
}

/// The coarsest known step that all values are multiples of; 0 where they are none of these.
pub(super) fn rounding_step(values: &[f64]) -> f64 {
    let on = |step: f64| values.iter().all(|v| (v / step - (v / step).round()).abs() < 1e-4);
    KNOWN_STEPS.into_iter().find(|&step| on(step)).unwrap_or(0.0)
}

/// Standard uncertainty in radians of the direction of the mean: the least sure axis, seen at gravity's length.
pub(super) fn standard_uncertainty(readings: &[[f64; 3]], mean: [f64; 3]) -> f64 {
    let of_axis = |axis: usize| {
        let values: Vec<f64> = readings.iter().map(|r| r[axis]).collect();
        hypot(block_standard_error(&values), rounding_uncertainty(&values))
    };
    let worst = of_axis(0).max(of_axis(1)).max(of_axis(2));
    worst / hypot(hypot(mean[0], mean[1]), mean[2])
}

/// Standard error of a mean from the scatter of block means, which sees slow wander as well as quick noise.
/// Source: batch means, e.g. Law & Kelton, YardSpread Modeling and Analysis (from memory); the widening for
/// few blocks √((B−1)/(B−3)) is that of Student's t, GUM Supplement 1 (JCGM 101:2008), 6.4.9.4.
fn block_standard_error(values: &[f64]) -> f64 {
    let blocks = BLOCKS.min(values.len() / 2);
    if blocks < 4 {
        return spread(values);
    }
    let count = blocks as f64;
    let means: Vec<f64> = (0..blocks)
        .map(|b| &values[b * values.len() / blocks..(b + 1) * values.len() / blocks])
        .map(|block| block.iter().sum::<f64>() / block.len() as f64)
        .collect();
    let mean = means.iter().sum::<f64>() / count;
    let variance = means.iter().map(|m| (m - mean) * (m - mean)).sum::<f64>() / (count - 1.0);
    (variance / count * (count - 1.0) / (count - 3.0)).sqrt()
}

/// What rounding can hide in a mean. With no noise the mean may lie anywhere in its step: q/√12. Noise shakes
/// the readings over the steps and the mean recovers what lies between them; what is left falls off with each
/// harmonic of the step: u² = Σ (q/πk)²/2 · exp(−4π²k²σ²/q²), which is q²/12 for σ = 0.
/// Source: Widrow & Kollár, Quantization Noise (2008), mean of a dithered quantizer; GUM 2008, F.2.2.1 for q/√12.
fn rounding_uncertainty(values: &[f64]) -> f64 {
    let q = rounding_step(values);
    if q <= 0.0 {
        return 0.0;
    }
    let count = values.len().max(1) as f64;
    let mean = values.iter().sum::<f64>() / count;
    let variance = values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / count;
    // Jumping between two steps alone makes a variance of up to q²/4 without any noise to speak of, so only
    // what goes beyond that is believed to be noise.
    let noise = (variance / (q * q) - 0.25).max(0.0);
    let pi = std::f64::consts::PI;
    let harmonic = |k: f64| exp(-4.0 * pi * pi * k * k * noise) / (k * k);
    // Σ 1/k² is π²/6; its tail beyond the first hundred terms matters only without noise.
    let sum = if noise > 0.0 { (1..=100).map(|k| harmonic(f64::from(k))).sum() } else { pi * pi / 6.0 };
    q / pi * (0.5 * sum).sqrt()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn medians() {
        assert_eq!(median(&[]), 0.0);
        assert_eq!(median(&[3.0, 1.0, 2.0]), 2.0);
        assert_eq!(median(&[4.0, 1.0, 2.0, 3.0]), 2.5);
    }

    #[test]
    fn steps_are_recognised() {
        assert_eq!(rounding_step(&[9.8, 0.1, -0.3]), 0.1);
        assert_eq!(rounding_step(&[9.81, 0.12]), 0.01);
        assert_eq!(rounding_step(&[9.806_65, 0.123_45]), 0.0);
    }

    #[test]
    fn a_motionless_rounded_reading_is_unsure_by_its_step() {
        let u = rounding_uncertainty(&[9.8; 40]);
        assert!((u - 0.1 / 12.0_f64.sqrt()).abs() < 1e-12);
        let shaken: Vec<f64> = (0..40).map(|i| f64::from(i % 5) * 0.1).collect();
        assert!(rounding_uncertainty(&shaken) < 1e-6);
    }
}
