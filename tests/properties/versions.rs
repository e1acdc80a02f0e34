//! Versions of the job: every shape that ever landed still reads, what was brought up stays what it was, and fields that
//! nobody here knows outlive reading, editing and writing.

use std::collections::BTreeSet;
use std::path::PathBuf;

use mastwright_api::messages::JobRequest;
use mastwright_api::run;
use mastwright_engine::finding::Severity;
use mastwright_engine::job::{Document, FORMAT_MINOR, FORMAT_VERSION, JOB_SCHEMA, read_job};
use mastwright_engine::plan::compute;
use proptest::prelude::*;
use serde_json::{Map, Value, json};

/// The fixtures of a version: its name and its text.
fn fixtures(version: u32) -> Vec<(String, String)> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("data/versions/{version}"));
    let mut files: Vec<PathBuf> = std::fs::read_dir(&folder)
        .unwrap_or_else(|error| panic!("version {version} has no fixtures: {error}"))
        .map(|file| file.expect("a file").path())
        .collect();
    files.sort();
    let read = |path: &PathBuf| std::fs::read_to_string(path).expect("a text");
    files.iter().map(|path| (path.display().to_string(), read(path))).collect()
}

fn all_fixtures() -> Vec<(String, String)> {
    (1..=FORMAT_VERSION).flat_map(fixtures).collect()
}

#[test]
fn every_version_that_landed_has_fixtures_which_read_and_plan() {
    assert!(fixtures(1).len() >= 18, "the shapes of version 1 as they landed");
    for (name, text) in all_fixtures() {
        let document = Document::read(&text).unwrap_or_else(|errors| panic!("{name}: {errors}"));
        compute(document.job()).unwrap_or_else(|errors| panic!("{name}: {errors}"));
        let (version, minor) = (document.job().mastwright_job, document.job().mastwright_minor);
        assert_eq!((version, minor), (FORMAT_VERSION, FORMAT_MINOR), "{name}");
    }
}

#[test]
fn what_was_brought_up_and_written_reads_as_the_same_job() {
    for (name, text) in all_fixtures() {
        let document = Document::read(&text).unwrap();
        let again = Document::read(&document.text()).unwrap();
        assert_eq!(again, document, "{name}");
        assert_eq!(again.text(), document.text(), "{name}");
        assert_eq!(Document::of(&document.value()).unwrap(), document, "{name}");
    }
}

/// Nothing that a fixture states is otherwise in what was read from it, but for its version and for names that a version
/// changed.
#[test]
fn bringing_up_changes_nothing_that_a_document_states() {
    let mut renamed = 0;
    for (name, text) in all_fixtures() {
        let mut before: Value = serde_json::from_str(&text).unwrap();
        let after = Document::read(&text).unwrap().value();
        // As its writer reads it: 2 gave other names to fields of the guys and of the log.
        if before["mastwright_job"] != json!(FORMAT_VERSION) {
            renamed += in_words_of_version_3(&mut before);
        }
        // The check sum is that of the document as it now reads: the next test.
        if let Some(history) = before.get_mut("mastwright_history").and_then(Value::as_object_mut) {
            history.remove("sum");
        }
        before["mastwright_job"] = json!(FORMAT_VERSION);
        before["mastwright_minor"] = json!(FORMAT_MINOR);
        assert_states(&before, &after, &name);
    }
    assert!(renamed > 500, "{renamed}");
}

/// By a table that the step knows nothing of: the names by the pointers of the groups that they stand in. How many there were.
fn in_words_of_version_3(document: &mut Value) -> usize {
    let mut all = Vec::new();
    groups(document, String::new(), &mut all);
    let mut count = 0;
    for at in all {
        let steps: Vec<&str> = at.split('/').skip(1).collect();
        let names: &[(&str, &str)] = match *steps.as_slice() {
            ["rig", "guy_levels", _] => &[("holdfast", "anchor"), ("anchors", "anchor_layout")],
            ["log", _] => &[("about", "subject"), ("did", "action"), ("read", "value")],
            _ => continue,
        };
        for (was, is) in names {
            if let Some(value) = document.pointer(&at).and_then(|group| group.get(was)).cloned() {
                let group = document.pointer_mut(&at).and_then(Value::as_object_mut).unwrap();
                group.remove(*was);
                group.insert((*is).to_owned(), value);
                count += 1;
            }
        }
    }
    let places = document.pointer_mut("/mastwright_history/places").and_then(Value::as_array_mut);
    for place in places.into_iter().flatten() {
        let is = match place["place"].as_str().unwrap() {
            "/rig/guy_levels/@lower/holdfast" => "/rig/guy_levels/@lower/anchor",
            "/rig/guy_levels/@upper/anchors" => "/rig/guy_levels/@upper/anchor_layout",
            _ => continue,
        };
        place["place"] = json!(is);
        count += 1;
    }
    count
}

