//! How strong each frequency is in a recording, measured against the noise round it.

use realfft::RealFftPlanner;

use crate::numerics::real::{cos, exp, ln};

/// Power by frequency, 1 where there is noise alone.
#[derive(Debug, Clone, PartialEq)]
pub struct Spectrum {
    pub step_hz: f64,
    pub seconds: f64,
    /// Traces whose powers are added: as many as the sensor has axes.
    pub traces: usize,
    /// Over the noise, from 0 Hz on in steps.
    pub power: Vec<f64>,
    /// Before the noise was divided out, which would move the peaks where it rises or falls.
    bare: Vec<f64>,
}

/// The noise at a frequency is the median of what lies within this ratio of it on either side, and at least so many hertz.
const ROUND_RATIO: f64 = 1.6;
const ROUND_HZ: f64 = 1.2;
/// The noise is worked out so near to each other, in between along straight lines.
const NODE_RATIO: f64 = 1.04;

/// The spectrum of traces of one length, evenly sampled, up to a frequency.
///
/// Each trace has its straight line taken off, is weighted by Hann's window and padded with zeros to at least twice its
/// length: with a parabola through three decibel values a Hann-weighted peak is then within 0.1 % of a bin of its place
/// (SmithSasp, tab. 5.3: padding 1.8).
pub fn spectrum(traces: &[Vec<f64>], rate_hz: f64, highest_hz: f64) -> Spectrum {
    let count = traces.first().map_or(0, Vec::len);
    let padded = (2 * count).next_power_of_two().max(2);
    let step_hz = rate_hz / padded as f64;
    // The noise is looked for beyond the highest note, too.
    let bins = ((highest_hz * ROUND_RATIO / step_hz) as usize + 2).min(padded / 2 + 1);
    let mut power = vec![0.0; bins];
    let transform = RealFftPlanner::<f64>::new().plan_fft_forward(padded);
    for trace in traces {
        let mut input = weighted(trace);
        input.resize(padded, 0.0);
        let mut output = transform.make_output_vec();
        // The lengths are the plan's own.
        if transform.process(&mut input, &mut output).is_ok() {
            for (sum, bin) in power.iter_mut().zip(&output) {
                *sum += bin.norm_sqr();
            }
        }
    }
    let mut found = Spectrum {
        step_hz,
        seconds: count as f64 / rate_hz,
        traces: traces.len().max(1),
        power: power.clone(),
        bare: power,
    };
    found.divide_by_noise(highest_hz);
    found
}

/// Hann's window over a trace without its straight line.
fn weighted(trace: &[f64]) -> Vec<f64> {
    let n = trace.len() as f64;
    let mean = trace.iter().sum::<f64>() / n.max(1.0);
    let middle = 0.5 * (n - 1.0);
    let spread: f64 = (0..trace.len()).map(|i| (i as f64 - middle) * (i as f64 - middle)).sum();
    let slope = trace.iter().enumerate().map(|(i, x)| (i as f64 - middle) * x).sum::<f64>() / spread.max(1.0);
    let turn = 2.0 * core::f64::consts::PI / n.max(1.0);
    let window = |i: usize| 0.5 - 0.5 * cos(turn * (i as f64 + 0.5));
    trace.iter().enumerate().map(|(i, x)| (x - mean - slope * (i as f64 - middle)) * window(i)).collect()
}

