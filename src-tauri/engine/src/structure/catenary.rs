//! The elastic catenary: how an elastic rope of uniform weight hangs between two points.
//!
//! The equations are Irvine's (Irvine1981, ch. 2; the text itself was not at hand: from memory, held by two
//! independent solvers in `tests/published/elastic_catenary.rs`). With W = w·L₀, V the vertical part of the
//! tension at the upper end and H the horizontal part:
//!
//! ```text
//! l = H·L₀/EA + (H/w)·[asinh(V/H) − asinh((V−W)/H)]
//! h = (W·L₀/EA)·(V/W − 1/2) + (1/w)·[√(H²+V²) − √(H²+(V−W)²)]
//! ```
//!
//! Both brackets cancel badly on a taut guy. Written with the mean T of the two end tensions they don't:
//!
//! ```text
//! asinh(V/H) − asinh((V−W)/H) = 2·atanh(W/2T)                 (half-angle identity of tanh)
//! √(H²+V²) − √(H²+(V−W)²)     = W·(V − W/2)/T                 (difference of squares)
//! H²/(T² − W²/4) + (V − W/2)²/T² = 1                          (ellipse with foci (0, 0) and (W, 0))
//! ```
//!
//! so that, with q = W/2T = tanh s and ε = T/EA,
//!
//! ```text
//! P = l / [L₀·(ε/cosh s + s/sinh s)],   Q = h / [L₀·(1 + ε)],   P² + Q² = 1:
//! ```
//!
//! one equation in one unknown. For a given L₀ its left side falls steadily as T grows, so there is exactly
//! one answer for every span. For a given tension at the upper end the second bracket gives T at once,
//! T_upper = T + w·h/(2·(1 + ε)), a quadratic without L₀, and only s remains.

use crate::numerics::real::{asinh, atanh, cbrt, cosh, hypot, ln, sinh, tanh};

/// What a rope hangs between and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// Horizontal distance between the two ends; more than nothing.
    pub span_m: f64,
    /// Height of the upper (attachment) end above the lower (eye) end; may be negative.
    pub rise_m: f64,
    /// Weight per unstressed length.
    pub weight_n_per_m: f64,
    /// Axial stiffness E·A.
    pub stiffness_n: f64,
}

/// A rope in equilibrium.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Catenary {
    pub span: Span,
    pub unstressed_m: f64,
    /// Length under its own tension.
    pub stretched_m: f64,
    /// Horizontal part of the tension, the same all along.
    pub horizontal_n: f64,
    /// Downward pull of the rope on its upper end.
    pub vertical_top_n: f64,
    pub tension_top_n: f64,
    pub tension_bottom_n: f64,
}

/// How the unstressed length answers to small changes, the other inputs staying as they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LengthRates {
    /// dL₀/d(span), upper-end tension held.
    pub per_span: f64,
    /// dL₀/d(rise), upper-end tension held.
    pub per_rise: f64,
    /// dL₀/d(tension at the upper end), in m/N; negative on a taut rope.
    pub per_tension_m_per_n: f64,
}

/// Why a rope can't hang so.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum CatenaryError {
    #[error("{name} must be a number above nothing and within reason; given {given}")]
    Input { name: &'static str, given: f64 },
    #[error("a tension of {tension_n} N at the upper end can't hold up this rope over this span")]
    TensionTooSmall { tension_n: f64 },
    #[error("the rope's equation was not solved in {steps} steps")]
    NotSolved { steps: u32 },
}

/// Far more steps than a rope of a yard needs (3 to 8).
const MOST_STEPS: u32 = 120;

/// sinh s / s is then 1e127: slacker than any rope.
const MOST_S: f64 = 300.0;

impl Span {
    /// The rope of a given unstressed length.
    ///
    /// # Errors
    /// Where an input is not finite or not above nothing.
    /// # Accuracy
    /// Lengths to some 1e-15 of the span. A tension found from a length can't be better than the length's own
    /// rounding allows: about 1e-16·EA/T relative on a taut rope.
    /// # References
    /// Irvine1981, ch. 2.
    pub fn with_unstressed_length(self, unstressed_m: f64) -> Result<Catenary, CatenaryError> {
        self.check()?;
        positive("unstressed length", unstressed_m)?;
        let weight_n = self.weight_n_per_m * unstressed_m;
        let residual = |s: f64| self.residual(s, unstressed_m);
        let s = rising_root(residual, self.first_guess(unstressed_m, weight_n))?;
        Ok(self.at(s, weight_n / (2.0 * tanh(s)), unstressed_m))
    }

