//! Tubes by ANSI/AISC 360-16 (from memory; held by values of Manual Tables 3-14 and 4-5).

use std::f64::consts::PI;

use super::tube::{SteelTube, TubeCode, TubeStrength};
use super::unshown::TubeUnshown;
use crate::numerics::real::pow;

/// Modulus of elasticity in MPa (29,000 ksi).
pub const ELASTICITY_MPA: f64 = 200_000.0;
/// Safety factor Ω of compression and of bending (E1, F1), allowable strength design. Of shear it is also 1.67 (G1).
pub const FACTOR: f64 = 1.67;

/// Flexural buckling stress F_cr (E3-2, E3-3).
pub fn buckling_stress_mpa(tube: &SteelTube, length_mm: f64) -> f64 {
    let slenderness = length_mm / tube.radius_of_gyration_mm();
    if slenderness <= 0.0 {
        return tube.yield_mpa;
    }
    let euler = PI * PI * ELASTICITY_MPA / (slenderness * slenderness);
    let ratio = tube.yield_mpa / euler;
    // F_y/F_e ≤ 2.25 is the same limit as L_c/r ≤ 4.71·√(E/F_y).
    if ratio <= 2.25 { pow(0.658, ratio) * tube.yield_mpa } else { 0.877 * euler }
}

/// Effective area of a round tube in compression: the whole of it up to D/t = 0.11·E/F_y (B4.1a), less beyond (E7-7).
pub fn effective_area_mm2(tube: &SteelTube) -> f64 {
    let limit = ELASTICITY_MPA / tube.yield_mpa;
    let ratio = tube.slenderness_of_wall();
    let share = if ratio <= 0.11 * limit { 1.0 } else { 0.038 * limit / ratio + 2.0 / 3.0 };
    share.min(1.0) * tube.area_mm2()
}

/// How the wall stands in bending (B4.1b, row 20).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wall {
    Compact,
    Noncompact,
    Slender,
}

/// Compact up to D/t = 0.07·E/F_y, noncompact up to 0.31·E/F_y; none beyond 0.45·E/F_y, where F8 ends.
pub fn wall(tube: &SteelTube) -> Option<Wall> {
    let ratio = tube.slenderness_of_wall() * tube.yield_mpa / ELASTICITY_MPA;
    match ratio {
        _ if ratio <= 0.07 => Some(Wall::Compact),
        _ if ratio <= 0.31 => Some(Wall::Noncompact),
        _ if ratio < 0.45 => Some(Wall::Slender),
        _ => None,
    }
}

/// Nominal moment (F8-1 to F8-4).
pub fn moment_nm(tube: &SteelTube) -> Option<f64> {
    let per_wall = ELASTICITY_MPA / tube.slenderness_of_wall();
    let plastic = tube.yield_mpa * tube.plastic_modulus_mm3();
    let elastic_mm3 = tube.elastic_modulus_mm3();
    let nmm = match wall(tube)? {
        Wall::Compact => plastic,
        Wall::Noncompact => plastic.min((0.021 * per_wall + tube.yield_mpa) * elastic_mm3),
        Wall::Slender => plastic.min(0.33 * per_wall * elastic_mm3),
    };
    Some(nmm / 1000.0)
}

/// Compression and bending together from their own ratios (H1-1a, H1-1b).
///
/// Beyond the limit, for bending ratios over 0.9, the code's sum falls where it goes from b to a; there b is kept, so
/// that more load is always more use. No sum up to 1 is changed by that.
pub fn interaction(axial_ratio: f64, bending_ratio: f64) -> f64 {
    let b = axial_ratio / 2.0 + bending_ratio;
    let a = axial_ratio + 8.0 / 9.0 * bending_ratio;
    if axial_ratio >= 0.2 && a > b { a } else { b }
}

pub(super) fn strength(tube: &SteelTube, length_mm: Option<f64>) -> Result<TubeStrength, TubeUnshown> {
    let code = TubeCode::Aisc360;
    let moment_nm = moment_nm(tube).ok_or(TubeUnshown::WallTooThin { code })?;
    let stress_mpa = length_mm.map_or(tube.yield_mpa, |length_mm| buckling_stress_mpa(tube, length_mm));
    Ok(TubeStrength {
        axial_n: stress_mpa * effective_area_mm2(tube),
        moment_nm,
        // G5: 0.6·F_y on half the area (the wall is far too thick here to buckle in shear).
        shear_n: 0.6 * tube.yield_mpa * tube.area_mm2() / 2.0,
        factor: FACTOR,
        code,
    })
}
