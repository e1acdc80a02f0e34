//! Nobody sees the other system of units: every sentence, finding, remedy, error, table and sheet of a user of metres is
//! looked through for feet, inches, pounds and miles, and the other way round; and the screens write no quantity at all.

use std::path::Path;

use mastwright_api::messages::{JobRequest, PlanRequest, PointsFileRequest, PointsFormat, SheetsRequest};
use mastwright_api::{run, wind};
use mastwright_engine::anchor::picket::Pickets;
use mastwright_engine::anchor::soil::{ClayFeel, SandFeel};
use mastwright_engine::drawing::Paper;
use mastwright_engine::job::{
    AnchorKind, Instrument, Job, PointFix, ScrewShaft, SoilFeel, blank, read_job_value,
};
use mastwright_engine::quantity::entry::read_quantity;
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::survey::log::{How, record};
use mastwright_engine::wind_capacity::MastHeight;
use serde_json::{Value, json};

use crate::round_in_both_systems::by_habits;
use crate::yardstick::yardstick;

const BOTH: [UnitSystem; 2] = [UnitSystem::Metric, UnitSystem::Imperial];

const METRIC: &[&str] = &[
    "m",
    "mm",
    "cm",
    "km",
    "N",
    "kN",
    "kg",
    "g",
    "g/m",
    "Pa",
    "kPa",
    "MPa",
    "Nm",
    "m/s",
    "km/h",
    "mm/m",
    "°C",
    "metre",
    "metres",
    "millimetres",
    "centimetres",
    "newtons",
    "kilograms",
    "grams",
];
const IMPERIAL: &[&str] = &[
    "ft", "lbf", "lb", "lbs", "mph", "ksi", "psi", "psf", "°F", "ft-lb", "inch", "inches", "feet", "pounds",
    "miles",
];

/// The first number with a unit of one of these systems; none where there is none.
fn quantity_of(text: &str, system: UnitSystem) -> Option<String> {
    let letters: Vec<char> = text.chars().collect();
    let is_digit =
        |at: usize| letters.get(at).is_some_and(|c: &char| c.is_ascii_digit() || "½¼¾⅛".contains(*c));
    for at in (0..letters.len()).filter(|&at| is_digit(at) && !is_digit(at + 1)) {
        let mut from = at + 1;
        if system == UnitSystem::Imperial && letters.get(from).is_some_and(|c| "\"'″′".contains(*c)) {
            return Some(around(&letters, at));
        }
        while letters.get(from).is_some_and(|c| c.is_whitespace()) {
            from += 1;
        }
        let unit: String =
            letters[from..].iter().take_while(|c| c.is_alphabetic() || "/°-".contains(**c)).collect();
        let rest: String = letters[from + unit.chars().count()..].iter().collect();
        let found = match system {
            UnitSystem::Metric => METRIC.contains(&unit.as_str()),
            UnitSystem::Imperial if unit == "in" => is_inches(&rest),
            UnitSystem::Imperial => {
                IMPERIAL.contains(&unit.as_str()) || unit.starts_with("in/") || unit.starts_with("lb/")
            }
        };
        if found {
            return Some(around(&letters, at));
        }
    }
    None
}

/// "3 in thick", "3 in." and "3 in" at the end are inches; "1 in 8" and "2 in line" are none.
fn is_inches(rest: &str) -> bool {
    const AFTER: [&str; 10] = ["thick", "long", "deep", "wide", "apart", "high", "out", "off", "above", "or"];
    rest.trim().is_empty()
        || rest.starts_with(['.', ',', ';', ':', ')', '/'])
        || AFTER.iter().any(|word| rest.trim_start().starts_with(word))
}

fn around(letters: &[char], at: usize) -> String {
    letters[at.saturating_sub(60)..(at + 20).min(letters.len())].iter().collect()
}

