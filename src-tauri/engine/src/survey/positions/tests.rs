mod kinds;

use super::*;
use crate::finding::points::{Misses, PointRule, ReadingName, ReadingOf};
use crate::finding::{Limit, Quantity, Rule};
use crate::job::{BearingReference, Mark, Measurement, Side};
use crate::quantity::UnitSystem;
use crate::quantity::bearing;

const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
const LEVEL: Plane = Plane { height_0_m: 0.0, gradient: [0.0, 0.0], covariance: [[0.0; 3]; 3] };
const STEEP: Plane = Plane { height_0_m: 0.0, gradient: [0.1, -0.3], covariance: [[0.0; 3]; 3] };

fn mark(id: &str, at: PointFix) -> Mark {
    Mark { id: id.to_owned(), name: String::new(), at }
}

fn polar(from: &str, bearing_deg: f64, tape_m: f64) -> PointFix {
    PointFix::BearingTape { from: from.to_owned(), bearing_deg, tape_m }
}

fn tapes(from_a: &str, tape_a_m: f64, from_b: &str, tape_b_m: f64, side: Side) -> PointFix {
    PointFix::TwoTapes {
        from_a: from_a.to_owned(),
        tape_a_m,
        from_b: from_b.to_owned(),
        tape_b_m,
        side: Some(side),
    }
}

fn tape(id: &str, from: &str, to: &str, tape_m: f64) -> Measurement {
    Measurement::Tape { id: id.to_owned(), from: from.to_owned(), to: to.to_owned(), tape_m, struck: false }
}

fn yard(marks: Vec<Mark>) -> Yard {
    Yard {
        place: None,
        surveyed_at: None,
        bearings: BearingReference::True,
        tape_held: TapeHeld::AlongGround,
        instruments: Instruments::default(),
        marks,
        measurements: vec![],
        slopes: vec![],
        spot_heights: vec![],
        obstacles: vec![],
        boundary: None,
        overhead_lines: vec![],
        buried_services: vec![],
        soil: Default::default(),
        wet_season: None,
        overhead: Default::default(),
        underground: Default::default(),
        digging: Default::default(),
    }
}

fn true_north() -> NorthCorrection {
    NorthCorrection { add_to_reading_deg: 0.0, sigma_deg: 0.0, from: crate::survey::NorthFrom::True }
}

fn solve(yard: &Yard, plane: &Plane) -> (Positions, Vec<Finding>) {
    Positions::new(yard, &true_north(), plane, METRIC).unwrap()
}

fn close(a: [f64; 2], b: [f64; 2]) {
    assert!((a[0] - b[0]).abs() < 1e-9 && (a[1] - b[1]).abs() < 1e-9, "{a:?} is not {b:?}");
}

/// Length along the plane between two plan points.
fn along(plane: &Plane, a: [f64; 2], b: [f64; 2]) -> f64 {
    let rise = plane.height(b) - plane.height(a);
    ((b[0] - a[0]) * (b[0] - a[0]) + (b[1] - a[1]) * (b[1] - a[1]) + rise * rise).sqrt()
}

fn two_marks() -> Vec<Mark> {
    vec![mark("A", PointFix::Origin), mark("B", polar("A", 90.0, 8.0))]
}

#[test]
fn three_four_five_by_two_tapes_on_either_side() {
    let (positions, findings) = solve(&yard(two_marks()), &LEVEL);
    let at = |side| positions.locate(&tapes("A", 5.0, "B", 5.0, side), "").unwrap().at;
    close(at(Side::Left), [4.0, 3.0]);
    close(at(Side::Right), [4.0, -3.0]);
    assert!(findings.is_empty());
}

#[test]
fn tapes_along_a_slope_come_back_to_their_point() {
    let mut marks = two_marks();
    marks[1].at = PointFix::Coordinates { east_m: 9.0, north_m: 2.0 };
    let (positions, _) = solve(&yard(marks), &STEEP);
    let check = |point: [f64; 2], side| {
        let (a, b) = (along(&STEEP, [0.0, 0.0], point), along(&STEEP, [9.0, 2.0], point));
        close(positions.locate(&tapes("A", a, "B", b, side), "").unwrap().at, point);
        let bearing_deg = bearing::of_vector(point[0], point[1]);
        close(positions.locate(&polar("A", bearing_deg, a), "").unwrap().at, point);
    };
    check([4.0, 7.0], Side::Left);
    check([6.0, -11.0], Side::Right);
}

