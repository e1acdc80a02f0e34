//! The command line as a user meets it: what goes to which stream, and the exit codes of `--help`.

mod support;

use std::process::{Command, Output};

use support::mastwright_fed;

fn mastwright(arguments: &[&str], input: &str) -> Output {
    mastwright_fed(arguments, input.as_bytes())
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn demo() -> String {
    out(&mastwright(&["demo"], ""))
}

#[test]
fn plan_prints_the_foot_and_the_guys() {
    let output = mastwright(&["plan", "-"], &yardstick(|_| {}));
    assert_eq!(output.status.code(), Some(0));
    let text = out(&output);
    assert!(text.contains("Front foot, height at its centre"), "{text}");
    assert!(text.contains("Upper guy 3"), "{text}");
    assert!(output.stderr.is_empty());
}

#[test]
fn plan_as_json_is_a_plan() {
    let output = mastwright(&["plan", "--demo", "--json"], "");
    let plan: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(plan["guys"].as_array().map(Vec::len), Some(6));
}

#[test]
fn plan_goes_on_from_what_stands() {
    let mut job: serde_json::Value = serde_json::from_str(&demo()).expect("JSON");
    let at =
        serde_json::json!({ "by": "bearing_tape", "from": "mast", "bearing_deg": 223.6, "tape_m": 4.97 });
    job["as_built"] = serde_json::json!({ "anchors": [{ "guy": "upper-1", "at": at }] });
    let text = out(&mastwright(&["plan", "-"], &job.to_string()));
    assert!(text.contains("What really stands: Upper guy 1 anchor"), "{text}");
    assert!(text.contains("CAUTION (new since pegged)"), "{text}");
}

#[test]
fn log_prints_every_entry() {
    let empty = mastwright(&["log", "--demo"], "");
    assert_eq!(out(&empty), "The survey log is empty.\n");
    let mut job: serde_json::Value = serde_json::from_str(&demo()).expect("JSON");
    job["log"] = serde_json::json!([{
        "number": 1, "taken_at": "2026-11-25T09:00:00-05:00", "who": "Ada", "action": "read",
        "subject": { "kind": "reading", "id": "S1" }, "name": "Slope of the ground", "part": "slope",
        "value": { "kind": "slope", "bearing_deg": 240, "slope_deg": -6.9 }, "instrument": "phone_tilt"
    }]);
    let text = out(&mastwright(&["log", "-"], &job.to_string()));
    assert!(text.contains("Wednesday 25 November 2026"), "{text}");
    assert!(text.contains("phone’s tilt; by Ada"), "{text}");
    let table = out(&mastwright(&["log", "-", "--csv"], &job.to_string()));
    assert!(table.lines().count() == 2 && table.contains("2026-11-25T09:00:00-05:00"), "{table}");
}

/// The yardstick where nothing stands in its way, changed.
fn yardstick(change: impl Fn(&mut serde_json::Value)) -> String {
    let text = include_str!("../../../tests/data/yardstick-53a387c.json");
    let job = mastwright_engine::job::read_job(text).expect("the yardstick reads");
    let mut job = serde_json::to_value(job).expect("JSON");
    job["placement"]["mast"] = serde_json::json!({ "by": "coordinates", "east_m": -19.5, "north_m": -21.0 });
    job["raising"] = serde_json::json!({
        "hinge": { "kind": "pin", "height_m": 0.3 },
        "lies_toward_deg": 90,
        "tubes": "run_down",
        "strands": "put_on_later",
        "fast_before": { "kind": "as_needed" },
    });
    change(&mut job);
    job.to_string()
}

/// Every command that looks at the plan.
const JUDGING: [&[&str]; 6] = [
    &["check", "-"],
    &["plan", "-"],
    &["plan", "-", "--json"],
    &["map", "-"],
    &["points", "-"],
    &["spread", "-", "--draws", "100"],
];

/// And those that search for long in a build for tests.
const IN_WIND: [&[&str]; 2] = [&["wind", "-"], &["wind", "-", "--json"]];

fn all_end_with(code: i32, job: &str, commands: &[&[&str]]) {
    for &arguments in commands {
        let output = mastwright(arguments, job);
        assert_eq!(output.status.code(), Some(code), "{arguments:?}: {}", said(&output));
        assert!(!output.stdout.is_empty(), "{arguments:?} does its work all the same");
    }
}

#[test]
fn what_says_stop_ends_every_command_with_1() {
    let spot = serde_json::json!({ "by": "coordinates", "east_m": -16.0, "north_m": -24.0 });
    // Three anchors on one spot: it does not stand in still air.
    all_end_with(
        1,
        &yardstick(|job| {
            job["rig"]["guy_levels"][0]["anchor_layout"] =
                serde_json::json!({ "rule": "free", "anchors": [spot, spot, spot] })
        }),
        &JUDGING,
    );
    // 20 kN of pretension on a rope of 7.8 kN.
    let tight = yardstick(|job| {
        let level = &mut job["rig"]["guy_levels"][0];
        level["tension_n"] = serde_json::json!(20_000);
        level["rope"]["strength"]["minimum_n"] = serde_json::json!(7800);
    });
    all_end_with(1, &tight, &JUDGING);
    let text = out(&mastwright(&["check", "-"], &tight));
    assert!(text.starts_with("STOP: ") && text.contains("Even in still air"), "{text}");
    // A guy too heavy for its tension has no table, and its limit says why.
    let heavy = yardstick(|job| {
        let level = &mut job["rig"]["guy_levels"][0];
        level["rope"]["mass_g_per_m"] = serde_json::json!(9000);
        level["tension_n"] = serde_json::json!(5);
    });
    all_end_with(1, &heavy, &JUDGING);
    all_end_with(1, &heavy, &IN_WIND);
}

#[test]
fn what_nobody_knows_ends_with_4_and_tells_no_gust() {
    let unknown = yardstick(|job| {
        job["yard"]["soil"] = serde_json::json!({ "kind": "unknown" });
        job["rig"]["guy_levels"][0]["anchor"] = serde_json::json!({ "kind": "unknown" });
        job["rig"]["guy_levels"][0]["rope"]["strength"] = serde_json::json!({});
    });
    all_end_with(4, &unknown, &JUDGING);
    all_end_with(4, &unknown, &IN_WIND);
    // Members with names: nobody has to count what stands where.
    let printed = out(&mastwright(&["wind", "-", "--json"], &unknown));
    let printed: serde_json::Value = serde_json::from_str(&printed).unwrap();
    assert_eq!(printed["limit"]["verdict"]["verdict"], "not_known");
    assert!(printed["table"].is_object() && printed["changes"].is_object(), "{printed}");
    for arguments in [["check", "-"], ["wind", "-"]] {
        let text = out(&mastwright(&arguments, &unknown));
        for entry in
            ["The soil, by thumb and bar", "What the guys are made fast to", "least breaking strength"]
        {
            assert!(text.contains(entry), "{arguments:?}: {entry}: {text}");
        }
        // The one speed is the gust that the table was asked for.
        let speeds: Vec<&str> = text
            .lines()
            .filter(|line| line.contains(" mph") && !line.contains("the worst direction"))
            .collect();
        assert_eq!(speeds, [""; 0], "{arguments:?}");
    }
}

#[test]
fn what_is_known_and_stands_ends_with_0() {
    all_end_with(0, &yardstick(|_| {}), &JUDGING);
    let text = out(&mastwright(&["check", "-"], &yardstick(|_| {})));
    assert!(text.starts_with("Nothing here says stop. Look"), "{text}");
}

/// Nothing that they print hangs on how a plan is judged.
#[test]
fn the_other_commands_do_not_judge() {
    for arguments in [&["demo"][..], &["schema"], &["log", "--demo"], &["--help"], &["--version"]] {
        assert_eq!(mastwright(arguments, "").status.code(), Some(0), "{arguments:?}");
    }
}

#[test]
fn every_wrong_field_is_named_on_standard_error() {
    let mut job: serde_json::Value = serde_json::from_str(&demo()).expect("JSON");
    job["rig"]["tubes"][0]["length_m"] = serde_json::json!(-3);
    job["rig"]["tubes"][1]["lenght_m"] = serde_json::json!(3);
    job["yard"]["slopes"][0]["slope_deg"] = serde_json::json!(75);
    let output = mastwright(&["plan", "-"], &job.to_string());
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
    for path in ["/rig/tubes/0/length_m", "/rig/tubes/1/lenght_m", "/yard/slopes/0/slope_deg"] {
        assert!(said(&output).contains(path), "{}", said(&output));
    }
}

#[test]
fn what_is_no_json_is_said_with_its_line() {
    let output = mastwright(&["check", "-"], "{\n  \"name\": ,\n}");
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("line 2"), "{}", said(&output));
}

