//! ASCE 7, editions 16 and 22: velocity pressure.
//!
//! Edition 16: Table 26.10-1 as printed to two digits (from memory; the formula and its constants were read in
//! open-source libraries). The printed digits are cut rather than rounded in places: 0.01. Edition 22: constants from
//! memory; values reckoned from them by hand, so that these rows guard against slips and prove nothing.

use mastwright_engine::wind::asce7::{AsceSite, Edition, Exposure, ke, kz};

const HEIGHTS_FT: [f64; 7] = [15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0];

fn check(edition: Edition, exposure: Exposure, printed: [f64; 7], tolerance: f64) {
    for (height_ft, expected) in HEIGHTS_FT.iter().zip(printed) {
        let value = kz(edition, exposure, height_ft * 0.3048);
        assert!((value - expected).abs() < tolerance, "{exposure:?} at {height_ft} ft: {value}, {expected}");
    }
}

#[test]
fn kz_of_edition_16() {
    let edition = Edition::Asce7_16;
    check(edition, Exposure::B, [0.57, 0.62, 0.66, 0.70, 0.76, 0.81, 0.85], 0.01);
    check(edition, Exposure::C, [0.85, 0.90, 0.94, 0.98, 1.04, 1.09, 1.13], 0.01);
    check(edition, Exposure::D, [1.03, 1.08, 1.12, 1.16, 1.22, 1.27, 1.31], 0.01);
}

#[test]
fn kz_of_edition_22_from_memory() {
    let edition = Edition::Asce7_22;
    check(edition, Exposure::B, [0.573, 0.619, 0.657, 0.689, 0.744, 0.790, 0.829], 0.001);
    check(edition, Exposure::C, [0.851, 0.903, 0.945, 0.981, 1.040, 1.088, 1.130], 0.001);
    check(edition, Exposure::D, [1.035, 1.088, 1.131, 1.168, 1.228, 1.276, 1.317], 0.001);
}

/// Below 15 ft the table's first row holds.
#[test]
fn the_lowest_row_reaches_to_the_ground() {
    for height_m in [0.0, 1.0, 4.5] {
        assert_eq!(kz(Edition::Asce7_16, Exposure::C, height_m), kz(Edition::Asce7_16, Exposure::C, 4.572));
    }
}

/// Table 26.9-1, read in the tests of an open-source program: elevation in feet, Ke to two digits.
#[test]
fn ground_elevation_factor() {
    for (feet, expected) in
        [(0.0, 1.00), (2000.0, 0.93), (3000.0, 0.90), (4000.0, 0.86), (5000.0, 0.83), (6000.0, 0.80)]
    {
        let value = ke(feet * 0.3048);
        assert!((value - expected).abs() < 0.0061, "{feet} ft: {value}");
    }
}

/// The customary form, 0.00256·V² in psf and mph, at Kz = 1: 100 mph is 25.6 psf. 0.613 and 0.00256 are both rounded:
/// 0.2 %.
#[test]
fn customary_and_si_forms_agree() {
    let site = AsceSite {
        edition: Edition::Asce7_16,
        exposure: Exposure::C,
        topographic: 1.0,
        directionality: 1.0,
        ground_elevation_m: 0.0,
    };
    let mph = 0.44704;
    let psf = 47.880_26;
    let expected = 0.00256 * kz(site.edition, site.exposure, 12.0) * 100.0 * 100.0;
    let value = site.velocity_pressure_pa(100.0 * mph, 12.0) / psf;
    assert!((value / expected - 1.0).abs() < 0.002, "{value} {expected}");
}
