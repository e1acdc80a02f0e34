//! Files in: the same reading on every face.

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use mastwright_engine::job::{Document, MOST_FILE_BYTES};
use mastwright_engine::quantity::{FieldError, FieldErrors};

use super::job_text;
use crate::archive;
use crate::messages::{
    FileAnswer, FileRequest, JobRequest, OpenedJob, PackAnswer, PackRequest, PhotoFile, TextRequest,
};

/// The bytes of a file as text; of an archive the job in it, and its photos.
///
/// # Errors
/// As [`archive::opened`].
pub fn file_text(request: &FileRequest) -> Result<FileAnswer, FieldErrors> {
    // Refused for its size before anything is unpacked.
    let too_large = request.size_bytes > MOST_FILE_BYTES;
    let bytes = if too_large { Vec::new() } else { decoded(&request.base64)? };
    let opened = archive::opened(&bytes, request.size_bytes)?;
    let photo = |(sha256, bytes)| PhotoFile { sha256, base64: STANDARD.encode(bytes) };
    Ok(FileAnswer { text: opened.text, photos: opened.photos.into_iter().map(photo).collect() })
}

/// The job and its photos as one archive. A photo that the job no longer names is left out.
///
/// # Errors
/// As [`job_text`], and as [`archive::packed`].
pub fn pack_job(request: &PackRequest) -> Result<PackAnswer, FieldErrors> {
    let text = job_text(&JobRequest { job: request.job.clone() })?.text;
    let photos = request
        .photos
        .iter()
        .filter(|photo| text.contains(&photo.sha256))
        .map(|photo| Ok((photo.sha256.clone(), decoded(&photo.base64)?)))
        .collect::<Result<_, FieldErrors>>()?;
    Ok(PackAnswer { base64: STANDARD.encode(archive::packed(&text, &photos)?) })
}

fn decoded(base64: &str) -> Result<Vec<u8>, FieldErrors> {
    STANDARD.decode(base64).map_err(|slip| FieldError::new("/base64", slip.to_string(), "base64").into())
}

/// A job from the text of its document, with whatever else that holds.
///
/// # Errors
/// As [`Document::of`].
pub fn open_job(request: &TextRequest) -> Result<OpenedJob, FieldErrors> {
    Ok(OpenedJob(Document::read(&request.text)?.value()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use mastwright_engine::demo;
    use mastwright_engine::job;

    fn read(bytes: &[u8]) -> Result<FileAnswer, FieldErrors> {
        file_text(&FileRequest { base64: STANDARD.encode(bytes), size_bytes: bytes.len() })
    }

    #[test]
    fn a_job_file_opens_as_it_was_written() {
        let job = demo::lantern_green();
        let text = read(job::write_job(&job).as_bytes()).unwrap().text;
        assert_eq!(open_job(&TextRequest { text }).unwrap().0, serde_json::to_value(&job).unwrap());
    }

    #[test]
    fn what_the_screens_once_took_silently_is_refused() {
        let given = |bytes: &[u8]| read(bytes).unwrap_err().errors[0].given.clone();
        assert!(given(b"{\"name\": \"Caf\xe9\"}").contains("0xE9"));
        assert!(given(&[0x1f, 0x8b, 8]).contains("gzip"));
        let twice = job::write_job(&demo::lantern_green()).replacen('{', "{ \"name\": \"twice\",", 1);
        let errors = open_job(&TextRequest { text: twice }).unwrap_err().errors;
        assert_eq!((errors[0].path.as_str(), errors.len()), ("/name", 1));
    }

    #[test]
    fn a_large_file_is_refused_by_its_size_without_its_bytes() {
        let errors = file_text(&FileRequest { base64: "e30=".to_owned(), size_bytes: 1 << 30 }).unwrap_err();
        assert_eq!(errors.errors[0].given, "a file of 1024 MB");
        let errors = file_text(&FileRequest { base64: "?".to_owned(), size_bytes: 1 }).unwrap_err();
        assert_eq!(errors.errors[0].path, "/base64");
    }
}
