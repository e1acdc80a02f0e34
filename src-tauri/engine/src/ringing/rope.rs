//! From a rope's lowest note, or from how far a pull brings it aside, to the tension at its upper end.
//!
//! A taut string sounds f = 1/(2τ), τ the time that a wave takes from end to end: f = √(T/m)/(2L) where T is the same all
//! along. On a rope that sags T is not, so τ = ∫ds/√(T/m) is added up along its catenary. What else shifts the note:
//!
//! - A swing in the plane of the sag stretches the rope and is stiffer (Irvine1981, ch. 3, from memory).
//! - A phone that hangs on it is a weight at a point: sin κ = (M/mL)·κ·sin(κa/L)·sin(κ(1 − a/L)), κ = π without it
//!   (waves on either side of the weight; any textbook of vibrations).
//! - Bending stiffness, on steel alone: at most by 2·√(EI/T)/L (a stiff string with clamped ends, from memory).

use super::note::Note;
use crate::job::{Rope, SwingPlane};
use crate::numerics::real::{cos, hypot, sin};
use crate::numerics::roots::{RootRules, brent};
use crate::quantity::estimate::Estimate;
use crate::resistance::rope::RopeMaterial;
use crate::structure::catenary::{Catenary, Span};

const PI: f64 = core::f64::consts::PI;
/// A rope's weight a metre is known to this part of it where its maker gives it, and dry (common practice).
const ROPE_MASS_SIGMA: f64 = 0.03;
/// Chord as it stands, against the plan's: knots and pegs (common practice).
const LENGTH_SIGMA_M: f64 = 0.03;
/// A phone in its case: 0.2 kg, hardly one is outside 0.15 to 0.25 kg (common practice).
const PHONE_KG: f64 = 0.2;
const PHONE_SIGMA_KG: f64 = 0.025;
/// How well it is known where on the rope the phone hangs.
const PHONE_PLACE_SIGMA_M: f64 = 0.01;
/// A luggage scale, read while it is held (common practice).
const SCALE_SIGMA: f64 = 0.04;
/// A tape held beside a rope (common practice).
const ASIDE_SIGMA_M: f64 = 0.004;
/// A rope's stretch by its maker's one point, against what it does at another tension (common practice).
const STIFFNESS_SIGMA: f64 = 0.25;
/// Steps of Simpson's rule along the rope: the tension of a guy is close to a straight line.
const STEPS: usize = 8;

/// A guy that swings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SwingingRope {
    pub span: Span,
    pub mass_kg_per_m: f64,
    /// E·I at most: that of a solid bar; nothing for rope.
    pub bending_at_most_nm2: f64,
}

/// How tight it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RopeTension {
    /// At the upper end, as the plan's set tension is.
    pub upper: Estimate,
    /// Without what is the same for all guys of one rope: for comparing them.
    pub own_sigma_n: f64,
    /// Without what is the same for all readings of one guy: for comparing its days.
    pub read_sigma_n: f64,
}

/// Why a note or a pull gives no tension.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoTension {
    /// No rope of this weight could hang there and swing so slowly: it is slack, or the wrong rope.
    #[error("no tension of this rope gives this")]
    OutOfReach,
    /// Nothing was read of it.
    #[error("neither a note nor a pull aside was read")]
    NothingRead,
}

impl SwingingRope {
    pub fn new(span: Span, rope: &Rope) -> Self {
        let diameter_m = rope.diameter_mm / 1000.0;
        let steel = rope.strength.material == RopeMaterial::Steel;
        // A solid round bar: I/A = d²/16.
        let bending = if steel { rope.stiffness_n() * diameter_m * diameter_m / 16.0 } else { 0.0 };
        Self { span, mass_kg_per_m: rope.mass_g_per_m / 1000.0, bending_at_most_nm2: bending }
    }

    /// The lowest note at a tension of the upper end.
    ///
    /// # Accuracy
    /// Sideways within 0.2 % of a chain of weights at sags up to 1/20 of the chord, and with a phone on it (`tests.rs`).
    pub fn hz(&self, upper_n: f64, plane: SwingPlane, phone_at_m: Option<f64>) -> Option<f64> {
        self.hz_with(upper_n, plane, phone_at_m.map(|at_m| (at_m, PHONE_KG)), self.mass_kg_per_m)
    }

