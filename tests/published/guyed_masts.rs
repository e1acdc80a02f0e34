//! McKenna, Scott & Fenves, OpenSees (Open System for Earthquake Engineering YardSpread), by openseespy 3.7.1:
//! whole guyed masts with corotational beams and guys as chains of corotational trusses. The script with its
//! versions is `scripts/guyed_masts_opensees.py`, its results `data/guyed_masts.json`.
//!
//! Within 0.5 %: top movement, largest moment, largest compression, guy tensions, base reaction; within 1 %:
//! buckling factor. Movements are held against the larger of the movement and 1 mm, vectors against their
//! length, both ends of a guy against the larger tension (a guy folded in the wind has a slack end of half a newton,
//! in a bend that no chain of trusses follows).

use mastwright_engine::structure::*;
use serde_json::Value;

use crate::guyed_mast::{fixture, loads, mast, number, vector};

fn length(a: [f64; 3]) -> f64 {
    a.iter().map(|x| x * x).sum::<f64>().sqrt()
}

fn difference(a: [f64; 3], b: [f64; 3]) -> f64 {
    length([0, 1, 2].map(|i| a[i] - b[i]))
}

/// The differences of one case, as shares.
fn differences(case: &Value, longest_element_m: f64) -> Vec<(String, f64)> {
    let model = Model::build(&mast(case, longest_element_m)).unwrap();
    let loads = loads(case, &model);
    let mut solver = Solver::new(&model);
    let outcome = solver.solve(&model, &loads);
    assert!(matches!(outcome, Outcome::Stands(_)), "{}: {outcome:?}", case["name"]);
    let (found, expected) = (solver.response(), &case["opensees"]);
    assert!(found.residual <= 1e-9, "{}", found.residual);
    let mut list = Vec::new();
    let mut add = |what: String, off: f64, of: f64| list.push((what, off / of));
    let top_m = vector(&expected["top_m"]);
    let top = found.nodes.last().unwrap().displacement_m;
    add("top".into(), difference(top, top_m), length(top_m).max(1e-3));
    let moment = number(&expected["largest_bending_n_m"]);
    add("moment".into(), (found.largest_bending_n_m() - moment).abs(), moment);
    let axial = number(&expected["largest_compression_n"]);
    add("compression".into(), (found.largest_compression_n() - axial).abs(), axial);
    let base = vector(&expected["base_force_n"]);
    add("base".into(), difference(found.base.force_n, base), length(base));
    for (i, (guy, expected)) in found.guys.iter().zip(expected["guys"].as_array().unwrap()).enumerate() {
        if expected.is_null() {
            assert_eq!(guy.tension_upper_n, 0.0);
            continue;
        }
        let (upper, lower) = (number(&expected["tension_upper_n"]), number(&expected["tension_lower_n"]));
        let larger = upper.max(lower);
        add(format!("guy {i} upper ({upper:.2} N)"), (guy.tension_upper_n - upper).abs(), larger);
        add(format!("guy {i} lower ({lower:.2} N)"), (guy.tension_lower_n - lower).abs(), larger);
        let anchor = vector(&expected["on_anchor_n"]);
        add(format!("guy {i} anchor"), difference(guy.on_anchor_n, anchor), larger);
    }
    let factor = buckling_factor(&solver, &model, &loads);
    if let Some(expected) = expected["buckling_factor"].as_f64() {
        let found = factor.unwrap();
        // Its limit is twice the others'.
        add(format!("buckling factor ({expected:.3})"), (found - expected).abs(), 2.0 * expected);
    }
    list
}

#[test]
fn agree_with_opensees() {
    let fixture = fixture();
    let cases = fixture["cases"].as_array().unwrap();
    assert!(cases.len() >= 20, "{}", cases.len());
    let mut wrong = Vec::new();
    for case in cases {
        let list = differences(case, 0.25);
        let worst = list.iter().max_by(|a, b| a.1.total_cmp(&b.1)).unwrap();
        println!("{:45} worst {:8.5} % ({})", case["name"].as_str().unwrap(), 100.0 * worst.1, worst.0);
        for (what, share) in list {
            if share > 0.005 || share.is_nan() {
                wrong.push(format!("{} {what}: {:.4} %", case["name"], 100.0 * share));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Elements of half a metre: the largest moment may lie between two nodes, by less than 1 % above them.
#[test]
fn half_metre_elements_will_do() {
    for case in fixture()["cases"].as_array().unwrap() {
        for (what, share) in differences(case, 0.5) {
            let limit = if what == "moment" { 0.01 } else { 0.005 };
            assert!(share <= limit, "{} {what}: {:.4} %", case["name"], 100.0 * share);
        }
    }
}
