//! Turning the mast up against a program of its own: what it sweeps by dense sampling in space and by Shapely, rope lengths
//! by Rodrigues' rotation, how it lies by halving.
//! Fixture and versions: `scripts/raising_shapely.py`, `data/raising_shapely.json`.

use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::raising::SweptPart;
use mastwright_engine::raising::body::{Moving, StiffPiece, TurningRope, nearest_on_way};
use mastwright_engine::raising::certified::WITHIN_M;
use mastwright_engine::raising::guys::{GuyToTilt, extremes, length_at};
use mastwright_engine::raising::lying::{LyingMast, lying_deg};
use mastwright_engine::raising::motion::TiltMotion;
use mastwright_engine::yard::solid::Solid;
use serde_json::Value;

fn fixture() -> Value {
    serde_json::from_str(include_str!("data/raising_shapely.json")).expect("the fixture reads")
}

fn all(of: &str) -> Vec<Value> {
    fixture()[of].as_array().expect("a list").clone()
}

pub(crate) fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

pub(crate) fn point<const N: usize>(value: &Value) -> [f64; N] {
    std::array::from_fn(|axis| number(&value[axis]))
}

fn turn(case: &Value) -> TiltMotion {
    TiltMotion::about(point(&case["hinge"]), number(&case["bearing_deg"]))
}

pub(crate) fn solid(value: &Value) -> Solid {
    match value["kind"].as_str().expect("a kind") {
        "upright" => Solid::Upright {
            a: point(&value["a"]),
            b: point(&value["b"]),
            radius_m: number(&value["radius_m"]),
            z0: value["z0"].as_f64().unwrap_or(f64::NEG_INFINITY),
            z1: number(&value["z1"]),
        },
        "prism" => Solid::Prism {
            outline: value["outline"].as_array().expect("corners").iter().map(point).collect(),
            top_z: number(&value["top_z"]),
        },
        _ => {
            Solid::Curtain { a: point(&value["a"]), b: point(&value["b"]), half_m: number(&value["half_m"]) }
        }
    }
}

fn moving(case: &Value) -> Box<dyn Moving> {
    if case["eye"].is_array() {
        let part = SweptPart::Rope { guy: String::new() };
        return Box::new(TurningRope { part, eye: point(&case["eye"]), collar: point(&case["collar"]) });
    }
    let ends = [point(&case["ends"][0]), point(&case["ends"][1])];
    Box::new(StiffPiece { part: SweptPart::Mast, ends, radius_m: number(&case["radius_m"]) })
}

/// Sampling never finds less than there is, but for a strip of a wire; the engine never says more. Both know it to a few
/// millimetres.
#[test]
fn what_it_sweeps_is_what_sampling_and_shapely_find() {
    const SAMPLED_M: f64 = 0.012;
    let (mut touching, mut clear) = (0, 0);
    for (number_of, case) in all("sweeps").iter().enumerate() {
        let solid = solid(&case["solid"]);
        let bounds = solid.bounds();
        let way = [number(&case["lying_deg"]), 90.0];
        let found =
            nearest_on_way(moving(case).as_ref(), &turn(case), way, &[(solid, bounds)], f64::INFINITY);
        let found_m = found.expect("there is a thing").distance_m;
        for by in ["by_positions_m", "by_swept_plane_m"] {
            let Some(other_m) = case[by].as_f64() else { continue };
            assert!(
                found_m <= other_m + 1e-4 && found_m >= other_m - SAMPLED_M - WITHIN_M,
                "{number_of} {by}: {found_m} {other_m}\n{case:#}"
            );
        }
        if found_m <= 0.0 { touching += 1 } else { clear += 1 }
    }
    assert!(touching > 10 && clear > 40, "{touching} {clear}");
}

#[test]
fn ropes_are_as_long_as_turned_vectors() {
    for case in all("ropes") {
        let turn = turn(&case);
        let (eye, collar) = (point(&case["eye"]), point(&case["collar"]));
        let guy = GuyToTilt { id: String::new(), name: String::new(), eye, collar, gives_m: 0.0 };
        let lengths = case["lengths_m"].as_array().expect("lengths");
        assert_eq!(lengths.len(), 19);
        for (step, length) in (0..).zip(lengths) {
            let found = length_at(&turn, &guy, 5.0 * f64::from(step));
            assert!((found - number(length)).abs() < 1e-6, "{found} {length}");
        }
        let [least_m, most_m] = extremes(&turn, &guy, 0.0);
        assert!((least_m - number(&case["least_m"])).abs() < 1e-6, "{least_m} {case}");
        assert!((most_m - number(&case["most_m"])).abs() < 1e-6, "{most_m} {case}");
    }
}

#[test]
fn it_lies_as_low_as_halving_finds() {
    for case in all("lying") {
        let gradient = point(&case["gradient"]);
        let plane = Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] };
        let ground = Ground { plane, surface: None };
        let turn = TiltMotion::about([0.0, 0.0, number(&case["hinge_up_m"])], number(&case["bearing_deg"]));
        let of = |name: &str| number(&case[name]);
        let mast = LyingMast {
            axis_m: of("axis_m"),
            radius_m: of("radius_m"),
            length_m: of("length_m"),
            rest_height_m: of("rest_m"),
        };
        let found = lying_deg(&turn, &mast, &ground, &[]);
        assert!((found - of("lying_deg")).abs() < 0.02, "{found} {case}");
    }
}
