//! Reduction of a tape laid along a slope: H = S·cos a, V = S·sin a, correction C = S·(1 − cos a).
//!
//! C. D. Ghilani and P. R. Wolf, Elementary Surveying, slope measurements; US Army FM 3-34.331 (relations
//! recalled, not read here). S = 30.000 m at 8°: H 29.708, V 4.175, C 0.292 m, worked by hand to the millimetre.

use mastwright_engine::ground::{Ground, SlopeObservation, at_tape, fit, profile, taut_tape_m};

const MILLIMETRE: f64 = 0.000_5;

fn lawn(slope_deg: f64) -> Ground {
    let read = |bearing_true_deg, slope_deg| SlopeObservation {
        id: format!("{bearing_true_deg}"),
        bearing_true_deg,
        slope_deg,
        sigma_deg: 0.1,
    };
    fit(&[read(0.0, slope_deg), read(90.0, 0.0)], &[]).ground
}

#[test]
fn thirty_metres_at_eight_degrees() {
    let ground = lawn(8.0);
    let end = at_tape(&ground, [0.0, 0.0], 0.0, 30.0);
    assert!((end[1] - 29.708).abs() < MILLIMETRE);
    assert!((ground.height(end) - 4.175).abs() < MILLIMETRE);
    assert!((30.0 - end[1] - 0.292).abs() < MILLIMETRE);
}

#[test]
fn and_back_from_plan_to_tape() {
    let ground = lawn(8.0);
    assert!((taut_tape_m(&ground, [0.0, 0.0], [0.0, 29.708]) - 30.0).abs() < MILLIMETRE);
    assert_eq!(profile(&ground, [0.0, 0.0], [0.0, 29.708]).len(), 2);
    // Along the contour there is nothing to reduce.
    assert!((taut_tape_m(&ground, [0.0, 0.0], [30.0, 0.0]) - 30.0).abs() < 1e-9);
}
