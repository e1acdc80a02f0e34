//! The command line started as a program of its own.

use std::io::Write;
use std::process::{Command, Output, Stdio};

pub fn mastwright_fed(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_mastwright"))
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    // A command that reads nothing may close its end first.
    let _ = child.stdin.take().expect("a pipe").write_all(input);
    child.wait_with_output().expect("it ends")
}
