//! One job's folder, held against every other window.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::{Duration, UNIX_EPOCH};

use super::folder::{self, PART, failed, flush_folder, names_in, read_if_there, write_atomically};
use super::{Kept, StorageError, Version};

const CARD: &str = "card.json";
const JOURNAL: &str = "journal";
const LOCK: &str = "lock";
const ASIDE: &str = ".unreadable";

/// How often a job that another program has is asked for once more, and how long after: 0.3 s in all.
const PATIENCE: u32 = 15;
const BETWEEN_TRIES: Duration = Duration::from_millis(20);

/// The folder of a job that this program may write to, until it is dropped.
#[derive(Debug)]
pub struct JobFolder {
    path: PathBuf,
    lock: Lock,
    /// Open for appending; opened afresh after anything went wrong.
    journal: Option<File>,
}

/// The locked file that keeps others out.
///
/// Closing it would not be enough: a child that is being started at that moment has a copy of every open file until
/// it becomes its own program, and the system keeps the lock for as long as any copy is open.
#[derive(Debug)]
struct Lock(File);

impl Drop for Lock {
    fn drop(&mut self) {
        // A refusal leaves what closing the file does anyway.
        let _ = self.0.unlock();
    }
}

impl JobFolder {
    /// Takes the folder; none where another program has it. The system itself ends the hold with the program.
    pub fn hold(path: &Path) -> Result<Option<Self>, StorageError> {
        let lock_path = path.join(LOCK);
        // A disk that lets nothing be written still has the file of those who held it before.
        let lock = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&lock_path)
            .or_else(|refused| File::open(&lock_path).map_err(|_| refused))
            .map_err(failed("lock", &lock_path))?;
        match lock.try_lock() {
            Ok(()) => Ok(Some(Self { path: path.to_owned(), lock: Lock(lock), journal: None })),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(failed("lock", &lock_path)(error)),
        }
    }

    /// The same, but another program that has it only to clear up after itself as it starts is waited for.
    pub fn hold_patiently(path: &Path) -> Result<Option<Self>, StorageError> {
        for _ in 0..PATIENCE {
            if let Some(held) = Self::hold(path)? {
                return Ok(Some(held));
            }
            thread::sleep(BETWEEN_TRIES);
        }
        Self::hold(path)
    }

    pub fn append(&mut self, line: &str) -> Result<(), StorageError> {
        let path = self.path.join(JOURNAL);
        let line = format!("{}\n", line.replace('\n', " "));
        let appended = self
            .journal()
            .and_then(|file| file.write_all(line.as_bytes()).and_then(|()| file.sync_data()))
            .and_then(|()| {
                // A file that somebody deleted can be written to, but nobody finds it again.
                if path.exists() { Ok(()) } else { Err(io::ErrorKind::NotFound.into()) }
            });
        appended.map_err(|error| {
            self.journal = None;
            failed("write", &path)(error)
        })
    }

    pub fn snapshot(
        &mut self,
        n: u64,
        text: &str,
        drop: &[u64],
        journal_from: u64,
    ) -> Result<(), StorageError> {
        self.be_there()?;
        write_atomically(&version_path(&self.path, n), text.as_bytes())?;
        // The version stands; all that follows only makes room.
        self.trim_journal(journal_from)?;
        for old in drop.iter().filter(|old| **old != n) {
            folder::remove(&version_path(&self.path, *old))?;
        }
        Ok(())
    }

    pub fn put_card(&mut self, card: &str) -> Result<(), StorageError> {
        self.be_there()?;
        write_atomically(&card_path(&self.path), card.as_bytes())
    }

    pub fn set_aside(&mut self, n: u64) -> Result<String, StorageError> {
        let path = version_path(&self.path, n);
        let name = format!("{}{ASIDE}", version_name(n));
        fs::rename(&path, self.path.join(&name)).map_err(failed("set aside", &path))?;
        flush_folder(&self.path);
        Ok(name)
    }

    pub fn remove_leftovers(&self) -> Result<(), StorageError> {
        for name in names_in(&self.path)?.iter().filter(|name| name.ends_with(PART)) {
            folder::remove(&self.path.join(name))?;
        }
        Ok(())
    }

    /// Makes the folder again where it was cleared away under a running program.
    fn be_there(&mut self) -> Result<(), StorageError> {
        let lock_path = self.path.join(LOCK);
        if lock_path.exists() {
            return Ok(());
        }
        fs::create_dir_all(&self.path).map_err(failed("make the folder", &self.path))?;
        self.journal = None;
        match Self::hold(&self.path)? {
            Some(again) => self.lock = again.lock,
            None => return Err(failed("lock", &lock_path)(io::ErrorKind::WouldBlock.into())),
        }
        Ok(())
    }

    fn trim_journal(&mut self, from: u64) -> Result<(), StorageError> {
        let path = self.path.join(JOURNAL);
        let lines = lines_of(&path)?;
        let stay: Vec<_> = lines.iter().filter(|line| number_of(line).is_some_and(|n| n > from)).collect();
        if stay.len() == lines.len() {
            return Ok(());
        }
        let text: String = stay.iter().map(|line| format!("{line}\n")).collect();
        self.journal = None;
        write_atomically(&path, text.as_bytes())
    }

    fn journal(&mut self) -> io::Result<&mut File> {
        let file = match self.journal.take() {
            Some(open) => open,
            None => open_journal(&self.path)?,
        };
        Ok(self.journal.insert(file))
    }
}

