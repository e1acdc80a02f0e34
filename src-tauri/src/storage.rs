//! The job on disk, and the only access to disk there is.
//!
//! Every save is a new numbered file (`job-00000042.json`); the newest one is the job. A file is written under
//! another name, flushed, and only then given its number, so a power cut leaves the previous version whole.
//! Older versions stay, the more thinly the older they are. A file that can't be read is renamed, never
//! overwritten, and the newest readable one before it is used.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard};

/// This many of the latest versions are all kept; beyond them every second, then every fourth, and so on.
const KEEP_ALL: u64 = 32;

/// Why the job could not be read or kept.
#[derive(Debug, thiserror::Error)]
#[error("Could not {action} {path}: {cause}", path = path.display())]
pub struct StorageError {
    action: &'static str,
    path: PathBuf,
    #[source]
    cause: io::Error,
}

/// The folder of saved versions. Clones share one lock, so saves come one after the other.
#[derive(Debug, Clone)]
pub struct Storage {
    folder: PathBuf,
    notice: Arc<Mutex<Option<String>>>,
}

impl Storage {
    /// Keeps the job in `folder`, which is made at the first save.
    pub fn at(folder: PathBuf) -> Self {
        Self { folder, notice: Arc::default() }
    }

    /// What went wrong at the last load and was got round, in words for the user.
    pub fn notice(&self) -> Option<String> {
        self.lock().clone()
    }

    /// The newest readable version; none where nothing was ever saved.
    ///
    /// # Errors
    /// Where the folder or a file is there but the system refuses to hand it over.
    pub fn load(&self) -> Result<Option<String>, StorageError> {
        let mut notice = self.lock();
        *notice = None;
        for number in self.versions()?.into_iter().rev() {
            let path = self.version_path(number);
            let bytes = fs::read(&path).map_err(failed("read", &path))?;
            match as_json_text(bytes) {
                Some(text) => return Ok(Some(text)),
                None => {
                    let aside = self.set_aside(&path)?;
                    *notice = Some(format!(
                        "The last saved job could not be read. It was set aside as {}; this is the version before it.",
                        aside.display()
                    ));
                }
            }
        }
        Ok(None)
    }

    /// Keeps `text` as the newest version. A text equal to the newest version is not written again.
    ///
    /// # Errors
    /// Where the disk is full or not writable; the previous versions are then untouched.
    pub fn save(&self, text: &str) -> Result<(), StorageError> {
        let _one_at_a_time = self.lock();
        fs::create_dir_all(&self.folder).map_err(failed("make the folder", &self.folder))?;
        let versions = self.versions()?;
        if versions.last().is_some_and(|newest| self.holds(*newest, text)) {
            return Ok(());
        }
        let (number, part) = self.reserve()?;
        let path = self.version_path(number);
        write_whole(part, &self.part_path(number), text)?;
        fs::rename(self.part_path(number), &path).map_err(failed("name", &path))?;
        flush_folder(&self.folder);
        self.thin_out(&versions, number);
        Ok(())
    }

    /// A number no file has used, with the open file that holds it against another running app.
    fn reserve(&self) -> Result<(u64, File), StorageError> {
        let mut number = self.used_numbers()?.into_iter().max().unwrap_or(0) + 1;
        loop {
            let path = self.part_path(number);
            match OpenOptions::new().write(true).create_new(true).open(&path) {
                Ok(file) => return Ok((number, file)),
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => number += 1,
                Err(error) => return Err(failed("write", &path)(error)),
            }
        }
    }

    fn holds(&self, number: u64, text: &str) -> bool {
        fs::read(self.version_path(number)).is_ok_and(|bytes| bytes == text.as_bytes())
    }

    fn set_aside(&self, path: &Path) -> Result<PathBuf, StorageError> {
        let mut aside = path.as_os_str().to_owned();
        aside.push(".unreadable");
        let aside = PathBuf::from(aside);
        fs::rename(path, &aside).map_err(failed("set aside", path))?;
        Ok(aside)
    }

    /// Removes versions that the thinning rule lets go. A failure here costs only room, so it is not reported.
    fn thin_out(&self, versions: &[u64], newest: u64) {
        for number in versions.iter().filter(|number| !is_kept(**number, newest)) {
            let _ = fs::remove_file(self.version_path(*number));
        }
    }

    /// Numbers of the whole versions, oldest first.
    fn versions(&self) -> Result<Vec<u64>, StorageError> {
        let mut numbers: Vec<u64> = self.names()?.iter().filter_map(|name| version_number(name)).collect();
        numbers.sort_unstable();
        Ok(numbers)
    }

    /// Numbers of all files, also half-written and set-aside ones, so that no number is ever used twice.
    fn used_numbers(&self) -> Result<Vec<u64>, StorageError> {
        Ok(self.names()?.iter().filter_map(|name| used_number(name)).collect())
    }

    fn names(&self) -> Result<Vec<String>, StorageError> {
        let entries = match fs::read_dir(&self.folder) {
            Ok(entries) => entries,
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
            Err(error) => return Err(failed("look into", &self.folder)(error)),
        };
        entries
            .map(|entry| entry.map(|entry| entry.file_name().to_string_lossy().into_owned()))
            .collect::<Result<_, _>>()
            .map_err(failed("look into", &self.folder))
    }

    fn version_path(&self, number: u64) -> PathBuf {
        self.folder.join(format!("job-{number:08}.json"))
    }

    fn part_path(&self, number: u64) -> PathBuf {
        self.folder.join(format!("job-{number:08}.part"))
    }

