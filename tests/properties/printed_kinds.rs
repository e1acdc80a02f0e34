//! Every row of the report stands in the table of `docs/validation.md` that says which test of meaning holds its number,
//! and every test named there is there.

use std::fs;
use std::path::Path;

use crate::floors::engine;

/// The cells of the table's rows: kind, rows of the report, tests, what they are held against.
fn table() -> Vec<Vec<String>> {
    let page = Path::new(env!("CARGO_MANIFEST_DIR")).join("../docs/validation.md");
    let page = fs::read_to_string(page).expect("the page");
    let (_, from_title) = page.split_once("## Each kind of number on paper").expect("the table's title");
    let rows = from_title.lines().skip_while(|line| !line.starts_with("|---")).skip(1);
    rows.take_while(|line| line.starts_with('|'))
        .map(|line| line.trim_matches('|').split('|').map(|cell| cell.trim().to_owned()).collect())
        .collect()
}

/// What stands between back ticks.
fn named(cell: &str) -> impl Iterator<Item = &str> {
    cell.split('`').skip(1).step_by(2)
}

/// The names of the rows that a report can have.
fn labels() -> Vec<String> {
    let text = fs::read_to_string(engine().join("report/label.rs")).expect("the rows");
    let (_, body) = text.split_once("pub enum Label {\n").expect("their list");
    let (body, _) = body.split_once("\n}\n").expect("its end");
    let at_its_margin = body.lines().filter_map(|line| line.strip_prefix("    "));
    at_its_margin
        .filter(|line| line.starts_with(|letter: char| letter.is_ascii_uppercase()))
        .map(|line| line.trim_end_matches(',').trim_end_matches(" {").to_owned())
        .collect()
}

#[test]
fn every_row_of_the_report_is_in_the_table_once() {
    let table = table();
    assert!(table.len() > 20 && table.iter().all(|row| row.len() == 4));
    let mut told: Vec<&str> = table.iter().flat_map(|row| named(&row[1])).collect();
    told.sort_unstable();
    let mut labels = labels();
    labels.sort_unstable();
    assert!(labels.len() > 80);
    assert_eq!(told, labels);
}

/// Files of tests by their path below `tests`; rooms by theirs in the engine, with tests in them; single tests by their names
/// in one of the files named with them.
#[test]
fn every_test_named_in_the_table_is_there() {
    for row in table() {
        let mut texts = Vec::new();
        for name in named(&row[2]) {
            let text = if name.ends_with(".rs") {
                fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name)).ok()
            } else if name.contains("::") || engine().join(name).is_dir() {
                let path = engine().join(name.replace("::", "/"));
                let files = [path.with_extension("rs"), path.join("tests.rs"), path.join("mod.rs")];
                let texts: String =
                    files.into_iter().filter_map(|file| fs::read_to_string(file).ok()).collect();
                Some(texts).filter(|texts| texts.contains("#[test]") || texts.contains("mod tests"))
            } else if engine().join(name).with_extension("rs").is_file() {
                fs::read_to_string(engine().join(name).with_extension("rs")).ok()
            } else {
                let is_there = texts.iter().any(|text: &String| text.contains(&format!("fn {name}(")));
                assert!(is_there, "{name} of “{}” is in none of the files before it", row[0]);
                continue;
            };
            texts.push(text.unwrap_or_else(|| panic!("{name} of “{}” has no tests", row[0])));
        }
        assert!(!texts.is_empty(), "“{}” names no test", row[0]);
    }
}
