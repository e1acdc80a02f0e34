//! The native engine and the browser's engine give the same answers, byte for byte.
//!
//! Node stands for the browser: both run wasm in V8, and wasm's arithmetic is fixed to the last bit for every
//! operation but the sign and payload of a NaN (WebAssembly Core Specification 2.0, section 4.3.3).

use std::io::Write;
use std::process::{Command, Stdio};

use serde_json::{Value, json};

/// Requests that run the whole engine: the demo as it is, turned, and moved, with pictures and words.
fn requests() -> Vec<(&'static str, String)> {
    let demo: Value = serde_json::from_str(&mastwright_api::call("demo", "{}")).unwrap();
    let job = &demo["ok"];
    let plan = |job: &Value| {
        json!({ "job": job, "map": { "text_m": 0.4 }, "profile": true, "report": true }).to_string()
    };
    let mut asked = vec![
        ("demo", "{}".to_owned()),
        ("plan", plan(job)),
        ("check", json!({ "job": job }).to_string()),
        ("no_such_operation", "{}".to_owned()),
    ];
    for turn in 1..24 {
        let mut turned = job.clone();
        turned["placement"]["front_bearing_deg"] = json!(f64::from(turn) * 14.7);
        asked.push(("plan", plan(&turned)));
    }
    asked.extend(long_sums(job));
    asked
}

/// The requests that iterate, draw by chance or solve: where two ways of rounding would drift apart the farthest.
fn long_sums(job: &Value) -> Vec<(&'static str, String)> {
    let mut asked = vec![
        ("wind_capacity", json!({ "job": job }).to_string()),
        ("spread", json!({ "job": job, "draws": 200, "seed": 7 }).to_string()),
    ];
    for height in ["raised", "lowered"] {
        for from_deg in [0.0, 77.0, 201.5] {
            let question =
                json!({ "job": job, "height": height, "gust_m_per_s": 18.5, "from_deg": from_deg });
            asked.push(("wind_table", question.to_string()));
        }
    }
    let step = |tape_m: f64, rise: Value| json!({ "tape_m": tape_m, "rise": rise });
    let steps = [
        step(2.0, json!({ "by": "height", "rise_m": -0.23 })),
        step(1.7, json!({ "by": "slope", "slope_deg": 3.7 })),
        step(2.4, json!({ "by": "rod", "before_m": 0.83, "here_m": 1.4 })),
    ];
    let walk = json!({ "from": "A", "along": { "by": "bearing", "bearing_deg": 238.0 }, "steps": steps });
    asked.push(("walk_line", json!({ "job": job, "walk": walk }).to_string()));
    // The day it goes up, the season, and next year: forces by angle, gusts of every stage, lights, diary, the field's change.
    let now = "2027-11-20T09:00:00-05:00";
    for operation in ["cards", "lights", "packing", "shares", "workshop", "shopping", "circles"] {
        asked.push((operation, json!({ "job": job }).to_string()));
    }
    asked.push(("season", json!({ "job": job, "now": now }).to_string()));
    let mut then = job.clone();
    then["yard"]["slopes"][0]["slope_deg"] = json!(1.0);
    asked.push(("same_place", json!({ "job": job, "now": now, "before": then }).to_string()));
    asked
}

/// Without the other engine: a refused request would make the comparison below worth nothing.
#[test]
fn the_native_engine_answers_the_long_sums() {
    let demo: Value = serde_json::from_str(&mastwright_api::call("demo", "{}")).unwrap();
    for (operation, request) in long_sums(&demo["ok"]) {
        let answer = mastwright_api::call(operation, &request);
        assert!(answer.starts_with("{\"ok\""), "{operation}: {answer}");
    }
}

#[test]
#[ignore = "needs the wasm engine and Node: `cargo xtask test` builds them and runs this"]
fn native_and_wasm_give_the_same_bytes() {
    let folder = std::env::var("MASTWRIGHT_NODE_WASM").expect("`cargo xtask test` sets it");
    let asked = requests();
    let from_wasm = ask_node(&folder, &asked);
    assert_eq!(from_wasm.len(), asked.len());
    let mut answered = 0;
    for ((operation, request), wasm) in asked.iter().zip(from_wasm) {
        let native = mastwright_api::call(operation, request);
        answered += usize::from(native.starts_with("{\"ok\""));
        assert!(native == wasm, "{operation} differs: {}", first_difference(&native, &wasm));
    }
    // Two engines that both refuse would agree on nothing.
    assert_eq!(answered, asked.len() - 1, "all but the unknown operation are answered");
}

