//! The further ways to fix a point: where it lies, how sure it is, what is said of its shape.

use super::*;
use crate::finding::Sense;
use crate::job::{Obstacle, Shape};
use crate::numerics::real::{cos_deg, hypot};
use crate::survey::positions::geometry::STEEPEST_TAPE_DEG;

const UNSURE: [[f64; 3]; 3] = [[0.0; 3], [0.0, 1e-4, 5e-5], [0.0, 5e-5, 4e-4]];

fn three(a: f64, b: f64, c: f64) -> PointFix {
    let from = |id: &str| id.to_owned();
    PointFix::ThreeTapes {
        from_a: from("A"),
        tape_a_m: a,
        from_b: from("B"),
        tape_b_m: b,
        from_c: from("C"),
        tape_c_m: c,
    }
}

fn offset(along_m: f64, off_m: f64, side: Side) -> PointFix {
    PointFix::Offset { from: "A".into(), toward: "B".into(), along_m, off_m, side }
}

fn air(bearing_deg: f64, tape_m: f64, vertical_deg: f64) -> PointFix {
    PointFix::SlopeTape { from: "A".into(), bearing_deg, tape_m, vertical_deg }
}

fn next(turn: Side, turn_deg: f64, tape_m: f64) -> PointFix {
    PointFix::NextCorner { turn, turn_deg, tape_m }
}

fn with_outline(yard: &Yard, outline: Vec<PointFix>) -> Yard {
    let shape = Shape::Building { outline, height_m: 3.0, height_sigma_m: None };
    let house = Obstacle { id: "h".into(), name: "House".into(), shape, keep_off_m: None, guy_fixing: None };
    Yard { obstacles: vec![house], ..yard.clone() }
}

fn corner(positions: &Positions, yard: &Yard, number: usize) -> PositionEstimate {
    let (_, outline) = yard.obstacles[0].shape.points();
    positions.locate(&outline[number], &format!("/yard/obstacles/0/shape/outline/{number}")).unwrap()
}

fn three_marks() -> Vec<Mark> {
    let mut marks = two_marks();
    marks.push(mark("C", PointFix::Coordinates { east_m: 3.0, north_m: 9.0 }));
    marks
}

#[test]
fn three_tapes_along_a_slope_come_back_to_their_point() {
    let mut marks = three_marks();
    marks[1].at = PointFix::Coordinates { east_m: 8.0, north_m: 1.0 };
    let (positions, _) = solve(&yard(marks), &STEEP);
    for point in [[4.0, 3.0], [12.0, 7.0], [-5.0, -6.0]] {
        let tape = |from| along(&STEEP, from, point);
        let fix = three(tape([0.0, 0.0]), tape([8.0, 1.0]), tape([3.0, 9.0]));
        close(positions.locate(&fix, "").unwrap().at, point);
        assert!(positions.geometry(&fix, "", Subject::Mast).is_empty());
    }
}

#[test]
fn a_third_tape_that_does_not_meet_the_others_is_named() {
    let mut marks = three_marks();
    marks[1].at = polar("A", 90.0, 8.0);
    let mut yard = yard(marks);
    yard.instruments.sketched_sigma_m = 0.02;
    let (positions, _) = solve(&yard, &LEVEL);
    let fix = three(5.0, 5.0, hypot(1.0, 6.0) + 0.9);
    let found = positions.geometry(&fix, "", Subject::Mast);
    assert_eq!(found.len(), 1, "{found:?}");
    assert_eq!(found[0].rule, "three_tapes_disagree");
    let Some(Quantity::LengthM { value }) = found[0].measured else { panic!("a length") };
    assert!((0.4..1.3).contains(&value), "{value}");
}

#[test]
fn three_marks_in_one_line_leave_two_places() {
    let mut marks = three_marks();
    marks[2].at = PointFix::Coordinates { east_m: 4.0, north_m: 0.0 };
    let (positions, _) = solve(&yard(marks), &LEVEL);
    let error = positions.locate(&three(5.0, 5.0, 3.0), "/placement/mast").unwrap_err();
    assert!(error.allowed.contains("two places fit"), "{}", error.allowed);
}

#[test]
fn an_offset_stands_square_off_its_line() {
    let (positions, _) = solve(&yard(two_marks()), &LEVEL);
    close(positions.locate(&offset(3.0, 2.0, Side::Left), "").unwrap().at, [3.0, 2.0]);
    close(positions.locate(&offset(3.0, 2.0, Side::Right), "").unwrap().at, [3.0, -2.0]);
    // On a slope both tapes are as long on the ground as read, and the corner is square in plan.
    let (positions, _) = solve(&yard(two_marks()), &STEEP);
    let at = positions.locate(&offset(3.0, 2.0, Side::Left), "").unwrap().at;
    let foot = [at[0], 0.0];
    assert!((along(&STEEP, [0.0, 0.0], foot) - 3.0).abs() < 1e-12);
    assert!((along(&STEEP, foot, at) - 2.0).abs() < 1e-12);
}

