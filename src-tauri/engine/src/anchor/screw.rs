//! Screw anchors: by the torque that drove them, or by the bearing of the helix.

use std::f64::consts::PI;

use super::ANCHOR_FACTOR;
use super::plate::{self, Plate};
use super::soil::Strength;
use crate::numerics::real::pow;
use crate::resistance::{Condition, GroundUnshown, Resistance};
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

impl Shaft {
    /// Its diameter or side.
    pub fn size_m(self) -> f64 {
        match self {
            Shaft::Square { side_mm: mm } | Shaft::Round { diameter_mm: mm } => mm / 1000.0,
        }
    }

    /// A rod bought by its trade size may miss it by a tenth of a millimetre.
    fn is_thinner_than_tested(self) -> bool {
        self.size_m() * 1000.0 < THINNEST_TESTED_MM - 0.1
    }
}

/// Pull held per torque, K_t in 1/m: the lower of the two publications; none for shafts that neither covers.
///
/// Hoyt & Clemence: 10 per foot for square bars and for round shafts under 3.5 in, 7 at 3.5 in; tested were squares of
/// 1.5 to 2.0 in and rounds of 3.5 and 8.625 in, two to fourteen helices. AC358: 10 for square bars up to 1.75 in; 9
/// and 7 for round 2.875 and 3.5 in (both read in a maker's manual); 8 for 3.0 in (from memory).
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

/// Least depth of a helix over its diameter: shallower, the ground above it breaks out at once and without warning,
/// and torque tells nothing of that (general helical manual, p. 40: 5 diameters over the top helix).
pub const LEAST_DEPTH_OVER_DIAMETER: f64 = 5.0;

/// The thinnest shaft among the 91 tests behind the torque factors: 1.5 in (Hoyt & Clemence, as quoted).
pub const THINNEST_TESTED_MM: f64 = 1.5 * 25.4;

/// What is left of clay's undrained strength where a screw has passed: an open-source capacity library takes a quarter
/// off in moderately sensitive clay. How sensitive a yard's clay is, nobody feels by hand.
pub const DISTURBED_CLAY_SHARE: f64 = 0.75;

/// A screw anchor as it stands in the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Screw {
    pub shaft: Shaft,
    /// Turning moment over the last turns, at full depth.
    pub torque_nm: Option<f64>,
    /// Diameter of its largest helix.
    pub helix_m: Option<f64>,
    /// From the ground straight down to the helix.
    pub depth_m: Option<f64>,
}

impl Screw {
    /// What the screw holds: the weaker of what its torque and what the ground over its helix say, of those that are
    /// known. Without the helix and its depth nothing is shown, because a shallow one comes out whatever its torque.
    ///
    /// `wet_share` is what is left of the hold told by a torque once the ground gets wet.
    pub fn resistance(&self, strength: Strength, wet_share: f64) -> Resistance {
        let (Some(diameter_m), Some(depth_m)) = (self.helix_m, self.depth_m) else {
            return Resistance::not_shown(GroundUnshown::HelixUnmeasured);
        };
        let helix = Helix { diameter_m, shaft_m: self.shaft.size_m(), depth_m };
        if helix.is_shallow() {
            return Resistance::not_shown(GroundUnshown::HelixTooShallow);
        }
        let Some(torque_nm) = self.torque_nm else { return by_bearing(helix, strength) };
        let torque = by_torque(self.shaft, torque_nm * wet_share);
        if strength != Strength::Unknown {
            return torque.weaker(by_bearing(helix, strength));
        }
        if self.shaft.is_thinner_than_tested() {
            return Resistance::not_shown(GroundUnshown::ShaftThinnerThanTested);
        }
        torque
    }
}