    fn hz_with(
        &self,
        upper_n: f64,
        plane: SwingPlane,
        phone: Option<(f64, f64)>,
        mass_kg_per_m: f64,
    ) -> Option<f64> {
        let rope = self.span.with_upper_tension(upper_n).ok()?;
        let turns = match phone {
            Some((at_m, phone_kg)) => {
                let rope_kg = mass_kg_per_m * rope.unstressed_m;
                weighed_down(at_m / rope.stretched_m, phone_kg / rope_kg)? / PI
            }
            None => 1.0,
        };
        let stiffer = match plane {
            SwingPlane::Sideways => 1.0,
            SwingPlane::UpAndDown => sag_factor(&rope),
        };
        let mean_n = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
        let stiff_ends = 1.0 + (self.bending_at_most_nm2 / mean_n).sqrt() / rope.stretched_m;
        Some(turns * stiffer * stiff_ends / (2.0 * wave_s(&rope, mass_kg_per_m)))
    }

    /// The tension at which the rope sounds a note.
    ///
    /// # Errors
    /// Where no tension gives it.
    pub fn at_note(
        &self,
        note: Note,
        plane: SwingPlane,
        phone_at_m: Option<f64>,
    ) -> Result<RopeTension, NoTension> {
        let phone = phone_at_m.map(|at_m| (at_m, PHONE_KG));
        let upper_n = |hz: f64, phone, mass| self.upper_n(hz, plane, phone, mass);
        let mass = self.mass_kg_per_m;
        let found_n = upper_n(note.hz, phone, mass)?;
        let by = |other: Result<f64, NoTension>| other.map_or(0.0, |other_n| (other_n - found_n).abs());
        let heard_n = 2.0 * found_n * note.sigma_hz / note.hz;
        let length_n = 2.0 * found_n * LENGTH_SIGMA_M / self.span.chord_m();
        let phone_n = phone.map_or(0.0, |(at_m, kg)| {
            let heavier_n = by(upper_n(note.hz, Some((at_m, kg + PHONE_SIGMA_KG)), mass));
            hypot(heavier_n, by(upper_n(note.hz, Some((at_m + PHONE_PLACE_SIGMA_M, kg)), mass)))
        });
        // Of the stiff ends half was taken; the truth lies evenly between none and all: width over √12 (Gum2008, 4.3.7).
        let ends_n = 2.0 * found_n * (self.bending_at_most_nm2 / found_n).sqrt()
            / self.span.chord_m()
            / 3.0_f64.sqrt();
        let read_sigma_n = hypot(heard_n, phone_n);
        let own_sigma_n = hypot(read_sigma_n, length_n);
        let all_n =
            hypot(hypot(own_sigma_n, ends_n), by(upper_n(note.hz, phone, mass * (1.0 + ROPE_MASS_SIGMA))));
        Ok(RopeTension { upper: Estimate::from_sigma(found_n, all_n), own_sigma_n, read_sigma_n })
    }

    fn upper_n(
        &self,
        hz: f64,
        plane: SwingPlane,
        phone: Option<(f64, f64)>,
        mass_kg_per_m: f64,
    ) -> Result<f64, NoTension> {
        let chord_m = self.span.chord_m();
        let taut_n = 4.0 * mass_kg_per_m * chord_m * chord_m * hz * hz;
        let over = |upper_n: f64| {
            // Below the least tension that holds the rope up there is no note: as low as can be.
            self.hz_with(upper_n, plane, phone, mass_kg_per_m).map_or(-1.0, |found| found / hz - 1.0)
        };
        // A phone on the rope asks for more tension than the bare string; sag and weight add their own.
        let high_n = 30.0 * taut_n + 4.0 * self.span.weight_n_per_m * chord_m;
        let rules = RootRules { tolerance: 1e-9 * high_n, max_steps: 200 };
        let found_n = brent(over, 0.02 * taut_n, high_n, rules).map_err(|_| NoTension::OutOfReach)?;
        // Where the note jumps from none to too high there is no root, though a bracket.
        if over(found_n).abs() < 1e-3 { Ok(found_n) } else { Err(NoTension::OutOfReach) }
    }

