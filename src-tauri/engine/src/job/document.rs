//! A job with whatever else its document holds: what is read, edited and written is the document, so that nothing of it
//! is lost on the way.

use std::borrow::Cow;

use serde::Deserialize;
use serde_json::Value;

use super::versions::{self, Carried, FORMAT_MINOR};
use super::{Job, check, check_sum, schema, syntax};
use crate::quantity::{FieldError, FieldErrors, UnitSystem, Units};

/// A document that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    job: Job,
    /// What a newer minor version put into it.
    carried: Vec<Carried>,
}

impl Document {
    /// Reads a document from its text.
    ///
    /// # Errors
    /// As for [`Document::of`], and where the text is no JSON.
    pub fn read(text: &str) -> Result<Self, FieldErrors> {
        Self::of(&syntax::parse(text)?)
    }

    /// Reads a document of this or an earlier version.
    ///
    /// # Errors
    /// Everything that is wrong, all at once: each field by its JSON pointer and in words, what was given, and what
    /// is allowed in the document's and in the user's unit. A field that nobody knows is wrong too, unless the
    /// document says that a newer minor version wrote it.
    pub fn of(value: &Value) -> Result<Self, FieldErrors> {
        let (known, carried) = split(value)?;
        if let Some(departures) = schema::departures(&known, units_of(&known)) {
            return Err(departures);
        }
        // The walk leaves nothing for serde to find; should they ever differ, that is an error too and no panic.
        let job = deserialized(&known)?;
        let errors = check::check_job(&job);
        if !errors.is_empty() {
            return Err(errors.into());
        }
        Ok(Document { job, carried }.with_history_of(value))
    }

    /// Reads a document that was kept while it was being worked on: it has the shape of a job, while what it says may
    /// still be wrong, as an edit under way is.
    ///
    /// # Errors
    /// Where it is no JSON, of a newer version, or of another shape.
    pub fn read_kept(text: &str) -> Result<Self, FieldErrors> {
        let value = syntax::parse(text)?;
        let (known, carried) = split(&value)?;
        Ok(Document { job: deserialized(&known)?, carried }.with_history_of(&value))
    }

    /// Where the history said that it is of the document as an earlier program wrote it, it is of this one now. Of any other
    /// job it stays what it was: somebody changed that without noting it, and whoever merges has to know.
    fn with_history_of(mut self, written: &Value) -> Self {
        let said = self.job.mastwright_history.as_ref().map(|history| &history.sum);
        let is_of = |said: &String| *said == check_sum(&without_history(written));
        if versions::is_written_otherwise(written) && said.is_some_and(is_of) {
            let now = check_sum(&without_history(&self.value()));
            self.job.mastwright_history.iter_mut().for_each(|history| history.sum.clone_from(&now));
        }
        self
    }

    pub fn job(&self) -> &Job {
        &self.job
    }

    pub fn into_job(self) -> Job {
        self.job
    }

    /// Fields that this program does not know; it keeps them and does not use them.
    pub fn newer_fields(&self) -> usize {
        self.carried.len()
    }

    /// The whole document.
    pub fn value(&self) -> Value {
        let mut value = serde_json::to_value(&self.job).unwrap_or_default();
        versions::put_back(&mut value, &self.carried);
        value
    }

    /// The whole document as readable JSON.
    pub fn text(&self) -> String {
        let mut text = serde_json::to_string_pretty(&self.job).unwrap_or_default();
        if !self.carried.is_empty() {
            text = versions::put_back_into_text(&text, &self.carried).unwrap_or(text);
        }
        text.push('\n');
        text
    }
}

fn without_history(document: &Value) -> Value {
    let members = document.as_object().into_iter().flatten();
    let rest = members.filter(|(name, _)| *name != "mastwright_history");
    Value::Object(rest.map(|(name, value)| (name.clone(), value.clone())).collect())
}

/// What this program knows of a document, and what it carries along.
fn split(value: &Value) -> Result<(Cow<'_, Value>, Vec<Carried>), FieldErrors> {
    let mut known = versions::brought_up(value)?;
    let carried =
        if versions::has_newer_fields(&known) { schema::take_unknown(known.to_mut()) } else { Vec::new() };
    Ok((known, carried))
}

fn deserialized(known: &Value) -> Result<Job, FieldError> {
    let job = Job::deserialize(known)
        .map_err(|rest| FieldError::new("", rest.to_string(), "a job as its schema has it"))?;
    // What is written from here on may hold all that this program knows.
    Ok(Job { mastwright_minor: job.mastwright_minor.max(FORMAT_MINOR), ..job })
}

/// The user's units, as far as the document states them: errors are told in these.
fn units_of(document: &Value) -> Units {
    let units = document.get("units");
    units
        .and_then(|units| Units::deserialize(units).ok())
        .filter(|units| [4, 8, 16].contains(&units.inch_fraction))
        .unwrap_or(Units { system: UnitSystem::Metric, inch_fraction: 16 })
}
