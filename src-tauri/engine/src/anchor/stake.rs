//! A bar driven upright and pushed sideways: Broms's short and long piles with a free head.
//!
//! The soil gives way when the stake turns in it as one piece; a slender bar bends before. The lower push holds.
//! Nothing is said of a pull along the bar: a smooth stake draws out. The factor 2.0 is the one that UFC 3-220-20, eq.
//! 6-55, puts on live load with this method.

use super::ANCHOR_FACTOR;
use super::soil::Strength;
use crate::numerics::real::{cbrt, tan_deg};
use crate::resistance::{Condition, GroundUnshown, Resistance};
use crate::source::SourceKey;

/// Yield of a bar that nobody has papers of, in Pa: plain mild steel S235 (common practice; ASTM A615 Grade 40 has
/// 280 MPa).
pub const CAUTIOUS_BAR_YIELD_PA: f64 = 235e6;

/// A round bar in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stake {
    pub diameter_m: f64,
    /// Length in the ground.
    pub embedded_m: f64,
    /// From the ground up to where it is pushed.
    pub push_height_m: f64,
    pub yield_pa: f64,
}

/// The push that the soil under a stiff stake gives way at, with what goes with it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Push {
    pub push_n: f64,
    /// From where the soil begins to bear (1.5 diameters down in clay, the surface in sand) to the largest moment.
    pub depth_to_moment_m: f64,
    pub moment_nm: f64,
}

impl Stake {
    /// Plastic moment of a round bar: f_y·d³/6 (closed form).
    pub fn plastic_moment_nm(&self) -> f64 {
        self.yield_pa * self.diameter_m * self.diameter_m * self.diameter_m / 6.0
    }

    /// Clay bears 9·c·b below 1.5 diameters; the stake turns about a point low in it.
    ///
    /// With f and g the parts of the bearing length above and below the largest moment, P = 9·c·b·f, and
    /// P·(e + 1.5b + f/2) = 2.25·c·b·g², so that f² + f·(4(e + 1.5b) + 2n) − n² = 0 with n = L − 1.5b = f + g.
    ///
    /// # References
    /// Broms (1964), cohesive soil, short free head.
    pub fn push_in_clay(&self, undrained_pa: f64) -> Push {
        let Stake { diameter_m: b, embedded_m, push_height_m: e, .. } = *self;
        let n = (embedded_m - 1.5 * b).max(0.0);
        let half = 2.0 * (e + 1.5 * b) + n;
        // Written with the sum in the denominator: no cancellation, and nothing at n = 0.
        let f = if n > 0.0 { n * n / (half + (half * half + n * n).sqrt()) } else { 0.0 };
        let push_n = 9.0 * undrained_pa * b * f;
        Push { push_n, depth_to_moment_m: f, moment_nm: push_n * (e + 1.5 * b + 0.5 * f) }
    }

    /// Sand bears three times Rankine's passive pressure.
    ///
    /// P = ½·γ·b·L³·K_p/(e + L); largest moment at f = 0.82·√(P/(γ·b·K_p)) down: P·(e + 2f/3).
    ///
    /// # References
    /// Broms (1964), cohesionless soil, short free head (read in two public implementations).
    pub fn push_in_sand(&self, friction_deg: f64, unit_weight_n_per_m3: f64) -> Push {
        let Stake { diameter_m: b, embedded_m: l, push_height_m: e, .. } = *self;
        let passive = passive_coefficient(friction_deg);
        let push_n = 0.5 * unit_weight_n_per_m3 * b * l * l * l * passive / (e + l);
        let f = 0.82 * (push_n / (unit_weight_n_per_m3 * b * passive)).sqrt();
        Push { push_n, depth_to_moment_m: f, moment_nm: push_n * (e + 2.0 * f / 3.0) }
    }

    /// The push at which the bar itself bends in clay: P·(e + 1.5b + P/(18·c·b)) = M_p (Broms, long free head).
    pub fn bending_push_in_clay_n(&self, undrained_pa: f64) -> f64 {
        let arm = self.push_height_m + 1.5 * self.diameter_m;
        let k = 1.0 / (18.0 * undrained_pa * self.diameter_m);
        let moment = self.plastic_moment_nm();
        2.0 * moment / (arm + (arm * arm + 4.0 * k * moment).sqrt())
    }

