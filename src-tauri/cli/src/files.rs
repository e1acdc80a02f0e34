//! Files that a command was asked to write.

use std::ffi::OsString;
use std::fs::{self, File};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use crate::outcome::Failure;

/// Writes a file whole, or leaves the one before it as it was: a disk that fills up half-way costs nobody the sheets
/// of yesterday.
pub fn write_file(path: &Path, bytes: &[u8]) -> Result<(), Failure> {
    let written = if takes_a_place_of_its_own(path) { replaced(path, bytes) } else { fs::write(path, bytes) };
    written.map_err(|error| Failure::file(path, &error))?;
    eprintln!("wrote {}", path.display());
    Ok(())
}

/// A pipe or a device is written to as it is; a link's goal, too, which renaming would cut off.
fn takes_a_place_of_its_own(path: &Path) -> bool {
    fs::symlink_metadata(path).map_or(true, |there| there.is_file())
}

fn replaced(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let part = part_of(path);
    let written = File::create(&part)
        .and_then(|mut file| file.write_all(bytes).and_then(|()| file.sync_all()))
        .and_then(|()| fs::rename(&part, path));
    if written.is_err() {
        // What was half written is of no use, and a full disk needs the room.
        let _ = fs::remove_file(&part);
    }
    written
}

fn part_of(path: &Path) -> PathBuf {
    let mut name: OsString = path.as_os_str().to_owned();
    name.push(format!(".{}.part", std::process::id()));
    name.into()
}
