//! Drawings and printed pages.

#[path = "../support/yardstick.rs"]
mod yardstick;

mod hostile;
mod lantern_green;
mod pdf;
mod pdf_reader;
mod two_writers;
