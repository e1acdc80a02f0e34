//! What any bytes at all must not do to Mastwright. Each function takes the bytes that a fuzzer made up, and panics where a
//! promise is broken; `cargo xtask fuzz` searches for such bytes, `tests/bad-input` asks those that were kept again.

use mastwright_api::messages::DatedRequest;
use mastwright_api::run;
use mastwright_api::wind::WindCapacityRequest;
use mastwright_engine::exchange::csv::points_csv;
use mastwright_engine::exchange::geojson::read_geojson;
use mastwright_engine::exchange::log_csv::log_csv;
use mastwright_engine::job::{Document, Place, text_of_file};
use mastwright_engine::judge::judged;
use mastwright_engine::plan::compute;
use mastwright_engine::quantity::entry::read_quantity;
use mastwright_engine::quantity::{FieldErrors, UnitSystem, Units, format};
use mastwright_engine::report;
use serde_json::{Value, json};

/// A document that is read is the same when it is written and read again; one that is not says where, what was given, and
/// what is allowed.
pub fn job(bytes: &[u8]) {
    let Ok(text) = text_of_file(bytes, bytes.len()).inspect_err(says_all) else { return };
    match Document::read(text) {
        Ok(document) => {
            let again = Document::read(&document.text()).expect("what was written reads");
            assert_eq!(again.text(), document.text());
            assert!(Document::read_kept(text).is_ok(), "what can be planned was a job");
        }
        Err(errors) => says_all(&errors),
    }
    if let Err(errors) = Document::read_kept(text) {
        says_all(&errors);
    }
}

fn says_all(errors: &FieldErrors) {
    assert!(!errors.errors.is_empty());
    for error in &errors.errors {
        assert!(!error.given.is_empty() && !error.allowed.is_empty() && !error.field.is_empty(), "{error:?}");
        assert!(error.path.is_empty() || error.path.starts_with('/'), "{error:?}");
    }
}

/// Shapes that come in have coordinates within reach, and enough of them.
pub fn geojson(bytes: &[u8]) {
    let Ok(text) = text_of_file(bytes, bytes.len()) else { return };
    let origin = Place { name: String::new(), latitude_deg: 51.0, longitude_deg: 9.0, altitude_m: 0.0 };
    match read_geojson(text, &origin) {
        Err(errors) => says_all(&errors),
        Ok(import) => {
            use mastwright_engine::exchange::geojson::ImportedShape::{Line, Outline, Point};
            for shape in &import.shapes {
                let (points, least) = match &shape.shape {
                    Point(point) => (std::slice::from_ref(point), 1),
                    Line(points) => (points.as_slice(), 2),
                    Outline(points) => (points.as_slice(), 3),
                };
                assert!(points.len() >= least, "{shape:?}");
                assert!(points.iter().flatten().all(|m| m.abs() <= 2000.5), "{shape:?}");
            }
        }
    }
}

const FIELDS: [&str; 12] = [
    "reach_m",
    "thickness_mm",
    "tension_n",
    "mass_kg",
    "line_g_per_m",
    "gust_m_per_s",
    "torque_nm",
    "yield_mpa",
    "air_c",
    "bearing_deg",
    "slope_deg",
    "share_percent",
];

/// The first byte chooses field and units, the rest is what somebody typed. A number that was understood is one, and what
/// is shown of it is understood again, as nearly the same.
pub fn quantity(bytes: &[u8]) {
    let Some((&choice, typed)) = bytes.split_first() else { return };
    let Ok(text) = std::str::from_utf8(typed) else { return };
    let system = if choice & 128 == 0 { UnitSystem::Metric } else { UnitSystem::Imperial };
    let units = Units { system, inch_fraction: 16 };
    let field = FIELDS[usize::from(choice & 127) % FIELDS.len()];
    match read_quantity(field, text, units) {
        Err(error) => assert!(!error.given.is_empty() && !error.allowed.is_empty(), "{error:?}"),
        Ok(value) => {
            assert!(value.is_finite(), "{field}: {text:?}");
            // Figures that a job can hold; larger ones are shown with as many digits as they have.
            if value.abs() > 1e6 {
                return;
            }
            let shown = format::field(field, value, units);
            let again = read_quantity(field, &shown, units);
            let again =
                again.unwrap_or_else(|error| panic!("{field}: {text:?} is shown {shown:?}: {error:?}"));
            let off = (again - value).abs();
            let turned = field.ends_with("bearing_deg") && (off - (off / 360.0).round() * 360.0).abs() < 0.51;
            assert!(
                off <= 0.51 + 0.02 * value.abs() || turned,
                "{field}: {text:?} is {value}, shown {shown:?}, {again}"
            );
        }
    }
}