/// The sheets as pictures, and their PDF to its last byte.
#[test]
#[ignore = "needs the wasm engine and Node: `cargo xtask test` builds them and runs this"]
fn native_and_wasm_print_the_same_bytes() {
    let folder = std::env::var("MASTWRIGHT_NODE_WASM").expect("`cargo xtask test` sets it");
    let demo: Value = serde_json::from_str(&mastwright_api::call("demo", "{}")).unwrap();
    let order = |paper: &str| {
        let made_at = "2026-11-26T14:20:00-05:00";
        json!({ "job": demo["ok"], "paper": paper, "made_at": made_at, "author": "A. Builder" }).to_string()
    };
    let asked = [
        ("sheets", order("a4")),
        ("sheets", order("tabloid")),
        ("pdf", order("a4")),
        ("pdf", order("letter")),
        ("pdf", "{}".to_owned()),
    ];
    let from_wasm = ask_node_for(&folder, "paper.mjs", &asked);
    assert_eq!(from_wasm.len(), asked.len());
    for ((operation, request), wasm) in asked.iter().zip(from_wasm) {
        let native = if *operation == "pdf" {
            match mastwright_paper::sheets_pdf(request) {
                Ok(bytes) => bytes.iter().map(|byte| format!("{byte:02x}")).collect(),
                Err(refused) => refused,
            }
        } else {
            mastwright_api::call_on_paper(operation, request)
        };
        assert!(
            native.len() > 50 && native == wasm,
            "{operation} differs: {}",
            first_difference(&native, &wasm)
        );
    }
}

/// The module that a browser loads first holds a job in hand and answers as the whole engine does.
#[test]
#[ignore = "needs the wasm engine and Node: `cargo xtask test` builds them and runs this"]
fn the_first_module_gives_the_same_bytes() {
    let folder = std::env::var("MASTWRIGHT_NODE_WASM").expect("`cargo xtask test` sets it");
    let demo: Value = serde_json::from_str(&mastwright_api::call("demo", "{}")).unwrap();
    let job = &demo["ok"];
    let mut asked = vec![
        ("demo", "{}".to_owned()),
        ("first_plan", json!({ "job": job, "map": { "text_m": 0.4 } }).to_string()),
        ("hold_job", json!({ "job": job, "name": "a" }).to_string()),
    ];
    for turn in 1..24 {
        let mut placement = job["placement"].clone();
        placement["front_bearing_deg"] = json!(f64::from(turn) * 14.7);
        let request = json!({ "held": "a", "placement": placement, "map": { "text_m": 0.4 } });
        asked.push(("place", request.to_string()));
    }
    let from_wasm = ask_node_for(&folder, "map.mjs", &asked);
    assert_eq!(from_wasm.len(), asked.len());
    let mut session = mastwright_api::Session::default();
    for ((operation, request), wasm) in asked.iter().zip(from_wasm) {
        let native = session.call(operation, request);
        assert!(native.starts_with("{\"ok\""), "{operation}: {native}");
        assert!(native == wasm, "{operation} differs: {}", first_difference(&native, &wasm));
    }
}

/// What the screens show before they have an engine is what the engine says, native or not, of the very same requests, and opens the
/// demo from its first question to its map.
#[test]
#[ignore = "needs what `cargo xtask wasm` writes; `cargo xtask test` builds it and runs this"]
fn the_answers_shown_before_the_engine_is_there_are_the_engines_own() {
    let file = concat!(env!("CARGO_MANIFEST_DIR"), "/../ui/src/wasm/first-answers.json");
    let known = std::fs::read_to_string(file).expect("`cargo xtask wasm` writes it");
    let known: Vec<(String, String, String)> = serde_json::from_str(&known).unwrap();
    let names: Vec<&str> = known.iter().map(|(operation, ..)| operation.as_str()).collect();
    assert_eq!(names, ["demo", "read_kept", "first_plan"]);
    for (operation, request, answer) in &known {
        let native = mastwright_api::call(operation, request);
        assert!(native == *answer, "{operation} differs: {}", first_difference(&native, answer));
        assert!(answer.starts_with("{\"ok\""), "{operation}: {answer}");
    }
    let map: Value = serde_json::from_str(&known[2].2).unwrap();
    assert!(map["ok"]["map"]["shapes"].as_array().unwrap().len() > 20, "there is a map in it");
}

fn ask_node(folder: &str, asked: &[(&str, String)]) -> Vec<String> {
    ask_node_for(folder, "ask.mjs", asked)
}

fn ask_node_for(folder: &str, script: &str, asked: &[(&str, String)]) -> Vec<String> {
    let script = format!("{}/agreement/{script}", env!("CARGO_MANIFEST_DIR"));
    let mut node = Command::new("node")
        .args([script.as_str(), folder])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("Node starts");
    let question = serde_json::to_string(asked).unwrap();
    node.stdin.take().unwrap().write_all(question.as_bytes()).unwrap();
    let output = node.wait_with_output().unwrap();
    assert!(output.status.success(), "the wasm engine stopped");
    serde_json::from_slice(&output.stdout).unwrap()
}

fn first_difference(native: &str, wasm: &str) -> String {
    let at = native.bytes().zip(wasm.bytes()).take_while(|(a, b)| a == b).count();
    let around = |text: &str| {
        String::from_utf8_lossy(&text.as_bytes()[at.saturating_sub(120)..text.len().min(at + 40)])
            .into_owned()
    };
    format!("at byte {at}\n native …{}…\n wasm   …{}…", around(native), around(wasm))
}
