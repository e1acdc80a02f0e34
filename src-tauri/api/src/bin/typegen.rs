//! `typegen [--check]`: writes the generated files, or says which are stale.

use std::path::Path;
use std::process::ExitCode;

use mastwright_api::typegen::{
    KEY_PATH, KEY_STYLE_PATH, ROUND_FIGURES_PATH, SCHEMA_PATH, SCHEMA_TABLE_PATH, TYPES_PATH,
    VALIDATION_PATH, job_schema, job_schema_table, printed_schemas, typescript, with_recalled_values,
};

fn main() -> ExitCode {
    let check = match std::env::args().skip(1).collect::<Vec<_>>().as_slice() {
        [] => false,
        [only] if only == "--check" => true,
        _ => {
            eprintln!("usage: typegen [--check]");
            return ExitCode::from(2);
        }
    };
    match run(check) {
        Ok(stale) if check && !stale.is_empty() => {
            for file in stale {
                eprintln!("{file} is stale: run `cargo xtask types`");
            }
            ExitCode::FAILURE
        }
        Ok(written) => {
            for file in written {
                println!("wrote {file}");
            }
            ExitCode::SUCCESS
        }
        Err(problem) => {
            eprintln!("{problem}");
            ExitCode::FAILURE
        }
    }
}

/// The files that differed from what the types say now; without `check` they have been written.
fn run(check: bool) -> Result<Vec<&'static str>, String> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let mut differing = Vec::new();
    let page = std::fs::read_to_string(root.join(VALIDATION_PATH)).map_err(|problem| problem.to_string())?;
    let printed = printed_schemas();
    let files = [
        (SCHEMA_PATH, job_schema()),
        (SCHEMA_TABLE_PATH, job_schema_table()),
        (TYPES_PATH, typescript()?),
        (KEY_PATH, mastwright_engine::drawing::key::typescript()),
        (KEY_STYLE_PATH, mastwright_engine::drawing::key::style_sheet()),
        (ROUND_FIGURES_PATH, mastwright_engine::round_figures::typescript()),
        (VALIDATION_PATH, with_recalled_values(&page)?),
    ];
    for (file, text) in files.into_iter().chain(printed) {
        let path = root.join(file);
        if std::fs::read_to_string(&path).is_ok_and(|present| present == text) {
            continue;
        }
        differing.push(file);
        if !check {
            write(&path, &text)?;
        }
    }
    Ok(differing)
}

fn write(path: &Path, text: &str) -> Result<(), String> {
    let folder = path.parent().unwrap_or(Path::new("."));
    std::fs::create_dir_all(folder)
        .and_then(|()| std::fs::write(path, text))
        .map_err(|problem| format!("{}: {problem}", path.display()))
}