impl Spectrum {
    fn divide_by_noise(&mut self, highest_hz: f64) {
        // The median of a sum of squares of 2·traces normal numbers over its mean (tables of the gamma distribution, by
        // Wilson and Hilferty's cube: (1 − 1/9k)³).
        let k = self.traces as f64;
        let cube = 1.0 - 1.0 / (9.0 * k);
        let median_over_mean = cube * cube * cube;
        let last = ((highest_hz / self.step_hz) as usize + 1).min(self.power.len());
        let mut nodes: Vec<(f64, f64)> = Vec::new();
        let mut at_hz = self.step_hz;
        while at_hz < highest_hz * NODE_RATIO {
            nodes.push((at_hz, self.median_round(at_hz) / median_over_mean));
            at_hz = (at_hz * NODE_RATIO).max(at_hz + self.step_hz);
        }
        let mut node = 0;
        for bin in 0..last {
            let hz = bin as f64 * self.step_hz;
            while node + 2 < nodes.len() && nodes[node + 1].0 < hz {
                node += 1;
            }
            let noise = match nodes.get(node..node + 2) {
                Some(&[(a, at_a), (b, at_b)]) => at_a + ((hz - a) / (b - a)).clamp(0.0, 1.0) * (at_b - at_a),
                _ => 0.0,
            };
            self.power[bin] = if noise > 0.0 { self.power[bin] / noise } else { 0.0 };
        }
        self.power.truncate(last);
    }

    fn median_round(&self, hz: f64) -> f64 {
        let [low, high] = [(hz / ROUND_RATIO).min(hz - ROUND_HZ), (hz * ROUND_RATIO).max(hz + ROUND_HZ)];
        // The first bins hold what is left of the straight line.
        let first = ((low / self.step_hz) as usize).max(2).min(self.power.len() - 1);
        let end = ((high / self.step_hz) as usize + 1).clamp(first + 1, self.power.len());
        let mut round = self.power[first..end].to_vec();
        let middle = round.len() / 2;
        *round.select_nth_unstable_by(middle, f64::total_cmp).1
    }

    /// Minus the logarithm of the chance that noise alone is as strong as this in one given bin; the noise itself may be a
    /// quarter stronger than its median says, of which low frequencies have few values.
    pub fn unlikely(&self, power: f64) -> f64 {
        const NOISE_UNSURE: f64 = 1.25;
        let power = power / NOISE_UNSURE;
        // Upper tail of a gamma distribution of whole shape k: e^−x·Σ xʲ/j! for j < k.
        let x = self.traces as f64 * power;
        let mut term = 1.0;
        let mut sum = 1.0;
        for j in 1..self.traces {
            term *= x / j as f64;
            sum += term;
        }
        x - ln(sum)
    }

    /// The frequency and strength of a peak at a bin: a parabola through three values in decibels (SmithSasp, tab. 5.3).
    pub fn peak(&self, bin: usize) -> (f64, f64) {
        let level = |bin: usize| ln(self.bare[bin].max(f64::MIN_POSITIVE));
        let [a, b, c] = [level(bin - 1), level(bin), level(bin + 1)];
        let bend = a - 2.0 * b + c;
        let aside = if bend < 0.0 { (0.5 * (a - c) / bend).clamp(-0.5, 0.5) } else { 0.0 };
        ((bin as f64 + aside) * self.step_hz, self.power[bin] * exp(-0.25 * (a - c) * aside))
    }

    /// How wide a peak is at half its power, in hertz.
    pub fn width_hz(&self, bin: usize) -> f64 {
        let half = 0.5 * self.bare[bin];
        let steps = |bins: &mut dyn Iterator<Item = usize>| {
            let mut before = self.bare[bin];
            let mut steps = 0.0;
            for at in bins {
                let here = self.bare[at];
                if here <= half {
                    return steps + (before - half) / (before - here);
                }
                (before, steps) = (here, steps + 1.0);
            }
            steps
        };
        self.step_hz * (steps(&mut (0..bin).rev()) + steps(&mut (bin + 1..self.bare.len())))
    }

    /// Every bin that is higher than both beside it, between two frequencies.
    pub fn tops(&self, low_hz: f64, high_hz: f64) -> impl Iterator<Item = usize> + '_ {
        let first = ((low_hz / self.step_hz) as usize).max(2);
        let end = ((high_hz / self.step_hz) as usize + 1).min(self.power.len().saturating_sub(1));
        (first..end)
            .filter(|&bin| self.bare[bin] > self.bare[bin - 1] && self.bare[bin] >= self.bare[bin + 1])
    }
}
