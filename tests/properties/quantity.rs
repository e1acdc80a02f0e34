//! What is shown is read back as itself, to the resolution at which it was shown.

use mastwright_engine::quantity::entry::read_quantity;
use mastwright_engine::quantity::format;
use mastwright_engine::quantity::{UnitSystem, Units};
use proptest::prelude::*;

fn units() -> impl Strategy<Value = Units> {
    let system = prop_oneof![Just(UnitSystem::Metric), Just(UnitSystem::Imperial)];
    (system, prop::sample::select(vec![4_u8, 8, 16]))
        .prop_map(|(system, inch_fraction)| Units { system, inch_fraction })
}

/// Shows a number and reads it back.
fn there_and_back(field: &str, value: f64, units: Units) -> f64 {
    let text = format::field(field, value, units);
    read_quantity(field, &text, units).unwrap_or_else(|error| panic!("{field} {value} {text}: {error:?}"))
}

fn check(field: &str, value: f64, units: Units, resolution: f64) -> Result<(), TestCaseError> {
    let back = there_and_back(field, value, units);
    prop_assert!((back - value).abs() <= resolution / 2.0 + 1e-9, "{field}: {value} came back as {back}");
    // What was once rounded is not rounded again.
    prop_assert!((there_and_back(field, back, units) - back).abs() <= 1e-9);
    Ok(())
}

/// A mark of the user's tape, in metres (the inch of 24 FR 5348: 0.0254 m).
fn mark_m(units: Units) -> f64 {
    match units.system {
        UnitSystem::Metric => 0.001,
        UnitSystem::Imperial => 0.0254 / f64::from(units.inch_fraction),
    }
}

proptest! {
    #[test]
    fn lengths(value in -2000.0..2000.0, units in units()) {
        check("/yard/marks/1/at/east_m", value, units, mark_m(units))?;
    }

    #[test]
    fn small_lengths(value in -500.0..1000.0, units in units()) {
        // Metric to 0.01 mm; imperial to 0.001 in, or to a mark that is within 0.05 mm.
        check("outside_mm", value, units, if units.system == UnitSystem::Metric { 0.01 } else { 0.1 })?;
    }

    #[test]
    fn uncertainties(value in 0.0001..10.0, units in units()) {
        // Imperial to a sixteenth of an inch: nobody knows an uncertainty better.
        check("tape_sigma_m", value, units, if units.system == UnitSystem::Metric { 0.0001 } else { 0.0254 / 16.0 })?;
    }

    #[test]
    fn angles(thousandths in -60_000..60_000, units in units()) {
        check("slope_deg", f64::from(thousandths) / 1000.0, units, 1e-9)?;
        check("declination_deg", f64::from(thousandths) / 1000.0, units, 1e-9)?;
        check("guy_turn_deg", f64::from(thousandths) / 1000.0, units, 1e-9)?;
    }

    #[test]
    fn bearings(thousandths in 0..=360_000, units in units()) {
        check("front_bearing_deg", f64::from(thousandths) / 1000.0, units, 1e-9)?;
    }

    #[test]
    fn places(latitude in -90.0..90.0, units in units()) {
        check("latitude_deg", latitude, units, 1e-6)?;
    }

    #[test]
    fn forces(value in 1.0..20_000.0, units in units()) {
        // 0.1 lbf is 0.445 N.
        check("tension_n", value, units, 1.0)?;
    }

    #[test]
    fn the_rest(value in 0.0..1000.0, units in units()) {
        check("voltage_kv", value, units, 0.001)?;
        check("stretch_percent", value, units, 0.001)?;
        check("tape_sigma_mm_per_m", value, units, 0.001)?;
        check("mass_g_per_m", value, units, 0.1)?;
        check("mass_kg", value, units, 0.1)?;
        check("count", value.round(), units, 1e-9)?;
    }

    #[test]
    fn any_text_is_read_or_refused(text in ".{0,40}", units in units()) {
        for field in ["a_m", "a_mm", "bearing_deg", "slope_deg", "latitude_deg", "a_deg", "a_n", "a_kv", "a_g_per_m", "count", ""] {
            if let Ok(value) = read_quantity(field, &text, units) {
                prop_assert!(value.is_finite());
            }
        }
    }

    #[test]
    fn text_that_looks_like_a_quantity_is_read_or_refused(
        text in "[-−+]?[0-9]{0,4}[ .,/:'\"°½⅞]{0,2}[0-9]{0,3}[ /'\"%a-zNSEW]{0,4}[0-9]{0,3}",
        units in units(),
    ) {
        for field in ["a_m", "a_mm", "bearing_deg", "slope_deg", "latitude_deg", "a_n", "a_kv", "a_g_per_m", "count"] {
            if let Ok(value) = read_quantity(field, &text, units) {
                prop_assert!(value.is_finite());
            }
        }
    }

    #[test]
    fn showing_never_panics(value in any::<f64>(), units in units()) {
        for field in ["a_m", "a_mm", "a_sigma_m", "bearing_deg", "slope_deg", "a_n", "a_kv", "a_kg", "a_g_per_m", "count"] {
            prop_assert!(!format::field(field, value, units).is_empty());
        }
        prop_assert!(!format::length(value, units).is_empty());
        prop_assert!(!format::bearing(value).is_empty());
    }
}