    /// The tension of a rope whose middle comes aside by so much where it is pulled with a force square to it.
    ///
    /// Two straight halves: 2·T′·sin φ = F; the tension before was less by what the stretch adds: T = T′ − EA·ΔL/L.
    ///
    /// # Errors
    /// Where the pull explains less than the stretch: the rope was slack, or the figures do not fit.
    ///
    /// # References
    /// Statics of a point between two ropes; Hooke's law.
    pub fn at_pull(&self, pull_n: f64, aside_m: f64) -> Result<RopeTension, NoTension> {
        let chord_m = self.span.chord_m();
        let mean_n = |pull_n: f64, aside_m: f64, stiffness_n: f64| {
            let half_m = hypot(0.5 * chord_m, aside_m);
            pull_n * half_m / (2.0 * aside_m) - stiffness_n * (2.0 * half_m - chord_m) / chord_m
        };
        let stiffness_n = self.span.stiffness_n;
        let found_n = mean_n(pull_n, aside_m, stiffness_n);
        if found_n.is_nan() || found_n <= 0.0 {
            return Err(NoTension::OutOfReach);
        }
        let scale_n = mean_n(pull_n * (1.0 + SCALE_SIGMA), aside_m, stiffness_n) - found_n;
        let tape_n = mean_n(pull_n, aside_m + ASIDE_SIGMA_M, stiffness_n) - found_n;
        let stretch_n = mean_n(pull_n, aside_m, stiffness_n * (1.0 + STIFFNESS_SIGMA)) - found_n;
        let own_sigma_n = hypot(scale_n, tape_n);
        let upper_n = found_n + 0.5 * self.span.weight_n_per_m * self.span.rise_m;
        let upper = Estimate::from_sigma(upper_n, hypot(own_sigma_n, stretch_n));
        Ok(RopeTension { upper, own_sigma_n, read_sigma_n: own_sigma_n })
    }
}

/// How long a wave takes from end to end, sideways: ∫ √(m/T) ds along the catenary, by Simpson's rule.
fn wave_s(rope: &Catenary, mass_kg_per_m: f64) -> f64 {
    let slowness = |i: usize| {
        let vertical_n =
            rope.vertical_top_n - rope.span.weight_n_per_m * rope.unstressed_m * i as f64 / STEPS as f64;
        let tension_n = hypot(rope.horizontal_n, vertical_n);
        // ds = (1 + ε)·ds₀, and each stretched metre weighs m/(1 + ε).
        (mass_kg_per_m * (1.0 + tension_n / rope.span.stiffness_n) / tension_n).sqrt()
    };
    let weights = |i: usize| if i == 0 || i == STEPS { 1.0 } else { 2.0 + 2.0 * (i % 2) as f64 };
    (0..=STEPS).map(|i| weights(i) * slowness(i)).sum::<f64>() * rope.unstressed_m / (3.0 * STEPS as f64)
}

/// κ of the lowest note of a string with a weight at a part of its length; π without a weight.
pub(super) fn weighed_down(at: f64, weight_over_rope: f64) -> Option<f64> {
    let at = at.clamp(0.0, 1.0);
    let over = |k: f64| sin(k) - weight_over_rope * k * sin(k * at) * sin(k * (1.0 - at));
    if over(PI) > -1e-12 {
        return Some(PI);
    }
    brent(over, 1e-3, PI, RootRules::default()).ok()
}

/// By how much the sag raises the lowest symmetric note in its own plane: ω̄/π of tan(ω̄/2) = ω̄/2 − (4/λ²)·(ω̄/2)³.
fn sag_factor(rope: &Catenary) -> f64 {
    let chord_m = rope.span.chord_m();
    let mean_n = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
    // Across the chord the rope's weight acts with the cosine of its slope (Irvine1981, sec. 2.5, from memory).
    let load = rope.span.weight_n_per_m * rope.span.span_m / mean_n;
    let effective_m = chord_m * (1.0 + load * load / 8.0);
    irvine(load * load * chord_m * rope.span.stiffness_n / (mean_n * effective_m))
}

/// ω̄/π of the first symmetric note in the plane for Irvine's λ² (Irvine1981, ch. 3, from memory).
pub(super) fn irvine(lambda_squared: f64) -> f64 {
    if lambda_squared < 1e-9 {
        return 1.0;
    }
    // With y = ω̄/2, times cos y: no poles.
    let over = |y: f64| sin(y) - y * cos(y) + 4.0 / lambda_squared * y * y * y * cos(y);
    brent(over, 0.5 * PI, 1.5 * PI, RootRules::default()).map_or(1.0, |y| 2.0 * y / PI)
}