#[test]
fn a_tape_through_the_air_does_not_ask_for_the_ground() {
    for plane in [LEVEL, STEEP] {
        let (positions, _) = solve(&yard(two_marks()), &plane);
        close(positions.locate(&air(90.0, 10.0, 36.9), "").unwrap().at, [10.0 * cos_deg(36.9), 0.0]);
    }
}

/// A house of 6 by 4 from two corners that were taped, its other corners along the walls.
#[test]
fn walls_lead_round_a_house_and_share_their_errors() {
    let base = yard(two_marks());
    let outline = vec![
        polar("A", 0.0, 5.0),
        tapes("A", hypot(6.0, 5.0), "B", hypot(2.0, 5.0), Side::Left),
        next(Side::Left, 90.0, 4.0),
        next(Side::Left, 90.0, 6.0),
    ];
    let yard = with_outline(&base, outline);
    let (positions, _) = solve(&yard, &LEVEL);
    close(corner(&positions, &yard, 0).at, [0.0, 5.0]);
    close(corner(&positions, &yard, 2).at, [6.0, 9.0]);
    close(corner(&positions, &yard, 3).at, [0.0, 9.0]);
    // The wall between the last two corners is as sure as its tape, however unsure the corners are.
    let points = yard.obstacles[0].shape.points().1;
    let path = |i: usize| format!("/yard/obstacles/0/shape/outline/{i}");
    let pegged = Pegged { followed: positions.follow(&points[2], &path(2)).unwrap() };
    let (two, three) = (path(2), path(3));
    let ends = [(&points[2], two.as_str()), (&points[3], three.as_str())];
    let sigma_m = positions.distance_sigma_m(&pegged, ends, 1.0).unwrap();
    let tape_m = positions.readings.tape_sigma_m(6.0);
    assert!((sigma_m - tape_m).abs() < 1e-9, "{sigma_m} {tape_m}");
    let own = Positions::ellipse_95(&corner(&positions, &yard, 3)).semi_major_m;
    assert!(own > 5.0 * sigma_m, "{own}");
    // A turn that is not square was read with the compass twice.
    let skew = with_outline(&base, vec![points[0].clone(), points[1].clone(), next(Side::Right, 60.0, 4.0)]);
    let (positions, _) = solve(&skew, &LEVEL);
    close(corner(&positions, &skew, 2).at, [6.0 + 4.0 * cos_deg(60.0), 5.0 - 4.0 * cos_deg(30.0)]);
}

#[test]
fn a_next_corner_needs_two_before_it() {
    let outline = vec![polar("A", 0.0, 5.0), next(Side::Left, 90.0, 4.0), next(Side::Left, 90.0, 4.0)];
    let yard = with_outline(&yard(two_marks()), outline);
    let (positions, _) = solve(&yard, &LEVEL);
    let points = yard.obstacles[0].shape.points().1;
    for (number, point) in points.iter().enumerate().skip(1) {
        let path = format!("/yard/obstacles/0/shape/outline/{number}");
        assert!(positions.locate(point, &path).unwrap_err().allowed.contains("two corners"));
    }
    let marks = vec![mark("A", PointFix::Origin), mark("B", next(Side::Left, 90.0, 4.0))];
    assert!(Positions::new(&super::yard(marks), &true_north(), &LEVEL, METRIC).is_err());
}

/// Derivatives of every kind against differences of the positions themselves, on a slope that is itself uncertain,
/// from marks that are uncertain.
#[test]
fn covariances_are_those_of_numerical_derivatives() {
    let tape = |length: f64| hypot(0.01, 0.001 * length);
    let lone = |fix: PointFix| vec![fix];
    // Tapes that meet: where they miss, the miss itself would bend the derivatives a little.
    let [a, b, c] = {
        let marks = vec![
            mark("A", PointFix::Origin),
            mark("B", polar("A", 80.0, 9.0)),
            mark("C", polar("A", 10.0, 8.0)),
        ];
        let (positions, _) = solve(&yard(marks), &STEEP);
        ["A", "B", "C"].map(|id| along(&STEEP, positions.mark(id).unwrap().at, [5.0, 4.5]))
    };
    numerically("three tapes", &[tape(a), tape(b), tape(c)], &|d| lone(three(a + d[0], b + d[1], c + d[2])));
    numerically("offset left", &[tape(3.0), tape(2.0)], &|d| {
        lone(offset(3.0 + d[0], 2.0 + d[1], Side::Left))
    });
    numerically("offset right", &[tape(11.0), tape(4.0)], &|d| {
        lone(offset(11.0 + d[0], 4.0 + d[1], Side::Right))
    });
    // A tape through the air and its bearing, so fine here that the curve term is out of sight; the angle's sigma is
    // the slope's.
    numerically("air", &[0.01, tape(9.0), 0.3], &|d| lone(air(70.0 + d[0], 9.0 + d[1], -25.0 + d[2])));
    // The corners before bring their own readings in; the turn is a read one.
    let turn = std::f64::consts::SQRT_2 * 0.01;
    let sigmas = [0.01, tape(5.0), tape(9.0), tape(7.0), turn, tape(4.0)];
    numerically("corners", &sigmas, &|d| {
        let first = polar("B", 20.0 + d[0], 5.0 + d[1]);
        let second = tapes("A", 9.0 + d[2], "B", 7.0 + d[3], Side::Left);
        vec![first, second, next(Side::Right, 60.0 + d[4], 4.0 + d[5])]
    });
}