#[test]
fn the_scan_finds_what_it_looks_for() {
    let finds = |text: &str, system| assert!(quantity_of(text, system).is_some(), "{text}");
    let passes = |text: &str, system| assert_eq!(quantity_of(text, system), None, "{text}");
    for text in ["0.9 m deep", "75 mm", "5 kN", "a pull of 100 N, at", "−5 °C", "12 m/s", "1 mm/m"] {
        finds(text, UnitSystem::Metric);
        passes(text, UnitSystem::Imperial);
    }
    for text in
        ["3 ft", "3' 7\"", "1/2\" thick", "½″", "3 in thick", "3 in)", "22 lbf", "30 mph", "1 in/100 ft"]
    {
        finds(text, UnitSystem::Imperial);
        passes(text, UnitSystem::Metric);
    }
    for text in ["1 in 8", "2 in line", "95 of 100 yards", "3 guys", "12 minutes", "S 45 W", "230 V", "4 Hz"]
    {
        BOTH.iter().for_each(|&system| passes(text, system));
    }
}

fn other(system: UnitSystem) -> UnitSystem {
    if system == UnitSystem::Metric { UnitSystem::Imperial } else { UnitSystem::Metric }
}

fn no_other(text: &str, system: UnitSystem, what: &str) {
    assert_eq!(quantity_of(text, other(system)), None, "{system:?} in {what}: {text}");
}

/// Members that are no words of ours for a user: names that people gave, publications, keys, sizes of a table of tubes.
const NOT_SAID: [&str; 8] = ["source", "name", "notes", "id", "path", "pointer", "subject", "tubes"];

fn scan(value: &Value, system: UnitSystem, what: &str, seen: &mut usize) {
    match value {
        Value::String(text) => {
            *seen += 1;
            no_other(text, system, what);
        }
        Value::Array(items) => items.iter().for_each(|item| scan(item, system, what, seen)),
        Value::Object(members) => members
            .iter()
            .filter(|(name, _)| !NOT_SAID.contains(&name.as_str()))
            .for_each(|(_, item)| scan(item, system, what, seen)),
        _ => {}
    }
}

fn shaft(shaft_mm: f64, depth_m: Option<f64>) -> AnchorKind {
    AnchorKind::Screw {
        shaft: ScrewShaft::Round,
        shaft_mm,
        torque_nm: Some(80.0),
        helix_mm: Some(150.0),
        depth_m,
    }
}

/// Every kind of anchor, also where its rule ends.
fn anchors() -> Vec<AnchorKind> {
    let deadman = |depth_m, is_log| AnchorKind::Deadman { length_m: 1.2, face_m: 0.15, is_log, depth_m };
    let pickets = [Pickets::Single, Pickets::OneOne, Pickets::ThreeTwoOne];
    let mut all = vec![
        AnchorKind::Unknown,
        shaft(19.0, Some(1.2)),
        shaft(19.0, Some(0.3)),
        shaft(60.0, Some(1.2)),
        shaft(19.0, None),
        AnchorKind::Plate { side_m: 0.3, depth_m: 1.0 },
        deadman(1.2, false),
        deadman(0.6, false),
        deadman(1.2, true),
        AnchorKind::Stake { diameter_mm: 16.0, driven_m: 0.8 },
        AnchorKind::Ballast { mass_kg: 200.0 },
    ];
    all.extend(pickets.map(|pattern| AnchorKind::Pickets { pattern }));
    all
}

const SOILS: [SoilFeel; 6] = [
    SoilFeel::Unknown,
    SoilFeel::Loam,
    SoilFeel::Gravel,
    SoilFeel::SoftOrFill,
    SoilFeel::Clay { feel: ClayFeel::Stiff },
    SoilFeel::Sand { feel: SandFeel::Medium, under_water: false },
];

/// Names that people gave may hold any unit.
fn without_names(mut job: Job) -> Job {
    job.rig.tubes.iter_mut().for_each(|tube| tube.name = "Tube".into());
    job.rig.guy_levels.iter_mut().for_each(|level| level.rope.name = "rope".into());
    job
}

fn units(system: UnitSystem) -> Units {
    Units { system, inch_fraction: 16 }
}