#[test]
fn level_tapes_are_not_reduced() {
    let mut level = yard(two_marks());
    level.tape_held = TapeHeld::Level;
    let (positions, _) = solve(&level, &STEEP);
    close(positions.mark("B").unwrap().at, [8.0, 0.0]);
}

#[test]
fn the_north_correction_turns_readings_and_leaves_ellipses() {
    let north =
        NorthCorrection { add_to_reading_deg: 30.0, sigma_deg: 5.0, from: crate::survey::NorthFrom::True };
    let (turned, _) = Positions::new(&yard(two_marks()), &north, &LEVEL, METRIC).unwrap();
    close(turned.mark("B").unwrap().at, [8.0 * bearing::unit(120.0)[0], 8.0 * bearing::unit(120.0)[1]]);
    let across = Positions::ellipse_95(turned.mark("B").unwrap()).semi_major_m;
    assert!((across - 8.0 * 2.0_f64.to_radians() * 5.991464547_f64.sqrt()).abs() < 1e-6);
}

/// Derivatives against differences of the positions themselves, on a slope that is itself uncertain.
#[test]
fn covariance_of_a_point_is_that_of_numerical_derivatives() {
    let mut plane = STEEP;
    plane.covariance[1][1] = 1e-4;
    plane.covariance[2][2] = 4e-4;
    plane.covariance[1][2] = 5e-5;
    plane.covariance[2][1] = 5e-5;
    let point_of = |readings: [f64; 4], gradient: [f64; 2]| {
        let marks = vec![mark("A", PointFix::Origin), mark("B", polar("A", readings[0], readings[1]))];
        let mut yard = yard(marks);
        // A fine compass, so that the curve term, which no first derivative shows, is out of sight.
        yard.instruments.bearing_sigma_deg = 0.01;
        let (positions, _) = solve(&yard, &Plane { gradient, ..plane });
        positions.locate(&tapes("A", readings[2], "B", readings[3], Side::Left), "").unwrap()
    };
    let readings = [80.0, 9.0, 7.0, 6.0];
    let located = point_of(readings, plane.gradient);
    let tape_sigma = |length: f64| crate::numerics::real::hypot(0.01, 0.001 * length);
    let sigmas = [0.01, tape_sigma(9.0), tape_sigma(7.0), tape_sigma(6.0)];
    let mut expected = [[0.0; 2]; 2];
    let mut columns = Vec::new();
    for input in 0..6 {
        let step = 1e-5;
        let shifted = |step: f64| {
            let (mut readings, mut gradient) = (readings, plane.gradient);
            if input < 4 {
                readings[input] += step
            } else {
                gradient[input - 4] += step
            }
            point_of(readings, gradient).at
        };
        let (up, down) = (shifted(step), shifted(-step));
        columns.push([(up[0] - down[0]) / (2.0 * step), (up[1] - down[1]) / (2.0 * step)]);
    }
    for row in 0..2 {
        for column in 0..2 {
            for input in 0..4 {
                expected[row][column] +=
                    columns[input][row] * columns[input][column] * sigmas[input] * sigmas[input];
            }
            for (i, j) in [(0, 0), (0, 1), (1, 0), (1, 1)] {
                expected[row][column] +=
                    columns[4 + i][row] * columns[4 + j][column] * plane.covariance[1 + i][1 + j];
            }
            let (found, wanted) = (located.covariance[row][column], expected[row][column]);
            assert!((found - wanted).abs() < 1e-6 * expected[0][0].max(expected[1][1]), "{found} {wanted}");
        }
    }
}

fn square() -> Yard {
    let mut square = yard(vec![
        mark("A", PointFix::Origin),
        mark("B", polar("A", 90.0, 10.0)),
        mark("C", polar("B", 0.0, 10.0)),
        mark("D", tapes("A", 10.0, "C", 10.0, Side::Left)),
    ]);
    square.measurements =
        vec![tape("d1", "A", "C", 200.0_f64.sqrt()), tape("d2", "B", "D", 200.0_f64.sqrt())];
    square
}

