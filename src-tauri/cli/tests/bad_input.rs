//! Every kind of bad input in `tests/bad-input`, with what is said of it: which field, what was given, what is allowed. Through
//! the api, which the screens call, and through the command line alike. `MASTWRIGHT_BLESS=1` writes what is said anew;
//! the fields that are named were written down beside each case, apart from the engine.

#[path = "../../../tests/support/fuzzed.rs"]
mod fuzzed;
mod support;

use std::fs;
use std::path::{Path, PathBuf};

use mastwright_api::{call, messages::FileRequest, run};
use mastwright_engine::job::Place;
use serde_json::{Value, json};
use support::mastwright_fed;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/bad-input")
}

fn lines(name: &str) -> Vec<Value> {
    let text = fs::read_to_string(folder().join(name)).expect("the table is there");
    text.lines().map(|line| serde_json::from_str(line).expect("a line is JSON")).collect()
}

/// Writes what is said anew where that is wished.
fn bless(name: &str, cases: &[Value]) {
    if std::env::var_os("MASTWRIGHT_BLESS").is_some() {
        let text: String = cases.iter().map(|case| format!("{case}\n")).collect();
        fs::write(folder().join(name), text).expect("the table can be written");
    }
}

/// What is said of the first error, or of the one at this path.
fn said(errors: &Value, path: Option<&str>) -> (String, String, String) {
    let errors = errors.as_array().map(Vec::as_slice).unwrap_or_default();
    let one = errors.iter().find(|one| path.is_some_and(|path| one["path"] == path)).or(errors.first());
    let text = |name: &str| one.and_then(|one| one[name].as_str()).unwrap_or_default().to_owned();
    (text("path"), text("given"), text("allowed"))
}

fn expect(case: &mut Value, said: (String, String, String), slips: &mut Vec<String>) {
    let blesses = std::env::var_os("MASTWRIGHT_BLESS").is_some();
    for (name, said) in [("path", &said.0), ("given", &said.1), ("allowed", &said.2)] {
        // What field is meant is not blessed where it was written down.
        if blesses && (name != "path" || case.get("path").is_none()) {
            case[name] = json!(said);
        } else if case[name] != json!(said) {
            slips.push(format!("{case}\n  {name}: {said}"));
        }
    }
    if said.1.is_empty() || said.2.is_empty() {
        slips.push(format!("{case}: nothing is said of it"));
    }
}

/// The command line says the same, and ends with 2.
fn expect_of_the_command_line(input: &[u8], case: &Value, slips: &mut Vec<String>) {
    let output = mastwright_fed(&["check", "-"], input);
    let says = String::from_utf8_lossy(&output.stderr).into_owned();
    let given = case["given"].as_str().unwrap_or_default();
    let shown = mastwright_engine::quantity::visible::visible_lines(given);
    if output.status.code() != Some(2) || !says.contains(&shown) || says.contains("panicked") {
        slips.push(format!("{case}\n  command line, {:?}: {says}", output.status.code()));
    }
}

fn edited(base: &Value, case: &Value) -> Value {
    let mut job = base.clone();
    let split = |path: &str| {
        let (group, name) = path.rsplit_once('/').expect("a pointer");
        (group.to_owned(), name.to_owned())
    };
    if let Some(path) = case["set"].as_str() {
        let (group, name) = split(path);
        match job.pointer_mut(&group).expect("the base has it") {
            Value::Array(items) => items[name.parse::<usize>().expect("an index")] = case["to"].clone(),
            group => group[name] = case["to"].clone(),
        }
    } else if let Some(path) = case["remove"].as_str() {
        let (group, name) = split(path);
        let members = job.pointer_mut(&group).and_then(Value::as_object_mut).expect("the base has it");
        members.remove(&name).expect("the base has it");
    } else if let Some(path) = case["append"].as_str() {
        job.pointer_mut(path).and_then(Value::as_array_mut).expect("a list").push(case["to"].clone());
    }
    job
}

