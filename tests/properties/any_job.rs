//! Whatever document the reader lets through can be planned, drawn and put into words: no panic, and no number
//! that is not a number.

use mastwright_engine::demo::LANTERN_GREEN;
use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::drawing::{MapOptions, Paper, leg_profile, sheets, staking_map};
use mastwright_engine::job::read_job_value;
use mastwright_engine::plan::compute;
use mastwright_engine::report::{report, text};
use proptest::prelude::*;
use serde_json::{Value, json};

/// JSON pointers of all numbers of a value.
fn number_paths(value: &Value, path: &str, into: &mut Vec<String>) {
    match value {
        Value::Number(_) => into.push(path.to_owned()),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| number_paths(item, &format!("{path}/{i}"), into));
        }
        Value::Object(members) => {
            members.iter().for_each(|(name, item)| number_paths(item, &format!("{path}/{name}"), into));
        }
        _ => {}
    }
}

/// Where a value that should be a number is none: serde writes NaN and infinity as null. Fields that may be
/// null by right are those that are null in the untouched plan too, and the undetermined ones.
fn not_numbers(value: &Value, path: &str, into: &mut Vec<String>) {
    match value {
        Value::Null if path.ends_with("_m") || path.ends_with("_n") || path.ends_with("_hz") => {
            into.push(path.to_owned())
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| match item {
                Value::Null => into.push(format!("{path}/{i}")),
                item => not_numbers(item, &format!("{path}/{i}"), into),
            });
        }
        Value::Object(members) => {
            members.iter().for_each(|(name, item)| not_numbers(item, &format!("{path}/{name}"), into));
        }
        _ => {}
    }
}

/// Plans and draws it; what goes on paper only where that is asked for: the way up is swept for it, which is dear.
fn check(document: &Value, on_paper: bool) -> bool {
    let Ok(job) = read_job_value(document) else { return false };
    let Ok(computed) = compute(&job) else { return false };
    let plan = serde_json::to_value(&computed.plan).expect("a plan is JSON");
    let mut wrong = Vec::new();
    not_numbers(&plan, "", &mut wrong);
    // A peg in the ground has no fixing over it.
    wrong.retain(|path| !path.ends_with("/contour/foot_after_m") && !path.ends_with("/fixing_height_m"));
    assert!(
        wrong.is_empty(),
        "not a number: {wrong:?}\nplacement {}\nrig {}",
        document["placement"],
        document["rig"]
    );
    let map = staking_map(&job, &computed, &MapOptions::lettering(0.3));
    let drawn = serde_json::to_value((map, leg_profile(&job, &computed))).expect("a scene is JSON");
    let mut wrong = Vec::new();
    not_numbers(&drawn, "", &mut wrong);
    assert!(wrong.is_empty(), "not a number in a drawing: {wrong:?}");
    let document = on_paper.then(|| sheets(&job, &computed, &Wanted::on(Paper::A4)));
    for mark in document.iter().flat_map(|it| &it.pages).flat_map(|page| page.marks()) {
        let Some(extent) = mark.extent() else { continue };
        assert!([extent.x, extent.y, extent.w, extent.h].iter().all(|mm| mm.is_finite()), "{mark:?}");
    }
    let words = text(&report(&job, &computed));
    assert!(!words.contains("NaN") && !words.contains("inf "), "{words}");
    true
}

/// The demo, and the demo with another base, its levels of guys by other rules, and a hump in the ground.
fn documents() -> [Value; 2] {
    let demo: Value = serde_json::from_str(LANTERN_GREEN).expect("the demo is JSON");
    let mut other = demo.clone();
    other["rig"]["base"]["pattern"] = json!("x");
    other["rig"]["base"]["back_reach_m"] = json!(0.8);
    let mut upper = demo["rig"]["guy_levels"][1].clone();
    let mut lower = demo["rig"]["guy_levels"][0].clone();
    lower["attach_height_m"] = json!(2.4);
    lower["count"] = json!(4);
    let at = |east_m: f64, north_m: f64| json!({ "by": "coordinates", "east_m": east_m, "north_m": north_m });
    lower["anchor_layout"] = json!({ "rule": "free", "anchors": [at(-2.0, -16.0), at(-2.0, -22.0), at(-8.0, -22.0), at(-8.0, -16.0)] });
    upper["anchor_layout"] = json!({ "rule": "equal_angle", "angle_deg": 50 });
    other["rig"]["guy_levels"] = json!([lower, upper]);
    other["rig"]["strands"]["sweep_deg"] = json!(200);
    other["yard"]["spot_heights"][3]["height_m"] = json!(-1.2);
    other["units"]["system"] = json!("metric");
    [demo, other]
}

#[test]
fn both_documents_can_be_planned() {
    assert!(documents().iter().all(|document| check(document, true)));
}

fn changed(mut document: Value, changes: &[(usize, f64)]) -> Value {
    let mut paths = Vec::new();
    number_paths(&document, "", &mut paths);
    for (field, value) in changes {
        let path = &paths[field % paths.len()];
        if let Some(place) = document.pointer_mut(path) {
            *place = json!(value);
        }
    }
    document
}

fn values() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(0.0),
        Just(1.0),
        Just(-1.0),
        Just(359.999),
        Just(360.0),
        Just(-59.999),
        Just(59.999),
        Just(0.001),
        Just(2000.0),
        Just(-2000.0),
        Just(500.0),
        Just(1000.0),
        Just(1e-9),
        -10.0..10.0f64,
        -100.0..100.0f64,
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, max_global_rejects: 100_000, ..ProptestConfig::default() })]

    #[test]
    fn what_can_be_read_can_be_planned(
        changes in prop::collection::vec((0..10_000usize, values()), 1..5),
        on_paper in prop::bool::weighted(0.15),
    ) {
        for document in documents() {
            check(&changed(document, &changes), on_paper);
        }
    }
}

#[test]
fn each_number_at_each_extreme() {
    let [_, document] = documents();
    let mut paths = Vec::new();
    number_paths(&document, "", &mut paths);
    let extremes = [0.0, 0.3, 5.0, 59.999, 360.0, 2000.0, -0.001, -59.999, -2000.0];
    let mut planned = 0;
    for field in 0..paths.len() {
        for value in extremes {
            // Every third field on paper, each extreme for some of them.
            let on_paper = value == extremes[field % extremes.len()] && field % 3 == 0;
            planned += usize::from(check(&changed(document.clone(), &[(field, value)]), on_paper));
        }
    }
    assert!(planned > paths.len(), "most fields take some of these: {planned} of {}", paths.len());
}
