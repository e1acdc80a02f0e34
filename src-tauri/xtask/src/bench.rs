//! `cargo xtask bench`: the engine measured natively and in wasm, side by side.

use std::process::Command;

use crate::command::{cargo, output};
use crate::place::Place;
use crate::wasm;

/// What is measured on both sides: the api's whole answer for the demo, JSON in and JSON out.
const SHARED: [&str; 2] = ["api_plan_while_dragging", "api_plan_with_everything"];

/// Runs all measurements and prints the two sides' medians under each other.
///
/// # Errors
/// Where something does not build or run.
pub fn bench(place: &Place) -> Result<(), String> {
    println!("measuring natively …");
    let native = output(cargo(&place.root, &["bench", "-p", "mastwright-benches"]))?;
    println!("{native}");
    println!("building the wasm engine and measuring it in Node …");
    wasm::for_node(place)?;
    let mut node = Command::new("node");
    node.current_dir(&place.root).arg("src-tauri/benches/in_wasm.mjs").arg(place.node_wasm());
    let in_wasm = output(node)?;
    print!("{in_wasm}\n{:28} {:>12} {:>12}\n", "median", "native", "wasm");
    for name in SHARED {
        let native = native_median(&native, name).ok_or(format!("`{name}` was not measured natively."))?;
        let in_wasm = wasm_median(&in_wasm, name).ok_or(format!("`{name}` was not measured in wasm."))?;
        println!("{name:28} {native:>12} {in_wasm:>12}");
    }
    Ok(())
}

/// The third column (fastest, slowest, median, …) of a row of the native table.
fn native_median(table: &str, name: &str) -> Option<String> {
    let row = table.lines().find(|line| line.split_whitespace().any(|word| word == name))?;
    Some(row.split('│').nth(2)?.trim().to_owned())
}

/// The number after the name in a line `name median_ms`.
fn wasm_median(lines: &str, name: &str) -> Option<String> {
    let mut words = lines
        .lines()
        .map(str::split_whitespace)
        .find_map(|mut words| (words.next()? == name).then_some(words))?;
    Some(format!("{} ms", words.next()?))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_the_medians() {
        let table = "engine            fastest       │ slowest       │ median        │ mean          │ samples │ iters\n\
                     ├─ other         1 ms          │ 2 ms          │ 3 ms          │ 4 ms          │ 100     │ 100\n\
                     ╰─ plan          412.1 µs      │ 1.2 ms        │ 431.2 µs      │ 450 µs        │ 100     │ 100\n";
        assert_eq!(native_median(table, "plan").as_deref(), Some("431.2 µs"));
        assert_eq!(native_median(table, "none"), None);
        assert_eq!(wasm_median("a 1.5\nplan 2.25\n", "plan").as_deref(), Some("2.25 ms"));
    }
}
