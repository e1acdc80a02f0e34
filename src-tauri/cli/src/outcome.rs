//! How a command ends: what is said on standard error and which exit code it gives.

use std::path::Path;
use std::process::ExitCode;

use mastwright_api::disk::refused_at;
use mastwright_engine::quantity::visible::visible_lines;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use mastwright_engine::verdict::Verdict;

/// An end without an error.
// From best to worst.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    Done,
    /// Done; something is missing, so that nobody can say yet.
    NotKnown,
    /// Done; the plan has a finding that says stop.
    Stop,
    /// Done; what two devices wrote is to be asked about.
    Conflicts,
}

impl Outcome {
    /// What a verdict makes of a command that did its work; none where nobody has judged.
    pub fn of(verdict: Option<&Verdict>) -> Self {
        match verdict {
            Some(Verdict::Look { .. }) => Self::Done,
            Some(Verdict::Stop { .. }) => Self::Stop,
            Some(Verdict::NotKnown { .. }) | None => Self::NotKnown,
        }
    }
}

/// An end with an error.
#[derive(Debug)]
pub enum Failure {
    Fields(FieldErrors),
    Document(String),
    File(String),
}

impl Failure {
    pub fn file(path: &Path, error: &std::io::Error) -> Self {
        Self::File(refused_at(path, error))
    }
}

impl From<FieldErrors> for Failure {
    fn from(errors: FieldErrors) -> Self {
        Self::Fields(errors)
    }
}

/// Says something on standard error, whatever stands in the names of a document.
pub fn say(line: &str) {
    eprintln!("{}", visible_lines(line));
}

/// Says what went wrong and chooses the exit code.
pub fn finish(outcome: Result<Outcome, Failure>) -> ExitCode {
    match outcome {
        Ok(Outcome::Done) => ExitCode::SUCCESS,
        Ok(Outcome::Stop) => ExitCode::from(1),
        Ok(Outcome::NotKnown) => ExitCode::from(4),
        Ok(Outcome::Conflicts) => ExitCode::from(5),
        Err(Failure::Fields(errors)) => {
            say("The document can't be used:");
            for line in errors.errors.iter().map(FieldError::sentence).chain(errors.rest()) {
                say(&format!("  {line}"));
            }
            ExitCode::from(2)
        }
        Err(Failure::Document(message)) => {
            say(&message);
            ExitCode::from(2)
        }
        Err(Failure::File(message)) => {
            say(&message);
            ExitCode::from(3)
        }
    }
}