#[test]
fn every_bad_job_is_refused_by_its_field_on_every_face() {
    let base: Value = serde_json::from_str(&fs::read_to_string(folder().join("base.json")).unwrap()).unwrap();
    assert!(mastwright_engine::job::read_job_value(&base).is_ok(), "the base itself is good");
    let mut cases = lines("jobs.jsonl");
    let mut slips = Vec::new();
    for (i, case) in cases.iter_mut().enumerate() {
        let job = edited(&base, case);
        let answer: Value = serde_json::from_str(&call("check", &json!({ "job": job }).to_string())).unwrap();
        let path = case["path"].as_str().map(str::to_owned);
        expect(case, said(&answer["ok"]["errors"], path.as_deref()), &mut slips);
        // A start of the program each; a third of them shows that it says the same.
        if i % 3 == 0 {
            expect_of_the_command_line(job.to_string().as_bytes(), case, &mut slips);
        }
    }
    bless("jobs.jsonl", &cases);
    assert!(cases.len() >= 250, "{} kinds", cases.len());
    assert!(slips.is_empty(), "{} of {}:\n{}", slips.len(), cases.len(), slips.join("\n"));
}

#[test]
fn every_bad_file_is_refused_in_words_on_every_face() {
    use base64::Engine as _;
    let mut cases = lines("files.jsonl");
    let mut slips = Vec::new();
    for case in &mut cases {
        let name = case["file"].as_str().expect("a name").to_owned();
        let bytes = fs::read(folder().join("files").join(&name)).expect("the file is there");
        let base64 = base64::engine::general_purpose::STANDARD.encode(&bytes);
        let text = run::file_text(&FileRequest { base64, size_bytes: bytes.len() });
        let errors = match text {
            Err(errors) => serde_json::to_value(errors.errors).unwrap(),
            Ok(text) => {
                let answer = call("open_job", &json!({ "text": text.text }).to_string());
                serde_json::from_str::<Value>(&answer).unwrap()["error"]["errors"].clone()
            }
        };
        expect(case, said(&errors, None), &mut slips);
        expect_of_the_command_line(&bytes, case, &mut slips);
    }
    bless("files.jsonl", &cases);
    let listed = fs::read_dir(folder().join("files")).unwrap().count();
    assert_eq!(listed, cases.len(), "every file is in the table");
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

#[test]
fn every_other_bad_input_is_refused_or_skipped_in_words() {
    let mut cases = lines("others.jsonl");
    let mut slips = Vec::new();
    let origin = Place { name: String::new(), latitude_deg: 51.0, longitude_deg: 9.0, altitude_m: 0.0 };
    for case in &mut cases {
        let errors = if let Some(text) = case["geojson"].as_str() {
            match mastwright_engine::exchange::geojson::read_geojson(text, &origin) {
                Err(errors) => serde_json::to_value(errors.errors).unwrap(),
                Ok(import) => {
                    assert!(import.shapes.is_empty(), "{case}");
                    serde_json::to_value(import.skipped).unwrap()
                }
            }
        } else {
            let units = json!({ "system": case["system"], "inch_fraction": 16 });
            let request = json!({ "field": case["field"], "text": case["text"], "units": units });
            serde_json::from_str::<Value>(&call("read_entry", &request.to_string())).unwrap()["error"]["errors"].clone()
        };
        expect(case, said(&errors, None), &mut slips);
    }
    bless("others.jsonl", &cases);
    assert!(slips.is_empty(), "{}", slips.join("\n"));
}

/// What a fuzzer once found, and what it began from: `cargo xtask fuzz` looks for more.
#[test]
fn what_was_kept_of_the_fuzzer_breaks_nothing() {
    type Target = fn(&[u8]);
    let targets: [(&str, Target); 6] = [
        ("job", fuzzed::job),
        ("geojson", fuzzed::geojson),
        ("csv", fuzzed::csv),
        ("quantity", fuzzed::quantity),
        ("plan", fuzzed::plan),
        ("wind", fuzzed::wind),
    ];
    for (name, target) in targets {
        let corpus = folder().join("../fuzz/corpus").join(name);
        let inputs: Vec<PathBuf> = fs::read_dir(&corpus).unwrap().map(|file| file.unwrap().path()).collect();
        assert!(inputs.len() >= 3, "{name}");
        for input in inputs {
            target(&fs::read(&input).expect("it can be read"));
        }
    }
}
