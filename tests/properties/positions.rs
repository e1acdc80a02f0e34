//! Properties of the positions: points come back from the readings they would give, a turned yard gives turned
//! positions, and the 95 % ellipses hold what they claim.

use mastwright_engine::ground::Plane;
use mastwright_engine::job::{Mark, Measurement, PointFix, Side, TapeHeld, Yard};
use mastwright_engine::numerics::chi_square::CHI_SQUARE_95_2;
use mastwright_engine::quantity::{UnitSystem, Units, bearing};
use mastwright_engine::survey::NorthFrom;
use mastwright_engine::survey::north::NorthCorrection;
use mastwright_engine::survey::positions::{PositionEstimate, Positions};
use proptest::prelude::*;

const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };

fn plane(gradient: [f64; 2]) -> Plane {
    Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] }
}

fn north(add_to_reading_deg: f64) -> NorthCorrection {
    NorthCorrection { add_to_reading_deg, sigma_deg: 0.0, from: NorthFrom::True }
}

fn yard(marks: Vec<(&str, PointFix)>, measurements: Vec<Measurement>) -> Yard {
    let mut yard: Yard = serde_json::from_value(serde_json::json!({
        "bearings": { "kind": "true" },
        "marks": [],
    }))
    .unwrap();
    yard.tape_held = TapeHeld::AlongGround;
    yard.marks = marks.into_iter().map(|(id, at)| Mark { id: id.into(), name: String::new(), at }).collect();
    yard.measurements = measurements;
    yard
}

/// Tape along the plane between two plan points.
fn tape_m(gradient: [f64; 2], from: [f64; 2], to: [f64; 2]) -> f64 {
    let d = [to[0] - from[0], to[1] - from[1]];
    let rise = gradient[0] * d[0] + gradient[1] * d[1];
    (d[0] * d[0] + d[1] * d[1] + rise * rise).sqrt()
}

fn bearing_deg(from: [f64; 2], to: [f64; 2]) -> f64 {
    bearing::of_vector(to[0] - from[0], to[1] - from[1])
}

fn polar(from: &str, bearing_deg: f64, tape_m: f64) -> PointFix {
    PointFix::BearingTape { from: from.into(), bearing_deg: bearing::wrap_360(bearing_deg), tape_m }
}

fn two_tapes(tape_a_m: f64, tape_b_m: f64, side: Side) -> PointFix {
    PointFix::TwoTapes { from_a: "B".into(), tape_a_m, from_b: "C".into(), tape_b_m, side: Some(side) }
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    tape_m([0.0, 0.0], a, b)
}

/// The true places of the marks B and C; A is the origin.
const B: [f64; 2] = [-24.0, 3.0];
const C: [f64; 2] = [-14.0, -26.0];

proptest! {
    /// Readings made from a point lead back to it, on any slope up to 45° and from either side.
    #[test]
    fn a_point_comes_back_from_its_readings(
        point in [-40.0..40.0, -40.0..40.0f64],
        gradient in [-0.7..0.7, -0.7..0.7f64],
    ) {
        let along = [C[0] - B[0], C[1] - B[1]];
        let off = along[0] * (point[1] - B[1]) - along[1] * (point[0] - B[0]);
        prop_assume!(off.abs() > 30.0 && distance(point, [0.0, 0.0]) > 0.5);
        let side = if off > 0.0 { Side::Left } else { Side::Right };
        let marks = vec![
            ("A", PointFix::Origin),
            ("B", polar("A", bearing_deg([0.0; 2], B), tape_m(gradient, [0.0; 2], B))),
            ("C", PointFix::Coordinates { east_m: C[0], north_m: C[1] }),
        ];
        let (positions, _) = Positions::new(&yard(marks, vec![]), &north(0.0), &plane(gradient), METRIC).unwrap();
        let crossed = two_tapes(tape_m(gradient, B, point), tape_m(gradient, C, point), side);
        prop_assert!(distance(positions.locate(&crossed, "").unwrap().at, point) < 1e-6);
        let sighted = polar("A", bearing_deg([0.0; 2], point), tape_m(gradient, [0.0; 2], point));
        prop_assert!(distance(positions.locate(&sighted, "").unwrap().at, point) < 1e-9);
    }

    /// Another north turns every place about the origin and leaves the size of every ellipse.
    #[test]
    fn a_turned_yard_gives_turned_positions(
        turn_deg in 0.0..360.0f64,
        gradient in [-0.4..0.4, -0.4..0.4f64],
        misread_m in -0.3..0.3f64,
    ) {
        let turned = |v: [f64; 2]| {
            let (e, n) = (bearing::unit(turn_deg + 90.0), bearing::unit(turn_deg));
            [v[0] * e[0] + v[1] * n[0], v[0] * e[1] + v[1] * n[1]]
        };
        let survey = |add_deg: f64, gradient: [f64; 2]| {
            let marks = vec![("A", PointFix::Origin), ("B", polar("A", 277.0, 24.0)), ("C", polar("A", 208.0, 30.0))];
            let tape = Measurement::Tape {
                id: "M".into(), from: "B".into(), to: "C".into(), tape_m: 31.0 + misread_m, struck: false,
            };
            let yard = yard(marks, vec![tape]);
            let (positions, _) = Positions::new(&yard, &north(add_deg), &plane(gradient), METRIC).unwrap();
            positions.locate(&two_tapes(25.0, 22.0, Side::Left), "").unwrap()
        };
        let (straight, turned_point) = (survey(0.0, gradient), survey(turn_deg, turned(gradient)));
        prop_assert!(distance(turned(straight.at), turned_point.at) < 1e-8);
        let axes = |located: &PositionEstimate| {
            let ellipse = Positions::ellipse_95(located);
            [ellipse.semi_major_m, ellipse.semi_minor_m]
        };
        prop_assert!(distance(axes(&straight), axes(&turned_point)) < 1e-8);
    }
}

