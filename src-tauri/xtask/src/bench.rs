//! `cargo xtask bench`: the engine measured natively and in wasm, side by side, its WebAssembly operators counted, and a
//! drag on the map.

use std::process::Command;

use crate::command::{cargo, output, run};
use crate::place::Place;
use crate::serve;
use crate::ui;
use crate::wasm;

/// What is measured on both sides: the api's whole answer, JSON in and JSON out, for the yardstick where nothing else is named;
/// sixty pieces cut; a set of sheets as PDF.
const SHARED: [&str; 18] = [
    "api_place_while_dragging",
    "api_plan_while_dragging",
    "api_plan_with_everything",
    "api_spread_10_000_draws",
    "api_wind_capacity",
    "api_siting_quick_rules_40_000_places",
    "api_siting_first_answer",
    "view_turn_of_the_demo",
    "view_turn_among_150_things",
    "api_workshop_of_the_demo",
    "api_cards_of_the_demo",
    "api_shopping_of_the_demo",
    "api_circles_of_the_demo",
    "cut_sixty_few_kinds",
    "cut_sixty_without_saw_cut",
    "cut_sixty_at_metric_prices",
    "cut_sixty_of_half_inches",
    "pdf_of_the_workshop_sheets",
];

/// Runs all measurements and prints the two sides' times under each other.
///
/// # Errors
/// Where something does not build or run.
pub fn bench(place: &Place) -> Result<(), String> {
    println!("measuring natively …");
    let native = output(cargo(&place.root, &["bench", "-p", "mastwright-benches"]))?;
    println!("{native}");
    println!("building the wasm engine and measuring it in Node …");
    wasm::for_node(place)?;
    wasm::of_benches(place)?;
    let mut node = Command::new("node");
    node.current_dir(&place.root).arg("src-tauri/benches/in_wasm.mjs").arg(place.node_wasm());
    let in_wasm = output(node)?;
    println!("\n{:36} {:>24} {:>24}", "fastest · median", "native", "wasm");
    for name in SHARED {
        let native = native_times(&native, name).ok_or(format!("`{name}` was not measured natively."))?;
        let in_wasm = wasm_times(&in_wasm, name).ok_or(format!("`{name}` was not measured in wasm."))?;
        println!("{name:36} {native:>24} {in_wasm:>24}");
    }
    count_instructions(place)?;
    drag(place)
}

/// What the browser's engine does for an answer, in WebAssembly operators: the same on every machine.
fn count_instructions(place: &Place) -> Result<(), String> {
    let folder = place.node_wasm().display().to_string();
    let program = ["run", "--release", "-p", "mastwright-benches", "--bin", "count-instructions"];
    println!();
    run(cargo(&place.root, &[&program[..], &["--features", "count", "--", &folder]].concat()))
}

/// A finger drags the mast of the built screens (`cargo xtask web`) in a slowed-down Chromium; how soon a figure follows the phone
/// on the tube; and how long they take to load.
fn drag(place: &Place) -> Result<(), String> {
    if !place.ui_dist().join("index.html").is_file() {
        println!("\nThe drag on the map is not measured: run `cargo xtask web` first.");
        return Ok(());
    }
    ui::npm_packages(&place.browser_tests())?;
    let address = serve::serve_beside(&place.ui_dist(), 0)?;
    println!();
    for measurement in ["drag_speed.mjs", "plumb_speed.mjs"] {
        let mut node = Command::new("node");
        node.current_dir(place.browser_tests()).arg(measurement).arg(&address);
        run(node)?;
        println!();
    }
    let mut node = Command::new("node");
    node.current_dir(place.browser_tests()).arg("load_speed.mjs");
    run(node)
}

/// Fastest and median of a row `├─ name  fastest │ slowest │ median │ …` of the native table.
fn native_times(table: &str, name: &str) -> Option<String> {
    let row = table.lines().find(|line| line.split_whitespace().any(|word| word == name))?;
    let mut columns = row.split_once(name)?.1.split('│');
    let (fastest, median) = (columns.next()?.trim(), columns.nth(1)?.trim());
    Some(format!("{fastest} · {median}"))
}

/// The same of a line `name fastest_ms median_ms`.
fn wasm_times(lines: &str, name: &str) -> Option<String> {
    let mut words = lines
        .lines()
        .map(str::split_whitespace)
        .find_map(|mut words| (words.next()? == name).then_some(words))?;
    Some(format!("{} ms · {} ms", words.next()?, words.next()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_medians() {
        let table = "engine            fastest       │ slowest       │ median        │ mean          │ samples │ iters\n\
                     ├─ other         1 ms          │ 2 ms          │ 3 ms          │ 4 ms          │ 100     │ 100\n\
                     ╰─ plan          412.1 µs      │ 1.2 ms        │ 431.2 µs      │ 450 µs        │ 100     │ 100\n";
        assert_eq!(native_times(table, "plan").as_deref(), Some("412.1 µs · 431.2 µs"));
        assert_eq!(native_times(table, "none"), None);
        assert_eq!(wasm_times("a 1.5 2\nplan 2.25 3\n", "plan").as_deref(), Some("2.25 ms · 3 ms"));
    }
}
