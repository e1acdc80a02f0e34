//! The demo yard, `Lantern Green`: a village green that falls to the south-west. Every number in it is invented.

use crate::job::{Job, read_job};

/// The demo's document.
pub const LANTERN_GREEN: &str = include_str!("demo/lantern-green.job.json");

/// The demo as a job. As first placed it has conflicts to solve: an anchor over the water pipe and a guy across
/// the foot path; a few metres to the west there is room. Three tubes and two levels of guys show what a plan can be of.
///
/// # Panics
/// Never: the document is part of the program, and a test reads it.
pub fn lantern_green() -> Job {
    read_job(LANTERN_GREEN).expect("the demo's document reads; a test holds it to that")
}

/// A job that stays as it is while the demo may change: two tubes and one level of guys on the same green. Unit tests
/// that need some whole job take it; `tests/support/yardstick.rs` and the benchmarks read the same file.
#[cfg(test)]
pub(crate) fn yardstick() -> Job {
    read_job(YARDSTICK).expect("the yardstick reads")
}

#[cfg(test)]
pub(crate) const YARDSTICK: &str = include_str!("../../../tests/data/yardstick-53a387c.json");

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::write_job;

    #[test]
    fn it_reads_and_is_kept_whole() {
        let job = read_job(LANTERN_GREEN).unwrap_or_else(|errors| panic!("{errors}"));
        assert_eq!(read_job(&write_job(&job)), Ok(job.clone()));
        // What the file says and what the job holds are one document: no field is left to a default.
        let written: serde_json::Value = serde_json::from_str(LANTERN_GREEN).expect("it is JSON");
        let held = serde_json::to_value(&job).expect("a job is JSON");
        assert_eq!(as_floats(&held), as_floats(&written));
    }

    /// `3` and `3.0` are one number.
    fn as_floats(value: &serde_json::Value) -> serde_json::Value {
        use serde_json::Value;
        match value {
            Value::Number(number) => Value::from(number.as_f64().unwrap_or(f64::NAN)),
            Value::Array(items) => items.iter().map(as_floats).collect(),
            Value::Object(members) => {
                members.iter().map(|(name, item)| (name.clone(), as_floats(item))).collect()
            }
            other => other.clone(),
        }
    }
}