/// What the torque measured at full depth tells, at any depth: [`Screw::resistance`] looks at that too.
pub fn by_torque(shaft: Shaft, torque_nm: f64) -> Resistance {
    let Some(per_m) = torque_factor_per_m(shaft) else {
        return Resistance::not_shown(GroundUnshown::ShaftNotCovered);
    };
    let (held_n, source) = (per_m * torque_nm, SourceKey::HoytClemence1989);
    let told = Resistance::shown(held_n, ANCHOR_FACTOR, source, Condition::TorqueAtFullDepth);
    if shaft.is_thinner_than_tested() { told.noting(Condition::ShaftThinnerThanTested) } else { told }
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

    /// Less deep than the rules for screws reach. A depth typed in whole centimetres may miss by half of one.
    fn is_shallow(&self) -> bool {
        let deep_enough = self.depth_m + 0.005 >= LEAST_DEPTH_OVER_DIAMETER * self.diameter_m;
        !deep_enough
    }
}

/// Bearing factor of a deep helix in sand: 0.5·(12·φ)^(φ/54), φ in degrees (the number as in five public
/// implementations; said to be Mitsch & Clemence's).
pub fn sand_bearing_factor(friction_deg: f64) -> f64 {
    0.5 * pow(12.0 * friction_deg, friction_deg / 54.0)
}

/// What a screw anchor holds by the bearing of its helix: 9·c in clay, γ·H·N_q in sand; near the surface the cone of
/// soil above it lifts out first, as over a plate, and the lower of the two holds. The clay is what the screw left.
pub fn by_bearing(helix: Helix, strength: Strength) -> Resistance {
    if helix.is_shallow() {
        return Resistance::not_shown(GroundUnshown::HelixTooShallow);
    }
    let strength = match strength {
        Strength::Clay { undrained_pa } => {
            Strength::Clay { undrained_pa: DISTURBED_CLAY_SHARE * undrained_pa }
        }
        other => other,
    };
    let area_m2 = helix.area_m2();
    let shallow =
        plate::uplift(Plate { breadth_m: helix.diameter_m, area_m2, depth_m: helix.depth_m }, strength);
    let deep_n = match strength {
        // 9·c: read (eng-tips thread 217669, Reese & Van Impe), from five diameters down.
        Strength::Clay { undrained_pa } => 9.0 * undrained_pa * area_m2,
        Strength::Sand { friction_deg, unit_weight_n_per_m3 } => {
            unit_weight_n_per_m3 * helix.depth_m * sand_bearing_factor(friction_deg.min(45.0)) * area_m2
        }
        Strength::Unknown => return Resistance::not_shown(GroundUnshown::SoilUnknown),
    };
    let deep = Resistance::shown(deep_n, ANCHOR_FACTOR, SourceKey::HelixBearing, Condition::InLineWithShaft)
        .in_soil(strength.class());
    deep.weaker(shallow)
}

#[cfg(test)]
mod tests {
    use super::*;

    const STIFF: Strength = Strength::Clay { undrained_pa: 50e3 };

    fn held_n(screw: Screw, strength: Strength) -> Option<f64> {
        screw.resistance(strength, 1.0).allowable_n()
    }

    const SCREW: Screw = Screw {
        shaft: Shaft::Round { diameter_mm: 19.05 },
        torque_nm: Some(80.0),
        helix_m: Some(0.15),
        depth_m: Some(1.2),
    };

    #[test]
    fn five_diameters_down_the_cone_lifts_before_the_helix_bears() {
        let at =
            |depth_m| by_bearing(Helix { diameter_m: 0.15, shaft_m: 0.02, depth_m }, STIFF).allowable_n();
        assert!((at(0.75).unwrap() / at(1.2).unwrap() - 6.0 / 9.0).abs() < 1e-9);
        assert_eq!(at(1.2), at(2.0));
        assert_eq!(at(0.7), None, "less than five diameters");
        let unknown = Helix { diameter_m: 0.15, shaft_m: 0.02, depth_m: 1.0 };
        assert!(by_bearing(unknown, Strength::Unknown).allowable_n().is_none());
    }

    /// 9 · 0.75 · 50 kPa · π/4·(0.15² − 0.02²) = 5857.9 N, half of it in use.
    #[test]
    fn clay_that_the_screw_disturbed_bears_three_quarters() {
        let helix = Helix { diameter_m: 0.15, shaft_m: 0.02, depth_m: 1.2 };
        assert!((by_bearing(helix, STIFF).allowable_n().unwrap() - 2928.95).abs() < 0.1);
    }

