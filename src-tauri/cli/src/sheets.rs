//! The sheets to print, as files.

use std::path::{Path, PathBuf};

use mastwright_api::messages::SheetsRequest;
use mastwright_api::run;
use mastwright_engine::drawing::Paper;
use mastwright_engine::drawing::pages::PaperDocument;
use mastwright_engine::drawing::sheet::SheetSet;
use mastwright_engine::quantity::FieldError;

use crate::arguments::{JobSource, PaperSize, SheetOptions};
use crate::outcome::{Failure, Outcome};
use crate::{read, write};

impl PaperSize {
    fn paper(self) -> Paper {
        match self {
            Self::A4 => Paper::A4,
            Self::A3 => Paper::A3,
            Self::Letter => Paper::Letter,
            Self::Tabloid => Paper::Tabloid,
        }
    }
}

pub fn sheets(
    source: &JobSource,
    out: Option<&Path>,
    options: &SheetOptions,
    set: SheetSet,
) -> Result<Outcome, Failure> {
    let made_at = options.made_at.as_deref().map(|text| {
        text.parse().map_err(|_| {
            Failure::from(mastwright_engine::quantity::FieldErrors::from(FieldError::new(
                "made_at",
                text,
                "a date and a time with its zone, such as 2026-11-26T14:20:00+01:00",
            )))
        })
    });
    let made_at = made_at.transpose()?;
    let job = read(source)?;
    let request =
        SheetsRequest { job, paper: options.paper.paper(), made_at, author: options.author.clone(), set };
    // Judged once: the verdict comes with the pages.
    let (document, verdict) = run::judged_sheets(&request)?;
    match out {
        Some(path) if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("pdf")) => {
            let bytes = mastwright_paper::written(&document)?;
            crate::files::write_file(path, &bytes)?;
            // On the sheet it is said too; here before anybody prints it.
            if let Some(letters) = document.letters_not_shown() {
                eprintln!("{letters}");
            }
        }
        out => svgs(document, out)?,
    }
    Ok(Outcome::of(verdict.as_ref()))
}

fn svgs(document: PaperDocument, out: Option<&Path>) -> Result<(), Failure> {
    let pages = run::svg_pages(document).pages;
    let file = out.filter(|path| *path != Path::new("-"));
    for (number, page) in (1..).zip(&pages) {
        match file {
            Some(path) => write(&page.svg, Some(&numbered(path, number)))?,
            None if number == 1 => write(&page.svg, None)?,
            None => Outcome::Done,
        };
    }
    if file.is_none() && pages.len() > 1 {
        eprintln!("page 1 of {}; --out FILE.pdf writes them all", pages.len());
    }
    Ok(())
}

/// The first page has the name itself.
fn numbered(path: &Path, number: usize) -> PathBuf {
    if number == 1 {
        return path.to_owned();
    }
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().map(|ending| format!(".{}", ending.to_string_lossy())).unwrap_or_default();
    path.with_file_name(format!("{stem}-{number}{ending}"))
}