    /// A panic while the lock was held leaves no half-changed state behind, so the lock is taken all the same.
    fn lock(&self) -> MutexGuard<'_, Option<String>> {
        self.notice.lock().unwrap_or_else(|poisoned| poisoned.into_inner())
    }
}

/// Versions get sparser with age: within `KEEP_ALL`·2ᵏ saves of the newest, every 2ᵏ-th stays.
fn is_kept(number: u64, newest: u64) -> bool {
    let age = newest.saturating_sub(number);
    let mut step = 1;
    while age >= KEEP_ALL * step {
        step *= 2;
    }
    number.is_multiple_of(step)
}

fn version_number(name: &str) -> Option<u64> {
    name.strip_prefix("job-")?.strip_suffix(".json")?.parse().ok()
}

fn used_number(name: &str) -> Option<u64> {
    name.strip_prefix("job-")?.split('.').next()?.parse().ok()
}

/// The text, if it is one whole JSON document. What it says is for the engine to judge.
fn as_json_text(bytes: Vec<u8>) -> Option<String> {
    let text = String::from_utf8(bytes).ok()?;
    serde_json::from_str::<serde::de::IgnoredAny>(&text).is_ok().then_some(text)
}

fn write_whole(mut file: File, path: &Path, text: &str) -> Result<(), StorageError> {
    file.write_all(text.as_bytes()).and_then(|()| file.sync_all()).map_err(failed("write", path))
}

/// Makes the new name itself survive a power cut. Not every system can; the file's content is safe either way.
fn flush_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

fn failed(action: &'static str, path: &Path) -> impl FnOnce(io::Error) -> StorageError {
    let path = path.to_path_buf();
    move |cause| StorageError { action, path, cause }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn fresh() -> (tempfile::TempDir, Storage) {
        let folder = tempfile::tempdir().unwrap();
        let storage = Storage::at(folder.path().join("jobs"));
        (folder, storage)
    }

    fn numbered(n: u64) -> String {
        format!("{{\"n\":{n}}}")
    }

    #[test]
    fn gives_back_the_last_save() {
        let (_folder, storage) = fresh();
        assert_eq!(storage.load().unwrap(), None);
        storage.save("{\"a\":1}").unwrap();
        storage.save("{\"a\":2}").unwrap();
        assert_eq!(storage.load().unwrap().as_deref(), Some("{\"a\":2}"));
        assert_eq!(storage.notice(), None);
    }

    #[test]
    fn keeps_the_versions_before_and_writes_no_version_twice() {
        let (_folder, storage) = fresh();
        for n in [1, 2, 2, 2, 3] {
            storage.save(&numbered(n)).unwrap();
        }
        assert_eq!(storage.versions().unwrap(), [1, 2, 3]);
        assert_eq!(fs::read_to_string(storage.version_path(1)).unwrap(), numbered(1));
    }

    #[test]
    fn sets_an_unreadable_file_aside_and_falls_back() {
        let (_folder, storage) = fresh();
        storage.save(&numbered(1)).unwrap();
        storage.save(&numbered(2)).unwrap();
        fs::write(storage.version_path(2), b"{\"n\": \xff").unwrap();

        assert_eq!(storage.load().unwrap(), Some(numbered(1)));
        assert!(storage.notice().unwrap().contains("job-00000002.json.unreadable"));
        storage.save(&numbered(3)).unwrap();

        let aside = storage.folder.join("job-00000002.json.unreadable");
        assert_eq!(fs::read(aside).unwrap(), b"{\"n\": \xff");
        assert_eq!(storage.load().unwrap(), Some(numbered(3)));
        assert_eq!(storage.notice(), None);
    }

    #[test]
    fn a_half_written_file_is_never_the_job() {
        let (_folder, storage) = fresh();
        storage.save(&numbered(1)).unwrap();
        fs::write(storage.part_path(2), "{\"n\":").unwrap();
        assert_eq!(storage.load().unwrap(), Some(numbered(1)));
        storage.save(&numbered(3)).unwrap();
        assert_eq!(storage.load().unwrap(), Some(numbered(3)));
        assert_eq!(storage.versions().unwrap(), [1, 3]);
    }

    #[test]
    fn history_thins_with_age_but_reaches_back() {
        let (_folder, storage) = fresh();
        for n in 1..=300 {
            storage.save(&numbered(n)).unwrap();
        }
        let versions = storage.versions().unwrap();
        assert_eq!(storage.load().unwrap(), Some(numbered(300)));
        assert!((269..=300).all(|n| versions.contains(&n)), "the last 32 are all there");
        assert!(versions.len() < 100, "{} versions", versions.len());
        assert!(*versions.first().unwrap() <= 16, "{versions:?}");
        let widest_gap = versions.windows(2).map(|pair| pair[1] - pair[0]).max().unwrap();
        assert!(widest_gap <= 16, "{versions:?}");
    }

    #[test]
    fn a_refusing_disk_is_an_error_with_its_path() {
        let folder = tempfile::tempdir().unwrap();
        let in_the_way = folder.path().join("jobs");
        fs::write(&in_the_way, "a file where the folder should be").unwrap();
        let error = Storage::at(in_the_way.clone()).save("{}").unwrap_err().to_string();
        assert!(error.contains(&in_the_way.display().to_string()), "{error}");
    }

    #[test]
    fn saves_from_several_threads_all_land() {
        let (_folder, storage) = fresh();
        std::thread::scope(|scope| {
            for n in 1..=16 {
                let storage = storage.clone();
                scope.spawn(move || storage.save(&numbered(n)).unwrap());
            }
        });
        assert_eq!(storage.versions().unwrap().len(), 16);
    }
}
