//! The engine's rooms use only rooms below them: no two need each other, so each can be read, tested and changed alone.

use std::fs;
use std::path::{Path, PathBuf};

/// From the bottom up, floor by floor. A room may use those before it and no other; mechanics know nothing of jobs.
const FLOORS: [(&str, &[&str]); 7] = [
    ("bottom", &["numerics", "source", "finding", "quantity", "round_figures"]),
    ("mechanics", &["tube", "resistance", "anchor", "wind", "structure"]),
    ("document", &["job"]),
    ("yard", &["ground", "survey"]),
    ("work", &["base", "guys", "ringing", "strands", "yard", "stakeout"]),
    (
        "whole",
        &[
            "verdict",
            "plan",
            "plumbing",
            "calls",
            "shares",
            "spread",
            "wind_capacity",
            "raising",
            "pegging",
            "view",
            "siting",
            "workshop",
            "rigs",
            "lifting",
            "lighting",
            "cards",
            "season",
            "judge",
            "demo",
            "exchange",
        ],
    ),
    ("paper and words", &["report", "drawing"]),
];

fn rooms() -> Vec<&'static str> {
    FLOORS.iter().flat_map(|(_, rooms)| rooms.iter().copied()).collect()
}

pub(crate) fn engine() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../src-tauri/engine/src")
}

pub(crate) fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] }).collect()
}

/// Tests may look at the assembled thing.
pub(crate) fn is_test(path: &Path) -> bool {
    let name = path.file_stem().unwrap().to_string_lossy();
    ["tests", "hand_sums", "sample", "samples", "reference"].contains(&name.as_ref())
}

fn room_of(path: &Path) -> String {
    let within = path.strip_prefix(engine()).unwrap();
    within.iter().next().unwrap().to_string_lossy().trim_end_matches(".rs").to_owned()
}

/// The rooms that a line names, as `crate::room`.
fn named(line: &str) -> impl Iterator<Item = &str> {
    line.split("crate::").skip(1).map(|rest| {
        let end = rest.find(|letter: char| !(letter.is_alphanumeric() || letter == '_'));
        match &rest[..end.unwrap_or(rest.len())] {
            // Macros of the job that Rust puts at the crate's root.
            "pointer" | "field" => "job",
            room => room,
        }
    })
}

/// What a file uses of other rooms, by line, without its tests and its comments.
fn used(text: &str) -> Vec<(usize, String)> {
    let product = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
    let lines = product.lines().enumerate().filter(|(_, line)| !line.trim_start().starts_with("//"));
    lines.flat_map(|(at, line)| named(line).map(move |room| (at + 1, room.to_owned()))).collect()
}

#[test]
fn every_room_uses_only_rooms_below_it() {
    let rooms = rooms();
    let place = |name: &str| rooms.iter().position(|room| *room == name);
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in sources(&engine()) {
        let own = room_of(&path);
        if own == "lib" || is_test(&path) {
            continue;
        }
        let Some(here) = place(&own) else {
            panic!("the room {own} has no floor: put it in its place in {}", file!());
        };
        for (line, other) in used(&fs::read_to_string(&path).unwrap()) {
            let there = place(&other).unwrap_or_else(|| panic!("{}:{line}: no room {other}", path.display()));
            seen += 1;
            if there > here {
                wrong.push(format!("{}:{line}: {own} is below {other}", path.display()));
            }
        }
    }
    assert!(seen > 300, "{seen} uses: the lines are not read as they are written any more");
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_room_has_its_floor_and_its_line_in_the_front_page() {
    let front = fs::read_to_string(engine().join("lib.rs")).unwrap();
    let declared: Vec<&str> =
        front.lines().filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';')).collect();
    let mut rooms = rooms();
    rooms.sort_unstable();
    assert_eq!(declared, rooms);
    for room in rooms {
        assert!(front.contains(&format!("//! | [`{room}`] |")), "{room} is not in the contents of lib.rs");
    }
}

#[test]
fn a_line_that_looks_up_is_found() {
    let text = "//! crate::plan\nuse crate::job::Job;\n    let x = crate::plan::compute(crate::demo::job());\n\
                #[cfg(test)]\nmod tests {\n    use crate::wind_capacity;\n}\n";
    assert_eq!(used(text), [(2, "job".to_owned()), (3, "plan".to_owned()), (3, "demo".to_owned())]);
}
