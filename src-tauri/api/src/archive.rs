//! A job with its photos as one file: a zip archive that holds `job.json`, and each photo under its SHA-256.
//!
//! Nothing of a foreign archive is trusted: only names that stand here are taken, each once, no more bytes than are
//! allowed are unpacked, and a photo is the one it says it is, or the whole is refused.

use std::collections::BTreeMap;
use std::io::{Cursor, Read, Write};

pub use mastwright_engine::job::is_sha256;
use mastwright_engine::job::{self, MOST_FILE_BYTES};
use mastwright_engine::quantity::{FieldError, FieldErrors};
use sha2::{Digest, Sha256};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

const DOCUMENT: &str = "job.json";
const PHOTOS: &str = "photos/";
const ENDING: &str = ".jpg";

/// A photo that is larger was made by no Mastwright: its own are a few hundred kilobytes.
pub const MOST_PHOTO_BYTES: usize = 2 << 20;
/// As many photos as a job may have, and the job.
const MOST_FILES: usize = 101;

/// What stood in a file.
#[derive(Debug, Default, PartialEq)]
pub struct Opened {
    pub text: String,
    /// By their SHA-256.
    pub photos: BTreeMap<String, Vec<u8>>,
}

/// A file's text, and the photos beside it where the file is an archive.
///
/// # Errors
/// As [`job::text_of_file`]; and, in words, an archive that holds anything but a job with its photos.
pub fn opened(bytes: &[u8], whole_bytes: usize) -> Result<Opened, FieldErrors> {
    if !bytes.starts_with(b"PK\x03\x04") || whole_bytes.max(bytes.len()) > MOST_FILE_BYTES {
        let text = job::text_of_file(bytes, whole_bytes)?.to_owned();
        return Ok(Opened { text, photos: BTreeMap::new() });
    }
    unpacked(bytes).map_err(FieldErrors::from)
}

/// SHA-256 as photos are named by.
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|byte| format!("{byte:02x}")).collect()
}

/// Whether the bytes begin as a JPEG file does (ISO/IEC 10918-1, B.1.1.3): nothing else is ever shown as a photo.
pub fn is_jpeg(bytes: &[u8]) -> bool {
    bytes.starts_with(&[0xff, 0xd8, 0xff])
}

/// One archive of a job's document and its photos.
///
/// # Errors
/// What would be refused when it is opened again.
pub fn packed(text: &str, photos: &BTreeMap<String, Vec<u8>>) -> Result<Vec<u8>, FieldErrors> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    let small = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    let as_it_is = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    let mut put = |name: &str, options, bytes: &[u8]| {
        writer
            .start_file(name, options)
            .and_then(|()| Ok(writer.write_all(bytes)?))
            .map_err(|slip| refused(slip.to_string(), WHOLE))
    };
    put(DOCUMENT, small, text.as_bytes())?;
    for (name, bytes) in photos {
        check_photo(name, bytes)?;
        put(&format!("{PHOTOS}{name}{ENDING}"), as_it_is, bytes)?;
    }
    let bytes = writer.finish().map_err(|slip| refused(slip.to_string(), WHOLE))?.into_inner();
    if bytes.len() > MOST_FILE_BYTES {
        let given = format!("{} MB of job and photos", bytes.len().div_ceil(1 << 20));
        return Err(
            refused(given, format!("at most {} MB: take some photos out", MOST_FILE_BYTES >> 20)).into()
        );
    }
    Ok(bytes)
}

const WHOLE: &str = "a whole archive as Mastwright saves it";

fn refused(given: impl Into<String>, allowed: impl Into<String>) -> FieldError {
    FieldError::new("", given, allowed)
}

