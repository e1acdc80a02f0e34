//! Guys by plain statics: a published teaching question and an engineer's answer on a mailing list.

use mastwright_engine::guys::statics::{tension_for_horizontal_n, tensions_n};

fn check(force_deg: f64, expected: [f64; 3]) {
    // Guys at 100 ft on anchors 50 ft out at 0°, 120°, 240°; 50,000 ft·lb of overturning is 500 lb at the top.
    let angle_deg = 100.0_f64.atan2(50.0).to_degrees();
    let tensions = tensions_n(&[0.0, 120.0, 240.0], angle_deg, 50_000.0 / 100.0, force_deg).unwrap();
    for (tension, expected) in tensions.iter().zip(expected) {
        assert!((tension - expected).abs() < 0.1, "{tensions:?}");
    }
}

/// A stored teaching page of 2002 (inputs read; outputs computed from its figures). 0.1 lb.
#[test]
fn three_guys_without_tension_set() {
    check(180.0, [1118.03, 0.0, 0.0]); // wind from the north: guy A alone
    check(0.0, [0.0, 1118.03, 1118.03]); // from the south: B and C
    check(270.0, [645.50, 1290.99, 0.0]); // from the east: B and A
}

/// lists.contesting.com, TowerTalk, July 2000 (032018): 1,000 lb sideways is 1,414 lb in a guy at 45° and
/// 2,924 lb at 70° to the ground; unrounded 1414.21 and 2923.80.
#[test]
fn a_steep_guy_pulls_harder() {
    assert!((tension_for_horizontal_n(1000.0, 45.0) - 1414.21).abs() < 0.01);
    assert!((tension_for_horizontal_n(1000.0, 70.0) - 2923.80).abs() < 0.01);
}

/// All anchors on one side can't hold a push towards them.
#[test]
fn an_open_side_has_no_answer() {
    assert!(tensions_n(&[0.0, 60.0, 100.0], 45.0, 10.0, 0.0).is_none());
    assert!(tensions_n(&[0.0, 170.0], 45.0, 10.0, 90.0).is_none());
    assert!(tensions_n(&[], 45.0, 10.0, 90.0).is_none());
}
