//! The published schema against JSON Schema: Core and Validation, draft 2020-12, as the independent crate
//! `jsonschema` implements it. It must take the demo, and it and our own reader must agree on what else to take.

use jsonschema::Validator;
use mastwright_engine::demo::LANTERN_GREEN;
use mastwright_engine::job::{JOB_SCHEMA, read_job_value};
use serde_json::{Value, json};

fn validator() -> Validator {
    let schema: Value = serde_json::from_str(JOB_SCHEMA).expect("the schema is JSON");
    jsonschema::options().should_validate_formats(true).build(&schema).expect("the schema is a schema")
}

fn demo() -> Value {
    serde_json::from_str(LANTERN_GREEN).expect("the demo is JSON")
}

enum Change {
    Set(&'static str, Value),
    Remove(&'static str),
}
use Change::{Remove, Set};

fn changed(change: &Change) -> Value {
    let mut document = demo();
    let (Set(pointer, _) | Remove(pointer)) = change;
    let (group, name) = pointer.rsplit_once('/').expect("a pointer has a slash");
    let group = document.pointer_mut(group).expect("the demo has this group");
    match (change, group) {
        (Set(_, value), Value::Object(members)) => {
            members.insert(name.to_owned(), value.clone());
        }
        (Set(_, value), Value::Array(items)) => {
            items[name.parse::<usize>().expect("an index")] = value.clone()
        }
        (Remove(_), Value::Object(members)) => {
            members.remove(name).expect("the demo has this field");
        }
        _ => panic!("{pointer} leads into neither group nor list"),
    }
    document
}

#[test]
fn the_demo_is_valid() {
    let faults: Vec<String> = validator().iter_errors(&demo()).map(|fault| fault.to_string()).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn the_schema_is_a_schema() {
    let schema: Value = serde_json::from_str(JOB_SCHEMA).expect("the schema is JSON");
    assert!(jsonschema::meta::is_valid(&schema));
}

#[test]
fn both_take_and_refuse_the_same_documents() {
    let taken = [
        Set("/name", json!("")),
        Remove("/notes"),
        Set("/mastwright_job", json!(3.0)),
        Set("/units/inch_fraction", json!(8.0)),
        Remove("/units/inch_fraction"),
        Remove("/yard/place"),
        Set("/yard/place", json!(null)),
        Set("/yard/surveyed_at", json!(null)),
        Remove("/log"),
        Remove("/as_built"),
        Set("/as_built", json!({})),
        Set("/as_built", json!({ "anchors": [{ "guy": "upper-1", "eye_height_m": 0.2 }] })),
        Set("/yard/surveyed_at", json!("2026-11-14T19:20:00Z")),
        Set("/yard/bearings", json!({ "kind": "true" })),
        Set("/yard/bearings", json!({ "kind": "magnetic" })),
        Remove("/yard/instruments"),
        Set("/yard/instruments", json!({ "slope_sigma_deg": 0.2 })),
        Set("/yard/slopes/0/slope_deg", json!(-0.0)),
        Set("/yard/slopes/0/slope_deg", json!(59.999)),
        Set("/yard/slopes/0/sigma_deg", json!(0.5)),
        Set("/yard/slopes", json!([])),
        Set("/rig/strands", json!(null)),
        Set("/rig/stakes/per_leg", json!(0)),
        // Documents from before there was a wind in them.
        Remove("/wind"),
        Remove("/yard/soil"),
        Remove("/rig/topper"),
        Remove("/rig/strands/cord"),
        Remove("/rig/tubes/1/joint"),
        Remove("/rig/guy_levels/0/anchor"),
        Remove("/rig/guy_levels/0/rope/strength"),
        Remove("/rig/base/foot_fixing"),
        Set("/wind", json!({ "ice_mm": 5 })),
        Set("/yard/soil", json!({ "kind": "sand", "feel": "loose" })),
        Set("/rig/guy_levels/0/anchor", json!({ "kind": "ballast", "mass_kg": 120 })),
        Set("/placement/front_bearing_deg", json!(360)),
    ];
    let refused = [
        Set("/mastwright_job", json!(4)),
        Set("/mastwright_job", json!("1")),
        Remove("/mastwright_job"),
        Remove("/yard"),
        Set("/colour", json!("red")),
        Set("/name", json!(7)),
        Set("/name", json!("x".repeat(201))),
        Set("/units/system", json!("furlongs")),
        Set("/units/inch_fraction", json!(5)),
        Set("/units/inch_fraction", json!(8.5)),
        Set("/yard/surveyed_at", json!("yesterday")),
        Set("/as_built", json!({ "legs": [{ "leg": "front" }] })),
        Set("/as_built", json!({ "anchors": [{ "guy": "upper-1", "eye_height_m": -0.2 }] })),
        Set("/log", json!([{ "number": 0 }])),
        Set("/yard/surveyed_at", json!("2026-11-14 19:20")),
        Set("/yard/marks", json!([])),
        Set("/yard/marks/0/at", json!({ "by": "magic" })),
        Set("/yard/marks/0/at", json!({ "by": "origin", "east_m": 1 })),
        Set("/yard/marks/0/at", json!("origin")),
        Set("/yard/marks/0/id", json!("")),
        Set("/yard/bearings", json!({ "kind": "true", "bearing_deg": 3 })),
        Set("/yard/slopes/0/slope_deg", json!(60)),
        Set("/yard/slopes/0/slope_deg", json!("7")),
        Set("/yard/slopes/0/slope_deg", json!(null)),
        Set("/yard/slopes/0/sigma_deg", json!(0)),
        Set("/yard/slopes/0/struck", json!(0)),
        Set("/yard/obstacles/1/shape/height_ft", json!(16)),
        Set("/yard/obstacles/1/shape/height_m", json!(1e308)),
        Set("/yard/obstacles/1/shape/kind", json!("post")),
        Set("/yard/overhead_lines/0/voltage_kv", json!(-1)),
        Set("/yard/overhead_lines/0/supports", json!([])),
        Set("/wind/terrain", json!("lunar")),
        Set("/wind/asked_gust_m_per_s", json!(200)),
        Set("/yard/soil", json!({ "kind": "sand" })),
        Set("/rig/guy_levels/0/anchor", json!({ "kind": "ballast", "mass_kg": 0 })),
        Set("/rig/topper/width_m", json!(9)),
        Set("/rig/tubes", json!({})),
        Set("/rig/tubes/0/length_m", json!(-3)),
        Remove("/rig/tubes/0/length_m"),
        Set("/rig/tubes/0/section/table", json!("lead")),
        Set("/rig/guy_levels/0/count", json!(5)),
        Set("/rig/guy_levels/0/anchor_layout", json!({ "rule": "free", "anchors": [] })),
        Set("/rig/strands/count", json!(70000)),
        Set("/rig/strands/count", json!(2.5)),
        Set("/placement", json!(null)),
        Set("/placement/front_bearing_deg", json!(360.001)),
        Set("/placement/mast/up_m", json!(0)),
    ];
    let validator = validator();
    for (changes, expected) in [(&taken[..], true), (&refused[..], false)] {
        for change in changes {
            let document = changed(change);
            let (Set(pointer, _) | Remove(pointer)) = change;
            assert_eq!(validator.is_valid(&document), expected, "the outside validator, {pointer}");
            let ours = read_job_value(&document);
            assert_eq!(ours.is_ok(), expected, "our reader, {pointer}: {ours:?}");
        }
    }
}
