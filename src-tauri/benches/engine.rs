//! How fast the engine is on this machine. The goals are in docs/performance.md.

use divan::{Bencher, black_box};

fn main() {
    divan::main();
}

/// What the screen asks while a finger drags the mast.
#[divan::bench]
fn api_plan_while_dragging(bencher: Bencher) {
    let request = plan_request(false);
    bencher.bench(|| answered(&request));
}

/// What the screen asks when the finger lifts: map, profile, report and shown texts too.
#[divan::bench]
fn api_plan_with_everything(bencher: Bencher) {
    let request = plan_request(true);
    bencher.bench(|| answered(&request));
}

fn plan_request(report: bool) -> String {
    let demo: serde_json::Value = serde_json::from_str(&mastwright_api::call("demo", "{}")).expect("JSON");
    let request = serde_json::json!({
        "job": demo["ok"], "map_text_m": 0.5, "profile": report, "report": report
    });
    request.to_string()
}

/// A refused request would be answered fast and measure nothing.
fn answered(request: &str) -> String {
    let answer = mastwright_api::call("plan", black_box(request));
    assert!(answer.starts_with("{\"ok\""), "{}", answer.get(..300).unwrap_or(&answer));
    answer
}
