//! Saves of the time when there was one job: numbered files beside each other, whatever job they were of.

use std::fs;
use std::path::{Path, PathBuf};
use std::time::UNIX_EPOCH;

use serde::Serialize;

use super::StorageError;
use super::folder::{PART, names_in, read_if_there, remove};

/// A save of that time.
#[derive(Debug, PartialEq, Serialize)]
pub struct OldSave {
    pub at_ms: f64,
    /// As far as it is text.
    pub text: String,
}

/// Oldest first.
pub fn saves(folder: &Path) -> Result<Vec<OldSave>, StorageError> {
    let mut found = Vec::new();
    for path in paths(folder)? {
        let at = fs::metadata(&path).and_then(|about| about.modified()).ok();
        let age = at.and_then(|at| at.duration_since(UNIX_EPOCH).ok());
        let Some(bytes) = read_if_there(&path)? else { continue };
        found.push(OldSave {
            at_ms: age.map_or(0.0, |age| (age.as_secs_f64() * 1e3).round()),
            text: String::from_utf8_lossy(&bytes).into_owned(),
        });
    }
    Ok(found)
}

pub fn forget(folder: &Path) -> Result<(), StorageError> {
    paths(folder)?.iter().try_for_each(|path| remove(path))
}

/// Half-written files of that time.
pub fn remove_leftovers(folder: &Path) -> Result<(), StorageError> {
    let names = names_in(folder)?;
    let left = |name: &&String| name.starts_with("job-") && name.ends_with(PART);
    names.iter().filter(left).try_for_each(|name| remove(&folder.join(name)))
}

fn paths(folder: &Path) -> Result<Vec<PathBuf>, StorageError> {
    let mut names = names_in(folder)?;
    names.retain(|name| name.starts_with("job-") && name.ends_with(".json"));
    names.sort_unstable();
    Ok(names.iter().map(|name| folder.join(name)).collect())
}
