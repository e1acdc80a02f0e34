use super::*;
use crate::finding::Severity;
use crate::quantity::bearing::turn_deg;

fn slope(bearing_true_deg: f64, slope_deg: f64) -> SlopeObservation {
    SlopeObservation { id: format!("s{bearing_true_deg}"), bearing_true_deg, slope_deg, sigma_deg: 0.3 }
}

fn spot(id: &str, east: f64, north: f64, height_m: f64) -> SpotObservation {
    SpotObservation { id: id.into(), at: [east, north], height_m, sigma_m: 0.01 }
}

/// The slope read along a bearing on a plane of slope `s` that falls towards `fall`.
fn apparent(s: f64, fall: f64, bearing: f64) -> f64 {
    -atan_deg(tan_deg(s) * cos_deg(turn_deg(fall, bearing)))
}

fn has(fit: &GroundFit, rule: &str, severity: Severity) -> bool {
    fit.findings.iter().any(|f| f.rule == rule && f.severity == severity)
}

#[test]
fn exact_readings_give_the_plane_back() {
    let slopes: Vec<_> = [10.0, 80.0, 200.0, 300.0].map(|b| slope(b, apparent(7.0, 225.0, b))).into();
    let fit = fit(&slopes, &[]);
    let plane = fit.ground.plane;
    assert_eq!(plane.height_0_m, 0.0);
    assert_eq!(plane.covariance[0], [0.0; 3]);
    assert!((plane.gradient[0] - tan_deg(7.0) * 0.5_f64.sqrt()).abs() < 1e-12);
    assert!((plane.gradient[1] - tan_deg(7.0) * 0.5_f64.sqrt()).abs() < 1e-12);
    assert_eq!((fit.kind, fit.degrees_of_freedom), (GroundModelKind::Plane, 2));
    assert!(fit.findings.is_empty(), "{:?}", fit.findings);
}

#[test]
fn two_readings_at_right_angles_keep_their_own_sigmas() {
    let fit = fit(&[slope(0.0, 0.0), slope(90.0, 0.0)], &[]);
    let c = fit.ground.plane.covariance;
    let variance = 0.3_f64.to_radians() * 0.3_f64.to_radians();
    assert!((c[1][1] - variance).abs() < 1e-15 && (c[2][2] - variance).abs() < 1e-15);
    assert!(has(&fit, "ground_without_check", Severity::Unchecked));
}

#[test]
fn nothing_measured_is_assumed_level_and_said() {
    for spots in [vec![], vec![spot("o", 0.0, 0.0, 0.0)]] {
        let fit = fit(&[], &spots);
        assert_eq!(fit.kind, GroundModelKind::AssumedLevel);
        assert_eq!(fit.ground.height([3.0, 4.0]), 0.0);
        assert!(has(&fit, "ground_not_measured", Severity::Unchecked));
        let sigma = fit.ground.plane.covariance[1][1].sqrt();
        assert!((sigma - tan_deg(10.0)).abs() < 1e-3);
    }
}

#[test]
fn one_reading_is_used_along_its_bearing_only() {
    let one = fit(&[slope(30.0, 6.0)], &[]);
    let g = one.ground.plane.gradient;
    assert!((g[0] - tan_deg(6.0) * 0.5).abs() < 1e-12 && (g[1] - tan_deg(6.0) * cos_deg(30.0)).abs() < 1e-12);
    assert!(has(&one, "cross_slope_not_measured", Severity::Unchecked));
    // Across it: ± 10°.
    let c = one.ground.plane.covariance;
    let (e, n) = (cos_deg(30.0), -0.5);
    let across = e * e * c[1][1] + 2.0 * e * n * c[1][2] + n * n * c[2][2];
    assert!((across.sqrt() - tan_deg(10.0)).abs() < 1e-9);
    // Up and down one line is still one line.
    let both = fit(&[slope(30.0, 6.0), slope(210.0, -6.0)], &[]);
    assert!(has(&both, "cross_slope_not_measured", Severity::Unchecked));
    assert_eq!(both.degrees_of_freedom, 1);
}

#[test]
fn the_misread_slope_is_named() {
    let mut slopes: Vec<_> =
        [0.0, 60.0, 120.0, 180.0, 240.0, 300.0].map(|b| slope(b, apparent(7.0, 225.0, b))).into();
    slopes[4].slope_deg = -slopes[4].slope_deg;
    let fit = fit(&slopes, &[]);
    let finding = fit.findings.iter().find(|f| f.rule == "reading_stands_out").unwrap();
    assert_eq!(finding.subject, crate::finding::Subject::Reading { id: "s240".into() });
    assert!(fit.readings[4].standardised.abs() > STANDS_OUT);
    // Disagreeing readings widen what is claimed.
    assert!(fit.ground.plane.covariance[1][1].sqrt() > 0.3_f64.to_radians());
}

#[test]
fn plane_spots_stay_a_plane_and_a_hump_makes_a_surface() {
    let at = [[6.0, 0.0], [0.0, 8.0], [7.0, 9.0], [-5.0, 3.0], [3.0, -6.0]];
    let mut spots: Vec<_> =
        at.iter().enumerate().map(|(i, &[x, y])| spot(&format!("p{i}"), x, y, 0.05 * x + 0.1 * y)).collect();
    let plane = fit(&[], &spots);
    assert_eq!(plane.kind, GroundModelKind::Plane);
    assert!(plane.ground.surface.is_none() && plane.ground.plane.height_0_m.abs() < 1e-12);
    spots[2].height_m += 0.3;
    let bent = fit(&[], &spots);
    assert_eq!(bent.kind, GroundModelKind::Surface);
    assert!((bent.ground.height([7.0, 9.0]) - 1.55).abs() < 1e-9);
    assert_eq!(bent.ground.height([0.0, 0.0]), 0.0);
    // All the others agree: it may well be a misreading.
    assert!(has(&bent, "spot_height_stands_out", Severity::Caution));
    spots[0].height_m -= 0.3;
    spots[4].height_m += 0.2;
    assert!(has(&fit(&[], &spots), "ground_not_plane", Severity::Note));
}