/// The journal, open for appending. A line that was torn off at its end gets an end: the next one begins anew.
fn open_journal(folder: &Path) -> io::Result<File> {
    let path = folder.join(JOURNAL);
    let is_new = !path.exists();
    let mut file = OpenOptions::new().read(true).append(true).create(true).open(&path)?;
    if file.metadata()?.len() > 0 {
        file.seek(SeekFrom::End(-1))?;
        let mut last = [0];
        file.read_exact(&mut last)?;
        if last != *b"\n" {
            file.write_all(b"\n")?;
        }
    }
    if is_new {
        flush_folder(folder);
    }
    Ok(file)
}

pub fn read(folder: &Path) -> Result<Kept, StorageError> {
    let names = names_in(folder)?;
    let mut versions: Vec<Version> = names
        .iter()
        .filter_map(|name| version_number(name))
        .map(|n| Version { n, at_ms: written_at_ms(&version_path(folder, n)) })
        .collect();
    versions.sort_by_key(|version| version.n);
    let mut aside: Vec<String> = names.into_iter().filter(|name| name.ends_with(ASIDE)).collect();
    aside.sort_unstable();
    Ok(Kept { versions, aside, journal: lines_of(&folder.join(JOURNAL))? })
}

/// Whether nothing of a job is in its folder: its first version is the first thing that counts.
pub fn is_blank(folder: &Path) -> bool {
    let counts = |name: &String| version_number(name).is_some() || name.ends_with(ASIDE) || name == JOURNAL;
    // A folder that can't be looked into is not known to be blank.
    names_in(folder).is_ok_and(|names| !names.iter().any(counts))
}

pub fn card_path(folder: &Path) -> PathBuf {
    folder.join(CARD)
}

pub fn version_path(folder: &Path, n: u64) -> PathBuf {
    folder.join(version_name(n))
}

fn version_name(n: u64) -> String {
    format!("job-{n:08}.json")
}

fn version_number(name: &str) -> Option<u64> {
    name.strip_prefix("job-")?.strip_suffix(".json")?.parse().ok()
}

/// The number that each line of the journal begins with.
fn number_of(line: &str) -> Option<u64> {
    line.split(' ').next()?.parse().ok()
}

/// Lines as they stand; one that was torn off shows by its check sum, which is the screens' to compare.
fn lines_of(journal: &Path) -> Result<Vec<String>, StorageError> {
    let bytes = read_if_there(journal)?.unwrap_or_default();
    let text = String::from_utf8_lossy(&bytes);
    Ok(text.lines().filter(|line| !line.is_empty()).map(str::to_owned).collect())
}

/// Nought where the system does not tell.
fn written_at_ms(path: &Path) -> f64 {
    let at = fs::metadata(path).and_then(|about| about.modified()).ok();
    at.and_then(|at| at.duration_since(UNIX_EPOCH).ok()).map_or(0.0, |age| (age.as_secs_f64() * 1e3).round())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_of_the_lock_in_a_child_that_just_starts_does_not_keep_the_job() {
        let folder = tempfile::tempdir().unwrap();
        let held = JobFolder::hold(folder.path()).unwrap().unwrap();
        // What a forked child has until it becomes its own program: the same open file once more.
        let _in_the_child = held.lock.0.try_clone().unwrap();
        drop(held);
        assert!(JobFolder::hold(folder.path()).unwrap().is_some());
    }
}
