//! The jobs on disk, and the only access to disk there is.
//!
//! Each job has a folder of its own (`jobs/k3f9x2-1`) with its card, its versions and its journal. An edit is a line
//! appended to the journal and flushed before the screen hears that it is kept; a version is the whole job, written
//! under another name, flushed, and only then given its own. Nothing that was kept is overwritten: what can't be
//! read is renamed. What a line or a version means, and which versions are let go, the screens decide, alike for
//! the app and the browser (`ui/src/state/shelf.svelte.ts`).

mod folder;
mod job_folder;
mod old;
mod photos;

#[cfg(test)]
mod killed_tests;
#[cfg(test)]
mod refused_tests;
#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use mastwright_api::disk::refused;
use serde::Serialize;

use folder::{failed, flush_folder, names_in, read_if_there, write_atomically};
use job_folder::JobFolder;
pub use old::OldSave;

const DEVICE: &str = "device";
const JOBS: &str = "jobs";
const GONE: &str = ".gone";

/// Why a job could not be read or kept.
#[derive(Debug, thiserror::Error)]
pub enum StorageError {
    #[error("Could not {action} {path}: {why}", path = path.display(), why = refused(cause))]
    Disk {
        action: &'static str,
        path: PathBuf,
        #[source]
        cause: io::Error,
    },
    #[error("“{0}” is not the name of a job's folder.")]
    NotAJob(String),
    #[error("The job {0} is not open in this window, so nothing is written to it.")]
    NotHeld(String),
    #[error("That is no photo as Mastwright keeps them: a JPEG of at most 2 MB under its own SHA-256.")]
    NoPhoto,
}

/// What is kept here at the start.
#[derive(Debug, Serialize)]
pub struct AtStart {
    /// Names this installation in the ids of its jobs.
    pub device: String,
    pub cards: Vec<Card>,
    /// Saves from before each job had a folder, oldest first.
    pub old: Vec<OldSave>,
}

/// What the list of jobs shows of one.
#[derive(Debug, PartialEq, Serialize)]
pub struct Card {
    pub id: String,
    /// As the screens wrote it; none where it was lost: the job is there all the same.
    pub text: Option<String>,
}

/// A version that is kept.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Version {
    /// The last edit that is in it.
    pub n: u64,
    pub at_ms: f64,
}

/// All that is kept of one job but the texts of its versions.
#[derive(Debug, Serialize)]
pub struct Kept {
    /// Oldest first.
    pub versions: Vec<Version>,
    /// Names of what could not be used and was set aside.
    pub aside: Vec<String>,
    /// Lines of the journal, in the order in which they were appended.
    pub journal: Vec<String>,
}

/// The folder of all jobs. Clones share one lock, so that writers come one after the other.
#[derive(Debug, Clone)]
pub struct Storage {
    folder: PathBuf,
    held: Arc<Mutex<BTreeMap<String, JobFolder>>>,
}

impl Storage {
    /// Keeps the jobs in `folder`, which is made at the first save.
    pub fn at(folder: PathBuf) -> Self {
        Self { folder, held: Arc::default() }
    }

    /// What is kept, after half-written leftovers were removed.
    ///
    /// # Errors
    /// Where the folder is there but the system refuses to hand it over.
    pub fn start(&self) -> Result<AtStart, StorageError> {
        let held = self.held();
        // Clearing up only makes room: where it is refused, as on a locked disk, the jobs are there to be read all the same.
        let _ = old::remove_leftovers(&self.folder);
        let _ = self.remove_gone();
        for job in self.jobs()? {
            // Whoever holds a job may be writing this very moment.
            if held.contains_key(&job) {
                continue;
            }
            self.clear_up(&self.job_path(&job)?);
        }
        Ok(AtStart { device: self.device()?, cards: self.all_cards()?, old: old::saves(&self.folder)? })
    }

    /// What was half written is removed, and a job of which not even the first version was; unless another program has it.
    fn clear_up(&self, path: &Path) {
        let Ok(Some(folder)) = JobFolder::hold(path) else { return };
        let _ = folder.remove_leftovers();
        if job_folder::is_blank(path) {
            drop(folder);
            let _ = fs::remove_dir_all(path);
        }
    }

    /// The card of every job.
    ///
    /// # Errors
    /// As [`Self::start`].
    pub fn cards(&self) -> Result<Vec<Card>, StorageError> {
        let _one_at_a_time = self.held();
        self.all_cards()
    }

