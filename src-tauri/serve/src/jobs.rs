//! The jobs that the paired devices hold together. What a device sends is merged with what is here, and the same comes back:
//! nothing that one of them wrote is overwritten by another that had not seen it (`mastwright_api::merge`).

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Mutex;

use mastwright_api::archive::is_sha256;
use mastwright_api::merge::{HeldJob, MergeAnswer, MergeRequest, merge_jobs, with_history};
use mastwright_engine::job::{Document, MOST_FILE_BYTES, Stamp, read_document};
use mastwright_engine::quantity::FieldErrors;
use serde::Serialize;

use crate::keep::{self, Refused};
use crate::locked;

/// A job with its history.
pub const LARGEST_JOB: usize = 2 * MOST_FILE_BYTES;

/// More would be a mistake or an attack.
pub const MOST_JOBS: usize = 500;
const LONGEST_ID: usize = 80;
const END: &str = ".mastwright.json";

#[derive(Debug)]
pub struct Jobs {
    folder: PathBuf,
    /// One merge after the other, so that none is written over by another. Who lists or reads does not wait: a file is
    /// replaced whole.
    taking: Mutex<()>,
}

/// What came of a job that was sent.
#[derive(Debug, Clone, PartialEq)]
pub struct Taken {
    pub merged: MergeAnswer,
    /// Whether it had anything that was not here.
    pub is_new: bool,
}

/// What the list says of a job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Listed {
    pub id: String,
    pub name: String,
    /// What is in it, by the last writing of each device.
    pub seen: Vec<Stamp>,
}

/// What is wrong with a document that was sent.
impl From<FieldErrors> for Refused {
    fn from(errors: FieldErrors) -> Self {
        Self::Unfit(errors.to_string())
    }
}

impl Jobs {
    pub fn kept_in(folder: &std::path::Path) -> Self {
        Self { folder: folder.join("jobs"), taking: Mutex::new(()) }
    }

    /// Every job that can be read, by its id.
    ///
    /// # Errors
    /// Where the folder can't be read.
    pub fn list(&self) -> Result<Vec<Listed>, String> {
        let mut listed: Vec<Listed> = self
            .ids()?
            .iter()
            .filter_map(|id| self.read(id).ok().flatten())
            .map(|held| listed(&held))
            .collect();
        listed.sort_by(|a, b| a.id.cmp(&b.id));
        Ok(listed)
    }

    /// A job; none where there is no such job.
    ///
    /// # Errors
    /// Where it is there and can't be read.
    pub fn read(&self, id: &str) -> Result<Option<HeldJob>, String> {
        if !is_id(id) {
            return Ok(None);
        }
        let path = self.path(id);
        let Some(text) = keep::read(&path)? else { return Ok(None) };
        let said = |errors: FieldErrors| format!("{}: {errors}", path.display());
        let document = Document::read_kept(&text).map_err(said)?;
        let history = document.job().mastwright_history.clone();
        let history = history.ok_or_else(|| format!("{} has no history", path.display()))?;
        Ok(Some(HeldJob { job: document.value(), history }))
    }

    /// Merges what was sent with what is here, keeps it and gives it back.
    ///
    /// # Errors
    /// Where it is no job, or can't be kept; then what was here stays as it was.
    pub fn take(&self, id: &str, sent: HeldJob) -> Result<Taken, Refused> {
        if !is_id(id) || sent.history.job != id {
            return Err(Refused::Unfit("This is not the job of that address.".to_owned()));
        }
        let _one_after_the_other = locked(&self.taking);
        let before = self.read(id)?;
        let here = match before.clone() {
            Some(here) => here,
            None if self.ids()?.len() >= MOST_JOBS => {
                return Err(Refused::NotKept(format!("{MOST_JOBS} jobs are kept here already.")));
            }
            None => sent.clone(),
        };
        let merged = merge_jobs(&MergeRequest { here, there: sent })?;
        let document = with_history(&merged.job, &merged.history).to_string();
        // It is read before it is kept: what can't be read again would be lost.
        let text = Document::read_kept(&document)?.text();
        read_document(&text)?;
        let is_new = before.is_none_or(|before| before.history != merged.history);
        if is_new {
            keep::write(&self.path(id), &text)?;
        }
        Ok(Taken { merged, is_new })
    }

