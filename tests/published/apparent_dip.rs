//! Apparent dip: tan(apparent) = tan(true) · cos(angle between the section and the true dip).
//!
//! D. M. Ragan, Structural Geology: An Introduction to Geometrical Techniques, chapter on apparent dip (the
//! relation recalled, not read here; the same relation with its derivation stands on structuralgeology.org,
//! May 2012). Handbooks print the table to whole or half degrees; the values below are computed from the
//! relation to 0.01°, independently of the engine.

use mastwright_engine::ground::{SlopeObservation, fall, fit};
use mastwright_engine::survey::tilt::{SlopeAlong, apparent_slope_deg, gradient_from_two, true_slope_deg};

const ANGLES_DEG: [f64; 9] = [10.0, 20.0, 30.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0];

/// True slope, then the apparent slope at each of [`ANGLES_DEG`].
const TABLE: [(f64, [f64; 9]); 8] = [
    (5.0, [4.92, 4.70, 4.33, 3.83, 3.54, 3.22, 2.50, 1.71, 0.87]),
    (10.0, [9.85, 9.41, 8.68, 7.69, 7.11, 6.47, 5.04, 3.45, 1.75]),
    (15.0, [14.78, 14.13, 13.06, 11.60, 10.73, 9.77, 7.63, 5.24, 2.66]),
    (20.0, [19.72, 18.88, 17.50, 15.58, 14.43, 13.17, 10.31, 7.10, 3.62]),
    (25.0, [24.67, 23.66, 21.99, 19.66, 18.25, 16.69, 13.12, 9.06, 4.63]),
    (30.0, [29.62, 28.48, 26.57, 23.86, 22.21, 20.36, 16.10, 11.17, 5.73]),
    (40.0, [39.57, 38.26, 36.01, 32.73, 30.68, 28.34, 22.76, 16.01, 8.29]),
    (45.0, [44.56, 43.22, 40.89, 37.45, 35.26, 32.73, 26.57, 18.88, 9.85]),
];

/// Half of the last printed digit, and a little for values that round either way.
const PRINTED_DEG: f64 = 0.0051;

#[test]
fn table_of_apparent_dips() {
    for (true_deg, row) in TABLE {
        for (angle, printed) in ANGLES_DEG.into_iter().zip(row) {
            let found = apparent_slope_deg(true_deg, angle);
            assert!(
                (found - printed).abs() < PRINTED_DEG,
                "{true_deg} at {angle}: {found} against {printed}"
            );
        }
    }
}

#[test]
fn true_dip_from_one_apparent_dip_and_its_angle() {
    for (true_deg, row) in TABLE {
        // Up to 50°: farther off, a printed hundredth means more than a hundredth of the true dip.
        for (angle, printed) in ANGLES_DEG.into_iter().zip(row).take(6) {
            let found = true_slope_deg(printed, angle).unwrap();
            assert!((found - true_deg).abs() < 0.012, "{true_deg} at {angle}: {found}");
        }
    }
}

/// The two-apparent-dips problem: steepest rise towards 140°, sections 30° to the right and 40° to the left.
#[test]
fn true_dip_from_two_apparent_dips() {
    for (true_deg, row) in TABLE {
        let right = SlopeAlong { bearing_deg: 170.0, slope_deg: row[2] };
        let left = SlopeAlong { bearing_deg: 100.0, slope_deg: row[3] };
        let [east, north] = gradient_from_two(right, left).unwrap();
        let slope = east.hypot(north).atan().to_degrees();
        let rise = east.atan2(north).to_degrees();
        assert!((slope - true_deg).abs() < 0.012, "{true_deg}: {slope}");
        assert!((rise - 140.0).abs() < 0.1, "{true_deg}: {rise}");
    }
}

/// The fit of the ground, fed with a whole row on both sides of the rise, gives the true dip back.
#[test]
fn ground_from_a_row_of_apparent_dips() {
    for (true_deg, row) in TABLE {
        let reading = |(i, (angle, slope_deg)): (usize, (f64, f64))| {
            let side = if i % 2 == 0 { 1.0 } else { -1.0 };
            SlopeObservation {
                id: format!("{angle}"),
                bearing_true_deg: (140.0 + side * angle).rem_euclid(360.0),
                slope_deg,
                sigma_deg: 0.01,
            }
        };
        let slopes: Vec<_> = ANGLES_DEG.into_iter().zip(row).enumerate().map(reading).collect();
        let fall = fall(&fit(&slopes, &[]).ground.plane);
        assert!((fall.slope_deg.value - true_deg).abs() < 0.01, "{true_deg}: {:?}", fall.slope_deg);
        assert!((fall.bearing_deg.unwrap() - 320.0).abs() < 0.05);
    }
}
