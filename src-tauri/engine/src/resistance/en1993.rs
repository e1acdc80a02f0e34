//! Tubes by EN 1993-1-1:2005 (from memory; its buckling curve is held by a published strut table of 18 lengths).

use std::f64::consts::PI;

use super::tube::{SteelTube, TubeCode, TubeStrength};
use super::unshown::TubeUnshown;

/// Modulus of elasticity in MPa (3.2.6).
pub const ELASTICITY_MPA: f64 = 210_000.0;
/// Imperfection of buckling curve c, cold-formed hollow sections (Tables 6.1 and 6.2).
const IMPERFECTION_C: f64 = 0.49;
/// Factor of the load times that of the steel.
pub const FACTOR: f64 = super::factors::STEEL_WHOLE;

/// Cross-section class of a round tube, 1 to 4 (Table 5.2, sheet 3): D/t up to 50, 70, 90 times 235/f_y.
pub fn class(tube: &SteelTube) -> u8 {
    let epsilon_squared = 235.0 / tube.yield_mpa;
    let ratio = tube.slenderness_of_wall() / epsilon_squared;
    match ratio {
        _ if ratio <= 50.0 => 1,
        _ if ratio <= 70.0 => 2,
        _ if ratio <= 90.0 => 3,
        _ => 4,
    }
}

/// Reduction χ for buckling at a relative slenderness (eq. 6.49), curve c.
pub fn reduction(relative_slenderness: f64) -> f64 {
    if relative_slenderness <= 0.2 {
        return 1.0;
    }
    let square = relative_slenderness * relative_slenderness;
    let phi = 0.5 * (1.0 + IMPERFECTION_C * (relative_slenderness - 0.2) + square);
    (1.0 / (phi + (phi * phi - square).sqrt())).min(1.0)
}

/// Relative slenderness of a strut (eq. 6.50): L/(i·λ₁) with λ₁ = π·√(E/f_y).
pub fn relative_slenderness(tube: &SteelTube, length_mm: f64) -> f64 {
    length_mm / tube.radius_of_gyration_mm() / (PI * (ELASTICITY_MPA / tube.yield_mpa).sqrt())
}

pub(super) fn strength(tube: &SteelTube, length_mm: Option<f64>) -> Result<TubeStrength, TubeUnshown> {
    let class = class(tube);
    let modulus_mm3 = match class {
        // 6.2.5: plastic for classes 1 and 2, elastic for 3.
        1 | 2 => tube.plastic_modulus_mm3(),
        3 => tube.elastic_modulus_mm3(),
        _ => return Err(TubeUnshown::WallTooThin { code: TubeCode::En1993 }),
    };
    let squash_n = tube.area_mm2() * tube.yield_mpa;
    let chi = length_mm.map_or(1.0, |length_mm| reduction(relative_slenderness(tube, length_mm)));
    Ok(TubeStrength {
        axial_n: chi * squash_n,
        moment_nm: modulus_mm3 * tube.yield_mpa / 1000.0,
        // 6.2.6: shear area 2A/π of a round tube, f_y/√3.
        shear_n: 2.0 / PI * squash_n / 3.0_f64.sqrt(),
        factor: FACTOR,
        code: TubeCode::En1993,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thin_walls_go_down_the_classes() {
        let tube = |wall_mm| SteelTube { outside_mm: 100.0, wall_mm, yield_mpa: 235.0 };
        assert_eq!([2.0, 1.5, 1.2, 1.0].map(|wall| class(&tube(wall))), [1, 2, 3, 4]);
        assert!(strength(&tube(1.0), None).is_err());
    }
}