    /// Makes a job with its first version; false where the name is taken.
    ///
    /// # Errors
    /// Where the disk is full or not writable.
    pub fn create(&self, job: &str, card: &str, text: &str) -> Result<bool, StorageError> {
        let _one_at_a_time = self.held();
        let path = self.job_path(job)?;
        fs::create_dir_all(self.folder.join(JOBS)).map_err(failed("make the folder", &path))?;
        match fs::create_dir(&path) {
            Ok(()) => {}
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => return Ok(false),
            Err(error) => return Err(failed("make the folder", &path)(error)),
        }
        let Some(mut folder) = JobFolder::hold(&path)? else { return Ok(false) };
        if let Err(error) = folder.put_card(card).and_then(|()| folder.snapshot(0, text, &[], 0)) {
            // Nothing of it stays: a job that nobody can open would stand in the list, and a full disk needs the room.
            drop(folder);
            let _ = fs::remove_dir_all(&path);
            return Err(error);
        }
        flush_folder(&self.folder.join(JOBS));
        Ok(true)
    }

    /// Takes a job for this window; false where another one has it.
    ///
    /// # Errors
    /// Where the system refuses to lock.
    pub fn hold(&self, job: &str) -> Result<bool, StorageError> {
        let mut held = self.held();
        if held.contains_key(job) {
            return Ok(true);
        }
        let Some(folder) = JobFolder::hold_patiently(&self.job_path(job)?)? else { return Ok(false) };
        held.insert(job.to_owned(), folder);
        Ok(true)
    }

    /// Lets another window have it.
    pub fn let_go(&self, job: &str) {
        self.held().remove(job);
    }

    /// All of one job but the texts of its versions.
    ///
    /// # Errors
    /// Where the folder or a file is there but the system refuses to hand it over.
    pub fn read(&self, job: &str) -> Result<Kept, StorageError> {
        let _one_at_a_time = self.held();
        job_folder::read(&self.job_path(job)?)
    }

    /// A version as text; none where it is not there or is no text.
    ///
    /// # Errors
    /// Where the system refuses to hand the file over.
    pub fn version(&self, job: &str, n: u64) -> Result<Option<String>, StorageError> {
        let path = job_folder::version_path(&self.job_path(job)?, n);
        Ok(read_if_there(&path)?.and_then(|bytes| String::from_utf8(bytes).ok()))
    }

    /// What was set aside, as far as it is text.
    ///
    /// # Errors
    /// Where the system refuses to hand the file over.
    pub fn aside(&self, job: &str, name: &str) -> Result<Option<String>, StorageError> {
        let folder = self.job_path(job)?;
        if !job_folder::read(&folder)?.aside.iter().any(|known| known == name) {
            return Ok(None);
        }
        Ok(read_if_there(&folder.join(name))?.map(|bytes| String::from_utf8_lossy(&bytes).into_owned()))
    }

    /// Appends to the journal; once this returns, the line outlives the program and the power.
    ///
    /// # Errors
    /// Where the disk is full, not writable or gone, or the job is not held.
    pub fn append(&self, job: &str, line: &str) -> Result<(), StorageError> {
        self.with(job, |folder| folder.append(line))
    }

    /// Writes a whole version, then lets `drop` go, and of the journal all up to `journal_from`.
    ///
    /// # Errors
    /// As [`Self::append`]; all that was kept before is then untouched.
    pub fn snapshot(
        &self,
        job: &str,
        n: u64,
        text: &str,
        drop: &[u64],
        journal_from: u64,
    ) -> Result<(), StorageError> {
        self.with(job, |folder| folder.snapshot(n, text, drop, journal_from))
    }

    /// Replaces what the list of jobs shows of it.
    ///
    /// # Errors
    /// As [`Self::append`].
    pub fn put_card(&self, job: &str, card: &str) -> Result<(), StorageError> {
        self.with(job, |folder| folder.put_card(card))
    }

    /// Renames a version that can't be used; tells its name.
    ///
    /// # Errors
    /// As [`Self::append`].
    pub fn set_aside(&self, job: &str, n: u64) -> Result<String, StorageError> {
        self.with(job, |folder| folder.set_aside(n))
    }

    /// Deletes a job for good.
    ///
    /// # Errors
    /// As [`Self::append`].
    pub fn remove(&self, job: &str) -> Result<(), StorageError> {
        let path = self.job_path(job)?;
        let gone = self.folder.join(JOBS).join(format!("{job}{GONE}"));
        // Some systems rename no folder with an open file in it, so the hold ends first.
        self.with(job, |_| Ok(()))?;
        let mut held = self.held();
        held.remove(job);
        fs::rename(&path, &gone).map_err(failed("remove", &path))?;
        self.remove_gone()
    }

