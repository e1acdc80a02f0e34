//! A guy as an exact elastic catenary in space: its pull on both ends and its stiffness.
//!
//! Weight and wind add up to one uniform load per unstressed length, so the rope hangs in the plane of that load
//! and its chord, and [`crate::structure::catenary`] holds with "down" along the load (irvine1981, ch. 2). With n the
//! load's direction, W = w·L₀, T the mean of the two end tensions, s = artanh(W/2T), ε = T/EA, and the chord d
//! (lower to upper end) split into d∥ along n and d⊥ square to it, the pulls on upper and lower end are
//!
//! ```text
//! F_upper = W·n/2 − (φ·d⊥ + ψ·d∥),   F_lower = W·n/2 + (φ·d⊥ + ψ·d∥)
//! φ = T/(L₀·(ε + s/tanh s)),  ψ = T/(L₀·(1 + ε)),   φ and ψ found from  |d⊥|²/κ² + |d∥|²/(1 + ε)² = L₀²,
//! κ = ε/cosh s + s/sinh s
//! ```
//!
//! so that a taut guy and a slack one are one smooth formula without a plane of its own, and the stiffness
//! follows by differentiating it together with its condition.

use crate::numerics::real::{atanh, cosh, ln, sinh};
use crate::numerics::vector::*;
use crate::structure::catenary::Span;

/// What a guy is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CableRope {
    pub unstressed_m: f64,
    /// EA.
    pub stiffness_n: f64,
}

/// The pulls of a guy.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Pull {
    /// On its upper end, at the mast.
    pub upper_n: Vector,
    /// On its lower end, at the anchor.
    pub lower_n: Vector,
}

/// Slacker than any rope: sinh s / s is 1e127 there.
const MOST_S: f64 = 300.0;

const MOST_STEPS: u32 = 80;

impl CableRope {
    /// Pull and stiffness (how the force needed to hold the upper end grows as that end moves) under `load` per
    /// unstressed length, for the chord `d`. `s` carries the solution from one call to the next: 0 where there
    /// is none yet.
    #[inline]
    pub fn pull(&self, d: Vector, load: Vector, s: &mut f64) -> (Pull, Matrix) {
        let w = norm(load);
        let n = scale(load, 1.0 / w);
        let along = dot(d, n);
        let d_along = scale(n, along);
        let mut d_across = subtract(d, d_along);
        let mut across_2 = dot(d_across, d_across);
        // Exactly in line with its load the rope has no plane; a billionth of its length beside it it has.
        let least = 1e-9 * self.unstressed_m;
        if across_2 < least * least {
            let aside = if n[0].abs() < 0.9 { [1.0, 0.0, 0.0] } else { [0.0, 1.0, 0.0] };
            let square = cross(n, aside);
            d_across = scale(square, least / norm(square));
            across_2 = least * least;
        }
        let chord = Chord { across_2, along_2: along * along, load_n: w * self.unstressed_m };
        self.settle(&chord, s);
        let f = self.functions(*s, chord.load_n);
        let mut k = [[0.0; 3]; 3];
        add_identity(&mut k, f.phi);
        add_outer(&mut k, n, n, f.psi - f.phi);
        // ∇s by the condition; both factors are parallel, which keeps the stiffness symmetric.
        let (kappa_2, stretched_2) = (1.0 / (f.kappa * f.kappa), 1.0 / (f.stretched * f.stretched));
        let slope =
            across_2 * kappa_2 * f.kappa_s / f.kappa + chord.along_2 * stretched_2 * f.strain_s / f.stretched;
        let by_s = add_scaled(scale(d_across, f.phi_s), d_along, f.psi_s);
        let s_by = add_scaled(scale(d_across, kappa_2), d_along, stretched_2);
        add_both_outer(&mut k, by_s, s_by, 0.5 / slope);
        let half = scale(n, chord.load_n / 2.0);
        let taut = add_scaled(scale(d_across, f.phi), d_along, f.psi);
        (Pull { upper_n: subtract(half, taut), lower_n: add(half, taut) }, k)
    }

