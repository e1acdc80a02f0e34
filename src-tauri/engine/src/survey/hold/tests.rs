use super::*;
use crate::numerics::real::{cos, cos_deg, ln, sin_deg};

/// A small seeded generator: splitmix64 (Steele, Lea & Flood 2014), and Box–Muller for normal deviates.
struct Noise(u64);

impl Noise {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        (((z ^ (z >> 31)) >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    fn normal(&mut self) -> f64 {
        (-2.0 * ln(self.uniform())).sqrt() * cos(std::f64::consts::TAU * self.uniform())
    }
}

#[derive(Clone, Copy)]
struct Phone {
    rate_hz: f64,
    noise: f64,
    step: f64,
}

const BROWSER: Phone = Phone { rate_hz: 60.0, noise: 0.03, step: 0.1 };

impl Phone {
    /// Lying with its top raised by `long_deg`, for `seconds` from `from_ms` on.
    fn lying(self, long_deg: f64, seconds: f64, from_ms: f64, random: &mut Noise) -> Vec<Sample> {
        let truth = [0.0, 9.81 * sin_deg(long_deg), 9.81 * cos_deg(long_deg)];
        (0..(seconds * self.rate_hz) as usize)
            .map(|i| Sample {
                time_ms: from_ms + i as f64 * 1000.0 / self.rate_hz,
                acceleration: truth.map(|a| self.rounded(a + self.noise * random.normal())),
            })
            .collect()
    }

    fn rounded(self, a: f64) -> f64 {
        if self.step > 0.0 { (a / self.step).round() * self.step } else { a }
    }
}

#[test]
fn a_phone_at_rest_is_still_at_any_rate() {
    for rate_hz in [10.0, 16.0, 60.0, 100.0, 200.0] {
        for step in [0.0, 0.01, 0.1] {
            let phone = Phone { rate_hz, noise: 0.03, step };
            let samples = phone.lying(8.3, 2.5, 0.0, &mut Noise(7));
            let state = hold(&samples, &HoldRules::default());
            assert!(state.still, "{rate_hz} Hz, step {step}: {state:?}");
            let tilt = state.tilt.unwrap();
            let allowed = 3.0 * tilt.standard_uncertainty_deg;
            assert!((tilt.long_edge_deg - 8.3).abs() < allowed, "{rate_hz} {step} {tilt:?}");
            assert!(tilt.standard_uncertainty_deg < 0.3);
        }
    }
}

#[test]
fn not_yet_and_not_while_moving() {
    let rules = HoldRules::default();
    let mut random = Noise(3);
    let short = hold(&BROWSER.lying(5.0, 1.0, 0.0, &mut random), &rules);
    assert_eq!((short.motion, short.still), (Motion::Settling, false));
    // It lay still at 5°, then was moved to 12° half a second ago.
    let mut moved = BROWSER.lying(5.0, 3.0, 0.0, &mut random);
    moved.extend(BROWSER.lying(12.0, 0.6, 3000.0, &mut random));
    let state = hold(&moved, &rules);
    assert!(!state.still && state.held_ms < 700.0, "{state:?}");
    assert!((state.tilt.unwrap().long_edge_deg - 12.0).abs() < 0.5);
    // Slow turning, 1° a second, never is still.
    let turning: Vec<Sample> = (0..240)
        .flat_map(|i| {
            let at_ms = f64::from(i) * 1000.0 / 60.0;
            BROWSER.lying(at_ms / 1000.0, 1.01 / 60.0, at_ms, &mut random)
        })
        .collect();
    assert!(!hold(&turning, &rules).still);
}

#[test]
fn a_tap_does_not_break_the_hold_nor_bend_the_slope() {
    let mut samples = BROWSER.lying(6.0, 3.0, 0.0, &mut Noise(5));
    for sample in &mut samples[100..104] {
        sample.acceleration = [3.0, -2.0, 14.0];
    }
    let state = hold(&samples, &HoldRules::default());
    assert!(state.still && state.strays >= 4, "{state:?}");
    assert!((state.tilt.unwrap().long_edge_deg - 6.0).abs() < 0.5);
}

#[test]
fn silence_breaks_the_hold() {
    let mut random = Noise(8);
    let mut samples = BROWSER.lying(6.0, 3.0, 0.0, &mut random);
    samples.extend(BROWSER.lying(6.0, 0.5, 4000.0, &mut random));
    assert!(!hold(&samples, &HoldRules::default()).still);
}

#[test]
fn missing_axes_are_said() {
    let rules = HoldRules::default();
    assert_eq!(hold(&[], &rules).motion, Motion::NoReadings);
    let null: Sample = serde_json::from_str(r#"{"time_ms": 1, "acceleration": [null, null, null]}"#).unwrap();
    let state = hold(&[null], &rules);
    assert_eq!((state.motion, state.still, state.tilt), (Motion::AxesMissing, false, None));
    // A few broken readings among good ones are passed over.
    let mut samples = BROWSER.lying(4.0, 3.0, 0.0, &mut Noise(1));
    samples.insert(50, Sample { time_ms: 833.0, acceleration: [f64::NAN, 1.0, 9.0] });
    assert!(hold(&samples, &rules).still);
}

#[test]
fn the_stated_uncertainty_covers_the_truth() {
    // 95 % interval of the long edge over random slopes, for quiet and noisy phones, rounded or not.
    for (noise, step) in [(0.03, 0.0), (0.01, 0.1), (0.05, 0.1), (0.15, 0.1)] {
        let mut random = Noise(11);
        let phone = Phone { rate_hz: 60.0, noise, step };
        let runs = 400;
        let covered = (0..runs).filter(|_| {
            let truth = 20.0 * random.uniform() - 10.0;
            let state = hold(&phone.lying(truth, 2.1, 0.0, &mut random), &HoldRules::default());
            let tilt = state.tilt.unwrap();
            (tilt.long_edge_deg - truth).abs() <= 1.96 * tilt.standard_uncertainty_deg
        });
        let share = covered.count() as f64 / f64::from(runs);
        assert!(share >= 0.93, "noise {noise}, step {step}: {share}");
    }
}

/// Each swing is shorter than a tap, but they come again and again.
#[test]
fn a_shaking_hand_is_no_hold() {
    for rate_hz in [20.0, 60.0, 200.0] {
        for (swing_deg, hz) in [(3.0, 5.0), (2.5, 8.0), (4.0, 3.0)] {
            let shaken = |i: usize| {
                let seconds = i as f64 / rate_hz;
                let long = 5.0 + swing_deg * crate::numerics::real::sin(std::f64::consts::TAU * hz * seconds);
                Sample {
                    time_ms: 1000.0 * seconds,
                    acceleration: [0.0, 9.81 * sin_deg(long), 9.81 * cos_deg(long)],
                }
            };
            for length in (1..(6.0 * rate_hz) as usize).step_by(7) {
                let samples: Vec<Sample> = (0..length).map(shaken).collect();
                assert!(!hold(&samples, &HoldRules::default()).still, "{rate_hz} {swing_deg} {hz} {length}");
            }
        }
    }
}