fn unpacked(bytes: &[u8]) -> Result<Opened, FieldError> {
    // What the library says of it is for who wrote it.
    let broken = |_: zip::result::ZipError| refused("a zip archive that can\u{2019}t be read", WHOLE);
    let mut archive = ZipArchive::new(Cursor::new(bytes)).map_err(broken)?;
    if archive.len() > MOST_FILES {
        return Err(refused(
            format!("a zip archive of {} files", archive.len()),
            format!("at most {MOST_FILES}"),
        ));
    }
    check_each_once(bytes, archive.len())?;
    let mut found = Opened::default();
    let mut document = None;
    let mut photo_bytes = 0;
    for index in 0..archive.len() {
        let mut file = archive.by_index(index).map_err(broken)?;
        let name = file.name().map_err(broken)?.into_owned();
        let most = if name == DOCUMENT { MOST_FILE_BYTES } else { MOST_PHOTO_BYTES };
        let photo = photo_named(&name);
        if name != DOCUMENT && photo.is_none() {
            return Err(refused(
                format!("a zip archive with \u{201c}{}\u{201d} in it", shown(&name)),
                "job.json and photos/ alone",
            ));
        }
        if file.is_symlink() || file.is_dir() {
            return Err(refused(format!("\u{201c}{}\u{201d} that is no plain file", shown(&name)), WHOLE));
        }
        let mut content = Vec::new();
        // What the archive says of its size is not believed: no more than this is ever unpacked.
        let read = file.by_ref().take(most as u64 + 1).read_to_end(&mut content);
        read.map_err(|slip| {
            refused(format!("\u{201c}{}\u{201d} that can\u{2019}t be unpacked ({slip})", shown(&name)), WHOLE)
        })?;
        if content.len() > most {
            return Err(refused(
                format!("\u{201c}{}\u{201d} of more than {} MB", shown(&name), most >> 20),
                format!("at most {} MB", most >> 20),
            ));
        }
        match photo {
            Some(hash) => {
                check_photo(hash, &content)?;
                // A file of ours is no larger than this packed, and photos hardly pack.
                photo_bytes += content.len();
                if photo_bytes > MOST_FILE_BYTES {
                    let most = MOST_FILE_BYTES >> 20;
                    let given = format!("photos of more than {most} MB together");
                    return Err(refused(given, format!("at most {most} MB")));
                }
                found.photos.insert(hash.to_owned(), content);
            }
            None => document = Some(content),
        }
    }
    let document = document.ok_or_else(|| refused("a zip archive without job.json", WHOLE))?;
    match job::text_of_file(&document, document.len()) {
        Ok(text) => text.clone_into(&mut found.text),
        Err(errors) => {
            return Err(errors.errors.into_iter().next().unwrap_or_else(|| refused("no text", WHOLE)));
        }
    }
    Ok(found)
}

/// The reader keeps the last of several files of one name without a word: the entries themselves are counted.
/// Source: PKWARE APPNOTE 6.3.10, 4.3.16, the end of central directory record.
fn check_each_once(bytes: &[u8], known: usize) -> Result<(), FieldError> {
    const END: &[u8] = b"PK\x05\x06";
    let at = bytes.windows(END.len()).rposition(|four| four == END);
    let said = at.and_then(|at| Some(u16::from_le_bytes(bytes.get(at + 10..at + 12)?.try_into().ok()?)));
    if said.map(usize::from) == Some(known) {
        Ok(())
    } else {
        Err(refused("a zip archive with a file in it twice", "each file once"))
    }
}

fn photo_named(name: &str) -> Option<&str> {
    name.strip_prefix(PHOTOS)?.strip_suffix(ENDING).filter(|hash| is_sha256(hash))
}

fn check_photo(name: &str, bytes: &[u8]) -> Result<(), FieldError> {
    if bytes.len() > MOST_PHOTO_BYTES {
        return Err(refused("a photo of more than 2 MB", "at most 2 MB"));
    }
    if !is_jpeg(bytes) {
        return Err(refused(format!("the photo {name:.8}\u{2026}, which is no JPEG"), "JPEG photos alone"));
    }
    if sha256(bytes) != name {
        return Err(refused(
            format!("the photo {name:.8}\u{2026}, which is another or was damaged"),
            "photos under their own SHA-256",
        ));
    }
    Ok(())
}

fn shown(name: &str) -> String {
    mastwright_engine::quantity::visible::visible(name).chars().take(60).collect()
}

#[cfg(test)]
mod tests;