    /// Finds s by Newton on ln of the condition, which rises with s; steps of more than a factor of eight are
    /// cut, because from far to the right a step would end below nothing. Gives how many steps it took.
    #[inline]
    fn settle(&self, chord: &Chord, s: &mut f64) -> u32 {
        if *s <= 0.0 || s.is_nan() {
            *s = self.first_guess(chord);
        }
        let length_2 = self.unstressed_m * self.unstressed_m;
        for step in 1..=MOST_STEPS {
            let (kappa, stretched, kappa_s, strain_s) = self.condition(*s, chord.load_n);
            let p_2 = chord.across_2 / (length_2 * kappa * kappa);
            let q_2 = chord.along_2 / (length_2 * stretched * stretched);
            let norm_2 = p_2 + q_2;
            let slope = -(p_2 * kappa_s / kappa + q_2 * strain_s / stretched) / norm_2;
            // ln √x, without the logarithm where x is near 1: the series' next term is (x − 1)⁴/8.
            let x = norm_2 - 1.0;
            let value = if x.abs() < 1e-4 { x * (0.5 - x * (0.25 - x / 6.0)) } else { 0.5 * ln(norm_2) };
            // min and max, because clamp panics where s is not a number.
            let next = (*s - value / slope).max(*s / 8.0).min(*s * 8.0).min(MOST_S);
            let moved = (next - *s).abs();
            *s = next;
            if moved <= 1e-8 * next {
                return step;
            }
        }
        MOST_STEPS
    }

    fn first_guess(&self, chord: &Chord) -> f64 {
        let span = Span {
            span_m: chord.across_2.sqrt(),
            rise_m: chord.along_2.sqrt(),
            weight_n_per_m: chord.load_n / self.unstressed_m,
            stiffness_n: self.stiffness_n,
        };
        span.with_unstressed_length(self.unstressed_m).map_or(1.0, |rope| {
            let mean_n = 0.5 * (rope.tension_top_n + rope.tension_bottom_n);
            let s = atanh((chord.load_n / (2.0 * mean_n)).min(1.0 - f64::EPSILON));
            s.clamp(1e-12, MOST_S)
        })
    }

    /// κ, 1 + ε and their slopes by s.
    #[inline]
    fn condition(&self, s: f64, load_n: f64) -> (f64, f64, f64, f64) {
        let h = Hyperbolic::of(s);
        let per = load_n / (2.0 * self.stiffness_n);
        let strain = per * h.cosh / h.sinh;
        let strain_s = -per / (h.sinh * h.sinh);
        let kappa = strain / h.cosh + s / h.sinh;
        let kappa_s = strain_s / h.cosh - strain * h.sinh / (h.cosh * h.cosh) + h.ratio_s;
        (kappa, 1.0 + strain, kappa_s, strain_s)
    }

    #[inline]
    fn functions(&self, s: f64, load_n: f64) -> Functions {
        let h = Hyperbolic::of(s);
        let sinh_2 = 1.0 / (h.sinh * h.sinh);
        let tension = 0.5 * load_n * h.cosh / h.sinh;
        let tension_s = -0.5 * load_n * sinh_2;
        let (strain, strain_s) = (tension / self.stiffness_n, tension_s / self.stiffness_n);
        let kappa = strain / h.cosh + s / h.sinh;
        let kappa_s = strain_s / h.cosh - strain * h.sinh / (h.cosh * h.cosh) + h.ratio_s;
        let (across, along) =
            (self.unstressed_m * (strain + s * h.cosh / h.sinh), self.unstressed_m * (1.0 + strain));
        let (phi, psi) = (tension / across, tension / along);
        Functions {
            kappa,
            kappa_s,
            stretched: 1.0 + strain,
            strain_s,
            phi,
            psi,
            phi_s: (tension_s - phi * self.unstressed_m * (strain_s + h.arch_s)) / across,
            psi_s: (tension_s - psi * self.unstressed_m * strain_s) / along,
        }
    }
}

struct Chord {
    across_2: f64,
    along_2: f64,
    load_n: f64,
}

struct Functions {
    kappa: f64,
    kappa_s: f64,
    stretched: f64,
    strain_s: f64,
    phi: f64,
    psi: f64,
    phi_s: f64,
    psi_s: f64,
}

/// sinh s, cosh s, and the slopes of s/sinh s and s/tanh s, which cancel in their closed forms when s is small.
struct Hyperbolic {
    sinh: f64,
    cosh: f64,
    ratio_s: f64,
    arch_s: f64,
}

impl Hyperbolic {
    #[inline(always)]
    fn of(s: f64) -> Self {
        if s < 0.5 {
            return Self::by_series(s);
        }
        let (sinh, cosh) = (sinh(s), cosh(s));
        let tanh = sinh / cosh;
        Self { sinh, cosh, ratio_s: (1.0 - s / tanh) / sinh, arch_s: (1.0 - s / (sinh * cosh)) / tanh }
    }

