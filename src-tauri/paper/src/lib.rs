//! Pages as PDF: the second writer of the engine's page model, beside its SVG. It lays nothing out: every line and word
//! stands where the page says.
//!
//! - [`pdf`]: a document's bytes, the same on every run and every machine
//! - [`sheets`]: the sheets of a job as PDF; [`sheets_pdf`], the same from a request's JSON
//! - `tags`: headings, tables and pictures in words, for those who hear a page read
//! - `letters`: the two fonts, embedded with just the letters that are used

mod letters;
mod tags;
mod write;

use mastwright_api::messages::SheetsRequest;
use mastwright_api::{asked, run};
use mastwright_engine::drawing::pages::PaperDocument;
use mastwright_engine::quantity::{FieldError, FieldErrors};

pub use write::{Failure, pdf};

/// The sheets of a job as PDF.
///
/// # Errors
/// As the operation `sheets`: what is wrong with the job.
pub fn sheets(request: &SheetsRequest) -> Result<Vec<u8>, FieldErrors> {
    written(&run::judged_sheets(request)?.0)
}

/// Pages that are laid out already.
///
/// # Errors
/// Pages that can't be written as PDF.
pub fn written(document: &PaperDocument) -> Result<Vec<u8>, FieldErrors> {
    pdf(document).map_err(|failure| FieldError::new("", failure.0, "pages that can be written as PDF").into())
}

/// The same for faces that have their request as JSON.
///
/// # Errors
/// The answer that names them, as of any operation.
pub fn sheets_pdf(request: &str) -> Result<Vec<u8>, String> {
    asked(request, sheets)
}
