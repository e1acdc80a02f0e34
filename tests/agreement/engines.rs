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
    let plan =
        |job: &Value| json!({ "job": job, "map_text_m": 0.4, "profile": true, "report": true }).to_string();
    let mut asked = vec![
        ("demo", "{}".to_owned()),
        ("plan", plan(job)),
        ("check", json!({ "job": job }).to_string()),
        ("map_sheet", json!({ "job": job, "paper": "a4" }).to_string()),
        ("no_such_operation", "{}".to_owned()),
    ];
    for turn in 1..24 {
        let mut turned = job.clone();
        turned["placement"]["front_bearing_deg"] = json!(f64::from(turn) * 14.7);
        asked.push(("plan", plan(&turned)));
    }
    asked
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

fn ask_node(folder: &str, asked: &[(&str, String)]) -> Vec<String> {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/agreement/ask.mjs");
    let mut node = Command::new("node")
        .args([script, folder])
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
