//! Whatever a document holds, reading it never panics, and a field that was spoilt is named by its path.

use mastwright_engine::demo::LANTERN_GREEN;
use mastwright_engine::job::{Job, read_job, read_job_value, write_job};
use mastwright_engine::quantity::FieldErrors;
use proptest::prelude::*;
use serde_json::{Value, json};

fn demo() -> Value {
    serde_json::from_str(LANTERN_GREEN).expect("the demo is JSON")
}

/// JSON pointers of everything in a document, the document itself left out.
fn pointers(value: &Value, path: &str, into: &mut Vec<String>) {
    let steps: Vec<(String, &Value)> = match value {
        Value::Object(members) => members.iter().map(|(name, item)| (name.clone(), item)).collect(),
        Value::Array(items) => {
            items.iter().enumerate().map(|(index, item)| (index.to_string(), item)).collect()
        }
        _ => return,
    };
    for (step, item) in steps {
        let pointer = format!("{path}/{step}");
        into.push(pointer.clone());
        pointers(item, &pointer, into);
    }
}

fn all_pointers() -> Vec<String> {
    let mut all = Vec::new();
    pointers(&demo(), "", &mut all);
    all
}

fn number_pointers() -> Vec<String> {
    let document = demo();
    all_pointers()
        .into_iter()
        .filter(|pointer| document.pointer(pointer).is_some_and(Value::is_number))
        .collect()
}

fn with(pointer: &str, value: Value) -> Value {
    let mut document = demo();
    *document.pointer_mut(pointer).expect("the demo has this field") = value;
    document
}

fn without(pointer: &str) -> Value {
    let mut document = demo();
    let (group, name) = pointer.rsplit_once('/').expect("a pointer has a slash");
    match document.pointer_mut(group).expect("the demo has this group") {
        Value::Object(members) => drop(members.remove(name)),
        Value::Array(items) => drop(items.remove(name.parse().expect("an index"))),
        _ => panic!("{group} is neither group nor list"),
    }
    document
}

fn assert_names(read: &Result<Job, FieldErrors>, pointer: &str) {
    let errors = &read.as_ref().expect_err(pointer).errors;
    let named = errors.iter().any(|error| {
        assert!(!error.given.is_empty() && !error.allowed.is_empty() && !error.field.is_empty(), "{error:?}");
        error.path == pointer
    });
    assert!(named, "{pointer} is not among {errors:#?}");
}

/// Values that no field of the demo can take.
const ABSURD_NUMBERS: [f64; 4] = [1e308, -1e308, 1e15, -1e15];

#[test]
fn every_number_refuses_absurdities_by_name() {
    for pointer in number_pointers() {
        for absurd in ABSURD_NUMBERS {
            assert_names(&read_job_value(&with(&pointer, json!(absurd))), &pointer);
        }
        for absurd in [json!("NaN"), json!("2.5"), json!(true), json!([1]), json!({ "value": 1 })] {
            assert_names(&read_job_value(&with(&pointer, absurd)), &pointer);
        }
    }
}

#[test]
fn every_field_refuses_the_wrong_sort_by_name() {
    for pointer in all_pointers() {
        let document = demo();
        let wrong = match document.pointer(&pointer).expect("it is there") {
            Value::String(_) => json!(7),
            Value::Bool(_) => json!("yes"),
            Value::Null => json!([]),
            _ => json!("text"),
        };
        let read = read_job_value(&with(&pointer, wrong));
        // A tag decides the rest of its group, so it may be told at the group.
        assert_names(&read, &pointer);
    }
}

#[test]
fn an_extra_field_is_named_wherever_it_stands() {
    let document = demo();
    for pointer in
        all_pointers().into_iter().filter(|pointer| document.pointer(pointer).is_some_and(Value::is_object))
    {
        let mut group = document.pointer(&pointer).cloned().expect("it is there");
        group["length_furlongs"] = json!(1);
        assert_names(&read_job_value(&with(&pointer, group)), &format!("{pointer}/length_furlongs"));
    }
}

#[test]
fn a_removed_field_is_named_or_has_a_default() {
    let document = demo();
    for pointer in all_pointers() {
        let (group, name) = pointer.rsplit_once('/').expect("a pointer has a slash");
        let in_group = group.is_empty() || document.pointer(group).is_some_and(Value::is_object);
        match read_job_value(&without(&pointer)) {
            Ok(job) if in_group => {
                let held = serde_json::to_value(&job).expect("a job is JSON");
                assert!(held.pointer(&pointer).is_some(), "{pointer} was dropped without a default");
            }
            Err(errors) if in_group => assert_names(&Err(errors), &pointer),
            // An item of a list may be missed by what refers to it, or by nobody.
            _ => assert!(name.parse::<usize>().is_ok()),
        }
    }
}

#[test]
fn numbers_that_json_does_not_know_are_placed() {
    for absurd in ["NaN", "Infinity", "-Infinity", "1e400", "0x10", "+1", "1,5", "07"] {
        let text = LANTERN_GREEN.replacen("\"tension_n\": 90", &format!("\"tension_n\": {absurd}"), 1);
        let errors = read_job(&text).expect_err(absurd).errors;
        let line =
            1 + text.lines().position(|line| line.contains("\"tension_n\"")).expect("it stands in the text");
        assert_eq!(errors.len(), 1, "{absurd}");
        assert!(errors[0].given.starts_with(&format!("line {line}, ")), "{absurd}: {}", errors[0].given);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(128))]

    #[test]
    fn any_value_anywhere_never_panics(
        at in any::<prop::sample::Index>(),
        value in prop_oneof![
            any::<f64>().prop_map(|number| json!(number)),
            any::<i64>().prop_map(|number| json!(number)),
            ".{0,80}".prop_map(|text| json!(text)),
            Just(json!(null)),
            Just(json!([[[[{}]]]])),
            Just(json!({ "by": "origin", "kind": "tree", "rule": "free" })),
        ],
    ) {
        let all = all_pointers();
        let pointer = &all[at.index(all.len())];
        if let Ok(job) = read_job_value(&with(pointer, value)) {
            prop_assert_eq!(read_job(&write_job(&job)), Ok(job));
        }
    }

    #[test]
    fn spoilt_text_never_panics(cut in 0..LANTERN_GREEN.len(), with in ".{0,12}", skip in 0..40_usize) {
        let start = (0..=cut).rev().find(|at| LANTERN_GREEN.is_char_boundary(*at)).unwrap_or(0);
        let end = (cut + skip..LANTERN_GREEN.len()).find(|at| LANTERN_GREEN.is_char_boundary(*at));
        let rest = end.and_then(|end| LANTERN_GREEN.get(end..)).unwrap_or("");
        let text = format!("{}{with}{rest}", &LANTERN_GREEN[..start]);
        if let Err(errors) = read_job(&text) {
            prop_assert!(!errors.errors.is_empty());
        }
    }

    #[test]
    fn any_text_never_panics(text in "\\PC*") {
        prop_assert!(read_job(&text).is_err());
    }
}
