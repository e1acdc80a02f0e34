//! What pipes may measure: ASTM A53 and A312 as pipe sellers quote them, ASTM D1785-88 as quoted, EN 39 by a seller's sheet.

use mastwright_engine::tube::TubeTable;
use mastwright_engine::tube::tolerance::{PVC_SCH40, tolerance};

/// Size 1-1/2: 1.869 to 1.915 in outside (printed); its 0.145 in wall 12.5 % under is 0.1269 in, so the widest bore is 1.6613 in.
#[test]
fn steel_pipe_by_a53() {
    let found = tolerance(TubeTable::Sch40, "1-1/2").expect("listed");
    let (outside, bore) = (found.outside.expect("known"), found.bore.expect("known"));
    assert!(
        (outside.least_mm / 25.4 - 1.869).abs() < 1e-9 && (outside.largest_mm / 25.4 - 1.915).abs() < 1e-9
    );
    assert!((bore.largest_mm / 25.4 - (1.915 - 2.0 * 0.126_875)).abs() < 1e-9);
    // The thickest wall weighs 1.1 of the listed one: t·(D − t) = 1.1·0.145·(1.9 − 0.145).
    let thickest_in = (outside.least_mm - bore.least_mm) / 2.0 / 25.4;
    assert!((thickest_in * (1.9 - thickest_in) - 1.1 * 0.145 * 1.755).abs() < 1e-9, "{thickest_in}");
    // From size 2 on one in a hundred either way.
    let two = tolerance(TubeTable::Sch40, "2").expect("listed").outside.expect("known");
    assert!((two.least_mm - 60.325 * 0.99).abs() < 1e-9 && (two.largest_mm - 60.325 * 1.01).abs() < 1e-9);
}

/// Bores by the worst case: 1-1/2 39.73 to 41.05 mm, 2 51.33 to 52.65 mm.
#[test]
fn plastic_pipe_by_d1785() {
    for (size, least, largest) in [("1-1/2", 39.73, 41.05), ("2", 51.33, 52.65)] {
        let bore = PVC_SCH40.iter().find(|pipe| pipe.size == size).expect("listed").bore();
        assert!(
            (bore.least_mm - least).abs() < 0.005 && (bore.largest_mm - largest).abs() < 0.005,
            "{bore:?}"
        );
    }
}

/// 48.3 ± 0.5 mm, wall at most 10 % under, a gauge of 37.7 mm enters: bores of 37.7 to 43.04 mm (3.2) and to 41.6 mm (4.0).
#[test]
fn scaffold_tube_by_en39() {
    for (size, widest_mm) in [("48.3x3.2", 43.04), ("48.3x4.0", 41.6)] {
        let found = tolerance(TubeTable::En39, size).expect("listed");
        let (outside, bore) = (found.outside.expect("known"), found.bore.expect("known"));
        assert!((outside.least_mm - 47.8).abs() < 1e-9 && (outside.largest_mm - 48.8).abs() < 1e-9);
        assert!(
            (bore.least_mm - 37.7).abs() < 1e-9 && (bore.largest_mm - widest_mm).abs() < 1e-9,
            "{bore:?}"
        );
    }
}

/// Conduit: no tolerance of the wall was found, so nobody knows between what the bore lies.
#[test]
fn what_was_not_found_is_not_known() {
    for table in [TubeTable::Rmc, TubeTable::Emt] {
        let found = tolerance(table, "2").expect("listed");
        assert!(found.outside.is_some() && found.bore.is_none());
    }
    assert!(tolerance(TubeTable::Imc, "2").expect("listed").bore.is_some());
    assert!(tolerance(TubeTable::Imc, "7").is_none());
}