/// Every row of what other programs get has as many cells as the first, whatever stands in the names (RFC 4180).
pub fn csv(bytes: &[u8]) {
    let mut document = small_job();
    let text = String::from_utf8_lossy(bytes);
    let mut names = text.split('\u{0}');
    let mut next = |pointer: &str| {
        if let (Some(name), Some(place)) = (names.next(), document.pointer_mut(pointer)) {
            *place = json!(name);
        }
    };
    ["/yard/marks/0/name", "/name", "/rig/guy_levels/0/name", "/notes"].into_iter().for_each(&mut next);
    let who: Vec<String> = names.map(str::to_owned).collect();
    document["log"] = who
        .iter()
        .enumerate()
        .map(|(i, who)| {
            json!({ "number": i + 1, "taken_at": "2026-05-01T18:30:00+02:00", "who": who,
                "subject": { "kind": "mark", "id": "origin" }, "name": who, "part": "at", "action": "read",
                "value": { "kind": "length", "length_m": 1.0 }, "instrument": "typed" })
        })
        .collect();
    let Ok(document) = Document::of(&document).inspect_err(says_all) else { return };
    let job = document.job();
    let Ok(computed) = compute(job) else { return };
    for text in [points_csv(&computed.plan.points, job.units), log_csv(job)] {
        let rows = rows(&text);
        let columns = rows.first().map_or(0, Vec::len);
        assert!(rows.iter().all(|row| row.len() == columns), "{text:?}");
        for cell in rows.iter().skip(1).flatten() {
            // What a table program would run as a formula (CWE-1236) is no cell of ours.
            let formula = cell.starts_with(['=', '@', '\t', '\r'])
                || (cell.starts_with(['+', '-']) && cell.parse::<f64>().is_err());
            assert!(!formula, "{cell:?} in {text:?}");
        }
    }
}

/// A reader of RFC 4180 of our own, apart from the writer.
fn rows(text: &str) -> Vec<Vec<String>> {
    let (mut rows, mut row, mut cell, mut quoted) = (vec![], vec![], String::new(), false);
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '"' if quoted && letters.peek() == Some(&'"') => {
                letters.next();
                cell.push('"');
            }
            '"' if quoted || cell.is_empty() => quoted = !quoted,
            ',' if !quoted => row.push(std::mem::take(&mut cell)),
            '\n' if !quoted => {
                row.push(std::mem::take(&mut cell));
                rows.push(std::mem::take(&mut row));
            }
            '\r' if !quoted && letters.peek() == Some(&'\n') => {}
            other => cell.push(other),
        }
    }
    assert!(!quoted && cell.is_empty() && row.is_empty(), "it ends within a row: {text:?}");
    rows
}

/// What the reader lets through can be planned and put into words: no panic, and no number that is none. So can the calls
/// before it, and a calendar reads them (RFC 5545, 3.1).
pub fn plan(bytes: &[u8]) {
    let Ok(document) = Document::of(&edited(bytes)).inspect_err(says_all) else { return };
    let Ok(computed) = judged(document.job()).inspect_err(says_all) else { return };
    let words = report::text(&report::report(document.job(), &computed));
    assert!(!words.contains("NaN") && !words.contains("inf "), "{words}");
    let request = json!({ "job": document.value(), "now": "2026-11-27T12:00:00+01:00" });
    let request: DatedRequest = serde_json::from_value(request).expect("a request");
    let calls = run::calls(&request).expect("what can be planned has its calls");
    assert!(!calls.list.calls.is_empty() && calls.list.calls.len() == calls.report.calls.len());
    let calendar = run::calls_calendar(&request).expect("the same for a calendar").text;
    assert!(
        calendar.split_inclusive("\r\n").all(|line| line.len() <= 77 && line.ends_with("\r\n")),
        "{calendar}"
    );
}

/// The same of the wind, stopped after a few directions.
pub fn wind(bytes: &[u8]) {
    let document = edited(bytes);
    if Document::of(&document).is_err() {
        return;
    }
    let mut left = 3;
    let mut watch = |_| {
        left -= 1;
        left > 0
    };
    match run_wind(&WindCapacityRequest { job: document }, &mut watch) {
        Err(errors) => says_all(&errors),
        Ok(text) => assert!(!text.contains("NaN") && !text.contains("inf "), "{text}"),
    }
}

