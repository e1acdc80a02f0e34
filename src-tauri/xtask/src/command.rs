//! Running other programs, with an error that says which one failed and how.

use std::env;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The cargo that started us.
pub fn cargo(root: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(root).args(arguments);
    command
}

pub fn npm(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(if cfg!(windows) { "npm.cmd" } else { "npm" });
    command.current_dir(folder).args(arguments);
    command
}

/// Runs to the end, showing the program's own output.
///
/// # Errors
/// Where the program is missing or ends with anything but success.
pub fn run(mut command: Command) -> Result<(), String> {
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("`{}` ended with {status}.", shown(&command))),
        Err(error) => Err(format!("`{}` could not be started: {error}.", shown(&command))),
    }
}

/// Runs to the end and gives back what it printed.
///
/// # Errors
/// As for `run`; the error holds what the program said.
pub fn output(mut command: Command) -> Result<String, String> {
    let result = command
        .stdin(Stdio::null())
        .output()
        .map_err(|error| format!("`{}` could not be started: {error}.", shown(&command)))?;
    if result.status.success() {
        return Ok(String::from_utf8_lossy(&result.stdout).into_owned());
    }
    let said = String::from_utf8_lossy(&result.stderr);
    Err(format!("`{}` ended with {}.\n{said}", shown(&command), result.status))
}

/// Where a program is found on the PATH.
pub fn find_program(name: &str) -> Option<PathBuf> {
    let file = format!("{name}{}", env::consts::EXE_SUFFIX);
    env::split_paths(&env::var_os("PATH")?).map(|folder| folder.join(&file)).find(|path| path.is_file())
}

fn shown(command: &Command) -> String {
    let words: Vec<&OsStr> = std::iter::once(command.get_program()).chain(command.get_args()).collect();
    words.iter().map(|word| word.to_string_lossy()).collect::<Vec<_>>().join(" ")
}
