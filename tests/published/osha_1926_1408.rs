//! 29 CFR 1926.1408, Table A: minimum clearance distances, nominal kV (alternating current) to feet. The text was
//! read; "up to 50: 10; over 50 to 200: 15; over 200 to 350: 20; over 350 to 500: 25; over 500 to 750: 35; over 750
//! to 1,000: 45; over 1,000: as established by the utility owner/operator or registered professional engineer".
//!
//! Tolerance: none.

use mastwright_engine::yard::overhead::table_a_ft;

fn check(voltage_kv: f64, feet: f64) {
    assert_eq!(table_a_ft(voltage_kv), Some(feet), "{voltage_kv} kV");
}

#[test]
fn the_upper_value_belongs_to_its_band() {
    for (kv, feet) in
        [(50.0, 10.0), (200.0, 15.0), (350.0, 20.0), (500.0, 25.0), (750.0, 35.0), (1000.0, 45.0)]
    {
        check(kv, feet);
    }
}

#[test]
fn just_above_it_the_next_band_holds() {
    for (kv, feet) in [(50.1, 15.0), (200.1, 20.0), (350.1, 25.0), (500.1, 35.0), (750.1, 45.0)] {
        check(kv, feet);
    }
}

#[test]
fn ordinary_lines_keep_ten_feet() {
    for kv in [0.0, 0.23, 0.4, 7.2, 11.0, 34.5] {
        check(kv, 10.0);
    }
}

#[test]
fn beyond_the_table_there_is_no_distance() {
    assert_eq!(table_a_ft(1000.1), None);
    assert_eq!(table_a_ft(f64::NAN), None, "no number is no voltage");
}