/// The last point of an outline that is made for changes of its readings, which have these sigmas.
fn numerically(name: &str, sigmas: &[f64], outline: &dyn Fn(&[f64]) -> Vec<PointFix>) {
    let tape = |length: f64| hypot(0.01, 0.001 * length);
    let own = sigmas.len();
    let sigmas: Vec<f64> = sigmas.iter().copied().chain([0.01, tape(9.0), 0.01, tape(8.0)]).collect();
    let located = |shift: &[f64]| {
        let d = &shift[own..];
        let marks = vec![
            mark("A", PointFix::Origin),
            mark("B", polar("A", 80.0 + d[0], 9.0 + d[1])),
            mark("C", polar("A", 10.0 + d[2], 8.0 + d[3])),
        ];
        let outline = outline(&shift[..own]);
        let last = outline.len() - 1;
        let mut yard = with_outline(&yard(marks), outline);
        yard.instruments.bearing_sigma_deg = 0.01;
        yard.instruments.square_sigma_deg = 1e-5;
        let gradient = [STEEP.gradient[0] + d[4], STEEP.gradient[1] + d[5]];
        let (positions, _) = solve(&yard, &Plane { gradient, covariance: UNSURE, ..STEEP });
        corner(&positions, &yard, last)
    };
    let nothing = vec![0.0; own + 6];
    let by: Vec<[f64; 2]> = (0..own + 6)
        .map(|input| {
            let moved = |step: f64| {
                let mut shift = nothing.clone();
                shift[input] = step;
                located(&shift).at
            };
            let (up, down) = (moved(1e-5), moved(-1e-5));
            [(up[0] - down[0]) / 2e-5, (up[1] - down[1]) / 2e-5]
        })
        .collect();
    let covariance = located(&nothing).covariance;
    let size = covariance[0][0].max(covariance[1][1]);
    for (row, cell) in [(0, 0), (0, 1), (1, 1)] {
        let read: f64 = sigmas.iter().zip(&by).map(|(sigma, by)| by[row] * by[cell] * sigma * sigma).sum();
        let sloped = [(0, 0), (0, 1), (1, 0), (1, 1)]
            .map(|(i, j)| by[own + 4 + i][row] * by[own + 4 + j][cell] * UNSURE[1 + i][1 + j]);
        let expected = read + sloped.iter().sum::<f64>();
        let found = covariance[row][cell];
        assert!((found - expected).abs() < 1e-5 * size, "{name}: {found} {expected}");
    }
}

#[test]
fn a_right_angle_is_as_sure_as_its_instrument() {
    let mut yard = yard(two_marks());
    yard.instruments.bearing_sigma_deg = 1e-5;
    let (positions, _) = solve(&yard, &LEVEL);
    let [[ee, _], [_, nn]] = positions.locate(&offset(3.0, 10.0, Side::Left), "").unwrap().covariance;
    let angle_m = 10.0 * 1.0_f64.to_radians();
    assert!((ee.sqrt() - hypot(hypot(0.01, 0.003), angle_m)).abs() < 1e-6, "{ee}");
    assert!((nn.sqrt() - hypot(0.01, 0.01)).abs() < 1e-6, "{nn}");
}

