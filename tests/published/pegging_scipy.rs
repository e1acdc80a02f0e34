//! What check tapes tell of a stake-out against SciPy's general least-squares solver: there every mark, peg and slope is an
//! unknown and every tape a reading; here all but the check tapes is in their covariance.
//! Fixture and versions: `scripts/pegging_scipy.py`, `data/pegging_scipy.json`.

use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::job::{Instruments, Side};
use mastwright_engine::numerics::least_squares::DMatrix;
use mastwright_engine::pegging::blunders::{CheckReading, StakeOutFound, known_blunders, told};
use mastwright_engine::pegging::network::{Network, SetBy, StakedPoint, tape_line};
use mastwright_engine::pegging::{Blunder, StakeOutState};
use serde_json::Value;

fn number(value: &Value) -> f64 {
    value.as_f64().expect("a number")
}

fn pair(value: &Value) -> [f64; 2] {
    [number(&value[0]), number(&value[1])]
}

fn whole(value: &Value) -> usize {
    usize::try_from(value.as_u64().expect("a whole number")).expect("a small one")
}

fn side(a: [f64; 2], b: [f64; 2], p: [f64; 2]) -> Side {
    let turn = (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    if turn > 0.0 { Side::Left } else { Side::Right }
}

fn network<'a>(of: &Value, ground: &'a Ground, instruments: &'a Instruments) -> Network<'a> {
    let marks = of["marks"].as_array().expect("marks");
    let variance = |row: usize| {
        let sigma = number(&of[if row < 2 { "prior_gradient" } else { "prior_mark_m" }]);
        sigma * sigma
    };
    let size = 2 + 2 * marks.len();
    let known = DMatrix::from_fn(size, size, |row, column| if row == column { variance(row) } else { 0.0 });
    let mut network = Network::new(ground, instruments, known);
    for (mark, at) in marks.iter().enumerate() {
        network.add(StakedPoint {
            key: format!("mark:{mark}"),
            at: pair(at),
            set_by: SetBy::Mark { number: mark },
        });
    }
    for (peg, it) in of["pegs"].as_array().expect("pegs").iter().enumerate() {
        let (at, from) = (pair(&it["at"]), [whole(&it["from"][0]), whole(&it["from"][1])]);
        let starts = from.map(|start| network.nodes()[start].at);
        let tapes_m = starts.map(|start| tape_line(ground, start, at).length_m);
        let side = side(starts[0], starts[1], at);
        network.add(StakedPoint {
            key: format!("peg:{peg}"),
            at,
            set_by: SetBy::Ties { from, tapes_m, side },
        });
    }
    network
}

/// A blunder by the name that the fixture has for it.
fn name(of: &Value, blunder: &Blunder) -> String {
    let peg = |key: &str| key.trim_start_matches("peg:").to_owned();
    match blunder {
        Blunder::Swapped { peg: key } => format!("swapped:{}", peg(key)),
        Blunder::WrongSide { peg: key } => format!("wrong_side:{}", peg(key)),
        Blunder::TapeOff { tape, .. } => format!("tape_off:{tape}"),
        Blunder::TieOff { peg: key, from, .. } => {
            let number: usize = peg(key).parse().expect("a number");
            let marks = of["marks"].as_array().expect("marks").len();
            let ends = &of["pegs"][number]["from"];
            let key_of = |node: usize| {
                if node < marks { format!("mark:{node}") } else { format!("peg:{}", node - marks) }
            };
            let tape = usize::from(key_of(whole(&ends[1])) == *from);
            format!("tie_off:{number}:{tape}")
        }
    }
}

fn by_m(blunder: &Blunder) -> Option<f64> {
    match blunder {
        Blunder::TieOff { by_m, .. } | Blunder::TapeOff { by_m, .. } => Some(*by_m),
        _ => None,
    }
}

fn expected(case: &Value) -> Option<String> {
    let which = &case["which"];
    match case["kind"].as_str().expect("a kind") {
        "sound" => None,
        "tie_off" => Some(format!("tie_off:{}:{}", whole(&which[0]), whole(&which[1]))),
        kind => Some(format!("{kind}:{}", whole(which))),
    }
}

#[test]
fn blunders_are_explained_as_by_a_solver_that_knows_no_covariance() {
    let text = include_str!("data/pegging_scipy.json");
    let of: Value = serde_json::from_str(text).expect("the fixture is JSON");
    let gradient = pair(&of["gradient"]);
    let plane = Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] };
    let ground = Ground { plane, surface: None };
    let instruments = Instruments {
        tape_sigma_m: number(&of["tape_sigma_m"]),
        tape_sigma_mm_per_m: number(&of["tape_sigma_mm_per_m"]),
        ..Instruments::default()
    };
    let network = network(&of, &ground, &instruments);
    let known = known_blunders(&network);
    assert_eq!(known.len(), 2 * of["pegs"].as_array().expect("pegs").len());
    for case in of["cases"].as_array().expect("cases") {
        let readings: Vec<CheckReading> = of["checks"]
            .as_array()
            .expect("checks")
            .iter()
            .zip(case["readings_m"].as_array().expect("readings"))
            .enumerate()
            .map(|(row, (ends, tape_m))| CheckReading {
                id: row.to_string(),
                from: whole(&ends[0]),
                to: whole(&ends[1]),
                tape_m: number(tape_m),
            })
            .collect();
        let StakeOutFound { state, chi_square, suspects, .. } = told(&network, &known, &readings);
        let Some(blunder) = expected(case) else {
            assert_eq!(state, StakeOutState::Agrees);
            // What is linear about the plan here is not linear there.
            let null = number(&case["null"]);
            assert!((chi_square - null).abs() < 0.03 * null + 0.05, "{chi_square} {null}");
            continue;
        };
        let best = suspects.first().unwrap_or_else(|| panic!("{blunder}: nothing is doubted"));
        assert_eq!(name(&of, &best.blunder), blunder);
        let (left, by_solver) = (chi_square - best.explains, number(&case["left"][&blunder]));
        // The covariance here is that about the plan; there the peg, metres off, has the one of where it stands.
        assert!((left - by_solver).abs() < 0.12 * by_solver + 0.3, "{blunder}: {left} {by_solver}");
        if let Some(by_m) = by_m(&best.blunder) {
            assert!((by_m - number(&case["by_m"])).abs() < 0.06, "{blunder}: {by_m}");
        }
    }
}
