//! What `--json` prints against the schemas that are published of it, by a validator that knows nothing of us (JSON Schema,
//! draft 2020-12, as the crate `jsonschema` implements it).

use std::process::Command;

use jsonschema::Validator;
use serde_json::Value;

const PLAN: &str = include_str!("../../../docs/printed/plan.schema.json");
const RAISE_WAYS: &str = include_str!("../../../docs/printed/raise-ways.schema.json");
const PEG_OUT: &str = include_str!("../../../docs/printed/peg-out.schema.json");
const WORKSHOP: &str = include_str!("../../../docs/printed/workshop.schema.json");
const CARDS: &str = include_str!("../../../docs/printed/cards.schema.json");
const SEASON: &str = include_str!("../../../docs/printed/season.schema.json");
const PACK: &str = include_str!("../../../docs/printed/pack.schema.json");
const AGAIN: &str = include_str!("../../../docs/printed/again.schema.json");
const LIGHTS: &str = include_str!("../../../docs/printed/lights.schema.json");
const TENSION: &str = include_str!("../../../docs/printed/tension.schema.json");
const SITING: &str = include_str!("../../../docs/printed/siting.schema.json");
const SPREAD: &str = include_str!("../../../docs/printed/spread.schema.json");
const VIEW: &str = include_str!("../../../docs/printed/view.schema.json");
const SHOP: &str = include_str!("../../../docs/printed/shop.schema.json");
const CIRCLES: &str = include_str!("../../../docs/printed/circles.schema.json");
const WIND: &str = include_str!("../../../docs/printed/wind.schema.json");
/// A job that stands, and one that is the demo's: with stops, and with no limit of wind.
const YARDSTICK: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/data/yardstick-53a387c.json");

fn validator(schema: &str) -> Validator {
    let schema: Value = serde_json::from_str(schema).expect("the schema is JSON");
    assert!(jsonschema::meta::is_valid(&schema));
    jsonschema::validator_for(&schema).expect("the schema is a schema")
}

fn printed(arguments: &[&str]) -> Value {
    let output = Command::new(env!("CARGO_BIN_EXE_mastwright")).args(arguments).output().expect("it starts");
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|error| panic!("{arguments:?}: {error}: {}", String::from_utf8_lossy(&output.stderr)))
}

fn assert_described(schema: &str, arguments: &[&str]) -> Value {
    let value = printed(arguments);
    let errors: Vec<String> = validator(schema)
        .iter_errors(&value)
        .map(|error| format!("{}: {error}", error.instance_path()))
        .take(5)
        .collect();
    assert_eq!(errors, Vec::<String>::new(), "{arguments:?}");
    assert!(value.is_object(), "{arguments:?} has named members");
    value
}

#[test]
fn plan_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        assert_described(PLAN, &["plan", job, "--json"]);
    }
}

/// Also of a yard without a boundary, where there is no area.
#[test]
fn siting_prints_what_its_schema_says() {
    let few = ["--step", "1 m", "--plans", "200", "--json"];
    for job in ["--demo", YARDSTICK] {
        let value = assert_described(SITING, &[&["siting", job][..], &few].concat());
        let area = &value["area"];
        let cells = area["columns"].as_u64().unwrap() * area["rows"].as_u64().unwrap();
        let counted: u64 = area["runs"].as_array().unwrap().iter().map(|run| run[1].as_u64().unwrap()).sum();
        assert_eq!(counted, cells, "every cell is told of once");
    }
    let mut job: Value = serde_json::from_str(&std::fs::read_to_string(YARDSTICK).unwrap()).unwrap();
    job["yard"]["boundary"] = Value::Null;
    let path = std::env::temp_dir().join(format!("mastwright-siting-{}.json", std::process::id()));
    std::fs::write(&path, job.to_string()).unwrap();
    let value = assert_described(SITING, &[&["siting", path.to_str().unwrap()][..], &few].concat());
    assert_eq!((&value["end"], &value["area"]), (&Value::from("waits"), &Value::Null));
    let _ = std::fs::remove_file(&path);
}

/// Also of a job that has not said how its mast turns up, of which there is no way.
#[test]
fn raise_ways_prints_what_its_schema_says() {
    let value = assert_described(RAISE_WAYS, &["raise-ways", "--demo", "--json"]);
    let last = value["bearings"].as_array().unwrap().last().unwrap();
    assert!(last["to_deg"] == 359 && value["as_said"].is_object());
    let value = assert_described(RAISE_WAYS, &["raise-ways", YARDSTICK, "--json"]);
    assert_eq!((&value["bearings"], &value["best"]), (&serde_json::json!([]), &Value::Null));
    assert_eq!(value["waits_for"][0]["rule"], "raising_not_said");
}

