//! EN 1991-1-4:2005+A1:2010, Actions on structures: wind actions. Worked sums read in five places.

use mastwright_engine::wind::drag::{
    TubeSurface, end_effect, reynolds, round_coefficient, slenderness, tube_coefficient,
};
use mastwright_engine::wind::en1991::{En1991Site, TerrainCategory};

fn near(value: f64, expected: f64, relative: f64) {
    assert!((value / expected - 1.0).abs() < relative, "{value} is not {expected}");
}

/// Steel Buildings in Europe, Single-storey, Part 3: Actions, appendix B, pp. 3-47 and 3-48: v_b 26 m/s, terrain
/// III, 8 m; q_b 422.5, k_r 0.215, c_r 0.706, c_e 1.56, q_p 659 N/m². The page rounds on the way: 0.5 %.
#[test]
fn single_storey_building() {
    let site = En1991Site::flat(TerrainCategory::III);
    near(0.5 * site.density_kg_per_m3 * 26.0 * 26.0, 422.5, 1e-12);
    near(site.terrain_factor(), 0.215, 0.005);
    near(site.roughness_factor(8.0), 0.706, 0.005);
    near(site.exposure_factor(8.0), 1.56, 0.005);
    near(site.peak_pressure_pa(26.0, 8.0), 659.0, 0.005);
    // Unrounded: c_r 0.70721, I_v 0.30457, q_p 661.9.
    near(site.turbulence_intensity(8.0), 0.30457, 1e-4);
    near(site.peak_pressure_pa(26.0, 8.0), 661.9, 1e-3);
}

/// A worked sheet (studylib 25969297): v_b 26 m/s, terrain IV at 9 m, so that z_min = 10 m governs; k_r 0.234,
/// c_r 0.54, I_v 0.434, c_e 1.18, q_p 0.497 kN/m². 1 %.
#[test]
fn the_lowest_height_governs_in_town() {
    let site = En1991Site::flat(TerrainCategory::IV);
    near(site.terrain_factor(), 0.234, 0.01);
    near(site.roughness_factor(9.0), 0.54, 0.01);
    near(site.turbulence_intensity(9.0), 0.434, 0.01);
    near(site.exposure_factor(9.0), 1.18, 0.01);
    near(site.peak_pressure_pa(26.0, 9.0), 497.0, 0.01);
    assert_eq!(site.peak_pressure_pa(26.0, 9.0), site.peak_pressure_pa(26.0, 10.0));
}

/// Bridge Design to Eurocodes: Worked examples (JRC 2012), example 3.3.1, as an open-source finite-element library
/// recomputes it: 100-year wind 26·1.03848 m/s, terrain II; q_p 1071.79 Pa at 10 m and 1504.65 Pa at 40 m; a round
/// pier of 4 m with k 0.2 mm has c_f,0 0.78928 and ψ_λ 0.6877. The end effect is read off a drawing: 0.5 %.
#[test]
fn round_bridge_pier() {
    let site = En1991Site::flat(TerrainCategory::II);
    let basic = 26.0 * 1.038_476_548_021_373_8;
    near(site.peak_pressure_pa(basic, 10.0), 1071.793, 1e-5);
    let peak = site.peak_pressure_pa(basic, 40.0);
    near(peak, 1504.652, 1e-5);
    let gust = (2.0 * peak / site.density_kg_per_m3).sqrt();
    near(tube_coefficient(4.0, TubeSurface::Galvanised, gust), 0.789_281_855, 1e-6);
    near(end_effect(slenderness(4.0, 40.0)), 0.6877, 0.005);
}

/// Wind force over area q_p·c_f,0·ψ_λ on a cylinder with k 0.2 mm whose top is at height z.
fn pressure_on_cylinder_kpa(basic: f64, diameter_m: f64, length_m: f64, z_m: f64) -> f64 {
    let site = En1991Site::flat(TerrainCategory::II);
    let peak = site.peak_pressure_pa(basic, z_m);
    let gust = (2.0 * peak / site.density_kg_per_m3).sqrt();
    let coefficient = round_coefficient(reynolds(diameter_m, gust), 0.2e-3 / diameter_m);
    peak * coefficient * end_effect(slenderness(diameter_m, length_m)) / 1000.0
}

/// Two published calculation sheets to 7.9.2 (scribd 454108488; a 5000 l tank, scribd 842951852), terrain II:
/// 0.7 m × 22 m at 45 m/s, galvanised, 2.452 kN/m²; 1.9 m × 2 m, top at 5.5 m, 30.2 m/s, smooth concrete,
/// 0.535 kN/m². 0.3 %.
#[test]
fn published_sheets_of_cylinders() {
    near(pressure_on_cylinder_kpa(45.0, 0.7, 22.0, 22.0), 2.452, 0.003);
    near(pressure_on_cylinder_kpa(30.2, 1.9, 2.0, 5.5), 0.535, 0.003);
}
