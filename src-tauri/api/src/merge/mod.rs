//! Two states of one job brought together. A job with its history is a table of places (`places`), each with the writings
//! that nobody has overwritten yet (`registers`). A device that had seen a writing and wrote there anew has overwritten it;
//! writings of devices that did not know of each other stay side by side until somebody says which of them holds
//! (`conflicts`). So nothing is lost, and it does not matter which state is merged into which, nor how often. The survey log
//! is no table: its entries are all kept, in the order of their times (`diary`). See `docs/decisions/0028-…`.

mod changes;
mod conflicts;
mod diary;
mod fate;
mod held;
mod places;
mod registers;
mod settling;
#[cfg(test)]
mod tests;

use mastwright_engine::job::{History, Stamp};
use mastwright_engine::quantity::{FieldError, FieldErrors};
use serde::{Deserialize, Serialize};
use serde_json::Value;

pub use changes::{JobChange, changes};
pub use conflicts::{Conflict, ConflictSide, SaidValue, conflicts};
pub use fate::{Deletion, FateAnswer, FateRequest, FateSays, JobFate, job_fate};
pub use held::Held;
pub use settling::{reopen, settle};

/// What is asked of a job's history after its job was changed here.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct NoteHistoryRequest {
    /// The name of the job among all jobs of all devices.
    pub job: String,
    /// None where none was kept yet, or it can't be relied on: then all of the job was written here and now.
    pub history: Option<History>,
    /// The job that the history is of.
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub before: Value,
    /// The job as it stands.
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub after: Value,
    /// This device, and the time by its clock.
    pub by: Stamp,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct HistoryAnswer {
    pub history: History,
}

/// A job as some device has it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct HeldJob {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: Value,
    pub history: History,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct MergeRequest {
    pub here: HeldJob,
    pub there: HeldJob,
}

/// Both states in one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct MergeAnswer {
    #[cfg_attr(feature = "typegen", ts(type = "Job"))]
    pub job: Value,
    pub history: History,
    pub conflicts: Vec<Conflict>,
    /// What `here` did not have, by the device that wrote it.
    pub came: Vec<Came>,
}

/// What one device wrote and another did not have.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Came {
    pub device: String,
    /// What the device is called; empty where nobody said.
    pub device_name: String,
    /// Readings: each once, however much of it was written.
    pub readings: u32,
    /// All else: things, marks and guys each once, of the rest every field.
    pub others: u32,
}

/// How two states stand to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Compared {
    Same,
    NewerHere,
    NewerThere,
    BothChanged,
}

