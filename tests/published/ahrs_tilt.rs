//! The attitude of static gravity vectors against the package ahrs 0.4.0 (general-purpose attitude estimators by
//! other hands). Fixture: `scripts/ahrs_tilt.py`, which goes by quaternions and rotation matrices; the engine goes by
//! the vector's own elevations.

use mastwright_engine::quantity::bearing::turn_deg;
use mastwright_engine::survey::tilt::{GravitySign, edge_slopes, full_tilt};
use serde_json::Value;

struct Row {
    acceleration: [f64; 3],
    short_edge_deg: f64,
    long_edge_deg: f64,
    screen_deg: f64,
    slope_deg: f64,
    /// Against the clock, in the package's level frame.
    top_deg: f64,
    fall_deg: Option<f64>,
}

fn rows() -> Vec<Row> {
    let fixture: Value = serde_json::from_str(include_str!("data/ahrs_tilt.json")).expect("it is JSON");
    let number = |value: &Value| value.as_f64().expect("it is a number");
    let row = |row: &Value| Row {
        acceleration: [0, 1, 2].map(|axis| number(&row["acceleration"][axis])),
        short_edge_deg: number(&row["short_edge_deg"]),
        long_edge_deg: number(&row["long_edge_deg"]),
        screen_deg: number(&row["screen_deg"]),
        slope_deg: number(&row["slope_deg"]),
        top_deg: number(&row["top_deg"]),
        fall_deg: row["fall_deg"].as_f64(),
    };
    fixture["rows"].as_array().expect("it is a list").iter().map(row).collect()
}

/// An arcsine near ±90° loses half its figures: 1e-6° is what a double leaves there.
const ALLOWED_DEG: f64 = 2e-6;

#[test]
fn elevations_of_the_axes() {
    assert_eq!(rows().len(), 40);
    for row in rows() {
        for (sign, factor) in [(GravitySign::Up, 1.0), (GravitySign::Down, -1.0)] {
            let found = edge_slopes(row.acceleration.map(|a| factor * a), sign).expect("it is gravity");
            for (ours, theirs) in [
                (found.long_edge_deg, row.long_edge_deg),
                (found.short_edge_deg, row.short_edge_deg),
                (found.screen_deg, row.screen_deg),
            ] {
                assert!((ours - theirs).abs() < ALLOWED_DEG, "{ours} against {theirs}");
            }
        }
    }
}

#[test]
fn slope_and_fall_of_a_phone_lying_flat() {
    let mut falls = 0;
    for row in rows() {
        let found = full_tilt(row.acceleration, GravitySign::Up, 0.0).expect("it is gravity");
        assert!((found.slope_deg - row.slope_deg).abs() < ALLOWED_DEG, "{found:?}");
        // With the top pointing north, a bearing is the turn from it, clockwise.
        let Some(fall_deg) = row.fall_deg.filter(|_| row.screen_deg > 1.0) else { continue };
        let theirs = row.top_deg - fall_deg;
        let ours = found.fall_bearing_deg.expect("it is not level");
        assert!(turn_deg(theirs, ours).abs() < ALLOWED_DEG, "{ours} against {theirs}");
        falls += 1;
    }
    assert!(falls > 25, "{falls}");
}
