//! Every pointer that the engine hands out leads to a place that a job has.

use mastwright_api::messages::PlanRequest;
use mastwright_api::run;
use mastwright_engine::job::{JOB_SCHEMA, Job, read_job_value};
use mastwright_engine::plan::compute;
use mastwright_engine::verdict::Verdict;
use serde_json::{Value, json};

use crate::random_jobs::random_job;

/// Whether a document of the published schema can have a place there, by the schema alone.
fn has_place(schema: &Value, pointer: &str) -> bool {
    let steps: Vec<&str> = pointer.split('/').skip(1).collect();
    below(schema, schema, &steps)
}

fn below(root: &Value, schema: &Value, steps: &[&str]) -> bool {
    if let Some(target) = schema["$ref"].as_str() {
        return below(root, root.pointer(target.trim_start_matches('#')).expect("a definition"), steps);
    }
    let Some((step, rest)) = steps.split_first() else { return true };
    let among = |list: &Value| list.as_array().into_iter().flatten().any(|one| below(root, one, steps));
    let item = step.parse::<usize>().is_ok() && !schema["items"].is_null();
    schema["properties"].get(step).is_some_and(|field| below(root, field, rest))
        || (item && below(root, &schema["items"], rest))
        || among(&schema["oneOf"])
        || among(&schema["anyOf"])
}

fn schema() -> Value {
    serde_json::from_str(JOB_SCHEMA).expect("the schema is JSON")
}

fn assert_places<'a>(schema: &Value, pointers: impl IntoIterator<Item = &'a str>) -> usize {
    let pointers: Vec<&str> = pointers.into_iter().collect();
    for pointer in &pointers {
        assert!(has_place(schema, pointer), "no job has {pointer}");
    }
    pointers.len()
}

#[test]
fn the_walk_of_the_schema_knows_good_places_from_bad_ones() {
    let schema = schema();
    for good in
        ["", "/yard/obstacles/3/shape/crown_base_m", "/rig/strands/cord/mass_g_per_m", "/as_built/mast/by"]
    {
        assert!(has_place(&schema, good), "{good}");
    }
    for bad in ["/yards", "/yard/marks/first", "/yard/obstacles/0/shape/colour", "/placement/mast/tape"] {
        assert!(!has_place(&schema, bad), "{bad}");
    }
}

#[test]
fn points_and_entries_lead_to_places_of_the_job() {
    let schema = schema();
    let (mut seen, mut entries) = (0, 0);
    for seed in 0..40 {
        let job = random_job(seed);
        let Ok(computed) = compute(&job) else { continue };
        let plan = &computed.plan;
        seen += assert_places(&schema, plan.points.iter().map(|point| point.path.as_str()));
        seen += assert_places(&schema, plan.open_points.iter().map(|point| point.path.as_str()));
        let job = serde_json::to_value(&job).expect("a job is JSON");
        let request = PlanRequest { job, map: None, profile: false, report: true };
        let answer = run::plan(&request).expect("it was planned");
        let missing = answer.plan.verdict.iter().flat_map(Verdict::missing);
        entries += assert_places(&schema, missing.map(|entry| entry.pointer.as_str()));
        seen += assert_places(&schema, answer.shown.keys().map(String::as_str));
    }
    assert!(seen > 3_000 && entries > 50, "only {seen} and {entries} were looked at");
}

/// The job with one number of it spoilt, for every number.
fn spoilt(job: &Job) -> Vec<Value> {
    let whole = serde_json::to_value(job).expect("a job is JSON");
    let mut numbers = Vec::new();
    gather(&whole, String::new(), &mut numbers);
    let spoil = |at: &String| {
        let mut wrong = whole.clone();
        *wrong.pointer_mut(at).expect("it was found there") = json!(0);
        wrong
    };
    numbers.iter().map(spoil).collect()
}

fn gather(value: &Value, at: String, into: &mut Vec<String>) {
    match value {
        Value::Number(_) => into.push(at),
        Value::Array(items) => {
            items.iter().enumerate().for_each(|(i, item)| gather(item, format!("{at}/{i}"), into));
        }
        Value::Object(members) => {
            members.iter().for_each(|(name, item)| gather(item, format!("{at}/{name}"), into));
        }
        _ => {}
    }
}

#[test]
fn errors_lead_to_places_of_the_job() {
    let schema = schema();
    let mut seen = 0;
    for seed in 0..6 {
        for wrong in spoilt(&random_job(seed)) {
            let errors = match read_job_value(&wrong) {
                Err(errors) => errors,
                Ok(job) => match compute(&job) {
                    Err(errors) => errors,
                    Ok(_) => continue,
                },
            };
            seen += assert_places(&schema, errors.errors.iter().map(|error| error.path.as_str()));
        }
    }
    assert!(seen > 100, "only {seen} were looked at");
}
