//! Density of air by altitude and temperature (ISO 2533 standard atmosphere, from memory).

use crate::numerics::real::pow;
use crate::quantity::convert::STANDARD_GRAVITY;

/// Sea-level pressure of the standard atmosphere in Pa (ISO 2533, Table 1, from memory).
const SEA_LEVEL_PA: f64 = 101_325.0;
/// Sea-level temperature of the standard atmosphere in K (ISO 2533, Table 1, from memory).
const SEA_LEVEL_K: f64 = 288.15;
/// How fast the standard atmosphere cools with height, K/m (ISO 2533, Table 4, from memory).
const LAPSE_K_PER_M: f64 = 0.0065;
/// Gas constant of dry air in J/(kg·K) (ISO 2533, Table 1, from memory).
const DRY_AIR_J_PER_KG_K: f64 = 287.052_87;

/// Density in kg/m³ that EN 1991-1-4 recommends (4.5, note 2).
pub const EN1991_KG_PER_M3: f64 = 1.25;
/// Density in kg/m³ of the standard atmosphere at sea level (ISO 2533): the 0.613 = ρ/2 of ASCE 7.
pub const SEA_LEVEL_KG_PER_M3: f64 = 1.225;

/// Pressure of the standard atmosphere at an altitude, in Pa.
///
/// # Accuracy
/// To 1 Pa of the standard's table up to 11 000 m; outside −1000 … 11 000 m the nearer end is taken. The day's
/// weather moves the true pressure by some 3 % either way.
/// # References
/// ISO 2533, eq. (12).
pub fn pressure_pa(altitude_m: f64) -> f64 {
    let kelvin = standard_kelvin(altitude_m);
    let exponent = STANDARD_GRAVITY / (DRY_AIR_J_PER_KG_K * LAPSE_K_PER_M);
    SEA_LEVEL_PA * pow(kelvin / SEA_LEVEL_K, exponent)
}

/// Density of dry air in kg/m³ at an altitude and a temperature; damp air is up to 1 % lighter.
///
/// # References
/// Law of the ideal gas, ρ = p/(R·T), with the standard atmosphere's pressure.
pub fn density_kg_per_m3(altitude_m: f64, temperature_c: f64) -> f64 {
    // −60 … 60 °C: outside it the entry is a slip, and the nearer end keeps the density sane.
    let kelvin = temperature_c.clamp(-60.0, 60.0) + 273.15;
    pressure_pa(altitude_m) / (DRY_AIR_J_PER_KG_K * kelvin)
}

/// Density of the standard atmosphere in kg/m³, where the day's temperature is not given.
pub fn standard_density_kg_per_m3(altitude_m: f64) -> f64 {
    pressure_pa(altitude_m) / (DRY_AIR_J_PER_KG_K * standard_kelvin(altitude_m))
}

fn standard_kelvin(altitude_m: f64) -> f64 {
    SEA_LEVEL_K - LAPSE_K_PER_M * altitude_m.clamp(-1000.0, 11_000.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cold_air_is_dense_and_high_air_is_thin() {
        assert!((density_kg_per_m3(0.0, 15.0) - SEA_LEVEL_KG_PER_M3).abs() < 1e-4);
        assert!(density_kg_per_m3(0.0, -20.0) > 1.39);
        assert!(density_kg_per_m3(2000.0, 15.0) < 0.97);
        assert!(density_kg_per_m3(1e9, 1e9).is_finite());
    }
}