/// Normal deviates that are the same on every run: SplitMix64 (Steele, Lea & Flood 2014) and Box–Muller.
struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn around(&mut self, middle: f64, sigma: f64) -> f64 {
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        middle + sigma * radius * (std::f64::consts::TAU * self.uniform()).cos()
    }
}

/// Whether the truth lies in the 95 % ellipse.
fn holds(located: &PositionEstimate, truth: [f64; 2]) -> bool {
    let d = [truth[0] - located.at[0], truth[1] - located.at[1]];
    let [[a, b], [_, c]] = located.covariance;
    (c * d[0] * d[0] - 2.0 * b * d[0] * d[1] + a * d[1] * d[1]) / (a * c - b * b) <= CHI_SQUARE_95_2
}

/// The same yard surveyed 4000 times with readings that scatter by the instruments' own sigmas, the slope's
/// included. A true coverage of 95 % would scatter by 0.35 %. Found: 94.6, 93.9 and 93.5 %. What is missing is the
/// curve on which a bearing of 2° sigma swings a point 36 m off: a banana that no ellipse fits. Its mean square
/// is in the covariance; without that the third figure would be 89 %.
#[test]
fn ellipses_hold_what_they_claim() {
    let (gradient, gradient_sigma) = ([0.10, 0.06], 0.005);
    let point = [-30.0, -20.0];
    let mut normal = Normal(2026);
    let surveys = 4000;
    let mut held = [0, 0, 0]; // mark B, the point by two tapes, the point by bearing and tape
    for _ in 0..surveys {
        let mut taped = |from: [f64; 2], to: [f64; 2]| {
            let length = tape_m(gradient, from, to);
            normal.around(length, (0.01_f64 * 0.01 + 0.001 * 0.001 * length * length).sqrt())
        };
        let tapes = [([0.0; 2], B), ([0.0; 2], C), (B, C), (B, point), (C, point), ([0.0; 2], point)]
            .map(|(from, to)| taped(from, to));
        let mut sighted = |to: [f64; 2]| normal.around(bearing_deg([0.0; 2], to), 2.0);
        let bearings = [B, C, point].map(&mut sighted);
        let mut seen = plane(gradient.map(|component| normal.around(component, gradient_sigma)));
        seen.covariance[1][1] = gradient_sigma * gradient_sigma;
        seen.covariance[2][2] = gradient_sigma * gradient_sigma;

        let marks = vec![
            ("A", PointFix::Origin),
            ("B", polar("A", bearings[0], tapes[0])),
            ("C", polar("A", bearings[1], tapes[1])),
        ];
        let surplus = Measurement::Tape {
            id: "M".into(),
            from: "B".into(),
            to: "C".into(),
            tape_m: tapes[2],
            struck: false,
        };
        let (positions, _) = Positions::new(&yard(marks, vec![surplus]), &north(0.0), &seen, METRIC).unwrap();
        let crossed = positions.locate(&two_tapes(tapes[3], tapes[4], Side::Right), "").unwrap();
        let polar = positions.locate(&polar("A", bearings[2], tapes[5]), "").unwrap();
        held[0] += usize::from(holds(positions.mark("B").unwrap(), B));
        held[1] += usize::from(holds(&crossed, point));
        held[2] += usize::from(holds(&polar, point));
    }
    let shares = held.map(|held| held as f64 / f64::from(surveys));
    for share in shares {
        assert!((0.93..=0.965).contains(&share), "{shares:?}");
    }
}