#[test]
fn unusable_readings_are_left_out_and_said() {
    let mut bad = slope(45.0, f64::NAN);
    bad.id = "bad".into();
    let fit = fit(&[slope(0.0, 1.0), slope(90.0, 2.0), bad], &[spot("z", f64::INFINITY, 0.0, 0.0)]);
    assert_eq!(fit.readings.len(), 2);
    assert_eq!(fit.findings.iter().filter(|f| f.rule == "reading_unusable").count(), 2);
}

/// Each of a reading's numbers by itself makes it useless: no bearing, no slope, no doubt or one without end, a wall.
#[test]
fn one_number_that_is_none_makes_a_reading_useless() {
    let good = || slope(0.0, 1.0);
    let bad = [
        SlopeObservation { bearing_true_deg: f64::NAN, ..good() },
        SlopeObservation { slope_deg: f64::INFINITY, ..good() },
        SlopeObservation { sigma_deg: f64::INFINITY, ..good() },
        SlopeObservation { sigma_deg: 0.0, ..good() },
        SlopeObservation { slope_deg: 89.5, ..good() },
        SlopeObservation { slope_deg: -89.5, ..good() },
    ];
    for bad in bad {
        let fit = fit(&[slope(90.0, 2.0), bad.clone()], &[]);
        assert_eq!(
            (fit.readings.len(), fit.findings.iter().filter(|f| f.rule == "reading_unusable").count()),
            (1, 1),
            "{bad:?}"
        );
    }
    let spot_of = |at: [f64; 2], height_m: f64, sigma_m: f64| {
        let mut spot = spot("s", at[0], at[1], height_m);
        spot.sigma_m = sigma_m;
        spot
    };
    for bad in [
        spot_of([f64::NAN, 0.0], 0.0, 0.01),
        spot_of([0.0, f64::INFINITY], 0.0, 0.01),
        spot_of([1.0, 0.0], f64::NAN, 0.01),
        spot_of([1.0, 0.0], 0.0, f64::INFINITY),
        spot_of([1.0, 0.0], 0.0, 0.0),
    ] {
        let fit = fit(&[slope(0.0, 1.0), slope(90.0, 2.0)], std::slice::from_ref(&bad));
        assert_eq!(
            (fit.readings.len(), fit.findings.iter().filter(|f| f.rule == "reading_unusable").count()),
            (2, 1),
            "{bad:?}"
        );
    }
}

/// What the plane answers to its readings is what it does when they are moved: a spot height, a slope, and the error that
/// the places of several spots share.
#[test]
fn the_plane_moves_with_its_readings_as_its_answers_say() {
    let slopes = vec![slope(20.0, 3.0), slope(110.0, -2.0)];
    // All on one plane, the two slopes square to each other: their weights, which go with the slope, then move nothing.
    let [up, aside] = [tan_deg(3.0), tan_deg(-2.0)];
    let gradient = [up * sin_deg(20.0) + aside * sin_deg(110.0), up * cos_deg(20.0) + aside * cos_deg(110.0)];
    let on_it = |id, east, north| spot(id, east, north, gradient[0] * east + gradient[1] * north);
    let spots =
        vec![on_it("a", 4.0, 1.0), on_it("b", -3.0, 5.0), on_it("c", 2.0, -6.0), on_it("d", -5.0, -4.0)];
    let loads = [vec![(0, 1.0), (1, 0.4)], vec![(0, -0.5)], vec![(1, 1.5)], vec![]];
    let of = loads.clone().map(|shared| SpotPlace { shared, ..SpotPlace::default() }).to_vec();
    let shared = DMatrix::from_row_slice(2, 2, &[4e-4, 1e-4, 1e-4, 9e-4]);
    let places = Places { of, shared, gradient: [0.0; 2] };
    let plane = |slopes: &[SlopeObservation], spots: &[SpotObservation]| {
        let plane = fit_placed(slopes, spots, &places).ground.plane;
        [plane.height_0_m, plane.gradient[0], plane.gradient[1]]
    };
    let answers = fit_placed(&slopes, &spots, &places).sensitivities;
    let before = plane(&slopes, &spots);
    let by = 1e-3;
    let agrees = |after: [f64; 3], answer: [f64; 3], within: f64| {
        for k in 0..3 {
            let moved = (after[k] - before[k]) / by;
            assert!((moved - answer[k]).abs() < within, "{k}: {moved} {}", answer[k]);
        }
    };
    for (number, answer) in answers.to_shared.iter().enumerate() {
        let mut moved = spots.clone();
        for (spot, load) in moved.iter_mut().zip(&loads) {
            load.iter().filter(|(of, _)| *of == number).for_each(|(_, load)| spot.height_m += load * by);
        }
        agrees(plane(&slopes, &moved), *answer, 1e-9);
    }
    for (i, answer) in answers.spots.iter().enumerate() {
        let mut moved = spots.clone();
        moved[i].height_m += by;
        agrees(plane(&slopes, &moved), *answer, 1e-9);
    }
    // A slope's answer is to one sigma of it, by its tangent.
    for (i, answer) in answers.slopes.iter().enumerate() {
        let mut moved = slopes.clone();
        moved[i].slope_deg += by * moved[i].sigma_deg;
        agrees(plane(&moved, &spots), *answer, 1e-5);
    }
}
