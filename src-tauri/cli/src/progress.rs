//! How far a watched operation is, on standard error.

use std::io::{IsTerminal, Write};

use mastwright_api::messages::Progress;

/// One line that is written over as the work goes on; nothing where nobody looks on (a file, a pipe).
pub struct Line {
    what: &'static str,
    last_percent: Option<u32>,
    shown: bool,
}

impl Line {
    pub fn new(what: &'static str) -> Self {
        Self { what, last_percent: None, shown: std::io::stderr().is_terminal() }
    }

    /// Tells how far the work is. The operation always goes on: Ctrl-C stops the program.
    pub fn tell<A>(&mut self, progress: &Progress<A>) -> bool {
        let percent = (u64::from(progress.done) * 100 / u64::from(progress.of.max(1))) as u32;
        if self.shown && self.last_percent != Some(percent) {
            self.last_percent = Some(percent);
            let _ = write!(std::io::stderr(), "\r{} {percent:3} %", self.what);
        }
        true
    }
}

impl Drop for Line {
    fn drop(&mut self) {
        if self.last_percent.is_some() {
            // Back to the line's beginning, and the rest of it cleared.
            let _ = write!(std::io::stderr(), "\r\x1b[K");
        }
    }
}
