//! Ballast: a weight on the ground that a guy pulls at, on a slope or on the level.
//!
//! A weight that holds against lifting alone slides long before: both are asked here at once.

use super::ANCHOR_FACTOR;
use super::soil::Soil;
use crate::numerics::real::{cos_deg, sin_deg};
use crate::resistance::{Condition, GroundUnshown, Resistance};
use crate::source::SourceKey;

/// A weight on the ground with a guy on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ballast {
    pub weight_n: f64,
    /// Slope of the ground.
    pub slope_deg: f64,
    /// Direction of the guy in plan, from straight downhill: 0 pulls downhill, 180 uphill.
    pub pull_from_downhill_deg: f64,
    /// Angle of the guy above the level.
    pub pull_elevation_deg: f64,
}

/// The guy tension at which the weight begins to slide or to lift; 0 where it slides by itself.
///
/// Along the slope the weight W and the tension T push with W·sin s + T·A downhill and T·B sideways, and press on it
/// with N = W·cos s − T·C, where A = cos a·cos θ·cos s − sin a·sin s, B = cos a·sin θ and
/// C = sin a·cos s + cos a·cos θ·sin s. It slides when (W·sin s + T·A)² + (T·B)² = (μ·N)², a quadratic in T, before
/// N comes to nothing.
///
/// # References
/// Plane statics with Coulomb's friction.
pub fn sliding_tension_n(ballast: &Ballast, friction: f64) -> f64 {
    let Ballast { weight_n: w, slope_deg: s, pull_from_downhill_deg: t, pull_elevation_deg: e } = *ballast;
    let (sin_s, cos_s) = (sin_deg(s), cos_deg(s));
    let level = cos_deg(e);
    let downhill = level * cos_deg(t) * cos_s - sin_deg(e) * sin_s;
    let sideways = level * sin_deg(t);
    let lift = sin_deg(e) * cos_s + level * cos_deg(t) * sin_s;
    let (own, grip) = (w * sin_s, friction * w * cos_s);
    // q2·T² + q1·T + q0 = 0, with q0 < 0 as long as the weight lies still by itself.
    let q2 = downhill * downhill + sideways * sideways - friction * friction * lift * lift;
    let q1 = 2.0 * (own * downhill + friction * grip * lift);
    let q0 = own * own - grip * grip;
    if q0 >= 0.0 {
        return 0.0;
    }
    let root = q1 * q1 - 4.0 * q2 * q0;
    // Without a root only lifting is left: where the guy presses the weight down (lift ≤ 0), nothing.
    let lifting = if lift > 0.0 { w * cos_s / lift } else { f64::INFINITY };
    if root < 0.0 {
        return lifting;
    }
    // The smallest tension above nothing, in the form that does not cancel.
    let denominator = q1 + root.sqrt();
    if denominator > 0.0 { (-2.0 * q0 / denominator).min(lifting) } else { lifting }
}

/// What a guy on a weight may be pulled with, by the friction that the building code presumes of the soil.
pub fn resistance(ballast: &Ballast, soil: Soil) -> Resistance {
    let Some(friction) = soil.presumptive().and_then(|values| values.friction) else {
        return Resistance::not_shown(GroundUnshown::BallastFrictionUnpublished);
    };
    let tension_n = sliding_tension_n(ballast, friction);
    if tension_n <= 0.0 {
        return Resistance::not_shown(GroundUnshown::BallastSlidesByItself);
    }
    Resistance::shown(tension_n, ANCHOR_FACTOR, SourceKey::Ibc1806, Condition::BareSoilFriction)
        .in_soil(soil.class())
}

#[cfg(test)]
mod tests {
    use super::*;

    const LEVEL: Ballast =
        Ballast { weight_n: 1000.0, slope_deg: 0.0, pull_from_downhill_deg: 0.0, pull_elevation_deg: 45.0 };

    #[test]
    fn on_the_level_the_books_formula_comes_out() {
        // T = μ·W/(cos a + μ·sin a), any textbook of statics.
        for (angle, friction) in [(0.0, 0.25), (45.0, 0.25), (60.0, 0.35), (90.0, 0.25)] {
            let (sin, cos) = (sin_deg(angle), cos_deg(angle));
            let tension = sliding_tension_n(&Ballast { pull_elevation_deg: angle, ..LEVEL }, friction);
            assert!((tension - friction * 1000.0 / (cos + friction * sin)).abs() < 1e-9, "{angle}");
        }
    }

    #[test]
    fn downhill_holds_least_and_a_steep_slope_nothing() {
        let at = |turn| Ballast { slope_deg: 8.0, pull_from_downhill_deg: turn, ..LEVEL };
        let tension = |turn| sliding_tension_n(&at(turn), 0.25);
        assert!(tension(0.0) < tension(90.0) && tension(90.0) < tension(180.0));
        assert!((tension(90.0) - tension(-90.0)).abs() < 1e-9);
        let steep = Ballast { slope_deg: 20.0, ..LEVEL };
        assert_eq!(sliding_tension_n(&steep, 0.25), 0.0);
        assert!(resistance(&steep, Soil::Sand).allowable_n().is_none());
        assert!(resistance(&LEVEL, Soil::Clay).allowable_n().is_none());
        assert!(resistance(&LEVEL, Soil::Sand).allowable_n().is_some());
    }
}