#[test]
fn poor_shapes_are_cautions() {
    let (positions, _) = solve(&yard(three_marks()), &LEVEL);
    let rules = |fix: &PointFix| -> Vec<&'static str> {
        let found = positions.geometry(fix, "", Subject::Mast);
        // What is too long or too steep may not be more than the limit.
        assert!(found.iter().all(|finding| finding.limit.unwrap().sense == Sense::AtMost), "{found:?}");
        found.iter().map(|finding| finding.rule.name()).collect()
    };
    let longest_m = crate::round_figures::rule::OFFSET.of(METRIC.system);
    assert_eq!(rules(&offset(3.0, longest_m + 0.1, Side::Left)), ["long_offset"]);
    assert_eq!(rules(&offset(16.1, 1.0, Side::Left)), ["far_past_line"]);
    assert!(rules(&offset(16.0, longest_m, Side::Left)).is_empty());
    assert_eq!(rules(&air(0.0, 5.0, -STEEPEST_TAPE_DEG - 0.1)), ["steep_tape"]);
    assert!(rules(&air(0.0, 5.0, STEEPEST_TAPE_DEG)).is_empty());
    let on = |count: usize| -> Vec<PointFix> {
        let corners = [polar("A", 0.0, 1.0), polar("A", 1.0, 9.0)];
        corners.into_iter().chain((0..count).map(|_| next(Side::Left, 90.0, 2.0))).collect()
    };
    assert!(geometry::long_chain(&on(3), &Subject::Boundary).is_none());
    assert_eq!(geometry::long_chain(&on(4), &Subject::Boundary).unwrap().rule, "long_chain");
}

/// Without a side both places are shown, and what hangs on the point waits with it; all else is placed.
#[test]
fn an_unnamed_side_is_asked_about() {
    let mut marks = two_marks();
    let open = |a, b| PointFix::TwoTapes {
        from_a: "A".into(),
        tape_a_m: a,
        from_b: "B".into(),
        tape_b_m: b,
        side: None,
    };
    marks.push(mark("C", open(5.0, 5.0)));
    marks.push(mark("D", polar("C", 0.0, 2.0)));
    marks.push(mark("E", polar("B", 0.0, 2.0)));
    let mut yard = yard(marks);
    yard.measurements = vec![tape("m1", "C", "E", 4.0), tape("m2", "A", "E", hypot(8.0, 2.0))];
    let (positions, findings) = solve(&yard, &LEVEL);
    assert!(findings.is_empty(), "{findings:?}");
    let ids: Vec<&str> = positions.marks().map(|(id, _)| id).collect();
    assert_eq!(ids, ["A", "B", "E"]);
    close(positions.mark("E").unwrap().at, [8.0, 2.0]);
    let [left, right] = positions.candidates(&yard.marks[2].at, "").unwrap();
    close(left, [4.0, 3.0]);
    close(right, [4.0, -3.0]);
    assert!(positions.mark("D").is_none() && positions.is_open(&yard.marks[3].at, ""));
    assert!(positions.candidates(&yard.marks[3].at, "").is_none());
    let error = positions.locate(&open(5.0, 5.0), "/placement/mast").unwrap_err();
    assert_eq!(error.path, "/placement/mast/side");
    assert!(positions.locate(&polar("D", 0.0, 1.0), "/placement/mast").is_err());
}

/// Marks found in the further ways are held in the network just as they are when followed.
#[test]
fn the_network_holds_every_kind_as_following_does() {
    let mut marks = three_marks();
    marks[1].at = polar("A", 90.0, along(&STEEP, [0.0, 0.0], [8.0, 0.0]));
    let tape = |from| along(&STEEP, from, [5.0, 4.0]);
    marks.push(mark("D", three(tape([0.0, 0.0]), tape([8.0, 0.0]), tape([3.0, 9.0]))));
    marks.push(mark("E", offset(3.0, 2.0, Side::Right)));
    marks.push(mark("F", air(200.0, 7.0, 20.0)));
    let mut yard = yard(marks);
    yard.instruments.bearing_sigma_deg = 0.01;
    // The followed third tape leaves its marks alone; so sure marks move as little in the network.
    yard.instruments.sketched_sigma_m = 1e-5;
    let plane = Plane { covariance: UNSURE, ..STEEP };
    let (followed, _) = solve(&yard, &plane);
    let mut network = followed.clone();
    network::adjust_marks(&mut network, &yard).unwrap();
    for (id, located) in followed.marks() {
        let other = network.mark(id).unwrap();
        assert!(hypot(located.at[0] - other.at[0], located.at[1] - other.at[1]) < 0.004, "{id}");
    }
    for point in [4_usize, 5] {
        let block = |positions: &Positions| {
            let at =
                |row: usize, column: usize| positions.state.readings[(2 * point + row, 2 * point + column)];
            [at(0, 0), at(0, 1), at(1, 1)]
        };
        for (a, b) in block(&followed).into_iter().zip(block(&network)) {
            // The network takes what a skew right angle does along the line, not the little that it does off it.
            assert!((a - b).abs() < 0.03 * block(&followed)[0].max(block(&followed)[2]), "{point} {a} {b}");
        }
    }
}
