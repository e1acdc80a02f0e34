//! Files that the user asks for, put where the system keeps what was downloaded. The web views' own downloads end in
//! different places, on some systems in the folder that the app was started from, and tell nobody where.

use std::fs::{self, File};
use std::io::{ErrorKind, Write as _};
use std::path::{Path, PathBuf};

use mastwright_api::disk::refused_at;
use tauri::Manager;
use tauri::async_runtime::spawn_blocking;
use tauri::ipc::{InvokeBody, Request};

/// How many files of one name are told apart by a number.
const NAMESAKES: u32 = 1000;

/// Writes the request's bytes into a new file under the name of its header `name`, percent-encoded; gives back its path.
///
/// # Errors
/// In words, where there is no folder for it or it can't be written.
#[tauri::command]
pub async fn save_file(app: tauri::AppHandle, request: Request<'_>) -> Result<String, String> {
    let InvokeBody::Raw(bytes) = request.body() else {
        return Err("A file has bytes.".to_owned());
    };
    let bytes = bytes.clone();
    let name = request.headers().get("name").and_then(|name| name.to_str().ok()).unwrap_or_default();
    let name = plain(&decoded(name));
    let paths = app.path();
    let folder = paths.download_dir().or_else(|_| paths.home_dir()).map_err(|error| error.to_string())?;
    let saved = spawn_blocking(move || new_file(&folder, &name, &bytes)).await;
    let path = saved.map_err(|error| format!("The save stopped unexpectedly: {error}"))??;
    Ok(path.display().to_string())
}

/// The name of a file and nothing of a path, as every system takes it.
fn plain(name: &str) -> String {
    let letters = name.chars().map(|letter| match letter {
        '/' | '\\' | ':' | '*' | '?' | '"' | '<' | '>' | '|' => '-',
        letter if letter.is_control() => '-',
        letter => letter,
    });
    let name: String = letters.take(120).collect();
    let name = name.trim().trim_start_matches('.').trim_end_matches('.');
    if name.is_empty() { "Mastwright".to_owned() } else { name.to_owned() }
}

/// Percent-encoding (RFC 3986, 2.1), as `encodeURIComponent` writes it: headers hold ASCII alone.
fn decoded(name: &str) -> String {
    percent_encoding::percent_decode_str(name).decode_utf8_lossy().into_owned()
}

/// Never over a file that is there.
fn new_file(folder: &Path, name: &str, bytes: &[u8]) -> Result<PathBuf, String> {
    fs::create_dir_all(folder).map_err(|error| refused_at(folder, &error))?;
    for count in 1..=NAMESAKES {
        let path = folder.join(numbered(name, count));
        match File::create_new(&path) {
            Ok(mut file) => {
                let written = file.write_all(bytes).and_then(|()| file.sync_all());
                return match written {
                    Ok(()) => Ok(path),
                    Err(error) => {
                        // Half a job under a job's name would be taken for one.
                        let _ = fs::remove_file(&path);
                        Err(refused_at(&path, &error))
                    }
                };
            }
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(refused_at(&path, &error)),
        }
    }
    Err(format!("{}: there are {NAMESAKES} files of the name {name} already.", folder.display()))
}

/// `yard.mastwright.json`, then `yard (2).mastwright.json`.
fn numbered(name: &str, count: u32) -> String {
    if count == 1 {
        return name.to_owned();
    }
    let (stem, ends) =
        name.split_once('.').map_or((name, String::new()), |(stem, ends)| (stem, format!(".{ends}")));
    format!("{stem} ({count}){ends}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_no_path() {
        assert_eq!(plain("../../etc/passwd"), "-..-etc-passwd");
        assert_eq!(plain("C:\\yard\u{7}.json"), "C--yard-.json");
        assert_eq!(plain(" .. "), "Mastwright");
        assert_eq!(plain(&decoded("Linde%20%C3%BCber%20Tal.pdf")), "Linde über Tal.pdf");
    }

    #[test]
    fn a_file_that_is_there_stays_as_it_is() {
        let folder = tempfile::tempdir().unwrap();
        let save = |bytes: &[u8]| new_file(folder.path(), "yard.mastwright.json", bytes).unwrap();
        assert_eq!(save(b"first").file_name().unwrap(), "yard.mastwright.json");
        assert_eq!(save(b"second").file_name().unwrap(), "yard (2).mastwright.json");
        assert_eq!(fs::read(folder.path().join("yard.mastwright.json")).unwrap(), b"first");
        let error = new_file(&folder.path().join("yard.mastwright.json"), "x", b"").unwrap_err();
        assert!(error.contains("yard.mastwright.json"), "{error}");
    }
}