    /// ln √(P² + Q²) as a function of s, and its slope: it rises steadily without bound, and in a straight line once the
    /// rope is slack, where P itself grows as eˢ.
    fn residual(&self, s: f64, unstressed_m: f64) -> (f64, f64) {
        let weight_n = self.weight_n_per_m * unstressed_m;
        let (lever, lift) = (self.span_m / unstressed_m, self.rise_m / unstressed_m);
        let (sinh_s, cosh_s) = (sinh(s), cosh(s));
        let strain = weight_n / (2.0 * self.stiffness_n) * (cosh_s / sinh_s);
        let strain_rate = -weight_n / (2.0 * self.stiffness_n) / (sinh_s * sinh_s);
        let k = strain / cosh_s + s / sinh_s;
        let k_rate =
            strain_rate / cosh_s - strain * sinh_s / (cosh_s * cosh_s) + slack_rate(s, sinh_s, cosh_s);
        let (p, q) = (lever / k, lift / (1.0 + strain));
        let norm_squared = p * p + q * q;
        let rate = -(p * p * k_rate / k + q * q * strain_rate / (1.0 + strain)) / norm_squared;
        (0.5 * ln(norm_squared), rate)
    }

    /// The rope with a given tension at its upper end: the taut one of the two that fit.
    ///
    /// # Errors
    /// Where an input is not finite or not above nothing, or the tension is too small for any rope of this
    /// weight to span the gap.
    /// # Accuracy
    /// Unstressed length to some 1e-15 relative.
    /// # References
    /// Irvine1981, ch. 2, rearranged as in the module's head.
    pub fn with_upper_tension(self, tension_n: f64) -> Result<Catenary, CatenaryError> {
        self.check()?;
        positive("tension", tension_n)?;
        let too_small = CatenaryError::TensionTooSmall { tension_n };
        let mean_n = self.mean_tension(tension_n);
        if mean_n.is_nan() || mean_n <= 0.0 {
            return Err(too_small);
        }
        let strain = mean_n / self.stiffness_n;
        let half_n = self.weight_n_per_m / (2.0 * mean_n);
        let (a, b) = (half_n * self.span_m, half_n * self.rise_m / (1.0 + strain));
        // P² + Q² = 1 with L₀ = (2T/w)·tanh s reads s = |(a·C(s), b·D(s))|. C and D are about constant on a
        // taut rope and curve upwards, so the difference below is concave: Newton from the left climbs to the
        // first root without overshooting, and where the slope ends before the root there is none.
        let mut s = hypot(a / (1.0 + strain), b);
        for _ in 0..MOST_STEPS {
            let t = tanh(s);
            let sech_squared = 1.0 - t * t;
            let bottom = s + strain * t;
            let c = s * cosh(s) / bottom;
            let c_rate = c * (1.0 / s + t - (1.0 + strain * sech_squared) / bottom);
            let d = s / t;
            let d_rate = d * (1.0 / s - sech_squared / t);
            let right = hypot(a * c, b * d);
            if (right - s).abs() <= 4.0 * f64::EPSILON * s {
                return Ok(self.at(s, mean_n, 2.0 * mean_n / self.weight_n_per_m * tanh(s)));
            }
            let slope = 1.0 - (a * a * c * c_rate + b * b * d * d_rate) / right;
            let step = (right - s) / slope;
            if slope <= 0.0 || !step.is_finite() {
                return Err(too_small);
            }
            s += step;
        }
        // Within rounding of the least tension the climb slows down for ever; nobody builds there.
        Err(too_small)
    }

    /// Straight distance between the two ends.
    pub fn chord_m(&self) -> f64 {
        hypot(self.span_m, self.rise_m)
    }

    fn check(&self) -> Result<(), CatenaryError> {
        positive("span", self.span_m)?;
        positive("weight per length", self.weight_n_per_m)?;
        positive("stiffness", self.stiffness_n)?;
        if self.rise_m.is_finite() && self.rise_m.abs() < 1e9 {
            Ok(())
        } else {
            Err(CatenaryError::Input { name: "rise", given: self.rise_m })
        }
    }

    /// Mean of the two end tensions from that at the upper end: the positive root of
    /// T²/EA + T·(1 − T_u/EA) − (T_u − w·h/2) = 0, in the form that does not cancel.
    fn mean_tension(&self, upper_n: f64) -> f64 {
        let rest = upper_n - self.weight_n_per_m * self.rise_m / 2.0;
        let p = 1.0 - upper_n / self.stiffness_n;
        2.0 * rest / (p + (p * p + 4.0 * rest / self.stiffness_n).max(0.0).sqrt())
    }

