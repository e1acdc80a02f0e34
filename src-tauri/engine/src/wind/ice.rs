//! Ice that grows evenly round a tube, rope or strand: an option for winter.
//!
//! Ice makes a thin strand much thicker: 5 mm of it on a 3 mm strand is four times the wind area. The wind with ice
//! is a lower one than the year's worst; which, the user says.

use std::f64::consts::PI;

use crate::quantity::convert::STANDARD_GRAVITY;
/// Density of clear ice in kg/m³ (ISO 12494: glaze 900; ASCE 7 ch. 10: at least 56 lb/ft³ = 897; from memory).
pub const GLAZE_KG_PER_M3: f64 = 900.0;

/// Diameter with ice of a thickness all round.
pub fn iced_diameter_m(diameter_m: f64, thickness_m: f64) -> f64 {
    diameter_m + 2.0 * thickness_m
}

/// Weight of the ice per length: ρ·g·π·t·(D + t).
///
/// # References
/// ASCE 7-16 eq. 10.4-1 (A_i = π·t_d·(D_c + t_d)), from memory; also plain geometry.
pub fn ice_weight_n_per_m(diameter_m: f64, thickness_m: f64) -> f64 {
    GLAZE_KG_PER_M3 * STANDARD_GRAVITY * PI * thickness_m * (diameter_m + thickness_m)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_ring_of_ice_is_the_difference_of_two_circles() {
        let (d, t) = (0.003, 0.005);
        let outer = iced_diameter_m(d, t);
        let area = PI / 4.0 * (outer * outer - d * d);
        assert!((ice_weight_n_per_m(d, t) - area * GLAZE_KG_PER_M3 * STANDARD_GRAVITY).abs() < 1e-12);
    }
}