/// The yardstick with no distance of its own.
fn troubled(system: UnitSystem) -> Job {
    by_habits(without_names(yardstick()), system)
}

fn jobs(system: UnitSystem) -> Vec<(String, Job)> {
    let mut all = vec![
        ("blank".to_owned(), without_names(blank(units(system)))),
        ("yardstick".to_owned(), troubled(system)),
    ];
    for (i, anchor) in anchors().into_iter().enumerate() {
        let mut job = troubled(system);
        job.rig.guy_levels.iter_mut().for_each(|level| level.anchor = anchor);
        job.yard.soil = SOILS[i % SOILS.len()];
        // Over the house, the line and the path by turns.
        job.placement.mast = PointFix::Coordinates { east_m: -3.0 * i as f64, north_m: 4.0 - 3.0 * i as f64 };
        all.push((format!("{anchor:?}"), job));
    }
    all
}

fn document(job: &Job) -> Value {
    serde_json::to_value(job).expect("a job is JSON")
}

#[test]
fn plans_reports_and_maps_are_in_one_system() {
    for system in BOTH {
        let mut seen = 0;
        for (what, job) in jobs(system) {
            let request =
                json!({ "job": document(&job), "map": { "text_m": 0.2 }, "profile": true, "report": true });
            let request: PlanRequest = serde_json::from_value(request).expect("a request");
            let answer = run::plan(&request).unwrap_or_else(|errors| panic!("{what}: {errors}"));
            scan(&serde_json::to_value(answer).expect("JSON"), system, &what, &mut seen);
        }
        assert!(seen > 5_000, "{seen} texts were looked at");
    }
}

#[test]
fn what_is_said_of_the_wind_is_in_one_system() {
    for system in BOTH {
        let mut seen = 0;
        for (what, mut job) in jobs(system) {
            job.placement = yardstick().placement;
            let table = json!({ "job": document(&job), "height": MastHeight::Raised, "gust_m_per_s": 14.0, "from_deg": 40.0 });
            if let Ok(answer) = wind::wind_table(&serde_json::from_value(table).expect("a request")) {
                scan(&serde_json::to_value(answer).expect("JSON"), system, &what, &mut seen);
            }
            // Two directions are enough for all that is said.
            let limit = serde_json::from_value(json!({ "job": document(&job) })).expect("a request");
            let answer = wind::wind_capacity(&limit, &mut |progress| progress.done < 2);
            scan(&serde_json::to_value(answer.expect("a limit")).expect("JSON"), system, &what, &mut seen);
        }
        assert!(seen > 3_000, "{seen} texts were looked at");
    }
}

/// What stands between the tags of an SVG.
fn texts(svg: &str) -> Vec<String> {
    svg.split('<')
        .filter_map(|part| part.split_once('>'))
        .map(|(_, text)| text.replace("&quot;", "\"").replace("&#39;", "'"))
        .collect()
}

#[test]
fn printed_sheets_and_tables_are_in_one_system() {
    for system in BOTH {
        let mut job = troubled(system);
        let taken_at = "2026-11-14T14:20:00-05:00".parse().expect("a date");
        job.log = record(
            &job,
            &How {
                taken_at,
                who: String::new(),
                instrument: Instrument::Typed,
                captures: Vec::new(),
                open: Vec::new(),
            },
        );
        for paper in Paper::ALL {
            let request = SheetsRequest {
                job: document(&job),
                paper,
                made_at: None,
                author: None,
                set: Default::default(),
            };
            for page in run::sheets(&request).expect("sheets").pages {
                for text in texts(&page.svg) {
                    no_other(&text, system, &page.name);
                }
            }
        }
        let points = PointsFileRequest { job: document(&job), format: PointsFormat::Csv, mark: "A".into() };
        let points = run::points_file(&points).expect("points").text;
        let log = run::log_csv(&JobRequest { job: document(&job) }).expect("a log").text;
        let plain = mastwright_engine::report::log_plain(&job);
        no_other(&plain, system, "the log");
        let [metric, imperial] = [points.contains("east_m,"), points.contains("east_ft,")];
        assert_eq!((metric, imperial), (system == UnitSystem::Metric, system == UnitSystem::Imperial));
        let [metric, imperial] = [log.contains("tape_m\"\""), log.contains("tape_ft\"\"")];
        assert_eq!((metric, imperial), (system == UnitSystem::Metric, system == UnitSystem::Imperial));
        assert!(log.lines().count() > 20, "the log has entries");
    }
}