    /// The SHA-256 of every photo that a job here names, or named in what its history still holds.
    ///
    /// # Errors
    /// Where a job is there and can't be read: then nobody can tell.
    pub fn named_photos(&self) -> Result<BTreeSet<String>, String> {
        let mut named = BTreeSet::new();
        for id in self.ids()? {
            let text = keep::read(&self.path(&id))?.unwrap_or_default();
            let words = text.split(|letter: char| !letter.is_ascii_hexdigit());
            named.extend(words.filter(|word| is_sha256(word)).map(str::to_owned));
        }
        Ok(named)
    }

    fn path(&self, id: &str) -> PathBuf {
        self.folder.join(format!("{id}{END}"))
    }

    fn ids(&self) -> Result<Vec<String>, String> {
        Ok(keep::names_in(&self.folder)?
            .iter()
            .filter_map(|name| name.strip_suffix(END).map(str::to_owned))
            .filter(|id| is_id(id))
            .collect())
    }
}

fn listed(held: &HeldJob) -> Listed {
    let name = held.job.get("name").and_then(serde_json::Value::as_str).unwrap_or_default();
    Listed { id: held.history.job.clone(), name: name.to_owned(), seen: held.history.seen.clone() }
}

/// Letters, digits and hyphens: a name of a file on every system, and no way out of its folder.
pub fn is_id(id: &str) -> bool {
    (1..=LONGEST_ID).contains(&id.len())
        && id.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
}

#[cfg(test)]
mod tests {
    use mastwright_api::merge::{NoteHistoryRequest, note_history};
    use mastwright_engine::job::blank;
    use mastwright_engine::quantity::{UnitSystem, Units};
    use serde_json::{Value, json};

    use super::*;
    use crate::devices::tests::folder;

    fn job() -> Value {
        serde_json::to_value(blank(Units { system: UnitSystem::Metric, inch_fraction: 16 })).unwrap()
    }

    fn changed(held: Option<&HeldJob>, device: &str, change: impl FnOnce(&mut Value)) -> HeldJob {
        let before = held.map_or_else(job, |held| held.job.clone());
        let mut after = before.clone();
        change(&mut after);
        let request = NoteHistoryRequest {
            job: "laptop-1".to_owned(),
            history: held.map(|held| held.history.clone()),
            before,
            after: after.clone(),
            by: Stamp { at_ms: 5, device: device.to_owned() },
        };
        HeldJob { job: after, history: note_history(&request).unwrap().history }
    }

    #[test]
    fn what_two_devices_send_is_in_what_both_get_and_outlives_the_program() {
        let folder = folder("jobs");
        let jobs = Jobs::kept_in(&folder);
        assert_eq!(jobs.list(), Ok(vec![]));
        let laptop = changed(None, "laptop", |_| {});
        jobs.take("laptop-1", laptop.clone()).unwrap();
        let phone = changed(Some(&laptop), "phone", |job| job["wind"]["ice_mm"] = json!(3.0));
        let laptop = changed(Some(&laptop), "laptop", |job| job["notes"] = json!("windy"));
        jobs.take("laptop-1", phone).unwrap();
        let back = jobs.take("laptop-1", laptop).unwrap().merged;
        assert_eq!((&back.job["wind"]["ice_mm"], &back.job["notes"]), (&json!(3.0), &json!("windy")));
        let again = Jobs::kept_in(&folder);
        let kept = again.read("laptop-1").unwrap().unwrap();
        assert_eq!((&kept.job["notes"], kept.history), (&json!("windy"), back.history));
        assert_eq!(again.list().unwrap()[0].id, "laptop-1");
    }

    #[test]
    fn another_name_no_job_and_ways_out_are_refused_and_change_nothing() {
        let folder = folder("jobs-refused");
        let jobs = Jobs::kept_in(&folder);
        let held = changed(None, "laptop", |_| {});
        for id in ["laptop-2", "../laptop-1", "", "Laptop-1", "a/b", "a\0"] {
            assert!(matches!(jobs.take(id, held.clone()), Err(Refused::Unfit(_))), "{id}");
            assert_eq!(jobs.read(id), Ok(None), "{id}");
        }
        let mut no_job = held.clone();
        no_job.job["yard"] = json!(7);
        assert!(matches!(jobs.take("laptop-1", no_job), Err(Refused::Unfit(_))));
        assert_eq!(jobs.list(), Ok(vec![]));
        // What is spoilt on the disk is told, and not written over.
        keep::write(&folder.join("jobs/laptop-1.mastwright.json"), "{").unwrap();
        assert!(matches!(jobs.take("laptop-1", held), Err(Refused::NotKept(_))));
    }
}
