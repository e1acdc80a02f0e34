//! Cases by hand.

use super::camera::{Camera, Look, P3};
use super::shadow::{Shadow, Upright, area_m2};
use crate::numerics::real::{atan_deg, atan2_deg, hypot};

fn look(toward_deg: f64, pitch_deg: f64) -> Look {
    Look { toward_deg, pitch_deg, field_deg: 90.0, aspect: 1.0 }
}

const EYE: P3 = [0.0, 0.0, 1.6];

/// A picture of 90° from side to side is 2 m wide one metre away: what lies 10 m ahead and 5 m aside is halfway out.
#[test]
fn a_place_ahead_and_aside_lies_where_its_shares_are() {
    for (toward_deg, ahead, right) in [
        (0.0, [0.0, 1.0], [1.0, 0.0]),
        (90.0, [1.0, 0.0], [0.0, -1.0]),
        (225.0, [-0.5_f64.sqrt(); 2], [-0.5_f64.sqrt(), 0.5_f64.sqrt()]),
    ] {
        let camera = Camera::new(EYE, look(toward_deg, 0.0));
        let at = |far: f64, aside: f64, up: f64| {
            [far * ahead[0] + aside * right[0], far * ahead[1] + aside * right[1], 1.6 + up]
        };
        let [x, y] = camera.on_picture(camera.before(at(10.0, 5.0, 2.5)));
        assert!((x - 0.5).abs() < 1e-12 && (y - 0.25).abs() < 1e-12, "{x} {y}");
    }
}

/// Whatever is as high as the eyes lies on one level row, near or far; looking up by 20° that row is tan 20° under the middle.
#[test]
fn all_that_is_as_high_as_the_eyes_lies_on_the_horizon() {
    for pitch_deg in [-25.0, 0.0, 20.0] {
        let camera = Camera::new(EYE, look(30.0, pitch_deg));
        assert!((camera.horizon() + crate::numerics::real::tan_deg(pitch_deg)).abs() < 1e-12);
        for far in [[2.0, 3.0, 1.6], [40.0, 10.0, 1.6], [-3.0, 30.0, 1.6]] {
            let row = camera.on_picture(camera.before(far))[1];
            assert!((row - camera.horizon()).abs() < 1e-12, "{row} at {pitch_deg}");
        }
    }
}

/// A level bearing crosses every row where a point of that bearing on that row is seen.
#[test]
fn a_bearing_of_the_scale_is_where_things_at_that_bearing_are() {
    for pitch_deg in [0.0, 15.0, -20.0] {
        let camera = Camera::new(EYE, look(100.0, pitch_deg));
        for (bearing_deg, up) in [(100.0, 0.1), (80.0, 0.4), (125.0, -0.3)] {
            let [east, north] = crate::quantity::bearing::unit(bearing_deg);
            let [x, row] = camera.on_picture(camera.turned([east, north, up]));
            let on_scale = camera.bearing_at(bearing_deg, row).expect("it is ahead");
            assert!((on_scale - x).abs() < 1e-12, "{on_scale} {x}");
        }
        assert_eq!(camera.bearing_at(280.0, 0.0), None);
    }
}

/// From 3 m before the eyes to 3 m behind them: what is left ends in the picture, and all that lies behind is gone.
#[test]
fn what_lies_behind_the_eyes_is_never_on_the_picture() {
    let camera = Camera::new(EYE, look(0.0, 0.0));
    let [from, to] = camera.line([0.5, 3.0, 1.6], [0.5, -3.0, 1.6]).expect("half of it is ahead");
    assert!((from[0] - 0.5 / 3.0).abs() < 1e-12 && (to[0] - 1.0).abs() < 1e-9, "{from:?} {to:?}");
    assert_eq!(camera.line([0.5, -0.1, 1.6], [0.5, -3.0, 1.6]), None);
    assert!(camera.area(&[[-1.0, -2.0, 0.0], [1.0, -2.0, 0.0], [0.0, -2.0, 3.0]]).is_empty());
    // The ground under the feet, from behind to ahead.
    let ground = camera.area(&[[-2.0, -2.0, 0.0], [2.0, -2.0, 0.0], [2.0, 9.0, 0.0], [-2.0, 9.0, 0.0]]);
    assert!(
        ground.len() > 3
            && ground.iter().all(|p| p[1] < 0.0 && p[0].abs() < 1.0 + 1e-9 && p[1] > -1.0 - 1e-9)
    );
}