    /// Removes the saves from before each job had a folder, once they have been taken over.
    ///
    /// # Errors
    /// Where a file can't be removed.
    pub fn forget_old(&self) -> Result<(), StorageError> {
        let _one_at_a_time = self.held();
        old::forget(&self.folder)
    }

    /// Keeps a photo; tells its name, by which jobs refer to it.
    ///
    /// # Errors
    /// Where it is no photo, or the disk is full or not writable.
    pub fn put_photo(&self, bytes: &[u8]) -> Result<String, StorageError> {
        let _one_at_a_time = self.held();
        photos::put(&self.folder, bytes)
    }

    /// A photo by its name; none where it is not here.
    ///
    /// # Errors
    /// Where the system refuses to hand the file over.
    pub fn photo(&self, name: &str) -> Result<Option<Vec<u8>>, StorageError> {
        photos::get(&self.folder, name)
    }

    /// Deletes every photo but those named.
    ///
    /// # Errors
    /// Where a file can't be removed.
    pub fn forget_other_photos(&self, named: &[String]) -> Result<(), StorageError> {
        let _one_at_a_time = self.held();
        photos::forget_others(&self.folder, named)
    }

    fn with<T>(
        &self,
        job: &str,
        work: impl FnOnce(&mut JobFolder) -> Result<T, StorageError>,
    ) -> Result<T, StorageError> {
        let mut held = self.held();
        work(held.get_mut(job).ok_or_else(|| StorageError::NotHeld(job.to_owned()))?)
    }

    fn all_cards(&self) -> Result<Vec<Card>, StorageError> {
        let mut cards = Vec::new();
        for id in self.jobs()? {
            // Being made this very moment, or left so by a crash.
            if job_folder::is_blank(&self.job_path(&id)?) {
                continue;
            }
            let text = read_if_there(&job_folder::card_path(&self.job_path(&id)?))?;
            cards.push(Card { id, text: text.and_then(|bytes| String::from_utf8(bytes).ok()) });
        }
        Ok(cards)
    }

    /// Folders of jobs that were deleted, as far as a crash left them.
    fn remove_gone(&self) -> Result<(), StorageError> {
        let jobs = self.folder.join(JOBS);
        for name in names_in(&jobs)?.iter().filter(|name| name.ends_with(GONE)) {
            let path = jobs.join(name);
            fs::remove_dir_all(&path).map_err(failed("remove", &path))?;
        }
        Ok(())
    }

    fn jobs(&self) -> Result<Vec<String>, StorageError> {
        let mut jobs = names_in(&self.folder.join(JOBS))?;
        jobs.retain(|name| is_id(name));
        jobs.sort_unstable();
        Ok(jobs)
    }

    /// A short name of this installation: it tells ids apart that two devices give.
    fn device(&self) -> Result<String, StorageError> {
        let path = self.folder.join(DEVICE);
        let known = read_if_there(&path)?.and_then(|bytes| String::from_utf8(bytes).ok());
        if let Some(device) = known.filter(|device| is_id(device)) {
            return Ok(device);
        }
        let device = fresh_name();
        // Where nothing can be written no job can be made either: the name is then for this time alone.
        let _ = fs::create_dir_all(&self.folder);
        let _ = write_atomically(&path, device.as_bytes());
        Ok(device)
    }

    /// An id from a screen never leads out of the folder.
    fn job_path(&self, job: &str) -> Result<PathBuf, StorageError> {
        if is_id(job) {
            Ok(self.folder.join(JOBS).join(job))
        } else {
            Err(StorageError::NotAJob(job.to_owned()))
        }
    }

    /// A panic while the lock was held leaves no half-changed state behind, so the lock is taken all the same.
    fn held(&self) -> MutexGuard<'_, BTreeMap<String, JobFolder>> {
        self.held.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn is_id(name: &str) -> bool {
    let fits = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    (1..=40).contains(&name.len()) && name.chars().all(fits)
}

/// Seven letters by chance, from the seed that the standard library draws for its maps.
fn fresh_name() -> String {
    use std::hash::{BuildHasher, RandomState};
    const LETTERS: &[u8] = b"abcdefghijkmnpqrstuvwxyz23456789";
    let mut drawn = RandomState::new().hash_one(std::process::id());
    let mut name = String::new();
    for _ in 0..7 {
        name.push(char::from(LETTERS[(drawn % 32) as usize]));
        drawn /= 32;
    }
    name
}
