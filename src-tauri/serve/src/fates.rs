//! Which jobs somebody deleted, or wanted back: passed from one paired device to the others. The jobs themselves stay where
//! they are (`jobs`): here nothing is deleted, so what was deleted can be brought back, and what another device wrote meanwhile
//! is still in it.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Mutex;

use mastwright_api::merge::JobFate;

use crate::jobs::{MOST_JOBS, is_id};
use crate::keep::{self, Refused};
use crate::locked;

/// As many as there may be jobs, and as many again that were deleted.
const MOST: usize = 2 * MOST_JOBS;

#[derive(Debug)]
pub struct Fates {
    path: PathBuf,
    taking: Mutex<()>,
}

/// By the job's id.
pub type All = BTreeMap<String, JobFate>;

impl Fates {
    pub fn kept_in(folder: &std::path::Path) -> Self {
        Self { path: folder.join("deleted.json"), taking: Mutex::new(()) }
    }

    /// # Errors
    /// Where the file is there and can't be read.
    pub fn all(&self) -> Result<All, String> {
        let Some(text) = keep::read(&self.path)? else { return Ok(All::new()) };
        serde_json::from_str(&text).map_err(|why| format!("{}: {why}", self.path.display()))
    }

    /// Brings what was sent together with what is known here, keeps it and gives it back; and tells whether any of it was new.
    ///
    /// # Errors
    /// Where it is none, or can't be kept; then what was here stays as it was.
    pub fn take(&self, id: &str, sent: JobFate) -> Result<(JobFate, bool), Refused> {
        if !is_id(id) {
            return Err(Refused::Unfit("That is no job.".to_owned()));
        }
        let sent = sent.checked()?;
        let _one_after_the_other = locked(&self.taking);
        let mut all = self.all()?;
        if !all.contains_key(id) && all.len() >= MOST {
            return Err(Refused::NotKept(format!("{MOST} deleted jobs are known here already.")));
        }
        let before = all.get(id).cloned().unwrap_or_default();
        let merged = before.merged(&sent).checked()?;
        let is_new = merged != before;
        if is_new {
            all.insert(id.to_owned(), merged.clone());
            let text = serde_json::to_string(&all).map_err(|why| why.to_string())?;
            keep::write(&self.path, text)?;
        }
        Ok((merged, is_new))
    }
}

#[cfg(test)]
mod tests {
    use mastwright_api::merge::{Deletion, FateSays};
    use mastwright_engine::job::Stamp;

    use super::*;
    use crate::devices::tests::folder;

    fn at(at_ms: u64) -> Stamp {
        Stamp { at_ms, device: "laptop".to_owned() }
    }

    fn deleted(at_ms: u64) -> JobFate {
        let deletion = Deletion { by: at(at_ms), device_name: "Laptop".to_owned(), seen: vec![at(5)] };
        JobFate { deleted: vec![deletion], kept: vec![] }
    }

    #[test]
    fn a_deletion_outlives_the_program_and_sent_again_after_it_was_taken_back_deletes_nothing() {
        let folder = folder("fates");
        let fates = Fates::kept_in(&folder);
        assert_eq!(fates.all(), Ok(All::new()));
        assert_eq!(fates.take("laptop-1", deleted(9)).unwrap(), (deleted(9), true));
        assert_eq!(fates.take("laptop-1", deleted(9)).unwrap(), (deleted(9), false));
        let again = Fates::kept_in(&folder);
        assert_eq!(again.all().unwrap()["laptop-1"].says(&[at(5)]), FateSays::Goes);
        again.take("laptop-1", JobFate { deleted: vec![], kept: vec![at(9)] }).unwrap();
        let (fate, is_new) = again.take("laptop-1", deleted(9)).unwrap();
        assert_eq!((fate.says(&[at(5)]), is_new), (FateSays::Stays, false));
    }

    #[test]
    fn no_job_and_too_much_are_refused_and_what_is_spoilt_is_not_written_over() {
        let folder = folder("fates-refused");
        let fates = Fates::kept_in(&folder);
        for id in ["../laptop-1", "", "Laptop-1", "a/b", "a\0"] {
            assert!(matches!(fates.take(id, deleted(9)), Err(Refused::Unfit(_))), "{id}");
        }
        let much = JobFate { deleted: vec![], kept: (0..300).map(at).collect() };
        assert!(matches!(fates.take("laptop-1", much), Err(Refused::Unfit(_))));
        assert_eq!(fates.all(), Ok(All::new()));
        keep::write(&folder.join("deleted.json"), "{").unwrap();
        assert!(matches!(fates.take("laptop-1", deleted(9)), Err(Refused::NotKept(_))));
    }
}