    /// The push at which the bar itself bends in sand: P·(e + 2f/3) = M_p with f as above (Broms, long free head).
    pub fn bending_push_in_sand_n(&self, friction_deg: f64, unit_weight_n_per_m3: f64) -> f64 {
        let e = self.push_height_m;
        let soil = unit_weight_n_per_m3 * self.diameter_m * passive_coefficient(friction_deg);
        let k = 2.0 / 3.0 * 0.82 / soil.sqrt();
        let moment = self.plastic_moment_nm();
        // With s = √P: e·s² + k·s³ = M_p. Both terms grow, so each alone gives an s that is too large; from the
        // smaller of those Newton's steps come down to the root without passing it.
        let mut s = cbrt(moment / k).min(if e > 0.0 { (moment / e).sqrt() } else { f64::INFINITY });
        for _ in 0..60 {
            let slope = s * (2.0 * e + 3.0 * k * s);
            let step = if slope > 0.0 { (s * s * (e + k * s) - moment) / slope } else { 0.0 };
            s -= step;
            if step.is_nan() || step.abs() <= 1e-15 * s {
                break;
            }
        }
        s * s
    }

    /// What the stake holds against a level push at its height.
    pub fn resistance(&self, strength: Strength) -> Resistance {
        let Stake { diameter_m, embedded_m, push_height_m, yield_pa } = *self;
        let sizes = [diameter_m, embedded_m, yield_pa];
        if !(sizes.iter().all(|size| size.is_finite() && *size > 0.0) && push_height_m >= 0.0) {
            return Resistance::not_shown(GroundUnshown::StakeSizeMissing);
        }
        let (soil_n, bar_n, source) = match strength {
            Strength::Clay { undrained_pa } => (
                self.push_in_clay(undrained_pa).push_n,
                self.bending_push_in_clay_n(undrained_pa),
                SourceKey::BromsClay,
            ),
            Strength::Sand { friction_deg, unit_weight_n_per_m3 } => (
                self.push_in_sand(friction_deg, unit_weight_n_per_m3).push_n,
                self.bending_push_in_sand_n(friction_deg, unit_weight_n_per_m3),
                SourceKey::BromsSand,
            ),
            Strength::Unknown => return Resistance::not_shown(GroundUnshown::SoilUnknown),
        };
        let first = if soil_n <= bar_n { Condition::SoilGivesFirst } else { Condition::BarBendsFirst };
        Resistance::shown(soil_n.min(bar_n), ANCHOR_FACTOR, source, first).in_soil(strength.class())
    }
}

/// Rankine's passive coefficient K_p = tan²(45° + φ/2).
pub fn passive_coefficient(friction_deg: f64) -> f64 {
    let tan = tan_deg(45.0 + friction_deg.clamp(0.0, 50.0) / 2.0);
    tan * tan
}

#[cfg(test)]
mod tests {
    use super::*;

    const REBAR: Stake = Stake { diameter_m: 0.016, embedded_m: 0.9, push_height_m: 0.1, yield_pa: 420e6 };

    #[test]
    fn the_bending_push_makes_the_plastic_moment() {
        let clay = REBAR.bending_push_in_clay_n(50e3);
        let f = clay / (9.0 * 50e3 * 0.016);
        let moment = clay * (0.1 + 1.5 * 0.016 + 0.5 * f);
        assert!((moment / REBAR.plastic_moment_nm() - 1.0).abs() < 1e-12);
        for push_height_m in [0.0, 0.1, 1.0] {
            let stake = Stake { push_height_m, ..REBAR };
            let sand = stake.bending_push_in_sand_n(32.0, 17e3);
            let f = 0.82 * (sand / (17e3 * 0.016 * passive_coefficient(32.0))).sqrt();
            let moment = sand * (push_height_m + 2.0 * f / 3.0);
            assert!((moment / stake.plastic_moment_nm() - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn a_stub_or_an_unknown_soil_is_not_shown() {
        assert_eq!(Stake { embedded_m: 0.02, ..REBAR }.push_in_clay(50e3).push_n, 0.0);
        assert!(REBAR.resistance(Strength::Unknown).allowable_n().is_none());
        // A size that is none, a bar of no strength, a push from below the ground: of none anything is known.
        for bad in [
            Stake { diameter_m: f64::NAN, ..REBAR },
            Stake { embedded_m: 0.0, ..REBAR },
            Stake { yield_pa: -1.0, ..REBAR },
            Stake { push_height_m: -0.1, ..REBAR },
        ] {
            assert!(bad.resistance(Strength::Clay { undrained_pa: 5e4 }).allowable_n().is_none(), "{bad:?}");
        }
    }
}