    /// A start near the root: by Irvine's cubic where the rope is rather straight, by the inextensible rope
    /// where it is slack.
    fn first_guess(&self, unstressed_m: f64, weight_n: f64) -> f64 {
        let chord_m = self.chord_m();
        let strain = chord_m / unstressed_m - 1.0;
        // Small s: T/EA − k/T² = c/L₀ − 1 with k = (l·W/c)²/24.
        let lever_n = self.span_m / chord_m * weight_n;
        let k = lever_n * lever_n / 24.0;
        // Left of or near the root: the larger of the two limits (no weight, no stretch-strain).
        let mut tension = (strain * self.stiffness_n).max(if strain < 0.0 {
            0.5 * (k / (cbrt(k / (self.stiffness_n * self.stiffness_n)) - strain)).sqrt()
        } else {
            0.5 * cbrt(k * self.stiffness_n)
        });
        for _ in 0..6 {
            let inverse = 1.0 / tension;
            let value = tension / self.stiffness_n - k * inverse * inverse - strain;
            let step = value / (1.0 / self.stiffness_n + 2.0 * k * inverse * inverse * inverse);
            let next = tension - step;
            tension = if next > 0.0 { next } else { tension / 2.0 };
            if step.abs() < 1e-4 * tension {
                break;
            }
        }
        let straight = weight_n / (2.0 * tension);
        if straight < 0.6 || strain >= 0.0 {
            return straight.min(20.0);
        }
        // sinh s / s = √(L₀² − h²)/l
        let ratio = ((unstressed_m - self.rise_m) * (unstressed_m + self.rise_m)).sqrt() / self.span_m;
        if ratio > 4.0 {
            ln(2.0 * ratio) + ln(ln(2.0 * ratio))
        } else {
            (6.0 * (ratio - 1.0)).max(0.1).sqrt() * 0.9
        }
    }

    /// Everything else from s, T and L₀.
    fn at(self, s: f64, mean_n: f64, unstressed_m: f64) -> Catenary {
        let strain = mean_n / self.stiffness_n;
        let arch = s / tanh(s); // atanh(q)/q
        let weight_n = self.weight_n_per_m * unstressed_m;
        let horizontal_n = self.span_m * mean_n / (unstressed_m * (strain + arch));
        let above_middle_n = self.rise_m * mean_n / (unstressed_m * (1.0 + strain));
        let half_difference_n = self.weight_n_per_m * self.rise_m / (2.0 * (1.0 + strain));
        // Mean of the tension along the rope, from ∫√(H²+v²)dv with the same identities.
        let along_n =
            0.5 * (mean_n + (above_middle_n * above_middle_n + arch * horizontal_n * horizontal_n) / mean_n);
        Catenary {
            span: self,
            unstressed_m,
            stretched_m: unstressed_m * (1.0 + along_n / self.stiffness_n),
            horizontal_n,
            vertical_top_n: weight_n / 2.0 + above_middle_n,
            tension_top_n: mean_n + half_difference_n,
            tension_bottom_n: mean_n - half_difference_n,
        }
    }
}

impl Catenary {
    /// Downward pull of the rope on its lower end; negative where the rope lifts there.
    pub fn vertical_bottom_n(&self) -> f64 {
        self.span.weight_n_per_m * self.unstressed_m - self.vertical_top_n
    }

    /// Where the bit of rope lies that is `unstressed_m` of unstressed rope away from the lower end:
    /// horizontal distance from and height above that end.
    pub fn point_at(&self, unstressed_m: f64) -> [f64; 2] {
        let (w, h_n) = (self.span.weight_n_per_m, self.horizontal_n);
        let low_n = -self.vertical_bottom_n();
        let high_n = low_n + w * unstressed_m;
        let mean_n = 0.5 * (hypot(h_n, low_n) + hypot(h_n, high_n));
        let give = 1.0 / self.span.stiffness_n;
        let run = unstressed_m * give
            + angle_between(low_n / h_n, high_n / h_n, w * unstressed_m / (2.0 * mean_n)) / w;
        [h_n * run, (low_n + high_n) / 2.0 * unstressed_m * (give + 1.0 / mean_n)]
    }

