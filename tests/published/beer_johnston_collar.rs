//! Beer & Johnston, Vector Mechanics for Engineers: Statics, Sample Problem 4.13 (8.3 in older editions), the movable bracket; the same
//! read the other way is the binding ratio of plain linear bearings.

use mastwright_engine::workshop::lift::jam::{jams_at, push_n};

/// Two contacts 6 in apart, friction 0.25: the bracket holds by itself from 12 in on (printed 12 in).
#[test]
fn the_bracket_holds_from_twelve_inches_on() {
    assert!((jams_at(0.25, 12.0) - 6.0).abs() < 1e-12);
    assert!(push_n(100.0, 0.25, [11.99, 0.0], 6.0).is_some());
    assert!(push_n(100.0, 0.25, [12.0, 0.0], 6.0).is_none());
}

/// Bearing makers' tables: largest arm over bearing distance by friction; check value there: an arm of 10 in needs 5 in at 0.25.
#[test]
fn binding_ratios_of_plain_bearings() {
    for (friction, ratio) in
        [(0.10, 5.0), (0.15, 3.333), (0.20, 2.5), (0.25, 2.0), (0.30, 1.667), (0.40, 1.25)]
    {
        assert!((jams_at(friction, ratio) - 1.0).abs() < 1e-3, "{friction}");
    }
    assert!((jams_at(0.25, 10.0) - 5.0).abs() < 1e-12);
}

/// By hand: W 300 N on the axis, arm 80 mm, bearings 600 mm apart, friction 0.3: 300/(1 − 0.08) = 326.1 N; it jams at 48 mm.
#[test]
fn a_push_beside_the_axis_by_hand() {
    let push = push_n(300.0, 0.3, [80.0, 0.0], 600.0).expect("it moves");
    assert!((push - 326.087).abs() < 1e-3);
    assert!((jams_at(0.3, 80.0) - 48.0).abs() < 1e-12);
    // The weight beside the axis, away from the push, makes it harder: 300·(1 + 2·0.3·40/600)/0.92.
    let harder = push_n(300.0, 0.3, [80.0, 40.0], 600.0).expect("it moves");
    assert!((harder - 300.0 * 1.04 / 0.92).abs() < 1e-9);
}
