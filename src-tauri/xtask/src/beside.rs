//! Steps that are done beside others. The compiler's own work is long on one processor and short on the other: two compilers at
//! once keep both busy.

use std::fs::{self, File};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::Mutex;

use crate::place::Place;

/// What is being done; one at a time is enough.
static RUNNING: Mutex<Option<Child>> = Mutex::new(None);

/// Starts one of our own commands, whose words go to a file until it has ended.
///
/// # Errors
/// Where it can't be started.
pub fn start(place: &Place, command: &str) -> Result<(), String> {
    let path = words(place);
    let failed = |error: std::io::Error| format!("{}: {error}", path.display());
    fs::create_dir_all(&place.target).map_err(failed)?;
    let file = File::create(&path).map_err(failed)?;
    let same = file.try_clone().map_err(failed)?;
    let own = std::env::current_exe().map_err(|error| error.to_string())?;
    let child = Command::new(own)
        .current_dir(&place.root)
        .arg(command)
        .stdin(Stdio::null())
        .stdout(file)
        .stderr(same)
        .spawn()
        .map_err(|error| format!("`cargo xtask {command}` could not be started: {error}."))?;
    *running() = Some(child);
    Ok(())
}

/// Waits until it has ended, and shows what it said.
///
/// # Errors
/// Where it was not started, or failed.
pub fn finish(place: &Place) -> Result<(), String> {
    let mut child = running().take().ok_or("Nothing was started beside.")?;
    let ended = child.wait().map_err(|error| error.to_string());
    if let Ok(said) = fs::read(words(place)) {
        println!("{}", String::from_utf8_lossy(&said));
    }
    match ended? {
        status if status.success() => Ok(()),
        status => Err(format!("It ended with {status}.")),
    }
}

/// Ends it where nobody waits for it any more.
pub fn stop() {
    if let Some(mut child) = running().take() {
        // It may have ended by itself.
        let _ = child.kill();
        let _ = child.wait();
    }
}

fn words(place: &Place) -> PathBuf {
    place.target.join("beside.txt")
}

fn running() -> std::sync::MutexGuard<'static, Option<Child>> {
    RUNNING.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
}