fn run_wind(request: &WindCapacityRequest, watch: &mut dyn FnMut(()) -> bool) -> Result<String, FieldErrors> {
    let answer = run::wind_capacity(request, &mut |_| watch(()))?;
    Ok(report::text(&answer.report))
}

fn small_job() -> Value {
    let job = mastwright_engine::job::blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    serde_json::to_value(job).expect("a job is JSON")
}

/// One of four jobs with some of its places made otherwise. Nearly all bytes that are no job are refused at their first
/// slip; so here the bytes choose places and what happens to them, and many jobs get through.
fn edited(bytes: &[u8]) -> Value {
    const JOBS: [&str; 2] = [
        include_str!("../data/yardstick-53a387c.json"),
        include_str!("../data/versions/3/lantern-green.json"),
    ];
    let Some((&choice, edits)) = bytes.split_first() else { return small_job() };
    let mut document = match JOBS.get(usize::from(choice) % 3) {
        _ if choice >= 128 => to_be_raised(),
        Some(text) => serde_json::from_str(text).expect("the fixture is JSON"),
        None => small_job(),
    };
    for edit in edits.chunks_exact(8).take(12) {
        edit_one(&mut document, edit);
    }
    document
}

/// A job that says how its mast goes up, when the digging begins, and whom somebody called.
fn to_be_raised() -> Value {
    let text = include_str!("../data/versions/3/raising-pin.json");
    let mut document: Value = serde_json::from_str(text).expect("the fixture is JSON");
    document["yard"]["digging"] = json!({ "begins_at": "2026-12-04T09:00:00-05:00", "notice_working_days": 3,
        "calls_made": ["neighbours", "locate_service"] });
    document["yard"]["underground"] = json!({ "kind": "none_there", "answered_at": "2026-11-16T12:00:00-05:00",
        "holds_until": null, "reference": "A-17" });
    document
}

const NUMBERS: [f64; 16] =
    [0.0, -0.0, 1.0, -1.0, 1e-9, 1e-3, 0.5, 3.0, 10.0, 59.999, 90.0, 359.999, 360.0, 500.0, 2000.0, -2000.0];

fn edit_one(document: &mut Value, edit: &[u8]) {
    let mut places = Vec::new();
    pointers(document, "", &mut places);
    let at = usize::from(u16::from_le_bytes([edit[0], edit[1]]));
    let Some(path) = places.get(at % places.len().max(1)).cloned() else { return };
    let fine = f64::from(u16::from_le_bytes([edit[4], edit[5]])) / 65535.0;
    let Some(place) = document.pointer_mut(&path) else { return };
    match (edit[2] % 8, place) {
        (0..=2, Value::Number(number)) => {
            let before = number.as_f64().unwrap_or(0.0);
            let scaled = before * (2.0 * fine) + (fine - 0.5) * f64::from(edit[3]) / 64.0;
            *number = serde_json::Number::from_f64(scaled).expect("it is finite");
        }
        (3 | 4, Value::Number(number)) => {
            let value = NUMBERS[usize::from(edit[3]) % NUMBERS.len()];
            *number = serde_json::Number::from_f64(value).expect("it is finite");
        }
        (5, Value::Array(items)) => {
            if let Some(item) = items.get(usize::from(edit[3]) % items.len().max(1)).cloned() {
                let mut twin = item;
                if let Some(id) = twin.get_mut("id") {
                    *id = json!(format!("twin-{}", edit[4]));
                }
                items.push(twin);
            }
        }
        (6, Value::Array(items)) if !items.is_empty() => {
            items.remove(usize::from(edit[3]) % items.len());
        }
        (6, Value::Bool(truth)) => *truth = !*truth,
        (7, place) => *place = Value::Null,
        _ => {}
    }
}

fn pointers(value: &Value, path: &str, into: &mut Vec<String>) {
    let mut under = |step: &str, item: &Value| {
        let path = format!("{path}/{step}");
        into.push(path.clone());
        pointers(item, &path, into);
    };
    match value {
        Value::Array(items) => items.iter().enumerate().for_each(|(i, item)| under(&i.to_string(), item)),
        Value::Object(members) => members.iter().for_each(|(name, item)| under(name, item)),
        _ => {}
    }
}