/// A job that was handed over by a program of version 2, with a conflict that nobody settled: it is asked about as it was, its
/// history still counts, and a job that somebody changed by hand is told from it as before.
#[test]
fn a_history_of_an_earlier_version_still_counts() {
    let (_, text) =
        fixtures(2).into_iter().find(|(name, _)| name.contains("handed-over")).expect("a fixture");
    let document: Value = serde_json::from_str(&text).unwrap();
    let merge = |one: &Value, other: &Value| {
        mastwright_api::merge::merge_documents([one, other], None, ["one", "other"]).unwrap()
    };
    let asked = |document: &Value| -> Vec<String> {
        merge(document, document).conflicts.iter().map(|one| one.place.clone()).collect()
    };
    assert_eq!(asked(&document), ["/rig/guy_levels/@lower/anchor"]);
    let brought_up = Document::read(&text).unwrap().value();
    assert_eq!(asked(&brought_up), ["/rig/guy_levels/@lower/anchor"]);
    // On the one device brought up already, on the other not: nothing more is asked.
    assert_eq!(merge(&document, &brought_up).conflicts.len(), 1);
    // One changed by hand, with the sum left as it was: where the two differ both are kept, and asked about.
    let mut by_hand = document.clone();
    by_hand["notes"] = json!("by hand");
    let asked: Vec<String> =
        merge(&by_hand, &document).conflicts.iter().map(|one| one.place.clone()).collect();
    assert!(asked.contains(&"/notes".to_owned()), "{asked:?}");
}

fn assert_states(stated: &Value, after: &Value, at: &str) {
    match (stated, after) {
        (Value::Object(stated), Value::Object(after)) => {
            for (name, value) in stated {
                assert_states(value, after.get(name).unwrap_or(&Value::Null), &format!("{at}/{name}"));
            }
        }
        (Value::Array(stated), Value::Array(after)) => {
            assert_eq!(stated.len(), after.len(), "{at}");
            stated.iter().zip(after).enumerate().for_each(|(i, (one, other))| {
                assert_states(one, other, &format!("{at}/{i}"));
            });
        }
        (Value::Number(a), Value::Number(b)) => assert_eq!(a.as_f64(), b.as_f64(), "{at}"),
        _ => assert_eq!(stated, after, "{at}"),
    }
}

/// Every alternative of the present schema stands in some fixture, so that no kind of thing goes unread.
#[test]
fn the_fixtures_hold_every_kind_of_thing() {
    let schema: Value = serde_json::from_str(JOB_SCHEMA).unwrap();
    let mut wanted = BTreeSet::new();
    for (name, definition) in schema["$defs"].as_object().unwrap() {
        // What a log entry is about is no thing of the yard's; soil has kinds without any field.
        if ["Subject", "SoilFeel"].contains(&name.as_str()) {
            continue;
        }
        for alternative in definition["oneOf"].as_array().into_iter().flatten() {
            let properties = alternative["properties"].as_object().into_iter().flatten();
            wanted.extend(
                properties
                    .filter_map(|(tag, field)| Some((tag.clone(), field["const"].as_str()?.to_owned()))),
            );
        }
    }
    let mut held = BTreeSet::new();
    for (_, text) in all_fixtures() {
        gather(&serde_json::from_str(&text).unwrap(), &mut held);
    }
    let lacking: Vec<_> = wanted.difference(&held).collect();
    assert!(wanted.len() > 30 && lacking.is_empty(), "no fixture holds {lacking:?}");
}

fn gather(value: &Value, held: &mut BTreeSet<(String, String)>) {
    match value {
        Value::Object(members) => members.iter().for_each(|(name, part)| {
            if let Some(text) = part.as_str() {
                held.insert((name.clone(), text.to_owned()));
            }
            gather(part, held);
        }),
        Value::Array(items) => items.iter().for_each(|item| gather(item, held)),
        _ => {}
    }
}

/// Pointers of all groups of fields.
fn groups(value: &Value, at: String, into: &mut Vec<String>) {
    match value {
        Value::Object(members) => {
            members.iter().for_each(|(name, part)| groups(part, format!("{at}/{name}"), into));
            into.push(at);
        }
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| groups(item, format!("{at}/{i}"), into));
        }
        _ => {}
    }
}