fn wall() -> Upright<'static> {
    // 2 m wide, 0.2 m thick, 5 m ahead, 3 m high.
    const OUTLINE: [[f64; 2]; 4] = [[-1.0, 5.0], [1.0, 5.0], [1.0, 5.2], [-1.0, 5.2]];
    Upright { outline: &OUTLINE, foot_z: 0.0, top_z: 3.0 }
}

/// Eyes at 1.6 m, a wall of 3 m at 5 m: over it one sees at 10 m what is higher than 1.6 + 1.4·10/5.2 (its far edge is 5.2 m off,
/// its near one 5 m: the nearer is the higher before the eyes): 1.6 + 1.4·2 = 4.4 m.
#[test]
fn a_wall_hides_as_high_as_by_hand() {
    let shadow = wall().shadow(EYE).expect("the eyes are outside");
    let [from, to] = shadow.along([0.0, 10.0, 0.0], [0.0, 10.0, 8.0]).expect("a part of it is hidden");
    assert!(from.abs() < 1e-6 && (to - 4.4 / 8.0).abs() < 1e-6, "{from} {to}");
    // To the side it hides as far as the lines by its near corner (1, 5) go: 2 m at 10 m.
    let [from, to] = shadow.along([-6.0, 10.0, 2.0], [6.0, 10.0, 2.0]).expect("a part of it is hidden");
    assert!((12.0 * from - 4.0).abs() < 1e-5 && (12.0 * to - 8.0).abs() < 1e-5, "{from} {to}");
    // What stands before it is not hidden, and neither is the wall's own face.
    assert_eq!(shadow.along([-1.0, 4.0, 1.0], [1.0, 4.0, 1.0]), None);
    assert_eq!(shadow.along([-1.0, 5.0, 1.0], [1.0, 5.0, 1.0]), None);
    assert!(shadow.hides([0.0, 5.2, 1.0]));
    // From over it, the ground behind shows again at 5.2 m·(6 − 0)/(6 − 3) = 10.4 m.
    let over = wall().shadow([0.0, 0.0, 6.0]).expect("the eyes are outside");
    let [from, to] = over.along([0.0, 5.3, 0.0], [0.0, 20.0, 0.0]).expect("a part of it is hidden");
    assert!(from.abs() < 1e-6 && (5.3 + 14.7 * to - 10.4).abs() < 1e-4, "{to}");
    // Within it nothing of it hides anything.
    assert_eq!(wall().shadow([0.0, 5.1, 1.6]), None);
}

/// A board of 4 m by 4 m at 10 m behind that wall: hidden are the 4 m of its width within 2 m of the middle up to 4.4 m.
#[test]
fn what_is_left_of_an_area_is_the_rest_of_it() {
    let shadow = wall().shadow(EYE).expect("the eyes are outside");
    let board = vec![[-3.0, 10.0, 0.0], [3.0, 10.0, 0.0], [3.0, 10.0, 6.0], [-3.0, 10.0, 6.0]];
    let left = shadow.taken_from(board.clone());
    let area: f64 = left.iter().map(|piece| area_m2(piece)).sum();
    assert!((area - (36.0 - 4.0 * 4.4)).abs() < 1e-3, "{area}");
    let middle = |piece: &[P3]| -> P3 {
        std::array::from_fn(|i| piece.iter().map(|p| p[i]).sum::<f64>() / piece.len() as f64)
    };
    assert!(left.iter().all(|piece| !shadow.hides(middle(piece))));
    let aside: Vec<P3> = board.iter().map(|p| [p[0] + 20.0, p[1], p[2]]).collect();
    assert_eq!(shadow.taken_from(aside.clone()), [aside]);
}

