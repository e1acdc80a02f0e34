//! International Building Code 2012, Table 1806.2, presumptive load-bearing values: read in a reprint.

use mastwright_engine::anchor::footing::{bearing, sliding};
use mastwright_engine::anchor::soil::Soil;

const PSF_PA: f64 = 47.880_26;

/// Class: bearing psf, sideways psf per ft, friction, cohesion psf, as printed.
#[test]
fn five_classes() {
    for (soil, bearing_psf, lateral_psf_per_ft, friction, cohesion_psf) in [
        (Soil::CrystallineBedrock, 12_000.0, 1200.0, Some(0.70), None),
        (Soil::LayeredRock, 4000.0, 400.0, Some(0.35), None),
        (Soil::Gravel, 3000.0, 200.0, Some(0.35), None),
        (Soil::Sand, 2000.0, 150.0, Some(0.25), None),
        (Soil::Clay, 1500.0, 100.0, None, Some(130.0)),
    ] {
        let values = soil.presumptive().unwrap();
        assert!((values.bearing_pa / PSF_PA - bearing_psf).abs() < 1e-3);
        assert!((values.lateral_pa_per_m / PSF_PA * 0.3048 - lateral_psf_per_ft).abs() < 1e-3);
        assert_eq!(values.friction, friction);
        match (values.cohesion_pa, cohesion_psf) {
            (Some(value), Some(expected)) => assert!((value / PSF_PA - expected).abs() < 1e-3),
            (value, expected) => assert!(value.is_none() && expected.is_none()),
        }
        // One square foot bears the table's value, with no further factor.
        let square_foot = 0.3048 * 0.3048;
        let pounds = bearing(square_foot, soil).allowable_n().unwrap() / 4.448_222;
        assert!((pounds - bearing_psf).abs() < 0.01 * bearing_psf.sqrt(), "{pounds}");
    }
}

/// Nothing is presumed of mud, organic silt or clay, peat and unprepared fill.
#[test]
fn nothing_for_soft_ground() {
    assert!(Soil::SoftOrFill.presumptive().is_none());
    assert!(bearing(1.0, Soil::SoftOrFill).allowable_n().is_none());
    assert!(sliding(1000.0, 1.0, Soil::SoftOrFill).allowable_n().is_none());
}
