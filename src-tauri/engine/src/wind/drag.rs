//! Drag of round tubes, wires and ropes.
//!
//! A round tube in slow air has a wide wake: c_f 1.2. Above a Reynolds number of some 2·10⁵ the wake narrows and
//! c_f falls, the rougher the surface the less. The force itself never falls: c_f goes down with v^1.4 at the
//! steepest, the pressure goes up with v².

use crate::numerics::real::{ln, pow};

/// Kinematic viscosity of air in m²/s (EN 1991-1-4, 7.9.1 (1)).
pub const VISCOSITY_M2_PER_S: f64 = 15e-6;
/// Force coefficient of stranded cables and ropes at every Reynolds number (EN 1991-1-4, 7.9.2 (2), from memory),
/// and of a round tube in slow air (fig. 7.28).
pub const SUBCRITICAL: f64 = 1.2;

/// No cylinder has less than this, however smooth and fast (fig. 7.28 as public code has it).
const LEAST: f64 = 0.4;

/// Reynolds number (EN 1991-1-4, eq. 7.15).
pub fn reynolds(diameter_m: f64, gust_m_per_s: f64) -> f64 {
    diameter_m * gust_m_per_s / VISCOSITY_M2_PER_S
}

/// The surface of a tube.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TubeSurface {
    FinePaint,
    SprayPaint,
    BrightSteel,
    Galvanised,
    Rust,
}

impl TubeSurface {
    /// Equivalent roughness k in metres (EN 1991-1-4 Table 7.13; from memory but for galvanised steel).
    pub fn roughness_m(self) -> f64 {
        let millimetres = match self {
            TubeSurface::FinePaint => 0.006,
            TubeSurface::SprayPaint => 0.02,
            TubeSurface::BrightSteel => 0.05,
            TubeSurface::Galvanised => 0.2,
            TubeSurface::Rust => 2.0,
        };
        millimetres * 1e-3
    }
}

/// Force coefficient c_f,0 of an endless round cylinder.
///
/// The falling branch 0.11/(Re/10⁶)^1.4 is from memory; the branch of rough surfaces is held by published worked
/// sums. Where the two cross the larger one holds; 1.2 is the most and 0.4 the least (public code).
///
/// # Units
/// `relative_roughness` is k/b. The figure has 10⁻⁵ to 10⁻²; smoother and rougher count as those.
/// # References
/// EN 1991-1-4, fig. 7.28.
pub fn round_coefficient(reynolds: f64, relative_roughness: f64) -> f64 {
    // The falling branch leaves 1.2 here; below it the rough branch's formula has no meaning (its denominator
    // passes through nothing at Re 3160).
    let falling = 0.11 / pow(reynolds / 1e6, 1.4);
    if reynolds.is_nan() || reynolds <= 0.0 || falling >= SUBCRITICAL {
        return SUBCRITICAL;
    }
    let roughness = relative_roughness.clamp(1e-5, 1e-2);
    let rough = 1.2 + 0.18 * log10(10.0 * roughness) / (1.0 + 0.4 * log10(reynolds / 1e6));
    falling.max(rough).clamp(LEAST, SUBCRITICAL)
}

/// Force coefficient of a tube in a gust.
pub fn tube_coefficient(diameter_m: f64, surface: TubeSurface, gust_m_per_s: f64) -> f64 {
    round_coefficient(reynolds(diameter_m, gust_m_per_s), surface.roughness_m() / diameter_m)
}

/// Effective slenderness λ of a cylinder standing free (EN 1991-1-4 Table 7.16, no. 4).
pub fn slenderness(diameter_m: f64, length_m: f64) -> f64 {
    let ratio = length_m / diameter_m;
    let short = ratio.min(70.0);
    let long = (0.7 * ratio).min(70.0);
    let share = ((length_m - 15.0) / 35.0).clamp(0.0, 1.0);
    short + (long - short) * share
}

/// End-effect factor ψ_λ of a solid member (φ = 1): air passes round the ends and takes some force off.
///
/// Optional: 1 is on the safe side, and is right for a tube whose ends are not free.
///
/// # References
/// EN 1991-1-4 fig. 7.36: the points (1, 0.60), (10, 0.70), (70, 0.91), (200, 1) joined on a logarithmic scale (read off,
/// from memory). Three published worked sums agree to 0.5 %, two of them below a slenderness of 40, where one public
/// program reads up to 5 % more (0.74 at 10, 0.80 at 20). The gust limit takes 1.
pub fn end_effect(slenderness: f64) -> f64 {
    const POINTS: [(f64, f64); 4] = [(1.0, 0.60), (10.0, 0.70), (70.0, 0.91), (200.0, 1.0)];
    let at = slenderness.clamp(1.0, 200.0);
    for pair in POINTS.windows(2) {
        if let [(from, low), (to, high)] = *pair
            && at <= to
        {
            return low + (high - low) * ln(at / from) / ln(to / from);
        }
    }
    1.0
}

fn log10(x: f64) -> f64 {
    ln(x) / std::f64::consts::LN_10
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mast_tube_stays_in_the_slow_range() {
        // 60.3 mm at 25 m/s: Re 1.0e5, so 1.2.
        assert!((reynolds(0.0603, 25.0) - 1.005e5).abs() < 1e2);
        assert_eq!(tube_coefficient(0.0603, TubeSurface::Galvanised, 25.0), SUBCRITICAL);
        assert!(tube_coefficient(0.3, TubeSurface::FinePaint, 40.0) < 0.7);
        for strange in [0.0, -1.0, f64::NAN, 1.0, 3160.0] {
            assert_eq!(round_coefficient(strange, 1e-3), SUBCRITICAL);
        }
    }

    /// Smoother than the figure's lines, and its least, as public code has them.
    #[test]
    fn no_tube_is_smoother_or_less_than_the_figure() {
        assert_eq!(round_coefficient(1e6, 1e-6), round_coefficient(1e6, 1e-5));
        assert!((0.4..0.5).contains(&round_coefficient(6e5, 1e-7)));
    }

    #[test]
    fn rougher_never_has_less_drag() {
        let all = [
            TubeSurface::FinePaint,
            TubeSurface::SprayPaint,
            TubeSurface::BrightSteel,
            TubeSurface::Galvanised,
            TubeSurface::Rust,
        ];
        for pair in all.windows(2) {
            assert!(tube_coefficient(0.3, pair[0], 40.0) <= tube_coefficient(0.3, pair[1], 40.0));
        }
    }
}