/// A flat area hides what is behind it from either side.
#[test]
fn a_flat_area_hides_from_both_sides() {
    let sail = [[-1.0, 5.0, 0.0], [1.0, 5.0, 0.0], [1.0, 5.0, 3.2], [-1.0, 5.0, 3.2]];
    for (eye, behind, before) in
        [(EYE, [0.0, 9.0, 1.6], [0.0, 4.0, 1.6]), ([0.0, 9.0, 1.6], [0.0, 1.0, 1.6], [0.0, 6.0, 1.6])]
    {
        let shadow = Shadow::of_area(eye, &sail).expect("it is seen from the side");
        assert!(shadow.hides(behind) && !shadow.hides(before));
    }
    assert_eq!(Shadow::of_area([0.0, 5.0, 9.0], &sail), None, "along its plane nothing of it shows");
}

/// The outline of a ball of radius 2 m, 10 m off, lies asin(2/10) round its middle; that of a trunk of 0.3 m as asin(0.3/10).
fn asin_deg(ratio: f64) -> f64 {
    atan2_deg(ratio, (1.0 - ratio * ratio).sqrt())
}

#[test]
fn round_things_are_as_wide_as_their_tangents() {
    use super::seen::faces_for_tests::{egg, stem};
    let middle = [0.0, 10.0, 1.6];
    for p in egg(middle, 2.0, 2.0, EYE) {
        let off_deg = atan_deg(hypot(p[0], p[2] - 1.6) / p[1]);
        assert!((off_deg - asin_deg(0.2)).abs() < 1e-9, "{off_deg}");
    }
    let [a, b, ..] = stem([0.0, 10.0], 0.3, [0.0, 4.0], EYE);
    for p in [a, b] {
        assert!((atan_deg((p[0] / p[1]).abs()) - asin_deg(0.03)).abs() < 1e-9);
    }
}

/// A ridge of 2 m across the way, its crest at 6 m: at 10 m it hides what is lower than 1.6 + (2 − 1.6)·10/6 = 2.2667 m, a board
/// as well as a line; and nothing of what stands on its near side.
#[test]
fn a_rise_of_the_ground_hides_what_is_behind_it() {
    let ridge = crate::ground::Surface::new(&[
        [-20.0, -2.0, 0.0],
        [20.0, -2.0, 0.0],
        [-20.0, 3.0, 0.0],
        [20.0, 3.0, 0.0],
        [-20.0, 6.0, 2.0],
        [20.0, 6.0, 2.0],
        [-20.0, 9.0, 0.0],
        [20.0, 9.0, 0.0],
        [-20.0, 20.0, 0.0],
        [20.0, 20.0, 0.0],
    ]);
    let surface = ridge.expect("they make a surface");
    let facets = surface.triangles().iter().map(|&triangle| surface.corners(triangle));
    let shadows: Vec<(Option<usize>, Shadow)> = facets
        .filter(|[a, b, c]| {
            let up = super::camera::cross(super::camera::sub(*b, *a), super::camera::sub(*c, *a));
            super::camera::dot(up, super::camera::sub(EYE, *a)) < 0.0
        })
        .filter_map(|corners| Some((None, Shadow::of_area(EYE, &corners)?)))
        .collect();
    assert_eq!(shadows.len(), 2, "its far side");
    let hiders = super::hidden::Hiders { eye: EYE, shadows };
    let shown = hiders.shown_along([0.0, 10.0, 0.01], [0.0, 10.0, 4.01], None);
    let from = 0.01 + 4.0 * shown[0][0];
    assert!(shown.len() == 1 && (from - (1.6 + 0.4 * 10.0 / 6.0)).abs() < 1e-5, "{shown:?}");
    let board = vec![[-1.0, 10.0, 0.0], [1.0, 10.0, 0.0], [1.0, 10.0, 4.0], [-1.0, 10.0, 4.0]];
    let left: f64 = hiders.shown_of(board, Some(3)).iter().map(|piece| area_m2(piece)).sum();
    assert!((left - 2.0 * (4.0 - 1.6 - 0.4 * 10.0 / 6.0)).abs() < 1e-3, "{left}");
    assert_eq!(hiders.shown_along([0.0, 5.0, 1.4], [0.0, 5.0, 3.0], None), [[0.0, 1.0]]);
}