    /// Taylor's series, to 1e-16 for s < ½.
    #[inline(always)]
    fn by_series(s: f64) -> Self {
        let x = s * s;
        let sinh_s = 1.0
            + x / 6.0
                * (1.0
                    + x / 20.0 * (1.0 + x / 42.0 * (1.0 + x / 72.0 * (1.0 + x / 110.0 * (1.0 + x / 156.0)))));
        let cosh = 1.0
            + x / 2.0
                * (1.0
                    + x / 12.0
                        * (1.0
                            + x / 30.0
                                * (1.0
                                    + x / 56.0 * (1.0 + x / 90.0 * (1.0 + x / 132.0 * (1.0 + x / 182.0))))));
        // (sinh s − s·cosh s)/s³ = −Σ 2k·x^(k−1)/(2k+1)!
        let falling = -(1.0 / 3.0
            + x * (1.0 / 30.0
                + x * (1.0 / 840.0 + x * (1.0 / 45_360.0 + x * (1.0 / 3_991_680.0 + x / 518_918_400.0)))));
        // (sinh s·cosh s − s)/s³ = Σ 4^k·x^(k−1)/(2k+1)!
        let y = 4.0 * x;
        let rising = 4.0
            * (1.0 / 6.0
                + y * (1.0 / 120.0
                    + y * (1.0 / 5040.0
                        + y * (1.0 / 362_880.0
                            + y * (1.0 / 39_916_800.0
                                + y * (1.0 / 6_227_020_800.0
                                    + y * (1.0 / 1_307_674_368_000.0 + y / 355_687_428_096_000.0)))))));
        let over = s / (sinh_s * sinh_s);
        Self { sinh: s * sinh_s, cosh, ratio_s: falling * over, arch_s: rising * over }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::{cos, sin};

    #[test]
    fn series_and_closed_forms_meet() {
        let s = 0.5;
        let (series, closed) = (Hyperbolic::by_series(s), Hyperbolic::of(s));
        for (a, b) in [
            (series.sinh, closed.sinh),
            (series.cosh, closed.cosh),
            (series.ratio_s, closed.ratio_s),
            (series.arch_s, closed.arch_s),
        ] {
            assert!((a / b - 1.0).abs() < 2e-14, "{a} against {b}");
        }
    }

    /// The plane catenary of `structure::catenary`, checked there against two independent solvers, hung in a plane
    /// turned about the load.
    #[test]
    fn agrees_with_the_plane_catenary() {
        for (unstressed_m, stiffness_n, turn) in
            [(12.79, 1.2e5, 0.4), (12.9, 1.2e5, 2.0), (14.0, 5e6, -1.0), (12.8, 5e6, 3.0), (40.0, 1e5, 0.0)]
        {
            let plane = Span { span_m: 8.0, rise_m: 10.0, weight_n_per_m: 0.3, stiffness_n }
                .with_unstressed_length(unstressed_m)
                .unwrap();
            let rope = CableRope { unstressed_m, stiffness_n };
            let (c, s) = (cos(turn), sin(turn));
            let (pull, _) = rope.pull([8.0 * c, 8.0 * s, 10.0], [0.0, 0.0, -0.3], &mut 0.0);
            let expected = [-plane.horizontal_n * c, -plane.horizontal_n * s, -plane.vertical_top_n];
            let off = norm(subtract(pull.upper_n, expected));
            assert!(off < 1e-9 * plane.tension_top_n, "{pull:?} against {expected:?}");
            assert!((norm(pull.lower_n) - plane.tension_bottom_n).abs() < 1e-9 * plane.tension_top_n);
        }
    }

    #[test]
    fn stiffness_is_the_slope_of_the_pull() {
        for (unstressed_m, load) in [
            (12.79, [0.0, 0.0, -0.3]),
            (12.79, [4.0, 1.0, -0.3]),
            (12.83, [0.4, -1.0, -0.3]),
            (13.5, [0.0, 2.0, -0.3]),
        ] {
            let rope = CableRope { unstressed_m, stiffness_n: 1.2e5 };
            let d = [3.0, 7.4, 10.0];
            let (_, k) = rope.pull(d, load, &mut 0.0);
            for c in 0..3 {
                let moved = |h: f64| {
                    let mut d = d;
                    d[c] += h;
                    rope.pull(d, load, &mut 0.0).0.upper_n
                };
                let slope = scale(subtract(moved(-1e-6), moved(1e-6)), 0.5e6);
                for r in 0..3 {
                    assert!((k[r][c] - slope[r]).abs() < 1e-5 * (1.0 + k[c][c].abs()), "{k:?} {slope:?}");
                }
            }
        }
    }

    /// From taut to slack, above and below where the series ends: every slope by differences, and what settling and pulling
    /// reckon with is the same.
    #[test]
    fn slopes_by_s_are_those_of_the_functions() {
        let rope = CableRope { unstressed_m: 12.5, stiffness_n: 8e4 };
        for load_n in [0.5, 30.0, 4000.0] {
            for s in [0.01, 0.2, 0.49, 0.51, 1.3, 4.0] {
                let h = 1e-5 * s;
                let near = |found: f64, of: &dyn Fn(f64) -> f64| {
                    let slope = (of(s + h) - of(s - h)) / (2.0 * h);
                    assert!(
                        (found - slope).abs() < 1e-5 * slope.abs() + 1e-8,
                        "{found} {slope} {load_n} {s}"
                    );
                };
                let (kappa, stretched, kappa_s, strain_s) = rope.condition(s, load_n);
                near(kappa_s, &|s| rope.condition(s, load_n).0);
                near(strain_s, &|s| rope.condition(s, load_n).1);
                let f = rope.functions(s, load_n);
                near(f.phi_s, &|s| rope.functions(s, load_n).phi);
                near(f.psi_s, &|s| rope.functions(s, load_n).psi);
                for (here, there) in
                    [(f.kappa, kappa), (f.stretched, stretched), (f.kappa_s, kappa_s), (f.strain_s, strain_s)]
                {
                    assert!((here - there).abs() <= 1e-12 * there.abs(), "{here} {there}");
                }
            }
        }
    }

    /// A chord in the plane of the rope's load.
    fn chord(rope: &CableRope, d: Vector, load: Vector) -> Chord {
        let w = norm(load);
        let along = dot(d, load) / w;
        let across_2 = dot(d, d) - along * along;
        Chord { across_2, along_2: along * along, load_n: w * rope.unstressed_m }
    }

    const HUNG: [(f64, Vector); 5] = [
        (12.79, [0.0, 0.0, -0.3]),
        (12.79, [4.0, 1.0, -0.3]),
        (12.83, [0.4, -1.0, -0.3]),
        (13.5, [0.0, 2.0, -0.3]),
        (30.0, [0.1, 0.0, -0.3]),
    ];

    /// The plane catenary is the rope itself: what it says is where Newton ends, whichever way the load goes.
    #[test]
    fn the_first_guess_is_the_rope_already() {
        for (unstressed_m, load) in HUNG {
            let rope = CableRope { unstressed_m, stiffness_n: 1.2e5 };
            let chord = chord(&rope, [3.0, 7.4, 10.0], load);
            let guess = rope.first_guess(&chord);
            let mut s = guess;
            let steps = rope.settle(&chord, &mut s);
            assert!((guess / s - 1.0).abs() < 1e-7 && steps <= 2, "{guess} {s} after {steps}");
        }
    }

    /// Newton doubles its digits: from a tenth beside it is there to eight digits after four steps or so, and from anywhere
    /// after as many as it takes to come near by factors of eight.
    #[test]
    fn a_rope_settles_in_few_steps() {
        for (unstressed_m, load) in HUNG {
            let rope = CableRope { unstressed_m, stiffness_n: 1.2e5 };
            let chord = chord(&rope, [3.0, 7.4, 10.0], load);
            let at = rope.first_guess(&chord);
            for (times, most_steps) in [(0.9, 4), (1.1, 4), (0.1, 14), (0.01, 20), (20.0, 14)] {
                let mut s = times * at;
                let steps = rope.settle(&chord, &mut s);
                assert!((s / at - 1.0).abs() < 1e-7, "{s} {at}");
                assert!(steps <= most_steps, "{steps} from {times} times {at}");
            }
        }
    }

    /// The trap: a slack rope exactly along its load has a pull all the same, and it is found from any start.
    #[test]
    fn a_slack_rope_in_line_with_its_load_is_found_from_any_start() {
        let rope = CableRope { unstressed_m: 10.2, stiffness_n: 1e5 };
        let (exact, _) = rope.pull([0.0, 0.0, 10.0], [0.0, 0.0, -0.5], &mut 0.0);
        // It hangs as two straight parts, 10.1 m up to the mast and 0.1 m at the anchor's side.
        assert!((exact.upper_n[2] + 0.5 * 10.1).abs() < 1e-3, "{exact:?}");
        assert!((exact.lower_n[2] + 0.5 * 0.1).abs() < 1e-3, "{exact:?}");
        for start in [1e-9, 1e-3, 0.7, 30.0, 300.0] {
            let (pull, _) = rope.pull([0.0, 0.0, 10.0], [0.0, 0.0, -0.5], &mut start.clone());
            assert!(norm(subtract(pull.upper_n, exact.upper_n)) < 1e-9);
            let (pull, _) = rope.pull([4.0, 0.0, 10.0], [0.3, 0.0, -0.5], &mut start.clone());
            let (same, _) = rope.pull([4.0, 0.0, 10.0], [0.3, 0.0, -0.5], &mut 0.0);
            assert!(norm(subtract(pull.upper_n, same.upper_n)) < 1e-9 * norm(same.upper_n), "{start}");
        }
    }
}