/// Any JSON, as a later program may write it.
fn anything() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        prop::num::f64::NORMAL.prop_map(Value::from),
        ".*".prop_map(Value::from),
    ];
    leaf.prop_recursive(3, 12, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::btree_map(".{0,6}", inner, 0..4)
                .prop_map(|map| Value::Object(map.into_iter().collect::<Map<_, _>>())),
        ]
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn planted_fields_outlive_reading_editing_and_writing(
        which in 0_usize..100,
        plants in prop::collection::vec((0_usize..10_000, "[a-z~/ é]{1,8}", anything()), 1..6),
    ) {
        let files = all_fixtures();
        let (_, text) = &files[which % files.len()];
        let mut document = Document::read(text).unwrap().value();
        document["mastwright_minor"] = json!(FORMAT_MINOR + 1);
        let mut all = Vec::new();
        groups(&document, String::new(), &mut all);
        let mut planted = Vec::new();
        for (at, name, value) in plants {
            let at = all[at % all.len()].clone();
            // No field of any group is called so.
            let name = format!("x {name}");
            if document.pointer(&at).unwrap().get(&name).is_none() {
                document.pointer_mut(&at).unwrap()[&name] = value.clone();
                planted.push((at, name, value));
            }
        }
        // Through the engine alone, and through the operations by which the screens and the command line save.
        let read = Document::of(&document).unwrap();
        prop_assert_eq!(read.newer_fields(), planted.len());
        let mut edited = read.value();
        edited["name"] = json!("edited");
        let written = run::job_text(&JobRequest { job: edited }).unwrap().text;
        for text in [read.text(), written] {
            let again: Value = serde_json::from_str(&text).unwrap();
            for (at, name, value) in &planted {
                let kept = again.pointer(at).and_then(|group| group.get(name));
                let bytes = |value: &Value| serde_json::to_string(value).unwrap();
                prop_assert_eq!(kept.map(bytes), Some(bytes(value)), "{} in {}", name, at);
            }
            prop_assert_eq!(read_job(&text).unwrap().yard, read.job().yard.clone());
        }
    }
}

#[test]
fn known_fields_keep_their_order_beside_those_that_are_carried() {
    let (_, text) = fixtures(FORMAT_VERSION).swap_remove(0);
    let mut document = Document::read(&text).unwrap().value();
    let plain = Document::of(&document).unwrap().text();
    document["mastwright_minor"] = json!(FORMAT_MINOR + 1);
    document["yard"]["aaa"] = json!({ "b": 1, "a": [2.5] });
    let carried = Document::of(&document).unwrap().text();
    let without: Vec<&str> = carried.lines().filter(|line| !line.contains("mastwright_minor")).collect();
    let plain: Vec<&str> = plain.lines().filter(|line| !line.contains("mastwright_minor")).collect();
    assert_eq!(without.len(), plain.len() + 6);
    let names = |lines: &[&str]| -> Vec<String> {
        lines
            .iter()
            .filter(|line| !["aaa", "\"b\"", "\"a\""].iter().any(|new| line.contains(new)))
            .filter_map(|line| Some(line.trim().split_once(':')?.0.to_owned()))
            .collect()
    };
    assert_eq!(names(&without), names(&plain));
}

#[test]
fn a_field_misspelt_in_a_document_of_this_version_is_still_named() {
    let (_, text) = fixtures(FORMAT_VERSION).swap_remove(0);
    let mut document = Document::read(&text).unwrap().value();
    document["yard"]["soill"] = json!({ "kind": "rock" });
    let errors = Document::of(&document).unwrap_err().errors;
    assert_eq!(errors.iter().map(|error| error.path.as_str()).collect::<Vec<_>>(), ["/yard/soill"]);
    assert!(errors[0].allowed.contains("soil"), "{}", errors[0].allowed);
    // What a newer minor version says of a field that is known is checked all the same.
    document["mastwright_minor"] = json!(FORMAT_MINOR + 1);
    document["yard"]["soil"] = json!({ "kind": "cheese" });
    assert_eq!(Document::of(&document).unwrap_err().errors[0].path, "/yard/soil/kind");
}

#[test]
fn a_plan_of_a_newer_document_says_that_something_was_not_looked_at() {
    let (_, text) = fixtures(FORMAT_VERSION).swap_remove(0);
    let mut document = Document::read(&text).unwrap().value();
    let found = |document: &Value| {
        let plan = compute(Document::of(document).unwrap().job()).unwrap().plan;
        plan.findings.iter().any(|one| one.rule == "newer_fields" && one.severity == Severity::Unchecked)
    };
    assert!(!found(&document));
    document["mastwright_minor"] = json!(FORMAT_MINOR + 1);
    assert!(found(&document));
}