/// From a standpoint of the job, from a mark, and from a place; one that is none says which there are.
#[test]
fn view_prints_what_its_schema_says() {
    let value = assert_described(VIEW, &["view", "--demo", "--from", "gate", "--json"]);
    assert!(value["things"].as_array().unwrap().len() > 10 && value["cone"]["strands"] == 21);
    for from in ["A", "3.5,-12"] {
        let arguments =
            ["view", YARDSTICK, "--from", from, "--toward", "200", "--floor", "9'", "--night", "--json"];
        let value = assert_described(VIEW, &arguments);
        assert!((value["standpoint"]["floor_height_m"].as_f64().unwrap() - 2.7432).abs() < 1e-9);
        assert_eq!(value["look"]["toward_deg"], 200.0);
    }
    let output = Command::new(env!("CARGO_BIN_EXE_mastwright"))
        .args(["view", "--demo", "--from", "nowhere", "--json"])
        .output()
        .expect("it starts");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(
        output.status.code() == Some(2) && said.contains("A, B or C") && said.contains("nowhere"),
        "{said}"
    );
}

/// The picture by itself is an SVG document, and the words are not in it.
#[test]
fn view_prints_its_picture() {
    let output = Command::new(env!("CARGO_BIN_EXE_mastwright"))
        .args(["view", "--demo", "--from", "step", "--out", "-"])
        .output()
        .expect("it starts");
    let svg = String::from_utf8(output.stdout).expect("text");
    assert!(svg.starts_with("<svg") && svg.ends_with("</svg>\n") && svg.contains("Mast"));
}

#[test]
fn peg_out_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        let value = assert_described(PEG_OUT, &["peg-out", job, "--json"]);
        assert_eq!(
            (&value["steps"][0]["key"], &value["test"]["state"]),
            (&"mast".into(), &"not_read".into())
        );
    }
}

#[test]
fn workshop_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        let value = assert_described(WORKSHOP, &["workshop", job, "--json"]);
        assert_eq!(value["fit"]["joints"][0]["tube"], 1);
    }
}

#[test]
fn cards_print_what_their_schema_says() {
    for job in ["--demo", YARDSTICK] {
        let value = assert_described(CARDS, &["cards", job, "--json"]);
        assert_eq!(value["phases"][0]["phase"], "base");
    }
}

#[test]
fn season_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        let value =
            assert_described(SEASON, &["season", job, "--now", "2026-11-22T10:00:00-05:00", "--json"]);
        assert!(value["guys"][0]["guy_id"].is_string() && value["next"]["late"] == false);
    }
}

#[test]
fn pack_and_again_print_what_their_schemas_say() {
    for job in ["--demo", YARDSTICK] {
        let list = assert_described(PACK, &["pack", job, "--json"]);
        assert!(list["items"].as_array().unwrap().len() > 10 && list["masses_missing"].as_u64() > Some(0));
        let place = assert_described(AGAIN, &["again", job, "--now", "2027-11-20T10:00:00-05:00", "--json"]);
        assert!(place["check"]["marks"].is_array() && place["north"]["kind"].is_string());
    }
}

#[test]
fn tension_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        let value = assert_described(TENSION, &["tension", job, "--json"]);
        assert_eq!(value["levels"][0]["guys"][0]["swings"]["swings"], 20);
    }
}

#[test]
fn lights_print_what_their_schema_says() {
    for job in ["--demo", YARDSTICK] {
        assert_described(LIGHTS, &["lights", job, "--json"]);
    }
    let demo = printed(&["lights", "--demo", "--json"]);
    assert_eq!(demo["lights"]["strands"][0]["number"], 1);
}

#[test]
fn shop_cut_and_circles_print_what_their_schemas_say() {
    for job in ["--demo", YARDSTICK] {
        let list = assert_described(SHOP, &["shop", job, "--begin", "2026-12-04", "--json"]);
        assert!(list["items"].as_array().unwrap().len() > 10 && list["steps"][0]["on"] == "2026-12-04");
        assert_described(SHOP, &["cut", job, "--json"]);
        assert_described(CIRCLES, &["circles", job, "--json"]);
    }
    let lots = printed(&["cut", "--demo", "--json"]);
    let state = |at: usize| lots["lots"][at]["plan"]["state"].clone();
    assert_eq!((&lots["lots"][0]["lot"]["material"], state(0)), (&"timber".into(), "planned".into()));
}

#[test]
fn spread_prints_what_its_schema_says() {
    for job in ["--demo", YARDSTICK] {
        assert_described(SPREAD, &["spread", job, "--draws", "200", "--json"]);
    }
}

#[test]
fn wind_prints_what_its_schema_says() {
    for arguments in [&["wind", YARDSTICK, "--json"][..], &["wind", YARDSTICK, "--lowered", "--json"]] {
        let value = assert_described(WIND, arguments);
        assert!(value["limit"].is_object() && value["table"].is_object(), "there is something to describe");
    }
}

/// A schema that takes everything describes nothing.
#[test]
fn a_member_too_many_or_too_few_is_refused() {
    let plan = printed(&["plan", "--demo", "--json"]);
    let validator = validator(PLAN);
    let members: Vec<String> = plan.as_object().expect("an object").keys().cloned().collect();
    let mut required = 0;
    for member in &members {
        let mut less = plan.clone();
        less.as_object_mut().expect("an object").remove(member);
        required += usize::from(!validator.is_valid(&less));
    }
    assert!(2 * required > members.len(), "{required} of {} members are missed", members.len());
    let mut more = plan.clone();
    more["more"] = 1.into();
    assert!(!validator.is_valid(&more));
    let mut other = plan;
    other["legs"] = "none".into();
    assert!(!validator.is_valid(&other));
}