    /// Largest distance of the rope below its chord, measured vertically.
    ///
    /// # Accuracy
    /// About 1e-14 of the chord.
    pub fn sag_m(&self) -> f64 {
        let grade = self.span.rise_m / self.span.span_m;
        // Where the rope runs along the chord: v = H·h/l.
        let at_m = (self.horizontal_n * grade + self.vertical_bottom_n()) / self.span.weight_n_per_m;
        let [run_m, rise_m] = self.point_at(at_m.clamp(0.0, self.unstressed_m));
        (grade * run_m - rise_m).max(0.0)
    }

    /// `count` points (at least 2) at equal parts of the rope from the lower end `eye` (east, north, up) to
    /// the upper end, which lies in the horizontal direction `toward` (a unit vector).
    pub fn shape(&self, eye: [f64; 3], toward: [f64; 2], count: usize) -> Vec<[f64; 3]> {
        let parts = count.max(2) - 1;
        (0..=parts)
            .map(|i| {
                let [run_m, rise_m] = if i == parts {
                    [self.span.span_m, self.span.rise_m] // exact, not within rounding
                } else {
                    self.point_at(self.unstressed_m * i as f64 / parts as f64)
                };
                [eye[0] + toward[0] * run_m, eye[1] + toward[1] * run_m, eye[2] + rise_m]
            })
            .collect()
    }

    /// How the unstressed length changes with span, rise and upper-end tension: implicit differentiation of
    /// P² + Q² = 1 and of T_u = T + w·h/(2(1+ε)).
    pub fn length_rates(&self) -> LengthRates {
        let Span { span_m: l, rise_m: h, weight_n_per_m: w, stiffness_n: ea } = self.span;
        let length = self.unstressed_m;
        let mean_n = 0.5 * (self.tension_top_n + self.tension_bottom_n);
        let strain = mean_n / ea;
        let s = atanh((w * length / (2.0 * mean_n)).min(1.0 - f64::EPSILON));
        let (sinh_s, cosh_s) = (sinh(s), cosh(s));
        let k = strain / cosh_s + s / sinh_s;
        let k_rate = slack_rate(s, sinh_s, cosh_s) - strain * sinh_s / (cosh_s * cosh_s);
        let (p, q) = (l / (length * k), h / (length * (1.0 + strain)));
        // dL₀/L₀·(1 + m) = P²·dl/l + Q²·dh/h + (m − stretch)·dT/T
        let m = p * p * (k_rate / k) * sinh_s * cosh_s;
        let stretch = strain * (p * p / (cosh_s * k) + q * q / (1.0 + strain));
        let per_mean = length * (m - stretch) / mean_n;
        let lean = w / (2.0 * (1.0 + strain)); // dT_u/dh at fixed T
        let mean_rate = 1.0 / (1.0 - lean * h / (ea * (1.0 + strain))); // dT/dT_u
        LengthRates {
            per_span: p / k / (1.0 + m),
            per_rise: (q / (1.0 + strain) - per_mean * lean * mean_rate) / (1.0 + m),
            per_tension_m_per_n: per_mean * mean_rate / (1.0 + m),
        }
    }
}

/// d(s/sinh s)/ds, by its series where the closed form cancels.
fn slack_rate(s: f64, sinh_s: f64, cosh_s: f64) -> f64 {
    if s < 0.01 {
        // s/sinh s = 1 − s²/6 + 7s⁴/360 − …
        s * (-1.0 / 3.0 + s * s * (7.0 / 90.0))
    } else {
        (1.0 - s * cosh_s / sinh_s) / sinh_s
    }
}

/// asinh(high) − asinh(low), where `tanh_half` is the hyperbolic tangent of half of it. The plain difference
/// cancels while the two are close; near `tanh_half` = 1 the inverse tangent loses its digits instead.
fn angle_between(low: f64, high: f64, tanh_half: f64) -> f64 {
    if tanh_half < 0.5 { 2.0 * atanh(tanh_half) } else { asinh(high) - asinh(low) }
}

/// The root of a rising function of s > 0 given with its derivative: Newton, kept inside what is known.
fn rising_root(residual: impl Fn(f64) -> (f64, f64), guess: f64) -> Result<f64, CatenaryError> {
    let (mut low, mut high) = (0.0, MOST_S);
    let mut s = guess.clamp(f64::MIN_POSITIVE, MOST_S);
    for step in 0..MOST_STEPS {
        let (value, rate) = residual(s);
        if value.abs() <= 2.0 * f64::EPSILON {
            return Ok(s);
        }
        if value < 0.0 {
            low = s
        } else {
            high = s
        }
        let newton = s - value / rate;
        // Newton where it stays inside and has not dragged on; else half way, in ratio or in difference.
        let next = if newton > low && newton < high && step < MOST_STEPS / 2 {
            newton
        } else if low > 0.0 && high > 4.0 * low {
            (low * high).sqrt()
        } else {
            0.5 * (low + high)
        };
        if (next - s).abs() <= 2.0 * f64::EPSILON * s {
            return Ok(next);
        }
        s = next;
    }
    Err(CatenaryError::NotSolved { steps: MOST_STEPS })
}

