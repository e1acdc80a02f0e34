//! Jobs as they were kept, by the app or by a browser: whether they can still be opened.

use mastwright_engine::job::{self, Document};
use mastwright_engine::quantity::FieldErrors;
use serde::{Deserialize, Serialize};

/// A text as it was kept.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct KeptRequest {
    pub text: String,
}

/// The job in it, or why there is none.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct KeptAnswer {
    /// As this version has it, with whatever else its document holds.
    #[cfg_attr(feature = "typegen", ts(type = "Job | null"))]
    pub job: Option<serde_json::Value>,
    /// Empty where there is a job.
    pub why_not: String,
    /// A newer program wrote it: that can read it, so it is left as it is.
    pub newer: bool,
}

/// Not being usable is an answer here, no error: there are older versions to ask about.
pub fn read_kept(request: &KeptRequest) -> Result<KeptAnswer, FieldErrors> {
    Ok(match Document::read_kept(&request.text) {
        Ok(document) => KeptAnswer { job: Some(document.value()), why_not: String::new(), newer: false },
        Err(refused) => {
            let said = refused.errors.first().map(|first| {
                let place = if first.path.is_empty() { String::new() } else { format!("{}: ", first.path) };
                format!("{place}given {}; allowed: {}", first.given, first.allowed)
            });
            let newer = job::read_document(&request.text).is_ok_and(|text| job::is_of_newer_version(&text));
            KeptAnswer { job: None, why_not: said.unwrap_or_default(), newer }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn why_not(text: &str) -> String {
        let answer = read_kept(&KeptRequest { text: text.to_owned() }).unwrap();
        assert_eq!(answer.job.is_none(), !answer.why_not.is_empty());
        answer.why_not
    }

    fn blank() -> job::Job {
        let metric = serde_json::from_str(r#"{"system":"metric","inch_fraction":16}"#).unwrap();
        job::blank(metric)
    }

    /// The same, saying that it is of another version.
    fn of_version(text: &str, version: &str) -> String {
        let own = format!("\"mastwright_job\":{}", job::FORMAT_VERSION);
        assert!(text.contains(&own));
        text.replace(&own, &format!("\"mastwright_job\":{version}"))
    }

    #[test]
    fn an_edit_under_way_can_be_opened_though_it_cannot_be_planned() {
        let mut job = blank();
        let twin = job.yard.marks[0].clone();
        job.yard.marks.push(twin);
        let text = serde_json::to_string(&job).unwrap();
        assert!(job::read_job(&text).is_err(), "two marks of one name");
        assert_eq!(why_not(&text), "");
    }

    #[test]
    fn only_what_a_newer_program_wrote_is_told_to_be_newer() {
        let whole = serde_json::to_string(&blank()).unwrap();
        let of = |text: String| read_kept(&KeptRequest { text }).unwrap().newer;
        let next = (job::FORMAT_VERSION + 1).to_string();
        assert!(of(of_version(&whole, &next)));
        assert!(!of(of_version(&whole, &format!("\"{next}\""))));
        assert!(!of(of_version(&whole, "1")));
        assert!(!of(whole[1..].to_owned()));
    }

    #[test]
    fn another_shape_another_version_and_no_json_cannot() {
        let whole = serde_json::to_string(&blank()).unwrap();
        assert_eq!(why_not(&whole), "");
        for (text, named) in [
            (whole[..whole.len() / 2].to_owned(), "line"),
            (of_version(&whole, "97"), "version 97"),
            (whole.replace("\"marks\":[", "\"landmarks\":["), "landmarks"),
            ("[]".to_owned(), "version 1"),
            (String::new(), "allowed"),
        ] {
            let said = why_not(&text);
            assert!(said.contains(named), "{named}: {said}");
        }
    }
}