/// Every number of a job, far out of its range.
fn numbers(value: &Value, path: &str, into: &mut Vec<String>) {
    match value {
        Value::Number(_) => into.push(path.to_owned()),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| numbers(item, &format!("{path}/{i}"), into))
        }
        Value::Object(members) => {
            members.iter().for_each(|(name, item)| numbers(item, &format!("{path}/{name}"), into))
        }
        _ => {}
    }
}

#[test]
fn what_is_wrong_with_a_number_is_said_in_one_system() {
    for system in BOTH {
        let whole = document(&troubled(system));
        let (mut paths, mut refused) = (Vec::new(), 0);
        numbers(&whole, "", &mut paths);
        for (path, beyond) in paths.iter().flat_map(|path| [(path, 1e7), (path, -1e7)]) {
            let mut job = whole.clone();
            *job.pointer_mut(path).expect("it is there") = json!(beyond);
            let Err(errors) = read_job_value(&job) else { continue };
            for error in errors.errors.iter().filter(|error| error.path == *path) {
                refused += 1;
                no_other(&error.given, system, path);
                no_other(&error.allowed, system, path);
                let words = ["metre", "millimetre", "newton", "kilogram", " grams", "pascal", "Celsius"];
                let has_word = words.iter().any(|word| error.allowed.contains(word));
                assert!(system == UnitSystem::Metric || !has_word, "{path}: {}", error.allowed);
            }
        }
        assert!(refused > 100, "{refused}");
        for suffix in ["m", "mm", "n", "kg", "g_per_m", "mm_per_m", "m_per_s", "nm", "mpa", "c", "percent"] {
            let error = read_quantity(&format!("it_{suffix}"), "?", units(system)).expect_err("no quantity");
            no_other(&error.allowed, system, suffix);
        }
    }
}

/// The screens take every quantity from the engine in words. The page that chooses the units shows both.
#[test]
fn the_screens_write_no_quantity_themselves() {
    let mut files = 0;
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../ui/src");
    let mut folders = vec![root];
    while let Some(folder) = folders.pop() {
        for entry in
            std::fs::read_dir(folder).expect("the screens").map(|entry| entry.expect("a file").path())
        {
            if entry.is_dir() {
                folders.push(entry);
                continue;
            }
            let name = entry.file_name().unwrap_or_default().to_string_lossy().into_owned();
            let written_by_us =
                name.ends_with(".svelte") || (name.ends_with(".ts") && !name.ends_with(".test.ts"));
            if !written_by_us
                || ["UnitsPage.svelte", "round-figures.ts", "types.ts", "key.ts", "print.ts"]
                    .contains(&name.as_str())
            {
                continue;
            }
            files += 1;
            let text = std::fs::read_to_string(&entry).expect("text");
            let markup = text.split("<style>").next().unwrap_or_default();
            for line in markup.lines().map(str::trim) {
                let no_words = ["//", "*", "/*", "<path", "d=\"", "class=", "<!--"]
                    .iter()
                    .any(|start| line.starts_with(start));
                let code = line.split("//").next().unwrap_or_default();
                // Quotes after a digit end a string of code here, and no length.
                let said = code.replace(['"', '\'', '`'], " | ");
                if !no_words && !line.contains(" d=\"") {
                    for system in BOTH {
                        assert_eq!(quantity_of(&said, system), None, "{name}: {line}");
                    }
                }
            }
        }
    }
    assert!(files > 150, "{files}");
}