#[test]
fn surplus_tapes_that_agree_sharpen_the_marks() {
    let square = square();
    let mut bare = square.clone();
    bare.measurements.clear();
    let (adjusted, findings) = solve(&square, &LEVEL);
    let (followed, _) = solve(&bare, &LEVEL);
    close(adjusted.mark("D").unwrap().at, [0.0, 10.0]);
    let size = |positions: &Positions| Positions::ellipse_95(positions.mark("D").unwrap()).semi_major_m;
    assert!(size(&adjusted) < size(&followed));
    assert!(findings.is_empty(), "{findings:?}");
}

/// Two ways to one result: without surplus the network must give what following the marks one by one gives.
#[test]
fn the_bare_network_has_the_followed_covariance() {
    let mut plane = STEEP;
    plane.covariance[1][1] = 1e-4;
    plane.covariance[2][2] = 4e-4;
    let mut yard = square();
    yard.measurements.clear();
    // A fine compass, so that the curve terms, which the two reckon differently, are out of sight.
    yard.instruments.bearing_sigma_deg = 0.01;
    let (followed, _) = solve(&yard, &plane);
    let mut network = followed.clone();
    network::adjust_marks(&mut network, &yard).unwrap();
    let difference = (&followed.state.readings - &network.state.readings).norm();
    assert!(difference < 1e-6 * followed.state.readings.norm(), "{difference}");
}

#[test]
fn a_misread_tape_is_named() {
    let mut square = square();
    square.measurements.push(tape("d3", "A", "C", 200.0_f64.sqrt() + 0.5));
    let (_, findings) = solve(&square, &LEVEL);
    assert_eq!(findings.len(), 1);
    assert_eq!(findings[0].rule, "reading_set_aside");
    assert_eq!(findings[0].subject, Subject::Reading { id: "d3".into() });
    let of = ReadingOf::Tape { from: "A".into(), to: "C".into() };
    let reading = ReadingName { further: true, of };
    assert_eq!(findings[0].rule, Rule::from(PointRule::ReadingSetAside { reading, is: Misses::Longer }));
    let Some(Quantity::LengthM { value }) = findings[0].measured else { panic!("a length") };
    assert!((value - 0.5).abs() < 0.02, "{value}");
    // Its ± is that of a tape of 14.64 m and of the line known without it, which is no worse: 1.96 to 1.96·√2 times
    // √(0.01² + 0.01464²) m.
    let half_width_m = findings[0].measured_half_width_95.unwrap();
    assert!((0.0347..0.0492).contains(&half_width_m), "{half_width_m}");
    // The marks are where they are without it.
    close(solve(&square, &LEVEL).0.mark("D").unwrap().at, [0.0, 10.0]);
    square.measurements.pop();
    square.measurements.push(Measurement::Tape {
        id: "d3".into(),
        from: "nobody".into(),
        to: "C".into(),
        tape_m: f64::NAN,
        struck: true,
    });
    assert!(solve(&square, &LEVEL).1.is_empty());
}

#[test]
fn a_baseline_holds_its_bearing_exactly() {
    let mut wall = yard(vec![
        mark("A", PointFix::Origin),
        mark("B", PointFix::Coordinates { east_m: 8.1, north_m: 0.2 }),
    ]);
    wall.bearings = BearingReference::Baseline { from: "A".into(), to: "B".into(), bearing_deg: 90.0 };
    let north =
        NorthCorrection { add_to_reading_deg: 90.0, sigma_deg: 0.0, from: crate::survey::NorthFrom::True };
    let (positions, findings) = Positions::new(&wall, &north, &LEVEL, METRIC).unwrap();
    let b = positions.mark("B").unwrap();
    assert!(b.at[1].abs() < 1e-6 && findings.is_empty(), "{b:?}");
    assert!(b.covariance[1][1].sqrt() < 1e-3);
    // Marks that lie another way than the baseline is said to run are called out.
    wall.marks[1].at = PointFix::Coordinates { east_m: 8.0, north_m: 3.0 };
    let (_, findings) = Positions::new(&wall, &north, &LEVEL, METRIC).unwrap();
    assert_eq!(findings.len(), 1);
}

