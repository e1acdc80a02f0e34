//! Ghilani & Wolf, *Elementary Surveying*: slope reduction, height from two angles, differential levelling.
//!
//! The formulae are the book's, from memory; the numbers are reckoned by hand from them with five-figure tables of
//! functions, not by this engine.

use mastwright_engine::survey::heights::{
    Between, LevelSetUp, Reading, TwoAngles, levelled, slope_tape, two_angles,
};

fn exact(value: f64) -> Reading {
    Reading::new(value, 0.0)
}

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{value} is not {expected}");
}

/// H = S·cos a, V = S·sin a: 30 m at 8° are 29.708 m and 4.175 m (half a millimetre, the last printed digit).
#[test]
fn a_tape_of_thirty_metres_at_eight_degrees() {
    let [horizontal, rise] = slope_tape(Reading::new(30.0, 0.03), Reading::new(8.0, 0.3)).unwrap();
    near(horizontal.value, 29.708, 0.0005);
    near(rise.value, 4.175, 0.0005);
    // The correction S − H is about V²/2S = 0.2905.
    near(30.0 - horizontal.value, 0.2905, 0.002);
    // By hand: sin 8° · 0.3° · 30 m = 0.0219 and cos 8° · 0.03 = 0.0297, in squares.
    near(horizontal.sigma, 0.0369, 0.0001);
}

/// h = d/(cot a − cot b) = 10/(2.14451 − 1.42815) = 10/0.71636 = 13.9595 m above the eye, level ground.
#[test]
fn a_height_from_two_angles() {
    let seen = TwoAngles {
        near_deg: exact(35.0),
        far_deg: exact(25.0),
        between: Between::Level { distance_m: exact(10.0), far_above_near_m: exact(0.0) },
        near_eye_m: exact(1.6),
        far_eye_m: exact(1.6),
        foot_deg: None,
        zero_sigma_deg: 0.0,
    };
    let top = two_angles(&seen).unwrap();
    near(top.above_near_ground_m.value, 13.9595 + 1.6, 0.0005);
    near(top.distance_m.value, 13.9595 / 0.70021, 0.001);
    // dh = h²/d · (csc²a da, csc²b db): 0.3° each give 0.571 and 0.310, together 0.650 m.
    let uncertain = TwoAngles { near_deg: Reading::new(35.0, 0.3), far_deg: Reading::new(25.0, 0.3), ..seen };
    near(two_angles(&uncertain).unwrap().above_near_ground_m.sigma, 0.650, 0.005);
}

/// Differential levelling: the sum of back sights less the sum of fore sights.
#[test]
fn back_sights_less_fore_sights() {
    let set_up = |back, fore| LevelSetUp {
        back_m: exact(back),
        fore_m: exact(fore),
        length_m: 12.0,
        tilt_sigma_deg: 0.0,
        reversed: true,
    };
    let rise = levelled(&[set_up(1.482, 0.917), set_up(1.203, 1.655)]).unwrap();
    near(rise.value, 0.113, 1e-12);
}
