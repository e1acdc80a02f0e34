//! Photos, each a file under its own SHA-256, shared by all jobs that name it.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use mastwright_api::archive::{MOST_PHOTO_BYTES, is_jpeg, is_sha256, sha256};

use super::StorageError;
use super::folder::{PART, failed, flush_folder, names_in, read_if_there, remove, write_atomically};

const PHOTOS: &str = "photos";

/// Keeps a photo; tells its name. Once this returns it outlives the program and the power.
pub fn put(folder: &Path, bytes: &[u8]) -> Result<String, StorageError> {
    if !is_jpeg(bytes) || bytes.len() > MOST_PHOTO_BYTES {
        return Err(StorageError::NoPhoto);
    }
    let name = sha256(bytes);
    let path = place(folder, &name)?;
    // What is there under its own hash is the same; one that was torn is written anew.
    if read_if_there(&path)?.is_some_and(|there| there == bytes) {
        return Ok(name);
    }
    let photos = folder.join(PHOTOS);
    fs::create_dir_all(&photos).map_err(failed("make the folder", &photos))?;
    flush_folder(folder);
    write_atomically(&path, bytes)?;
    Ok(name)
}

/// A photo by its name; none where it is not there or is not what it says.
pub fn get(folder: &Path, name: &str) -> Result<Option<Vec<u8>>, StorageError> {
    Ok(read_if_there(&place(folder, name)?)?.filter(|bytes| sha256(bytes) == name))
}

/// Deletes every photo but those named.
pub fn forget_others(folder: &Path, named: &[String]) -> Result<(), StorageError> {
    let named: BTreeSet<&str> = named.iter().map(String::as_str).collect();
    let photos = folder.join(PHOTOS);
    for name in names_in(&photos)? {
        let is_ours = is_sha256(name.trim_end_matches(PART));
        if is_ours && !named.contains(name.as_str()) {
            remove(&photos.join(name))?;
        }
    }
    Ok(())
}

/// A name from a screen never leads out of the folder.
fn place(folder: &Path, name: &str) -> Result<PathBuf, StorageError> {
    if is_sha256(name) { Ok(folder.join(PHOTOS).join(name)) } else { Err(StorageError::NoPhoto) }
}

#[cfg(test)]
mod tests {
    use super::*;

    const JPEG: &[u8] = &[0xff, 0xd8, 0xff, 0xe0, 1, 2, 3];

    #[test]
    fn a_photo_is_kept_under_its_hash_and_comes_back() {
        let folder = tempfile::tempdir().unwrap();
        let name = put(folder.path(), JPEG).unwrap();
        assert_eq!(put(folder.path(), JPEG).unwrap(), name);
        assert_eq!(get(folder.path(), &name).unwrap().as_deref(), Some(JPEG));
        // One that was torn is none, and is mended by putting it again.
        fs::write(folder.path().join(PHOTOS).join(&name), &JPEG[..4]).unwrap();
        assert_eq!(get(folder.path(), &name).unwrap(), None);
        put(folder.path(), JPEG).unwrap();
        assert_eq!(get(folder.path(), &name).unwrap().as_deref(), Some(JPEG));
    }

    #[test]
    fn nothing_but_a_photo_is_taken_and_no_name_leads_anywhere() {
        let folder = tempfile::tempdir().unwrap();
        assert!(put(folder.path(), b"<svg/>").is_err());
        let mut large = JPEG.to_vec();
        large.resize(MOST_PHOTO_BYTES + 1, 0);
        assert!(put(folder.path(), &large).is_err());
        for name in ["", "..", "../device", &"A".repeat(64), &"g".repeat(64)] {
            assert!(get(folder.path(), name).is_err(), "{name}");
        }
        assert_eq!(get(folder.path(), &"0".repeat(64)).unwrap(), None);
    }

    #[test]
    fn only_photos_that_nobody_names_are_let_go() {
        let folder = tempfile::tempdir().unwrap();
        let kept = put(folder.path(), JPEG).unwrap();
        let gone = put(folder.path(), &[JPEG, &[7]].concat()).unwrap();
        fs::write(folder.path().join(PHOTOS).join("mine.txt"), "not ours").unwrap();
        forget_others(folder.path(), std::slice::from_ref(&kept)).unwrap();
        assert!(get(folder.path(), &kept).unwrap().is_some());
        assert!(get(folder.path(), &gone).unwrap().is_none());
        assert!(folder.path().join(PHOTOS).join("mine.txt").exists());
    }
}