/// What both have seen, as their histories say.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct CompareRequest {
    pub here: Vec<Stamp>,
    pub there: Vec<Stamp>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct CompareAnswer {
    pub compared: Compared,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ConflictsRequest {
    pub held: HeldJob,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ConflictsAnswer {
    pub conflicts: Vec<Conflict>,
}

/// Says which writing of a conflict holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct SettleRequest {
    pub held: HeldJob,
    pub place: String,
    /// Which of the conflict's sides; none where both are kept, of which each has to be an item of a list.
    pub side: Option<u32>,
    pub by: Stamp,
}

/// Takes back what was said of a conflict.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(deny_unknown_fields)]
pub struct ReopenRequest {
    pub held: HeldJob,
    /// The job before that was said.
    pub before: HeldJob,
    /// The writing by which it was said.
    pub said: Stamp,
    pub by: Stamp,
}

/// Keeps a history up to its job.
///
/// # Errors
/// Where one of the jobs has not the shape of one.
pub fn note_history(request: &NoteHistoryRequest) -> Result<HistoryAnswer, FieldErrors> {
    let after = Held::shape(&request.after)?;
    let history = match &request.history {
        Some(history) => {
            let before = Held::shape(&request.before)?;
            match Held::of(before, history.clone()) {
                Some(held) => held.changed(after, &request.by)?,
                None => Held::new(&request.job, after, &request.by),
            }
        }
        None => Held::new(&request.job, after, &request.by),
    };
    Ok(HistoryAnswer { history: history.into_parts().1 })
}

/// Brings two states of a job together. What is in the answer does not depend on which is which; but of a conflict that
/// nobody has settled it shows what stood here before: a value is not changed under anybody's hands unasked.
///
/// # Errors
/// Where one of them has not the shape of a job, or they are of two jobs.
pub fn merge_jobs(request: &MergeRequest) -> Result<MergeAnswer, FieldErrors> {
    let (here, there) = (held(&request.here)?, held(&request.there)?);
    let (name, other) = (&here.history().job, &there.history().job);
    if name != other {
        return Err(
            FieldError::new("/there/history/job", other.as_str(), format!("the same job, {name}")).into()
        );
    }
    let merged = here.merged(&there)?.showing(&here)?;
    let came = held::came(&merged, &here);
    Ok(MergeAnswer { came, ..answered(merged) })
}

pub fn open_conflicts(request: &ConflictsRequest) -> Result<ConflictsAnswer, FieldErrors> {
    Ok(ConflictsAnswer { conflicts: conflicts(&held(&request.held)?) })
}

/// # Errors
/// Where there is no such conflict, or no such side of it.
pub fn settle_conflict(request: &SettleRequest) -> Result<MergeAnswer, FieldErrors> {
    let settled = settle(&held(&request.held)?, &request.place, request.side, &request.by)?;
    Ok(answered(settled))
}

/// # Errors
/// Where somebody wrote over it since.
pub fn reopen_conflict(request: &ReopenRequest) -> Result<MergeAnswer, FieldErrors> {
    let (now, before) = (held(&request.held)?, held(&request.before)?);
    Ok(answered(reopen(&now, &before, &request.said, &request.by)?))
}

/// The job with its history in one document, as it is handed over.
pub fn with_history(job: &Value, history: &History) -> Value {
    let mut document = job.clone();
    if let (Some(members), Ok(history)) = (document.as_object_mut(), serde_json::to_value(history)) {
        members.insert(HISTORY.to_owned(), history);
    }
    document
}

pub(crate) const HISTORY: &str = "mastwright_history";

fn held(given: &HeldJob) -> Result<Held, FieldErrors> {
    let document = with_history(&given.job, &given.history);
    Held::from_document(&document, &given.history.job, &given.history.made)
}

fn answered(held: Held) -> MergeAnswer {
    let conflicts = conflicts(&held);
    let (job, history) = held.into_parts();
    MergeAnswer { job, history, conflicts, came: Vec::new() }
}

/// How a state stands to another by what both have seen.
pub fn compare_jobs(request: &CompareRequest) -> Result<CompareAnswer, FieldErrors> {
    Ok(CompareAnswer { compared: compared(&request.here, &request.there) })
}

fn compared(here: &[Stamp], there: &[Stamp]) -> Compared {
    let lacks = |one: &[Stamp], other: &[Stamp]| {
        let mut seen = registers::Seen::default();
        one.iter().for_each(|stamp| seen.add(stamp));
        other.iter().any(|stamp| !seen.has(stamp))
    };
    match (lacks(there, here), lacks(here, there)) {
        (false, false) => Compared::Same,
        (true, false) => Compared::NewerHere,
        (false, true) => Compared::NewerThere,
        (true, true) => Compared::BothChanged,
    }
}

/// Two documents brought together: by the histories in them, or by the document that both began from. With neither, nobody
/// can tell who changed what, and every difference is asked about.
///
/// # Errors
/// Where one of them is no job.
pub fn merge_documents(
    documents: [&Value; 2],
    base: Option<&Value>,
    names: [&str; 2],
) -> Result<MergeAnswer, FieldErrors> {
    let stamp = |at_ms, device: &str| Stamp { at_ms, device: device.to_owned() };
    let jobs = [Held::shape(documents[0])?, Held::shape(documents[1])?];
    let base = base.map(Held::shape).transpose()?;
    // Named by what they hold: no merge of other documents is taken for a state of this one. A job that has its history in
    // it keeps its name.
    let own = documents.iter().find_map(|document| document.get(HISTORY)?.get("job")?.as_str());
    let of = base.as_ref().map(held::sum).or_else(|| jobs.iter().map(held::sum).min()).unwrap_or_default();
    let name = own.map_or_else(|| format!("merged-{of}"), str::to_owned);
    let side = |i: usize| -> Result<Held, FieldErrors> {
        let device = format!("file-{}", held::sum(&jobs[i]));
        let mut side = match &base {
            Some(base) => Held::new(&name, base.clone(), &stamp(0, &format!("base-{of}")))
                .changed(jobs[i].clone(), &stamp(1, &device))?,
            None => Held::from_document(documents[i], &name, &stamp(1, &device))?,
        };
        // A history names its devices itself.
        if base.is_some() || documents[i].get(HISTORY).is_none() {
            side.name_device(&device, names[i]);
        }
        Ok(side)
    };
    Ok(answered(side(0)?.merged(&side(1)?)?))
}
