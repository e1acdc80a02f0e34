//! How sure a height on a slope is whose place was taped: the tape's error lies along the slope and lifts the spot by
//! its tangent (Orear, Am. J. Phys. 50 (1982) 912: σ² = σ_z² + gᵀ·Σ·g), worked by hand as a weighted mean.

use mastwright_engine::job::{BearingReference, Job, PointFix, SlopeReading, SpotHeight, TapeHeld};
use mastwright_engine::plan::survey;

use crate::yardstick::yardstick;

/// A slope of 30 % falling to the east, known to a hair, with two heights taped down the fall from the origin.
fn slope(tape_sigma_m: f64) -> Job {
    let mut job = yardstick();
    job.yard.bearings = BearingReference::True;
    job.yard.tape_held = TapeHeld::Level;
    job.yard.instruments.tape_sigma_m = tape_sigma_m;
    job.yard.instruments.tape_sigma_mm_per_m = 0.0;
    job.yard.instruments.bearing_sigma_deg = 1e-6;
    let reading = |id: &str, bearing_deg: f64, grade: f64| SlopeReading {
        id: id.to_owned(),
        bearing_deg,
        slope_deg: grade.atan().to_degrees(),
        sigma_deg: Some(1e-7),
        struck: false,
    };
    job.yard.slopes = vec![reading("down", 90.0, -0.3), reading("across", 0.0, 0.0)];
    job.yard.spot_heights = [5.0, 9.0]
        .map(|tape_m| SpotHeight {
            id: format!("at {tape_m}"),
            at: PointFix::BearingTape { from: "A".to_owned(), bearing_deg: 90.0, tape_m },
            height_m: -0.3 * tape_m,
            sigma_m: Some(0.01),
            struck: false,
        })
        .to_vec();
    job
}

/// The height of the plane at the origin is the mean of three heights that each lead to it, weighed by 1/σ²: the origin's
/// own of 10 mm, and two of √(10² + (0.3·tape's)²) mm.
#[test]
fn the_tape_s_error_widens_a_spot_by_the_slope() {
    for tape_sigma_m in [0.0001_f64, 0.02, 0.1] {
        let job = slope(tape_sigma_m);
        let surveyed = survey(&job.yard, job.units).expect("a yard");
        let spot_variance = 0.01_f64.powi(2) + (0.3 * tape_sigma_m).powi(2);
        let by_hand = 1.0 / (1.0 / 0.01_f64.powi(2) + 2.0 / spot_variance);
        let variance = surveyed.fit.ground.plane.covariance[0][0];
        assert!(
            (variance / by_hand - 1.0).abs() < 1e-4,
            "{tape_sigma_m}: {} {}",
            variance.sqrt(),
            by_hand.sqrt()
        );
    }
}
