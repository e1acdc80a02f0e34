//! Irvine, H. M., Cable Structures, MIT Press 1981, ch. 2: the elastic catenary.
//! (The book was not at hand; the equations are from memory, and every value below was computed outside this
//! project by two independent solvers.)

use mastwright_engine::structure::catenary::{Catenary, Span};

const LBF_N: f64 = 4.448_221_615_260_5;
const FOOT_M: f64 = 0.3048;

fn near(what: &str, value: f64, expected: f64, tolerance: f64) {
    assert!((value - expected).abs() <= tolerance, "{what}: {value} against {expected} ± {tolerance}");
}

fn rope(span_m: f64, rise_m: f64, unstressed_m: f64, weight_n_per_m: f64, stiffness_n: f64) -> Catenary {
    Span { span_m, rise_m, weight_n_per_m, stiffness_n }.with_unstressed_length(unstressed_m).unwrap()
}

/// Computed with Irvine's equations by scipy and with the open-source library pycatenary; 0.05 N.
#[test]
fn case_a_level_cable() {
    let rope = rope(100.0, 0.0, 102.0, 50.0, 5.0e7);
    near("H", rope.horizontal_n, 7210.52, 0.05);
    near("V", rope.vertical_top_n, 2550.00, 0.05);
    near("T", rope.tension_top_n, 7648.14, 0.05);
    near("T at the other end", rope.tension_bottom_n, 7648.14, 0.05);
}

/// As case A; 0.001 N.
#[test]
fn case_b_taut_guy() {
    let rope = rope(8.0, 10.0, 12.79, 0.30, 1.2e5);
    near("H", rope.horizontal_n, 95.991, 0.001);
    near("V top", rope.vertical_top_n, 121.913, 0.001);
    near("V bottom", -rope.vertical_bottom_n(), 118.076, 0.001);
    near("T top", rope.tension_top_n, 155.168, 0.001);
    near("T bottom", rope.tension_bottom_n, 152.172, 0.001);
}

/// Irvine's equations by scipy alone; 0.001 N.
#[test]
fn case_c_wire_guy() {
    let rope = rope(10.0, 10.0, 14.14, 1.1, 1.8e6);
    near("H", rope.horizontal_n, 245.451, 0.001);
    near("V", rope.vertical_top_n, 253.269, 0.001);
    near("T top", rope.tension_top_n, 352.691, 0.001);
    near("T bottom", rope.tension_bottom_n, 341.694, 0.001);
    // Backwards: the tension gives the length.
    let back = rope.span.with_upper_tension(352.691).unwrap();
    near("L0", back.unstressed_m, 14.14, 1e-7);
}

/// Beer & Johnston, Vector Mechanics for Engineers: Statics, Sample Problem 7.10 (from memory, re-computed):
/// 3 lb/ft over 500 ft level, sag 100 ft: c = 327.93 ft, T from 983.8 to 1283.8 lb, length 549.86 ft. It does
/// not stretch: here EA is a thousand million times the weight. The book rounds to three figures; the unrounded
/// values hold to 0.1 lb and 0.02 ft.
#[test]
fn beer_and_johnston_7_10_is_the_limit_without_stretch() {
    let rope = rope(500.0 * FOOT_M, 0.0, 549.86 * FOOT_M, 3.0 * LBF_N / FOOT_M, 9e11);
    near("least tension, lb", rope.horizontal_n / LBF_N, 983.8, 0.1);
    near("largest tension, lb", rope.tension_top_n / LBF_N, 1283.8, 0.1);
    near("sag, ft", rope.sag_m() / FOOT_M, 100.0, 0.02);
    near("c, ft", rope.horizontal_n / rope.span.weight_n_per_m / FOOT_M, 327.93, 0.04);
}

/// The same book, Sample Problem 7.9 (from memory): 0.75 kg/m over 40 m with 0.5 m of sag, as a parabola:
/// 2943 N at the middle. Parabola and catenary differ by some 0.1 % there.
#[test]
fn beer_and_johnston_7_9_the_parabola_of_a_taut_cable() {
    let weight_n_per_m = 0.75 * 9.81; // the book's g
    let rope = rope(40.0, 0.0, 40.0 * (1.0 + 8.0 / 3.0 * (0.5 / 40.0_f64).powi(2)), weight_n_per_m, 9e11);
    near("H", rope.horizontal_n, 2943.0, 3.0);
    near("sag", rope.sag_m(), 0.5, 0.0005);
}

/// Equilibrium integrated numerically by scipy, no catenary formula used: `scripts/elastic_catenary_scipy.py`
/// (versions in the file). 1e-6 relative.
#[test]
fn thirty_two_ropes_integrated_by_scipy() {
    let fixture: serde_json::Value =
        serde_json::from_str(include_str!("elastic_catenary_scipy.json")).unwrap();
    let cases = fixture["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 32);
    for case in cases {
        let get = |name: &str| case[name].as_f64().unwrap();
        let length = get("unstressed_m");
        let rope = rope(get("span_m"), get("rise_m"), length, get("weight_n_per_m"), get("stiffness_n"));
        let scale = get("horizontal_n").hypot(get("vertical_top_n"));
        near("H", rope.horizontal_n, get("horizontal_n"), 1e-6 * scale);
        near("V", rope.vertical_top_n, get("vertical_top_n"), 1e-6 * scale);
        near("T", rope.tension_top_n, scale, 1e-6 * scale);
        near("stretched length", rope.stretched_m, get("stretched_m"), 1e-9 * length);
        if rope.length_rates().per_tension_m_per_n < 0.0 {
            let back = rope.span.with_upper_tension(scale).unwrap();
            near("L0", back.unstressed_m, length, 1e-8 * length);
        }
    }
}
