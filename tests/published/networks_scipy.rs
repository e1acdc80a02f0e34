//! The network's adjustment against SciPy's general least-squares solver, which knows nothing of surveying.
//! Fixture and versions: `scripts/network_scipy.py`, `data/networks_scipy.json`.

use mastwright_engine::survey::adjustment::{NetworkPoint, Observation, adjust};
use serde_json::Value;

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn observation(reading: &Value, gradient: [f64; 2]) -> Observation {
    let point = |i: usize| reading["points"][i].as_u64().unwrap() as usize;
    let (value, sigma) = (number(&reading["values"][0]), number(&reading["sigma"]));
    match reading["kind"].as_str().unwrap() {
        "tape" => Observation::Distance {
            from: point(0),
            to: point(1),
            distance_m: value,
            gradient,
            sigma_m: sigma,
        },
        "level_tape" => Observation::Distance {
            from: point(0),
            to: point(1),
            distance_m: value,
            gradient: [0.0; 2],
            sigma_m: sigma,
        },
        "bearing" => {
            Observation::Bearing { from: point(0), to: point(1), bearing_deg: value, sigma_deg: sigma }
        }
        "along" => Observation::Along {
            from: point(0),
            to: point(1),
            point: point(2),
            along_m: value,
            gradient,
            sigma_m: sigma,
        },
        "left" => Observation::Left {
            from: point(0),
            to: point(1),
            point: point(2),
            left_m: value,
            gradient,
            sigma_m: sigma,
        },
        "coordinates" => {
            Observation::Coordinates { point: point(0), at: pair(&reading["values"]), sigma_m: sigma }
        }
        other => panic!("{other}"),
    }
}

/// Places to a hundredth of a millimetre, covariances to a millionth of the largest of them (the solver's own
/// derivatives are differences), χ² to a millionth.
#[test]
fn seven_networks_come_out_as_scipy_has_them() {
    let fixture: Value = serde_json::from_str(include_str!("data/networks_scipy.json")).unwrap();
    let networks = fixture["networks"].as_array().unwrap();
    assert!(networks.len() >= 6);
    for network in networks {
        let name = network["name"].as_str().unwrap();
        let gradient = pair(&network["gradient"]);
        let approximate = network["approximate"].as_array().unwrap().iter().enumerate();
        let points: Vec<NetworkPoint> =
            approximate.map(|(i, at)| NetworkPoint { at: pair(at), fixed: i == 0 }).collect();
        let readings = network["readings"].as_array().unwrap();
        let observations: Vec<Observation> =
            readings.iter().map(|reading| observation(reading, gradient)).collect();
        let adjusted = adjust(&points, &observations).unwrap();
        for (i, at) in adjusted.points.iter().enumerate() {
            let expected = pair(&network["points"][i]);
            let off_m = (at[0] - expected[0]).hypot(at[1] - expected[1]);
            assert!(off_m < 1e-5, "{name}: point {i} is {off_m} m off");
        }
        let joint = adjusted.joint.as_ref().unwrap();
        let expected = network["covariance"].as_array().unwrap();
        let cells = || (0..expected.len()).flat_map(|i| (0..expected.len()).map(move |j| (i, j)));
        let largest = cells().map(|(i, j)| number(&expected[i][j]).abs()).fold(0.0, f64::max);
        for (i, j) in cells() {
            let off = (joint[(2 + i, 2 + j)] - number(&expected[i][j])).abs();
            assert!(off < 1e-6 * largest, "{name}: cell {i} {j} is {off} off of {largest}");
        }
        let rows: usize = readings.iter().map(|reading| reading["values"].as_array().unwrap().len()).sum();
        let chi_square = adjusted.variance_factor.unwrap_or(0.0) * adjusted.degrees_of_freedom as f64;
        assert_eq!(adjusted.degrees_of_freedom, rows - expected.len(), "{name}");
        let off = (chi_square - number(&network["chi_square"])).abs();
        assert!(off < 1e-6 * (1.0 + chi_square), "{name}: {chi_square}");
    }
}
