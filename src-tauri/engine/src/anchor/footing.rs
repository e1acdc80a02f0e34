//! The ground under the base and its foot: bearing, and sliding of the whole base.

use super::soil::Soil;
use crate::resistance::{Condition, GroundUnshown, Resistance};
use crate::source::SourceKey;

/// Factor against sliding (IBC 1807.2.3, as told on an engineers' forum of retaining walls).
pub const SLIDING_FACTOR: f64 = 1.5;

/// What the ground carries under an area. The presumptive value is a safe one already: its factor is 1.
pub fn bearing(area_m2: f64, soil: Soil) -> Resistance {
    match soil.presumptive() {
        Some(values) => Resistance::shown(
            values.bearing_pa * area_m2,
            1.0,
            SourceKey::Ibc1806,
            Condition::UndisturbedSoil,
        )
        .in_soil(soil.class()),
        None => Resistance::not_shown(GroundUnshown::SoilUnknown),
    }
}

/// At which push the base slides, by the weight that rests on it at the time; none where the code presumes nothing.
///
/// # References
/// IBC 2012, Table 1806.2: friction times the dead load, or cohesion times the area of contact, which may not exceed
/// half of the dead load (1806.3.2, read in open-source code).
pub fn sliding_push_n(resting_weight_n: f64, area_m2: f64, soil: Soil) -> Option<f64> {
    let (values, weight_n) = (soil.presumptive()?, resting_weight_n.max(0.0));
    match (values.friction, values.cohesion_pa) {
        (Some(friction), _) => Some(friction * weight_n),
        (None, Some(cohesion_pa)) => Some((cohesion_pa * area_m2).min(0.5 * weight_n)),
        (None, None) => None,
    }
}

/// What holds the base from sliding without its stakes.
pub fn sliding(resting_weight_n: f64, area_m2: f64, soil: Soil) -> Resistance {
    let Some(held) = sliding_push_n(resting_weight_n, area_m2, soil) else {
        return Resistance::not_shown(GroundUnshown::SoilUnknown);
    };
    Resistance::shown(held, SLIDING_FACTOR, SourceKey::Ibc1806, Condition::TimberOnBareSoil)
        .in_soil(soil.class())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IBC 2012, Table 1806.2: friction 0.25 on sand, 0.35 on gravel; of 400 N of weight 100 N and 140 N, whatever the area.
    #[test]
    fn on_sand_and_gravel_the_weight_rubs() {
        assert_eq!(sliding_push_n(400.0, 0.1, Soil::Sand), Some(100.0));
        assert_eq!(sliding_push_n(400.0, 7.0, Soil::Gravel), Some(140.0));
        assert_eq!(sliding_push_n(-400.0, 0.1, Soil::Sand), Some(0.0));
        assert_eq!(sliding_push_n(400.0, 0.1, Soil::SoftOrFill), None);
    }

    #[test]
    fn cohesion_is_capped_by_half_the_weight() {
        let held = |weight, area| sliding(weight, area, Soil::Clay).allowable_n().unwrap() * SLIDING_FACTOR;
        assert!((held(100.0, 1.0) - 50.0).abs() < 1e-9);
        assert!((held(1e6, 0.1) - 130.0 * 47.880_259 * 0.1).abs() < 1e-6);
        assert_eq!(held(-5.0, 0.1), 0.0);
        assert!(bearing(0.01, Soil::SoftOrFill).allowable_n().is_none());
        // A 9 cm square foot on sand: 2000 psf · 0.0081 m² = 776 N.
        assert!((bearing(0.0081, Soil::Sand).allowable_n().unwrap() - 775.66).abs() < 0.01);
    }
}
