//! Versions of the job's document. A document of an earlier version is brought up step by step, each step a small pure
//! function in a file of its own; what a newer minor version added is carried along untouched.
//!
//! A version changes what a document means or is shaped like. A minor version only adds fields that a program may leave
//! out of account without saying anything false; whatever can't be left out is a new version. See
//! `docs/decisions/0020-versions-of-the-job.md`.

mod carried;
mod v1_to_v2;
mod v2_to_v3;

pub(super) use carried::{Carried, put_back, put_back_into_text};

use std::borrow::Cow;

use serde_json::{Map, Value};

use super::wording;
use crate::quantity::FieldError;

/// The version of the document format that this engine writes.
pub const FORMAT_VERSION: u32 = 3;

/// Counts the additions to that version: 1, keys in the history of a job that was handed over; 2, when the digging begins and the
/// calls before it; 3, how the mast is turned up; 4, who had written first what was put back; 5, what was done and read while
/// pegging out; 6, the places that the yard is looked at from; 7, what was made in the workshop; 8, what is bought for it; 9, strands
/// that hang while the mast goes up; 10, how the base is made; 11, the step cards of the day; 12, what carries the guys on the mast;
/// 13, guys made fast to things of the yard; 14, how tight the guys were found; 15, a line over a prop, the forecast gust of the day and how it comes
/// down; 16, a topper of two discs; 17, the season's diary; 18, what the lights' current is. Those to version 2 were that history and photos of the yard.
pub const FORMAT_MINOR: u32 = 18;

/// What stands in a document, by name.
type Members = Map<String, Value>;

/// Makes a document of one version one of the next.
type Step = fn(Members) -> Members;

/// The first makes a document of version 1 one of version 2, and so on.
const STEPS: [Step; FORMAT_VERSION as usize - 1] = [v1_to_v2::step, v2_to_v3::step];

const VERSION: &str = "mastwright_job";
const MINOR: &str = "mastwright_minor";

/// A document as this version has it: the very one where it is of this version, for the largest take a quarter of a
/// gigabyte.
///
/// # Errors
/// What is no job document, and what a newer program wrote: in words, with what to do.
pub(super) fn brought_up(document: &Value) -> Result<Cow<'_, Value>, FieldError> {
    let members = document.as_object().ok_or_else(|| {
        FieldError::new("", wording::given(document), format!("a job document of {}", readable()))
    })?;
    let given = members.get(VERSION);
    let version = given.and_then(Value::as_f64).filter(|version| *version >= 1.0 && version.fract() == 0.0);
    match version {
        Some(version) if version == f64::from(FORMAT_VERSION) => Ok(Cow::Borrowed(document)),
        Some(version) if version < f64::from(FORMAT_VERSION) => {
            let to_do = STEPS.iter().skip(version as usize - 1);
            Ok(Cow::Owned(Value::Object(to_do.fold(members.clone(), |document, step| step(document)))))
        }
        Some(version) => Err(of_newer_program(version)),
        None => {
            let given = given.map_or("nothing".to_owned(), wording::given);
            Err(FieldError::new(format!("/{VERSION}"), given, readable()))
        }
    }
}

/// Whether a newer program wrote a document, in a version that this one does not know.
pub fn is_of_newer_version(document: &Value) -> bool {
    let version = document.get(VERSION).and_then(Value::as_f64);
    version.is_some_and(|version| version.fract() == 0.0 && version > f64::from(FORMAT_VERSION))
}

/// Whether another program wrote the document in the way of its own time.
pub(super) fn is_written_otherwise(document: &Value) -> bool {
    let of = |name| document.get(name).and_then(Value::as_f64);
    let as_now = of(VERSION) == Some(f64::from(FORMAT_VERSION)) && of(MINOR) >= Some(f64::from(FORMAT_MINOR));
    !as_now
}

/// Whether the document may hold fields that this program does not know.
pub(super) fn has_newer_fields(document: &Value) -> bool {
    let minor = document.get(MINOR).and_then(Value::as_f64);
    minor.is_some_and(|minor| minor > f64::from(FORMAT_MINOR))
}

fn readable() -> String {
    format!("version 1 to {FORMAT_VERSION}: \"{VERSION}\": {FORMAT_VERSION}")
}

fn of_newer_program(version: f64) -> FieldError {
    let given = format!("version {version}, which a newer Mastwright wrote");
    let allowed = format!(
        "version 1 to {FORMAT_VERSION}. Open it with a Mastwright that reads version {version}: update this one. The \
         file is left as it is"
    );
    FieldError::new(format!("/{VERSION}"), given, allowed)
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn every_step_leads_to_the_next_version() {
        for (from, step) in (1_u32..).zip(STEPS) {
            let before = Map::from_iter([(VERSION.to_owned(), json!(from)), ("name".to_owned(), json!("x"))]);
            let after = step(before);
            assert_eq!((&after[VERSION], &after["name"]), (&json!(from + 1), &json!("x")));
        }
    }

    #[test]
    fn an_earlier_document_is_brought_up_and_one_of_this_version_is_as_it_was() {
        let up = brought_up(&json!({ "mastwright_job": 1.0, "notes": "n" })).unwrap().into_owned();
        assert_eq!(up, json!({ "mastwright_job": FORMAT_VERSION, "mastwright_minor": 0, "notes": "n" }));
        let present = json!({ "mastwright_job": FORMAT_VERSION, "mastwright_minor": 7, "new": [1.5] });
        assert_eq!(brought_up(&present).unwrap().into_owned(), present);
    }

    #[test]
    fn a_newer_document_says_what_it_needs() {
        let error = brought_up(&json!({ "mastwright_job": 9 })).unwrap_err();
        assert_eq!(error.path, "/mastwright_job");
        assert!(error.given.contains("version 9") && error.given.contains("newer Mastwright"));
        assert!(error.allowed.contains("update") && error.allowed.contains("left as it is"));
    }

    #[test]
    fn what_is_no_version_is_none() {
        for none in [json!(0), json!(-1), json!(1.5), json!("1"), json!(null)] {
            let error = brought_up(&json!({ "mastwright_job": none })).unwrap_err();
            assert!(
                error.allowed.starts_with(&format!("version 1 to {FORMAT_VERSION}")),
                "{}",
                error.allowed
            );
        }
        assert_eq!(brought_up(&json!([])).unwrap_err().path, "");
    }
}