#[test]
fn a_file_that_is_not_there_ends_with_3() {
    let output = mastwright(&["plan", "no-such-file.json"], "");
    assert_eq!(output.status.code(), Some(3));
    assert!(said(&output).contains("no-such-file.json"));
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_device_is_told_in_words_and_ends_with_3() {
    for arguments in
        [&["points", "--demo", "--out", "/dev/full"][..], &["wind", "--demo", "--rose", "/dev/full"]]
    {
        let output = mastwright(arguments, "");
        assert_eq!(output.status.code(), Some(3), "{}", said(&output));
        assert!(said(&output).contains("/dev/full: there is no room left there"), "{}", said(&output));
    }
}

#[cfg(unix)]
#[test]
fn a_file_that_there_is_no_room_for_leaves_the_one_before_it() {
    let folder = std::env::temp_dir().join(format!("mastwright-room-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let sheets = folder.join("sheets.pdf");
    std::fs::write(&sheets, "the sheets of yesterday").unwrap();
    // No file may grow over 4 kB, and who tries gets an error instead of a signal.
    let limited = "trap '' XFSZ; ulimit -f 8; exec \"$@\"";
    let output = Command::new("sh")
        .args(["-c", limited, "sh", env!("CARGO_BIN_EXE_mastwright"), "map", "--demo", "--out"])
        .arg(&sheets)
        .output()
        .unwrap();
    let (kept, left) = (std::fs::read(&sheets).unwrap(), std::fs::read_dir(&folder).unwrap().count());
    std::fs::remove_dir_all(&folder).unwrap();
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("lets no file grow that large"), "{}", said(&output));
    assert_eq!(kept, b"the sheets of yesterday");
    assert_eq!(left, 1, "nothing half-written lies beside it");
}

#[test]
fn map_writes_its_sheets_as_svg_one_file_a_page() {
    let folder = std::env::temp_dir().join(format!("mastwright-map-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("sheets.svg");
    let output = mastwright(&["map", "--demo", "--paper", "letter", "--out", &path.to_string_lossy()], "");
    assert_eq!(output.status.code(), Some(1), "the demo has conflicts: {}", said(&output));
    let pages =
        [path, folder.join("sheets-2.svg")].map(|path| std::fs::read_to_string(path).expect("a page"));
    let _ = std::fs::remove_dir_all(&folder);
    for svg in pages {
        assert!(svg.starts_with("<svg"), "{}", &svg[..60]);
        assert!(svg.contains("Lantern Green"));
    }
}

/// By the name's ending; the same job gives the same file, and what is said of it is in it.
#[test]
fn map_writes_all_sheets_as_one_pdf() {
    let path = std::env::temp_dir().join(format!("mastwright-map-{}.PDF", std::process::id()));
    let name = path.to_string_lossy().into_owned();
    let write = |more: &[&str]| {
        let output = mastwright(&[&["map", "--demo", "--out", &name], more].concat(), "");
        assert_eq!(output.status.code(), Some(1), "the demo has conflicts: {}", said(&output));
        let bytes = std::fs::read(&path).expect("it was written");
        let _ = std::fs::remove_file(&path);
        bytes
    };
    let pdf = write(&[]);
    assert!(pdf.starts_with(b"%PDF-1."));
    assert!(pdf == write(&[]), "two runs differ");
    assert!(pdf != write(&["--author", "A. Builder"]));
    let output = mastwright(&["map", "--demo", "--out", &name, "--made-at", "yesterday"], "");
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("made_at"), "{}", said(&output));
    assert!(!path.exists());
}

/// Beside the sheet, too: whoever prints it should not find the empty boxes on paper.
#[test]
fn map_names_letters_that_its_pdf_cannot_show() {
    let path = std::env::temp_dir().join(format!("mastwright-letters-{}.pdf", std::process::id()));
    let name = path.to_string_lossy().into_owned();
    let called = |job: &'static str| {
        let output = mastwright(&["map", "-", "--out", &name], &yardstick(|it| it["name"] = job.into()));
        assert!(std::fs::remove_file(&path).is_ok(), "{}", said(&output));
        said(&output)
    };
    let told = called("竹 mast");
    assert!(told.contains("U+7AF9") && told.matches("U+").count() == 1, "{told}");
    let told = called("Łódź");
    assert!(!told.contains("U+"), "{told}");
}

#[test]
fn map_printed_is_the_first_page_and_says_so() {
    let output = mastwright(&["map", "--demo"], "");
    assert_eq!(out(&output).matches("<svg").count(), 1);
    assert!(said(&output).contains("page 1 of"), "{}", said(&output));
}

#[test]
fn schema_is_the_published_one() {
    assert_eq!(out(&mastwright(&["schema"], "")), include_str!("../../../docs/job.schema.json"));
}

#[test]
fn a_job_and_the_demo_at_once_are_refused() {
    assert_eq!(mastwright(&["plan", "--demo", "job.json"], "").status.code(), Some(2));
    assert_eq!(mastwright(&["plan"], "").status.code(), Some(2));
}

#[test]
fn wind_says_limits_cautions_and_changes() {
    let output = mastwright(&["wind", "-"], &yardstick(|_| {}));
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let text = out(&output);
    let limit = text.lines().find(|line| line.contains("Gust limit, mast raised")).unwrap_or_default();
    assert!(limit.contains("mph, wind from"), "{text}");
    for part in
        ["before gusts of", "What to change first", "licensed engineer", "not for climbing", "look at by eye"]
    {
        assert!(text.contains(part), "{part}: {text}");
    }
    let refused = mastwright(&["wind", "--demo", "--gust", "very strong"], "");
    assert_eq!(refused.status.code(), Some(2));
    assert!(said(&refused).contains("gust_m_per_s") && refused.stdout.is_empty(), "{}", said(&refused));
}

/// Clears the screen, rings, hides a line, turns the writing round.
const HOSTILE: &str = "\u{1b}[2J\u{7}\u{9b}31m\u{202e}drow\r\nCAUTION  none";

#[test]
fn no_name_in_a_document_reaches_the_terminal_as_a_command() {
    let mut job: serde_json::Value = serde_json::from_str(&demo()).expect("JSON");
    job["name"] = HOSTILE.into();
    for list in ["obstacles", "marks", "overhead_lines", "buried_services"] {
        for thing in job["yard"][list].as_array_mut().into_iter().flatten() {
            thing["name"] = HOSTILE.into();
        }
    }
    for level in job["rig"]["guy_levels"].as_array_mut().into_iter().flatten() {
        level["name"] = HOSTILE.into();
    }
    let document = job.to_string();
    let mut broken = job.clone();
    broken["yard"]["soil"] = HOSTILE.into();
    broken[HOSTILE] = 1.into();
    let commands: [(&[&str], &str); 6] = [
        (&["plan", "-"], &document),
        (&["plan", "-", "--json"], &document),
        (&["check", "-"], &document),
        (&["log", "-"], &document),
        (&["points", "-"], &document),
        (&["check", "-"], &broken.to_string()),
    ];
    for (arguments, input) in commands {
        let output = mastwright(arguments, input);
        for text in [out(&output), said(&output)] {
            let steers = |c: &char| (c.is_control() && !matches!(c, '\n' | '\r')) || *c == '\u{202e}';
            assert_eq!(text.chars().find(steers).map(u32::from), None, "{arguments:?}: {text}");
            assert!(!text.lines().any(|line| line.starts_with("CAUTION  none")), "{arguments:?}: {text}");
        }
    }
    let plan: serde_json::Value =
        serde_json::from_slice(&mastwright(&["plan", "-", "--json"], &document).stdout).expect("JSON");
    assert!(plan.to_string().contains("u001b"), "the document itself keeps its names");
}

#[test]
fn fifty_errors_are_listed_and_the_rest_is_counted() {
    let mut job: serde_json::Value = serde_json::from_str(&demo()).expect("JSON");
    job["yard"]["slopes"] = vec![serde_json::json!(7); 80].into();
    let said = said(&mastwright(&["check", "-"], &job.to_string()));
    assert_eq!(said.matches("/yard/slopes/").count(), 50, "{said}");
    assert!(said.trim_end().ends_with("and 30 more"), "{said}");
}

#[test]
fn another_encoding_is_named() {
    let latin = mastwright_fed(&["check", "-"], b"{\"name\": \"Caf\xe9\"}");
    assert_eq!(latin.status.code(), Some(2));
    assert!(said(&latin).contains("UTF-8"), "{}", said(&latin));
    let wide: Vec<u8> = demo().encode_utf16().flat_map(u16::to_le_bytes).collect();
    assert!(said(&mastwright_fed(&["check", "-"], &wide)).contains("UTF-16"));
    assert!(said(&mastwright_fed(&["check", "-"], &[0x1f, 0x8b, 8, 0])).contains("gzip"));
}

/// Three files in a folder of their own: what both began from, and what each made of it.
fn states(name: &str, changes: [&dyn Fn(&mut serde_json::Value); 2]) -> [String; 3] {
    let folder = std::env::temp_dir().join(format!("mastwright-merge-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = |name: &str, text: &str| {
        let path = folder.join(name);
        std::fs::write(&path, text).expect("a file");
        path.display().to_string()
    };
    let [one, other] = changes.map(yardstick);
    [file("base.json", &yardstick(|_| {})), file("phone.json", &one), file("laptop.json", &other)]
}

#[test]
fn merge_prints_the_job_that_has_what_both_did() {
    let [base, phone, laptop] =
        states("apart", [&|job| job["wind"]["ice_mm"] = 3.into(), &|job| job["notes"] = "windy".into()]);
    let output = mastwright(&["merge", &phone, &laptop, "--base", &base], "");
    assert_eq!((output.status.code(), said(&output).as_str()), (Some(0), ""));
    let job: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!((&job["wind"]["ice_mm"], &job["notes"]), (&3.0.into(), &"windy".into()));
    assert_eq!(
        mastwright(&["check", "-"], &out(&output)).status.code(),
        mastwright(&["check", &base], "").status.code()
    );
}

#[test]
fn merge_tells_what_was_written_twice_and_ends_with_5_until_it_is_settled() {
    let [base, phone, laptop] =
        states("twice", [&|job| job["wind"]["ice_mm"] = 3.into(), &|job| job["wind"]["ice_mm"] = 4.into()]);
    let output = mastwright(&["merge", &phone, &laptop, "--base", &base], "");
    assert_eq!(output.status.code(), Some(5));
    let said = said(&output);
    for part in ["Wind › ice", "phone.json: ", "laptop.json: ", "shown for now"] {
        assert!(said.contains(part), "{part}: {said}");
    }
    // Both stay in the file: merged with either of the two nothing is answered, and nothing lost.
    let merged = base.replace("base.json", "merged.json");
    std::fs::write(&merged, &output.stdout).expect("a file");
    let again = mastwright(&["merge", &merged, &merged], "");
    assert_eq!((again.status.code(), out(&again)), (Some(5), out(&output)));
    // Without what both began from all that differs is asked about.
    assert_eq!(mastwright(&["merge", &phone, &laptop], "").status.code(), Some(5));
    assert_eq!(mastwright(&["merge", &phone, "/nowhere.json"], "").status.code(), Some(3));
}
