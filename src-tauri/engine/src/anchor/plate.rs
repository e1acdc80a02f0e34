//! Flat plates pulled straight up: a buried board, the helix of a shallow screw.

use super::ANCHOR_FACTOR;
use super::soil::Strength;
use crate::numerics::real::tan_deg;
use crate::resistance::{Condition, GroundUnshown, Resistance};
use crate::source::SourceKey;

/// A square or round plate, level, with the soil above it put back and trodden as firm as it was.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plate {
    /// Side of the square or diameter of the circle, B.
    pub breadth_m: f64,
    pub area_m2: f64,
    /// From the ground down to the plate, H.
    pub depth_m: f64,
}

impl Plate {
    pub fn square(side_m: f64, depth_m: f64) -> Self {
        Plate { breadth_m: side_m, area_m2: side_m * side_m, depth_m }
    }
}

/// Uplift coefficient K_u, nearly the same for every sand (Das & Shukla, Earth Anchors, from memory).
const UPLIFT_COEFFICIENT: f64 = 0.95;

/// Friction angle in degrees, coefficient m of the shape factor, and depth over breadth beyond which the plate no
/// longer gains (Meyerhof & Adams as tabulated by Das & Shukla, from memory).
const SQUARE_PLATES: [(f64, f64, f64); 6] = [
    (20.0, 0.05, 2.5),
    (25.0, 0.10, 3.0),
    (30.0, 0.15, 4.0),
    (35.0, 0.25, 5.0),
    (40.0, 0.35, 7.0),
    (45.0, 0.50, 9.0),
];

/// Breakout factor F_q = 1 + 2·s·(H/B)·K_u·tan φ of a square or round plate.
///
/// # References
/// Meyerhof & Adams (1968), as written by Das & Shukla.
pub fn breakout_factor(depth_over_breadth: f64, shape_factor: f64, uplift_tan: f64) -> f64 {
    1.0 + 2.0 * shape_factor * depth_over_breadth * uplift_tan
}

/// Shape factor s = 1 + m·H/B.
pub fn shape_factor(m: f64, depth_over_breadth: f64) -> f64 {
    1.0 + m * depth_over_breadth
}

/// m and the greatest useful depth over breadth at a friction angle; none under 20°, as at 45° above it.
fn square_plate(friction_deg: f64) -> Option<(f64, f64)> {
    let [(lowest, ..), ..] = SQUARE_PLATES;
    if friction_deg.is_nan() || friction_deg < lowest {
        return None;
    }
    for pair in SQUARE_PLATES.windows(2) {
        if let [(from, m0, h0), (to, m1, h1)] = *pair
            && friction_deg <= to
        {
            let share = (friction_deg - from) / (to - from);
            return Some((m0 + (m1 - m0) * share, h0 + (h1 - h0) * share));
        }
    }
    let [.., (_, m, h)] = SQUARE_PLATES;
    Some((m, h))
}

/// What a plate holds, pulled straight up.
pub fn uplift(plate: Plate, strength: Strength) -> Resistance {
    let Plate { breadth_m, area_m2, depth_m } = plate;
    let ratio = depth_m / breadth_m;
    if !(ratio.is_finite() && breadth_m > 0.0 && area_m2 > 0.0) {
        return Resistance::not_shown(GroundUnshown::PlateSizeMissing);
    }
    if ratio < 1.0 {
        return Resistance::not_shown(GroundUnshown::PlateTooShallow);
    }
    let condition = Condition::PulledStraightUp;
    match strength {
        Strength::Sand { friction_deg, unit_weight_n_per_m3 } => {
            let Some((m, deepest)) = square_plate(friction_deg) else {
                return Resistance::not_shown(GroundUnshown::SandTooLoose);
            };
            // Beyond the critical depth the factor stays what it is there.
            let useful = ratio.min(deepest);
            let tan = tan_deg(friction_deg.min(45.0));
            let factor = breakout_factor(useful, shape_factor(m, useful), UPLIFT_COEFFICIENT * tan);
            let ultimate_n = factor * unit_weight_n_per_m3 * area_m2 * depth_m;
            Resistance::shown(ultimate_n, ANCHOR_FACTOR, SourceKey::MeyerhofAdams1968, condition)
                .in_soil(strength.class())
                .from_memory()
        }
        Strength::Clay { undrained_pa } => {
            // Das & Shukla: 1.2·H/B, at most 9, in saturated clay; the clay's weight is left out. From memory.
            let ultimate_n = (1.2 * ratio).min(9.0) * undrained_pa * area_m2;
            Resistance::shown(ultimate_n, ANCHOR_FACTOR, SourceKey::DasAnchors, condition)
                .in_soil(strength.class())
        }
        Strength::Unknown => Resistance::not_shown(GroundUnshown::SoilUnknown),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_foot_two_feet_down_in_firm_clay() {
        // 0.3 m square at 0.6 m: 1.2·2 = 2.4; 2.4·25 kPa·0.09 m² = 5.4 kN.
        let held = uplift(Plate::square(0.3, 0.6), Strength::Clay { undrained_pa: 25e3 });
        assert!((held.allowable_n().unwrap() - 2700.0).abs() < 1e-6);
    }

    #[test]
    fn too_shallow_loose_or_unknown_is_not_shown() {
        let sand = |friction_deg| Strength::Sand { friction_deg, unit_weight_n_per_m3: 17e3 };
        assert!(uplift(Plate::square(0.3, 0.2), sand(35.0)).allowable_n().is_none());
        assert!(uplift(Plate::square(0.3, 0.6), sand(15.0)).allowable_n().is_none());
        assert!(uplift(Plate::square(0.3, 0.6), Strength::Unknown).allowable_n().is_none());
        assert!(uplift(Plate::square(0.0, 0.6), sand(35.0)).allowable_n().is_none());
        assert!(uplift(Plate::square(0.3, 0.6), sand(89.0)).allowable_n().is_some());
    }
}
