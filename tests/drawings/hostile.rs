//! A job whose every name tries to be something else (`tests/data/hostile.json`: markup, formulas, control characters,
//! turned writing, the names of JavaScript's own), in all that leaves Mastwright.

use mastwright_api::messages::{PointsFileRequest, PointsFormat, SheetsRequest};
use mastwright_api::run;
use mastwright_engine::drawing::Paper;
use mastwright_engine::exchange::log_csv::log_csv;
use mastwright_engine::job;
use serde_json::Value;

const TEXT: &str = include_str!("../data/hostile.json");
const MARKUP: &str = "<img src=x onerror=\"window.ran=1\">";

fn document() -> Value {
    serde_json::from_str(TEXT).expect("JSON")
}

fn sheets() -> SheetsRequest {
    let author = Some(MARKUP.to_owned());
    SheetsRequest { job: document(), paper: Paper::A4, made_at: None, author, set: Default::default() }
}

/// Anything that runs, loads or leads somewhere.
fn dangers(svg: &str) -> Vec<String> {
    let tree = roxmltree::Document::parse(svg).expect("another reader finds it well-formed");
    let mut found = Vec::new();
    for node in tree.descendants().filter(roxmltree::Node::is_element) {
        let name = node.tag_name().name();
        if ["script", "foreignObject", "image", "a", "iframe", "animate", "set", "handler"].contains(&name) {
            found.push(format!("<{name}>"));
        }
        for attribute in node.attributes() {
            let (name, value) = (attribute.name(), attribute.value());
            let leads = ["href", "src"].contains(&name) && !value.starts_with('#');
            if name.starts_with("on") || leads || value.contains("javascript:") || value.contains("//") {
                found.push(format!("{name}={value}"));
            }
        }
    }
    found
}

fn words(svg: &str) -> String {
    let tree = roxmltree::Document::parse(svg).expect("well-formed");
    tree.descendants().filter_map(|node| node.text()).collect()
}

#[test]
fn pages_as_svg_show_its_names_as_text_and_run_nothing() {
    let (document, _) = run::judged_sheets(&sheets()).expect("pages");
    let pages = run::svg_pages(document).pages;
    assert!(pages.len() > 3);
    for page in &pages {
        assert_eq!(dangers(&page.svg), [] as [String; 0]);
        assert!(!page.svg.contains('\u{202e}') && !page.svg.contains('\u{1b}'), "nothing turns the writing");
    }
    let all: String = pages.iter().map(|page| words(&page.svg)).collect();
    assert!(all.contains("<img src=x"), "the name itself is there");
    // The test sees what it looks for.
    assert_eq!(dangers("<svg><a href='https://x'/><g onclick='x'/><script/></svg>").len(), 4);
}

#[test]
fn the_pdf_holds_no_action_link_or_script() {
    let (document, _) = run::judged_sheets(&sheets()).expect("pages");
    let bytes = mastwright_paper::written(&document).expect("a PDF");
    let pdf = crate::pdf_reader::read(&bytes);
    let mut seen = 0;
    for object in pdf.objects.values() {
        let dictionary = object.as_dict().or_else(|_| object.as_stream().map(|stream| &stream.dict));
        let Ok(dictionary) = dictionary else { continue };
        seen += 1;
        for key in
            ["JS", "JavaScript", "OpenAction", "AA", "URI", "Launch", "EmbeddedFiles", "AcroForm", "XFA"]
        {
            assert!(!dictionary.has(key.as_bytes()), "{key}");
        }
    }
    assert!(seen > 10, "{seen}");
}

/// RFC 4180, by hand: quotes double inside quotes.
fn cells(csv: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut quoted) = (Vec::new(), Vec::new(), String::new(), false);
    let mut letters = csv.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\r' if !quoted => {}
            '\n' if !quoted => {
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            letter => cell.push(letter),
        }
    }
    assert!(!quoted && cell.is_empty() && row.is_empty(), "the last row has its end");
    rows
}

/// What a spreadsheet would take for a formula.
fn formulas(csv: &str) -> Vec<String> {
    let rows = cells(csv);
    let width = rows[0].len();
    assert!(rows.len() > 2 && rows.iter().all(|row| row.len() == width), "a table");
    let formula =
        |cell: &&String| cell.starts_with(['=', '+', '-', '@', '\t', '\r']) && cell.parse::<f64>().is_err();
    rows.iter().flatten().filter(formula).cloned().collect()
}

#[test]
fn tables_hold_no_formula() {
    let mut job = document();
    // Readings of every name in the log, as if somebody had typed them.
    let names = job["yard"]["obstacles"].as_array().unwrap().iter().map(|thing| thing["name"].clone());
    let log: Vec<Value> = names
        .chain(["=1+1", "-2+3", "@SUM(1)", "\t=1"].map(Value::from))
        .zip(1..)
        .map(|(name, number)| {
            serde_json::json!({
                "number": number, "taken_at": "2026-11-27T08:00:00Z", "who": name, "name": name, "part": name,
                "subject": { "kind": "mark", "id": "=1" },
                "action": "read", "value": { "kind": "length", "length_m": 1.0 }, "instrument": "typed"
            })
        })
        .collect();
    let points = run::points_file(&PointsFileRequest {
        job: job.clone(),
        format: PointsFormat::Csv,
        mark: "__proto__".to_owned(),
    });
    assert_eq!(formulas(&points.expect("a table").text), [] as [String; 0]);
    job["log"] = log.into();
    let job = job::read_job_value(&job).expect("a job");
    assert_eq!(formulas(&log_csv(&job)), [] as [String; 0]);
    assert_eq!(formulas("a,b\r\n=1,-2\r\n\"-2+3\",'=1\r\n"), ["=1", "-2+3"]);
}

#[test]
fn outlines_for_other_programs_are_json_with_the_names_as_they_are() {
    let request =
        PointsFileRequest { job: document(), format: PointsFormat::Geojson, mark: "__proto__".to_owned() };
    let text = run::points_file(&request).expect("GeoJSON").text;
    let read: Value = serde_json::from_str(&text).expect("JSON");
    let features = read["features"].as_array().expect("features");
    assert!(features.len() > 5);
    assert!(
        features.iter().any(|one| one["properties"]["name"].as_str().is_some_and(|name| name.contains('<')))
    );
}

#[test]
fn what_is_saved_is_what_was_read() {
    let job = job::read_job_value(&document()).expect("a job");
    let again = serde_json::to_value(&job).expect("JSON");
    let names = |of: &Value| {
        let list = of["yard"]["obstacles"].as_array().unwrap();
        list.iter().map(|thing| (thing["id"].clone(), thing["name"].clone())).collect::<Vec<_>>()
    };
    assert_eq!(names(&again), names(&document()));
}

#[test]
fn half_a_letter_is_refused_in_words() {
    for half in ["\\ud800", "\\udfff", "x\\ud83d", "\\ude00\\ud83d"] {
        let text = TEXT.replacen("\"notes\": \"", &format!("\"notes\": \"{half}"), 1);
        let refused = job::read_document(&text).map(|_| ()).expect_err(half);
        let said = refused.errors[0].sentence();
        assert!(said.contains("line"), "{said}");
    }
}