fn positive(name: &'static str, given: f64) -> Result<(), CatenaryError> {
    if given > 0.0 && given < 1e12 { Ok(()) } else { Err(CatenaryError::Input { name, given }) }
}

/// How many points draw a rope of this sag well: 9 where it looks straight, more where it hangs.
pub fn points_for(sag_m: f64) -> usize {
    // The gap between an arc of sag f and its n straight parts is about f/n²; 3 mm can't be seen on a map.
    let parts = (sag_m.max(0.0) / 0.003).sqrt();
    if parts <= 8.0 { 9 } else { (parts as usize + 2).min(65) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn guy() -> Span {
        Span { span_m: 8.0, rise_m: 10.0, weight_n_per_m: 0.3, stiffness_n: 1.2e5 }
    }

    fn near(a: f64, b: f64, relative: f64) {
        assert!((a - b).abs() <= relative * a.abs().max(b.abs()), "{a} against {b}");
    }

    #[test]
    fn length_and_tension_are_inverses_from_taut_to_slack() {
        for span_m in [0.001, 0.5, 8.0, 90.0] {
            for rise_m in [-12.0, 0.0, 0.01, 10.0, 60.0] {
                for stiffness_n in [3e3, 1.2e5, 5e7] {
                    let span = Span { span_m, rise_m, weight_n_per_m: 0.7, stiffness_n };
                    for slackness in [0.99, 0.9999, 1.0, 1.000_001, 1.01, 1.3, 3.0, 40.0] {
                        let rope = span.with_unstressed_length(span.chord_m() * slackness).unwrap();
                        let [run, rise] = rope.point_at(rope.unstressed_m);
                        let scale = rope.unstressed_m;
                        assert!((run - span_m).abs() < 1e-11 * scale, "{span:?} {slackness} {run}");
                        assert!((rise - rise_m).abs() < 1e-11 * scale, "{span:?} {slackness} {rise}");
                        // Two ropes have one end tension; only the tauter one (longer = less tension) is asked back.
                        let rate = rope.length_rates().per_tension_m_per_n;
                        if rate < 0.0 {
                            let back = span.with_upper_tension(rope.tension_top_n).unwrap();
                            // Near the least tension the length hangs on the tension's last digits.
                            let hang = -rate * rope.tension_top_n / rope.unstressed_m;
                            near(back.unstressed_m, rope.unstressed_m, 1e-12 + 1e-13 * hang);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn rates_agree_with_finite_differences() {
        for (span, tension) in [
            (guy(), 150.0),
            (Span { rise_m: 0.0, ..guy() }, 20.0),
            (Span { span_m: 60.0, rise_m: -4.0, weight_n_per_m: 8.0, stiffness_n: 4e3 }, 500.0),
            (Span { span_m: 0.2, ..guy() }, 300.0),
        ] {
            let rates = span.with_upper_tension(tension).unwrap().length_rates();
            let length = |s: Span, t: f64| s.with_upper_tension(t).unwrap().unstressed_m;
            let d = 1e-5 * span.span_m;
            let by_span = (length(Span { span_m: span.span_m + d, ..span }, tension)
                - length(Span { span_m: span.span_m - d, ..span }, tension))
                / (2.0 * d);
            let by_rise = (length(Span { rise_m: span.rise_m + d, ..span }, tension)
                - length(Span { rise_m: span.rise_m - d, ..span }, tension))
                / (2.0 * d);
            let dt = 1e-4 * tension;
            let by_tension = (length(span, tension + dt) - length(span, tension - dt)) / (2.0 * dt);
            assert!((rates.per_span - by_span).abs() < 1e-7, "{rates:?} {by_span}");
            assert!((rates.per_rise - by_rise).abs() < 1e-7, "{rates:?} {by_rise}");
            near(rates.per_tension_m_per_n, by_tension, 1e-6);
        }
    }

    #[test]
    fn a_bar_taut_guy_keeps_its_digits() {
        // Tension ten thousand times the weight: the rope is a straight elastic bar but for s²/6 of its length.
        let rope = guy().with_upper_tension(1e4 * 0.3 * 12.8).unwrap();
        let chord = guy().chord_m();
        let mean = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
        near(rope.unstressed_m, chord / (1.0 + mean / 1.2e5), 1e-9);
        // Parabola, Irvine1981 eq. for a taut cable: vertical sag = w·l²/(8·H)·(L₀/l) with weight on L₀.
        near(rope.sag_m(), 0.3 * rope.unstressed_m * 8.0 / (8.0 * rope.horizontal_n), 1e-6);
    }

    #[test]
    fn too_small_a_tension_and_nonsense_are_refused_in_words() {
        assert!(matches!(guy().with_upper_tension(1.0), Err(CatenaryError::TensionTooSmall { .. })));
        let wide = Span { span_m: 100.0, rise_m: 0.0, weight_n_per_m: 10.0, stiffness_n: 1e7 };
        assert!(wide.with_upper_tension(700.0).is_err());
        // The least end tension over a level span is w·l/2·1.5089 (common catenary result, 1/(2·0.6627)).
        assert!(wide.with_upper_tension(760.0).is_ok());
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e308] {
            assert!(guy().with_upper_tension(bad).is_err());
            assert!(guy().with_unstressed_length(bad).is_err());
            assert!(Span { span_m: bad, ..guy() }.with_upper_tension(100.0).is_err());
        }
        assert!(Span { rise_m: f64::NAN, ..guy() }.with_unstressed_length(10.0).is_err());
    }

    /// The root of a function, and after how many looks at it.
    fn root(f: impl Fn(f64) -> (f64, f64), guess: f64) -> (f64, u32) {
        let looks = std::cell::Cell::new(0);
        let counted = |s: f64| {
            looks.set(looks.get() + 1);
            f(s)
        };
        (rising_root(counted, guess).unwrap(), looks.get())
    }

    /// From bar-taut to slack: the slope that the search goes by is the function's, by differences.
    #[test]
    fn the_condition_rises_by_its_slope() {
        for span in [guy(), Span { rise_m: -4.0, stiffness_n: 4e3, ..guy() }, Span { rise_m: 0.0, ..guy() }] {
            for length in [0.999, 1.0, 1.01, 1.4, 6.0] {
                let unstressed_m = length * span.chord_m();
                for s in [0.003, 0.04, 0.3, 1.0, 3.0] {
                    let at = |s: f64| span.residual(s, unstressed_m).0;
                    let by_differences = (at(s * (1.0 + 1e-5)) - at(s * (1.0 - 1e-5))) / (2e-5 * s);
                    let (_, rate) = span.residual(s, unstressed_m);
                    assert!(
                        (rate - by_differences).abs() < 1e-5 * by_differences.abs() + 1e-9,
                        "{s} {length}"
                    );
                }
            }
        }
    }

    /// The start is near for taut and for slack ropes, and Newton doubles its digits: at most five looks.
    #[test]
    fn a_rope_of_a_length_is_found_in_few_looks() {
        for span in [guy(), Span { rise_m: -4.0, stiffness_n: 4e3, ..guy() }, Span { rise_m: 0.0, ..guy() }] {
            for length in [0.99, 0.9999, 1.0, 1.0001, 1.01, 1.1, 1.4, 6.0, 40.0] {
                let unstressed_m = length * span.chord_m();
                let guess = span.first_guess(unstressed_m, span.weight_n_per_m * unstressed_m);
                let (found, looks) = root(|s| span.residual(s, unstressed_m), guess);
                assert!((0.85..1.1).contains(&(guess / found)), "{guess} {found} at {length}");
                assert!(looks <= 5, "{looks} at {length}");
            }
        }
    }

    /// ln(s/3) has its root at 3. Newton's way doubles the digits each time; from 100 it would leave the half-line, and is
    /// first halved to less than 3·e; a function that tells no rate is cut in ratio until it is near, then in halves, one
    /// binary digit a look.
    #[test]
    fn a_rising_root_is_found_in_few_looks() {
        for (guess, most_looks) in [(2.0, 8), (7.0, 10), (100.0, 15)] {
            let (found, looks) = root(|s| (ln(s / 3.0), 1.0 / s), guess);
            assert!((found - 3.0).abs() < 1e-14 && looks <= most_looks, "{found} after {looks} from {guess}");
        }
        let (found, looks) = root(|s| (ln(s / 0.003), 0.0), 1e-6);
        assert!((found - 0.003).abs() < 1e-17 && looks <= 70, "{found} after {looks}");
    }
}
