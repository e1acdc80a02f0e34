//! Small files that outlive the program, readable by their owner alone.

use std::fs;
use std::io::{self, ErrorKind, Write as _};
use std::path::Path;

use mastwright_api::disk::refused_at;

/// Why something that a device sent is not kept.
#[derive(Debug, PartialEq, Eq)]
pub enum Refused {
    /// It is not what can be kept there, or not the one that its address names.
    Unfit(String),
    /// There is no keeping it here.
    NotKept(String),
}

/// What the disk says.
impl From<String> for Refused {
    fn from(why: String) -> Self {
        Self::NotKept(why)
    }
}

/// What the file holds; none where there is no such file yet.
///
/// # Errors
/// Where it is there and can't be read.
pub fn read(path: &Path) -> Result<Option<String>, String> {
    if_there(fs::read_to_string(path), path)
}

/// The same of a file that is no text.
///
/// # Errors
/// Where it is there and can't be read.
pub fn read_bytes(path: &Path) -> Result<Option<Vec<u8>>, String> {
    if_there(fs::read(path), path)
}

/// The names of what lies in a folder; none where there is no such folder yet.
///
/// # Errors
/// Where it is there and can't be read.
pub fn names_in(folder: &Path) -> Result<Vec<String>, String> {
    let entries = if_there(fs::read_dir(folder), folder)?;
    let names = entries.into_iter().flatten();
    Ok(names.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect())
}

fn if_there<T>(found: io::Result<T>, path: &Path) -> Result<Option<T>, String> {
    match found {
        Ok(found) => Ok(Some(found)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(refused_at(path, &error)),
    }
}

/// Replaces the file whole: whoever reads it meanwhile sees the one before or the one after.
///
/// # Errors
/// Where it can't be written.
pub fn write(path: &Path, content: impl AsRef<[u8]>) -> Result<(), String> {
    let folder = path.parent().unwrap_or(Path::new("."));
    fs::create_dir_all(folder).map_err(|error| refused_at(folder, &error))?;
    let part = path.with_extension("part");
    let wrote = private(&part).and_then(|mut file| {
        file.write_all(content.as_ref())?;
        file.sync_all()?;
        fs::rename(&part, path)
    });
    if wrote.is_err() {
        // On a disk without room it would take what little there is.
        let _ = fs::remove_file(&part);
    }
    wrote.map_err(|error| refused_at(path, &error))
}

/// A new file that nobody else on this machine can read: keys and tokens go into it.
fn private(path: &Path) -> io::Result<fs::File> {
    let mut options = fs::OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options.open(path)
}
