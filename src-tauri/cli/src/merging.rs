//! Two states of one job brought together.

use std::path::Path;

use mastwright_api::merge::{Conflict, merge_documents, with_history};
use mastwright_engine::job::{Document, read_document};
use serde_json::Value;

use crate::outcome::{Failure, Outcome, say};
use crate::{file_text, print_document, write};

pub fn merge(
    first: &Path,
    second: &Path,
    base: Option<&Path>,
    out: Option<&Path>,
) -> Result<Outcome, Failure> {
    let read = |path: &Path| -> Result<Value, Failure> { Ok(read_document(&file_text(path)?)?) };
    let (one, other) = (read(first)?, read(second)?);
    let base = base.map(read).transpose()?;
    let names = [first, second].map(|path| path.display().to_string());
    let merged = merge_documents([&one, &other], base.as_ref(), [&names[0], &names[1]])?;
    let document = with_history(&merged.job, &merged.history);
    let text = Document::read_kept(&document.to_string())?.text();
    match out {
        Some(path) => write(&text, Some(path))?,
        None => print_document(&text)?,
    };
    merged.conflicts.iter().for_each(tell);
    Ok(if merged.conflicts.is_empty() { Outcome::Done } else { Outcome::Conflicts })
}

fn tell(conflict: &Conflict) {
    say(&format!("{} was written twice:", conflict.about));
    for (i, side) in conflict.sides.iter().enumerate() {
        let says: Vec<String> =
            side.says
                .iter()
                .map(|it| {
                    if it.label.is_empty() { it.value.clone() } else { format!("{}: {}", it.label, it.value) }
                })
                .collect();
        let says = match says.as_slice() {
            [] if side.is_gone => "taken out".to_owned(),
            [] => "kept".to_owned(),
            says => says.join(", "),
        };
        let name = if side.device_name.is_empty() { &side.by.device } else { &side.device_name };
        let shown = if i == conflict.shown as usize { " (shown for now)" } else { "" };
        say(&format!("  {name}: {says}{shown}"));
    }
}
