//! The photos that the jobs of the paired devices name: each a file under its own SHA-256, so that it is the same on every
//! device, is sent once, and a transfer that broke off is simply asked for again.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use mastwright_api::archive::{MOST_PHOTO_BYTES, is_jpeg, is_sha256, sha256};
use mastwright_api::disk::refused_at;

use crate::keep::{self, Refused};
use crate::locked;

/// All together: two or three thousand as the screens make them.
const MOST_BYTES: u64 = 1 << 30;

#[derive(Debug)]
pub struct Photos {
    folder: PathBuf,
    most_bytes: u64,
    /// One after the other, so that the bytes are counted right.
    putting: Mutex<()>,
}

impl Photos {
    pub fn kept_in(folder: &Path) -> Self {
        Self { folder: folder.join("photos"), most_bytes: MOST_BYTES, putting: Mutex::new(()) }
    }

    /// What is here, by SHA-256.
    ///
    /// # Errors
    /// Where the folder can't be read.
    pub fn names(&self) -> Result<Vec<String>, String> {
        let mut names = keep::names_in(&self.folder)?;
        names.retain(|name| is_sha256(name));
        names.sort_unstable();
        Ok(names)
    }

    /// A photo; none where it is not here, or is not what it was: then it is fetched anew.
    ///
    /// # Errors
    /// Where it is there and can't be read.
    pub fn read(&self, name: &str) -> Result<Option<Vec<u8>>, String> {
        let Some(path) = self.path(name) else { return Ok(None) };
        Ok(keep::read_bytes(&path)?.filter(|bytes| is_one(name, bytes)))
    }

    /// Keeps a photo; tells whether it was not here yet. Where there is no more room, those are let go that are not among
    /// the `named` ones.
    ///
    /// # Errors
    /// Where it is no photo, or there is no room.
    pub fn put(
        &self,
        name: &str,
        bytes: &[u8],
        named: impl FnOnce() -> Result<BTreeSet<String>, String>,
    ) -> Result<bool, Refused> {
        let path = self.path(name).filter(|_| is_one(name, bytes)).ok_or_else(|| {
            let most = MOST_PHOTO_BYTES >> 20;
            Refused::Unfit(format!("That is no JPEG of at most {most} MB under its own SHA-256."))
        })?;
        let _one_after_the_other = locked(&self.putting);
        if self.read(name)?.is_some() {
            return Ok(false);
        }
        let fits = |held: u64| held + bytes.len() as u64 <= self.most_bytes;
        if !fits(self.held_bytes()?) {
            self.forget_all_but(&named()?)?;
            if !fits(self.held_bytes()?) {
                let most = self.most_bytes >> 20;
                return Err(Refused::NotKept(format!("Photos of {most} MB are kept here already.")));
            }
        }
        keep::write(&path, bytes)?;
        Ok(true)
    }

    fn held_bytes(&self) -> Result<u64, String> {
        let sizes = self.names()?.into_iter().filter_map(|name| fs::metadata(self.folder.join(name)).ok());
        Ok(sizes.map(|found| found.len()).sum())
    }

    fn forget_all_but(&self, named: &BTreeSet<String>) -> Result<(), String> {
        for name in self.names()?.iter().filter(|name| !named.contains(*name)) {
            let path = self.folder.join(name);
            fs::remove_file(&path).map_err(|error| refused_at(&path, &error))?;
        }
        Ok(())
    }

    /// None where it is no name of a photo: it leads nowhere else.
    fn path(&self, name: &str) -> Option<PathBuf> {
        is_sha256(name).then(|| self.folder.join(name))
    }
}

fn is_one(name: &str, bytes: &[u8]) -> bool {
    bytes.len() <= MOST_PHOTO_BYTES && is_jpeg(bytes) && sha256(bytes) == name
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::devices::tests::folder;

    fn photo(of: u8) -> (String, Vec<u8>) {
        let bytes = [&[0xff, 0xd8, 0xff][..], &[of; 997]].concat();
        (sha256(&bytes), bytes)
    }

    fn nothing() -> Result<BTreeSet<String>, String> {
        Ok(BTreeSet::new())
    }

    #[test]
    fn a_photo_is_kept_once_under_its_hash_and_outlives_the_program() {
        let folder = folder("photos");
        let photos = Photos::kept_in(&folder);
        let (name, bytes) = photo(1);
        assert_eq!((photos.names(), photos.read(&name)), (Ok(vec![]), Ok(None)));
        assert_eq!(photos.put(&name, &bytes, nothing), Ok(true));
        assert_eq!(photos.put(&name, &bytes, nothing), Ok(false), "it is here");
        let again = Photos::kept_in(&folder);
        assert_eq!((again.names(), again.read(&name)), (Ok(vec![name.clone()]), Ok(Some(bytes.clone()))));
        // Half of it, as a disk may leave it: it is not handed out, and is taken anew.
        fs::write(folder.join("photos").join(&name), &bytes[..500]).unwrap();
        assert_eq!(again.read(&name), Ok(None));
        assert_eq!(again.put(&name, &bytes, nothing), Ok(true));
        assert_eq!(again.read(&name), Ok(Some(bytes)));
    }

    #[test]
    fn what_is_no_photo_or_another_is_refused_and_leads_nowhere() {
        let folder = folder("photos-refused");
        let photos = Photos::kept_in(&folder);
        let (name, bytes) = photo(1);
        let page = b"<script>".to_vec();
        let large = [&[0xff, 0xd8, 0xff][..], &vec![0; MOST_PHOTO_BYTES]].concat();
        let wrong: [(String, &[u8]); 6] = [
            (photo(2).0, &bytes),
            (sha256(&page), &page),
            (sha256(&large), &large),
            ("../devices.json".to_owned(), &bytes),
            (name.to_uppercase(), &bytes),
            (String::new(), &bytes),
        ];
        for (name, bytes) in wrong {
            assert!(matches!(photos.put(&name, bytes, nothing), Err(Refused::Unfit(_))), "{name}");
            assert_eq!(photos.read(&name), Ok(None));
        }
        assert_eq!(photos.names(), Ok(vec![]));
    }

    #[test]
    fn where_there_is_no_more_room_only_what_no_job_names_goes() {
        let mut photos = Photos::kept_in(&folder("photos-full"));
        photos.most_bytes = 2500;
        let [(a, of_a), (b, of_b), (c, of_c)] = [1, 2, 3].map(photo);
        for (name, bytes) in [(&a, &of_a), (&b, &of_b)] {
            assert_eq!(photos.put(name, bytes, nothing), Ok(true));
        }
        let both = || Ok([a.clone(), b.clone()].into());
        assert!(matches!(photos.put(&c, &of_c, both), Err(Refused::NotKept(_))));
        assert!(matches!(photos.put(&c, &of_c, || Err("unreadable".into())), Err(Refused::NotKept(_))));
        assert_eq!(photos.names().unwrap().len(), 2, "nothing was let go");
        assert_eq!(photos.put(&c, &of_c, || Ok([b.clone()].into())), Ok(true));
        let mut left = vec![b, c];
        left.sort_unstable();
        assert_eq!(photos.names(), Ok(left));
    }
}
