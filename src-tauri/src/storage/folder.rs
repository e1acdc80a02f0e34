//! Files written whole or not at all.

use std::fs::{self, File};
use std::io::{self, Write};
use std::path::Path;

use super::StorageError;

/// The ending of a file that is being written.
pub const PART: &str = ".part";

/// Writes a file whole: until it is flushed it has another name, so that a power cut leaves the one before it.
pub fn write_atomically(path: &Path, bytes: &[u8]) -> Result<(), StorageError> {
    let mut part = path.as_os_str().to_owned();
    part.push(PART);
    let part = Path::new(&part);
    let written = File::create(part)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(part, path));
    if let Err(error) = written {
        // What was half written is of no use, and a full disk needs the room.
        let _ = fs::remove_file(part);
        return Err(failed("write", path)(error));
    }
    if let Some(folder) = path.parent() {
        flush_folder(folder);
    }
    Ok(())
}

/// The content of a file; none where it is not there.
pub fn read_if_there(path: &Path) -> Result<Option<Vec<u8>>, StorageError> {
    match fs::read(path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(error) => Err(failed("read", path)(error)),
    }
}

/// The names of what is in a folder; none where it is not there.
pub fn names_in(folder: &Path) -> Result<Vec<String>, StorageError> {
    let entries = match fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(failed("look into", folder)(error)),
    };
    entries
        .map(|entry| entry.map(|entry| entry.file_name().to_string_lossy().into_owned()))
        .collect::<Result<_, _>>()
        .map_err(failed("look into", folder))
}

/// Removes a file, if it is there.
pub fn remove(path: &Path) -> Result<(), StorageError> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(failed("remove", path)(error)),
        _ => Ok(()),
    }
}

/// Makes new names themselves survive a power cut. Not every system can; the files' content is safe either way.
pub fn flush_folder(folder: &Path) {
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

pub fn failed(action: &'static str, path: &Path) -> impl FnOnce(io::Error) -> StorageError {
    let path = path.to_path_buf();
    move |cause| StorageError::Disk { action, path, cause }
}