#[test]
fn a_poor_crossing_is_a_caution() {
    let (positions, _) = solve(&yard(two_marks()), &LEVEL);
    let check = |a: f64, b: f64, limit: Option<Limit>| {
        let found = positions.geometry(&tapes("A", a, "B", b, Side::Left), "", Subject::Mast).pop();
        assert_eq!(found.and_then(|finding| finding.limit), limit);
    };
    check(5.0, 5.0, None);
    check(4.05, 4.05, Limit::at_most(Quantity::AngleDeg { value: 150.0 }));
    check(40.0, 40.0, Limit::at_least(Quantity::AngleDeg { value: 30.0 }));
    let mut marks = two_marks();
    marks.push(mark("C", tapes("A", 40.0, "B", 40.0, Side::Left)));
    assert_eq!(solve(&yard(marks), &LEVEL).1.len(), 1);
}

fn errors(marks: Vec<Mark>) -> Vec<(String, String)> {
    let errors = Positions::new(&yard(marks), &true_north(), &LEVEL, METRIC).unwrap_err().errors;
    errors.into_iter().map(|error| (error.path, error.allowed)).collect()
}

#[test]
fn every_bad_reference_is_named_at_once() {
    let found = errors(vec![
        mark("A", polar("B", 0.0, 1.0)),
        mark("B", polar("A", 0.0, 1.0)),
        mark("C", PointFix::Origin),
        mark("C", polar("nobody", 400.0, f64::NAN)),
        mark("D", tapes("C", 1.0, "C", 1.0, Side::Left)),
        mark("E", polar("E", 0.0, 1.0)),
        mark("F", PointFix::Coordinates { east_m: 1e308, north_m: f64::INFINITY }),
        mark("G", polar("A", 0.0, 0.0)),
    ]);
    let paths: Vec<&str> = found.iter().map(|(path, _)| path.as_str()).collect();
    for wanted in [
        "/yard/marks/0/at",
        "/yard/marks/1/at",
        "/yard/marks/2/at",
        "/yard/marks/3/id",
        "/yard/marks/3/at/from",
        "/yard/marks/3/at/bearing_deg",
        "/yard/marks/3/at/tape_m",
        "/yard/marks/4/at/from_b",
        "/yard/marks/5/at",
        "/yard/marks/6/at/east_m",
        "/yard/marks/6/at/north_m",
        "/yard/marks/7/at/tape_m",
    ] {
        assert!(paths.contains(&wanted), "{wanted} not in {paths:?}");
    }
    assert_eq!(errors(vec![])[0].0, "/yard/marks");
}

#[test]
fn tapes_that_do_not_meet_say_by_how_much() {
    let (positions, _) = solve(&yard(two_marks()), &LEVEL);
    let check = |a: f64, b: f64, words: &str| {
        let error = positions.locate(&tapes("A", a, "B", b, Side::Left), "/placement/mast").unwrap_err();
        assert_eq!((error.path.as_str(), error.field.as_str()), ("/placement/mast", "placement › mast"));
        assert!(error.allowed.contains(words), "{}", error.allowed);
    };
    check(3.0, 4.0, "short of each other by 1.000 m");
    check(12.0, 3.0, "overshoots the other's reach by 1.000 m");
    check(5.0, 3.0, "one line");
    check(0.0, 8.0, "one line");
    assert!(positions.locate(&PointFix::Origin, "/placement/mast").is_err());
    assert!(positions.locate(&polar("Z", 0.0, 1.0), "/placement/mast").is_err());
}

#[test]
fn marks_may_be_listed_before_those_they_are_fixed_from() {
    let (positions, _) = solve(
        &yard(vec![
            mark("A", PointFix::Origin),
            mark("C", polar("B", 0.0, 2.0)),
            mark("B", polar("A", 90.0, 8.0)),
        ]),
        &LEVEL,
    );
    close(positions.mark("C").unwrap().at, [8.0, 2.0]);
    let ids: Vec<&str> = positions.marks().map(|(id, _)| id).collect();
    assert_eq!(ids, ["A", "C", "B"]);
}