    /// 80 N·m on a 19 mm rod: 29.53/m · 80 = 2362 N by torque. Barely under the turf it must not hold that.
    #[test]
    fn torque_counts_only_as_deep_as_it_was_tested_and_no_more_than_the_ground_bears() {
        let by_torque_n = 9.0 / 0.3048 * 80.0 / 2.0;
        assert!((held_n(SCREW, STIFF).unwrap() - by_torque_n).abs() < 1e-9, "the ground bears 2.9 kN");
        assert_eq!(held_n(Screw { depth_m: Some(0.1), ..SCREW }, STIFF), None);
        assert_eq!(held_n(Screw { depth_m: None, ..SCREW }, STIFF), None);
        assert_eq!(held_n(Screw { helix_m: None, ..SCREW }, STIFF), None);
        let soft = Strength::Clay { undrained_pa: 10e3 };
        let bearing_n =
            by_bearing(Helix { diameter_m: 0.15, shaft_m: 0.01905, depth_m: 1.2 }, soft).allowable_n();
        assert_eq!(held_n(SCREW, soft), bearing_n);
        assert!(bearing_n.unwrap() < by_torque_n);
        // Wet, half is left of what the torque told.
        assert!((SCREW.resistance(STIFF, 0.5).allowable_n().unwrap() - 0.5 * by_torque_n).abs() < 1e-9);
    }

    /// Thinner than any shaft tested, and nothing known of the ground to bound it.
    #[test]
    fn a_thin_rod_is_not_believed_by_its_torque_alone() {
        assert_eq!(held_n(SCREW, Strength::Unknown), None);
        let thick = Shaft::Square { side_mm: 38.1 };
        assert!(held_n(Screw { shaft: thick, ..SCREW }, Strength::Unknown).is_some());
    }

    /// The thinnest of the 91 tests was 1.5 in: said of what is thinner, and of nothing else.
    #[test]
    fn a_shaft_thinner_than_those_tested_is_said_to_be() {
        let noted = |shaft| match by_torque(shaft, 80.0) {
            Resistance::Shown(shown) => shown.conditions.contains(&Condition::ShaftThinnerThanTested),
            Resistance::NotShown { .. } => panic!("{shaft:?} is covered"),
        };
        assert!(noted(Shaft::Round { diameter_mm: 37.9 }) && noted(Shaft::Square { side_mm: 20.0 }));
        assert!(!noted(Shaft::Round { diameter_mm: 38.1 }) && !noted(Shaft::Square { side_mm: 44.0 }));
    }

    #[test]
    fn a_shaft_that_nobody_tested_is_not_shown() {
        assert!(by_torque(Shaft::Round { diameter_mm: 120.0 }, 500.0).allowable_n().is_none());
        assert!(by_torque(Shaft::Square { side_mm: 60.0 }, 500.0).allowable_n().is_none());
        assert!(by_torque(Shaft::Round { diameter_mm: f64::NAN }, 500.0).allowable_n().is_none());
    }

    /// Of a shaft without a thickness nothing is known; AC358's 10 per foot up to 1.75 in square, 9, 8 and 7 for rounds.
    #[test]
    fn a_shaft_s_factor_by_the_table() {
        let square = |side_mm| torque_factor_per_m(Shaft::Square { side_mm });
        let round = |diameter_mm| torque_factor_per_m(Shaft::Round { diameter_mm });
        for (found, per_foot) in [
            (square(44.45), Some(10.0)),
            (round(73.0), Some(9.0)),
            (round(76.2), Some(8.0)),
            (round(88.9), Some(7.0)),
            (square(50.0), None),
            (round(100.0), None),
            (square(0.0), None),
            (round(0.0), None),
        ] {
            match (found, per_foot) {
                (Some(per_m), Some(per_foot)) => assert!((per_m * 0.3048 - per_foot).abs() < 1e-9),
                (found, by_hand) => assert_eq!(found.is_some(), by_hand.is_some()),
            }
        }
    }
}
