//! What became of a job as a whole. Deleting is an entry as any other: it says who did it, when, and what they had seen of the
//! job then. A device that has nothing else follows it; one that holds a writing which the deletion knew nothing of asks. Who
//! wants the job back says so of every deletion that they know of, and that stays said.
//!
//! Both are sets that only grow, so two states come to the same whichever is brought into which, and how often (a two-phase
//! set: Shapiro, Preguiça, Baquero and Zawirski 2011, INRIA RR-7506, 3.3.2, from memory).

use std::collections::{BTreeMap, BTreeSet};

use mastwright_engine::job::Stamp;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use serde::{Deserialize, Serialize};

use super::registers::Seen;

/// More deletions of one job than these nobody makes, nor are there more devices.
const MOST: usize = 200;
const LONGEST_NAME: usize = 80;

/// Somebody deleted a job.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct Deletion {
    pub by: Stamp,
    /// What the device is called; empty where nobody said.
    #[serde(default)]
    pub device_name: String,
    /// The last writing of each device that was in the job then.
    pub seen: Vec<Stamp>,
}

#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct JobFate {
    #[serde(default)]
    pub deleted: Vec<Deletion>,
    /// The deletions that somebody took back.
    #[serde(default)]
    pub kept: Vec<Stamp>,
}

/// What a device does with the job that it has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum FateSays {
    /// Nobody deleted it, or it was wanted back.
    Stays,
    /// It was deleted by somebody who had seen all of it.
    Goes,
    /// It was deleted by somebody who had not seen all of it.
    Asks,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct FateRequest {
    pub here: JobFate,
    pub there: JobFate,
    /// What is in the job here; nothing where it is not here.
    pub seen: Vec<Stamp>,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct FateAnswer {
    pub fate: JobFate,
    pub says: FateSays,
    /// The last deletion that nobody took back.
    pub deletion: Option<Deletion>,
}

/// What two devices know of a job's deletion in one, and what that means where the job is.
///
/// # Errors
/// Where one of them is larger than any that was made by somebody.
pub fn job_fate(request: &FateRequest) -> Result<FateAnswer, FieldErrors> {
    check(&request.here, "/here")?;
    check(&request.there, "/there")?;
    let fate = request.here.merged(&request.there);
    let says = fate.says(&request.seen);
    Ok(FateAnswer { says, deletion: fate.open().max().cloned(), fate })
}

fn check(fate: &JobFate, at: &str) -> Result<(), FieldErrors> {
    let count = fate.deleted.len().max(fate.kept.len());
    if count > MOST {
        return Err(
            FieldError::new(at, count.to_string(), format!("{MOST} deletions of a job at most")).into()
        );
    }
    Ok(())
}

impl JobFate {
    /// Whether it can be one that somebody made.
    ///
    /// # Errors
    /// Where it is too large.
    pub fn checked(self) -> Result<Self, FieldErrors> {
        check(&self, "")?;
        Ok(self)
    }

    pub fn merged(&self, other: &Self) -> Self {
        let mut deleted: BTreeMap<Stamp, Deletion> = BTreeMap::new();
        for one in self.deleted.iter().chain(&other.deleted) {
            let one = tidy(one);
            let both = match deleted.get(&one.by) {
                Some(known) => both(known, &one),
                None => one,
            };
            deleted.insert(both.by.clone(), both);
        }
        let kept: BTreeSet<Stamp> = self.kept.iter().chain(&other.kept).cloned().collect();
        Self { deleted: deleted.into_values().collect(), kept: kept.into_iter().collect() }
    }

    /// What becomes of a job in which these writings are.
    pub fn says(&self, seen: &[Stamp]) -> FateSays {
        let mut open = self.open().peekable();
        if open.peek().is_none() {
            return FateSays::Stays;
        }
        // One alone has to have seen all of it: nobody said of what two saw together that it may go.
        let knew_all = |deletion: &Deletion| {
            let known = seen_of(deletion);
            seen.iter().all(|stamp| known.has(stamp))
        };
        if open.any(knew_all) { FateSays::Goes } else { FateSays::Asks }
    }

    fn open(&self) -> impl Iterator<Item = &Deletion> {
        self.deleted.iter().filter(|deletion| !self.kept.contains(&deletion.by))
    }
}

fn seen_of(deletion: &Deletion) -> Seen {
    let mut seen = Seen::default();
    deletion.seen.iter().for_each(|stamp| seen.add(stamp));
    seen
}

fn tidy(deletion: &Deletion) -> Deletion {
    Deletion {
        by: deletion.by.clone(),
        device_name: deletion.device_name.chars().take(LONGEST_NAME).collect(),
        seen: seen_of(deletion).stamps(),
    }
}

/// Should one device have said two things of one moment, what both of them had seen is sure.
fn both(one: &Deletion, other: &Deletion) -> Deletion {
    let known = seen_of(other);
    let lesser = one.seen.iter().filter_map(|stamp| {
        let at_ms = stamp.at_ms.min(*known.0.get(&stamp.device)?);
        Some(Stamp { at_ms, device: stamp.device.clone() })
    });
    Deletion {
        by: one.by.clone(),
        device_name: one.device_name.clone().max(other.device_name.clone()),
        seen: lesser.collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(device: &str, at_ms: u64) -> Stamp {
        Stamp { at_ms, device: device.to_owned() }
    }

    fn deleted(by: Stamp, seen: &[Stamp]) -> JobFate {
        let deletion = Deletion { by, device_name: "Laptop".to_owned(), seen: seen.to_vec() };
        JobFate { deleted: vec![deletion], kept: vec![] }
    }

    #[test]
    fn it_goes_where_all_was_seen_and_is_asked_about_where_something_was_not() {
        let fate = deleted(at("laptop", 300), &[at("laptop", 200), at("phone", 250)]);
        assert_eq!(fate.says(&[at("laptop", 200), at("phone", 250)]), FateSays::Goes);
        assert_eq!(fate.says(&[at("laptop", 100)]), FateSays::Goes);
        // A millisecond later, or a device that the deletion never heard of.
        assert_eq!(fate.says(&[at("laptop", 200), at("phone", 251)]), FateSays::Asks);
        assert_eq!(fate.says(&[at("laptop", 200), at("tablet", 1)]), FateSays::Asks);
        assert_eq!(JobFate::default().says(&[at("laptop", 200)]), FateSays::Stays);
    }

    #[test]
    fn wanted_back_it_stays_until_it_is_deleted_anew() {
        let first = deleted(at("laptop", 300), &[at("laptop", 200)]);
        let back = JobFate { kept: vec![at("laptop", 300)], ..JobFate::default() };
        let both = first.merged(&back);
        assert_eq!(both.says(&[at("laptop", 200)]), FateSays::Stays);
        // The same deletion sent once more, because the answer to it was lost, deletes nothing.
        assert_eq!(both.merged(&first).says(&[at("laptop", 200)]), FateSays::Stays);
        let again = both.merged(&deleted(at("laptop", 400), &[at("laptop", 200)]));
        assert_eq!(again.says(&[at("laptop", 200)]), FateSays::Goes);
    }

    #[test]
    fn two_that_each_saw_half_of_it_delete_nothing_together() {
        let fate = deleted(at("laptop", 300), &[at("laptop", 200)])
            .merged(&deleted(at("phone", 300), &[at("phone", 250)]));
        assert_eq!(fate.says(&[at("laptop", 200), at("phone", 250)]), FateSays::Asks);
    }
}
