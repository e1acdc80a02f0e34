//! Screw anchors: by the torque that drove them, or by the bearing of the helix.

use std::f64::consts::PI;

use super::plate::{self, Plate};
use super::soil::Strength;
use super::{ANCHOR_FACTOR, SOIL_UNKNOWN};
use crate::numerics::real::pow;
use crate::resistance::Resistance;
use crate::source::SourceKey;

const FOOT_M: f64 = 0.3048;

/// The shaft of a screw anchor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shaft {
    /// A square bar, by its side.
    Square { side_mm: f64 },
    /// A round rod or tube, by its outside diameter.
    Round { diameter_mm: f64 },
}

/// Pull held per torque, K_t in 1/m: the lower of the two publications; none for shafts that neither covers.
///
/// Hoyt & Clemence: 10 per foot for square bars and for round shafts under 3.5 in, 7 at 3.5 in. AC358 (from memory):
/// 10 for square bars up to 1.75 in; 9, 8, 7 for round 2.875, 3.0, 3.5 in.
///
/// # Accuracy
/// The ratio of true to reckoned pull in the 91 tests behind it scatters by a third: hence the factor 2.
pub fn torque_factor_per_m(shaft: Shaft) -> Option<f64> {
    let per_foot = match shaft {
        Shaft::Square { side_mm } if side_mm > 0.0 && side_mm <= 1.75 * 25.4 + 0.1 => 10.0,
        // DIFFERENCE: for round shafts AC358's 9 is taken where Hoyt & Clemence have 10.
        Shaft::Round { diameter_mm } if diameter_mm > 0.0 && diameter_mm <= 2.875 * 25.4 + 0.1 => 9.0,
        Shaft::Round { diameter_mm } if diameter_mm > 0.0 && diameter_mm <= 3.0 * 25.4 + 0.1 => 8.0,
        Shaft::Round { diameter_mm } if diameter_mm > 0.0 && diameter_mm <= 3.5 * 25.4 + 0.1 => 7.0,
        _ => return None,
    };
    Some(per_foot / FOOT_M)
}

/// What a screw anchor holds by the torque measured at full depth. The soil need not be known: the torque felt it.
pub fn by_torque(shaft: Shaft, torque_nm: f64) -> Resistance {
    match torque_factor_per_m(shaft) {
        Some(per_m) => Resistance::shown(
            per_m * torque_nm,
            ANCHOR_FACTOR,
            SourceKey::HoytClemence1989,
            "Torque at full depth, averaged over the last turns; pulled in line with the shaft.",
        ),
        None => Resistance::not_shown("No published torque factor covers a shaft of this shape and size."),
    }
}

/// A single helix in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Helix {
    pub diameter_m: f64,
    /// Diameter of the shaft, or side of a square one: it takes its own area off the helix.
    pub shaft_m: f64,
    /// From the ground straight down to the helix.
    pub depth_m: f64,
}

impl Helix {
    pub fn area_m2(&self) -> f64 {
        PI / 4.0 * (self.diameter_m * self.diameter_m - self.shaft_m * self.shaft_m)
    }
}

/// Bearing factor of a deep helix in sand: 0.5·(12·φ)^(φ/54), φ in degrees (after Mitsch & Clemence, from memory).
pub fn sand_bearing_factor(friction_deg: f64) -> f64 {
    0.5 * pow(12.0 * friction_deg, friction_deg / 54.0)
}

/// What a screw anchor holds by the bearing of its helix: 9·c in clay, γ·H·N_q in sand; near the surface the cone of
/// soil above it lifts out first, as over a plate, and the lower of the two holds.
pub fn by_bearing(helix: Helix, strength: Strength) -> Resistance {
    let area_m2 = helix.area_m2();
    let shallow =
        plate::uplift(Plate { breadth_m: helix.diameter_m, area_m2, depth_m: helix.depth_m }, strength);
    let note = "Pulled in line with the shaft, in soil that the screw went into without spinning.";
    let deep_n = match strength {
        // 9·c: read (eng-tips thread 217669, Reese & Van Impe).
        Strength::Clay { undrained_pa } => 9.0 * undrained_pa * area_m2,
        Strength::Sand { friction_deg, unit_weight_n_per_m3 } => {
            unit_weight_n_per_m3 * helix.depth_m * sand_bearing_factor(friction_deg.min(45.0)) * area_m2
        }
        Strength::Unknown => return Resistance::not_shown(SOIL_UNKNOWN),
    };
    let deep =
        Resistance::shown(deep_n, ANCHOR_FACTOR, SourceKey::HelixBearing, note).in_soil(strength.name());
    deep.weaker(shallow)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_helix_near_the_surface_lifts_its_cone() {
        let stiff = Strength::Clay { undrained_pa: 50e3 };
        let at = |depth_m| {
            by_bearing(Helix { diameter_m: 0.15, shaft_m: 0.02, depth_m }, stiff).allowable_n().unwrap()
        };
        assert!((at(0.45) / at(1.2) - 3.6 / 9.0).abs() < 1e-9);
        assert_eq!(at(1.2), at(2.0));
        let unknown = Helix { diameter_m: 0.15, shaft_m: 0.02, depth_m: 1.0 };
        assert!(by_bearing(unknown, Strength::Unknown).allowable_n().is_none());
    }

    #[test]
    fn a_shaft_that_nobody_tested_is_not_shown() {
        assert!(by_torque(Shaft::Round { diameter_mm: 120.0 }, 500.0).allowable_n().is_none());
        assert!(by_torque(Shaft::Square { side_mm: 60.0 }, 500.0).allowable_n().is_none());
        assert!(by_torque(Shaft::Round { diameter_mm: f64::NAN }, 500.0).allowable_n().is_none());
    }
}
