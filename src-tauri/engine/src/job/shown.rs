//! The job's numbers as the user would write them.

use std::collections::BTreeMap;

use serde_json::Value;

use super::Job;
use crate::quantity::Units;
use crate::quantity::format::field;

/// For every number of the job, by its JSON pointer (RFC 6901): how the user would write it. The log is left out:
/// it has words of its own, and nobody edits it.
pub fn shown(job: &Job) -> BTreeMap<String, String> {
    let mut texts = BTreeMap::new();
    if let Ok(Value::Object(mut members)) = serde_json::to_value(job) {
        members.remove("log");
        gather("", "", &Value::Object(members), job.units, &mut texts);
    }
    texts
}

fn gather(path: &str, name: &str, value: &Value, units: Units, texts: &mut BTreeMap<String, String>) {
    match value {
        Value::Number(number) => {
            let text = field(name, number.as_f64().unwrap_or(f64::NAN), units);
            texts.insert(path.to_owned(), text);
        }
        Value::Array(items) => {
            for (index, item) in items.iter().enumerate() {
                gather(&format!("{path}/{index}"), name, item, units, texts);
            }
        }
        Value::Object(members) => {
            for (member, item) in members {
                gather(&format!("{path}/{member}"), member, item, units, texts);
            }
        }
        _ => {}
    }
}
