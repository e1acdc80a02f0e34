//! The list of mutants, as `cargo mutants --list --json` gives it.

use std::collections::BTreeMap;
use std::path::Path;
use std::process::Command;

use serde::{Deserialize, Serialize};

/// A place in a text: lines and columns from one, columns in characters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct LineColumn {
    pub line: usize,
    pub column: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Span {
    pub start: LineColumn,
    pub end: LineColumn,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Mutant {
    pub name: String,
    pub file: String,
    pub genre: String,
    pub replacement: String,
    pub span: Span,
    pub function: Option<Function>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Function {
    pub return_type: String,
}

impl Mutant {
    /// What is changed, without where: it stays when lines are added above.
    pub fn change(&self) -> &str {
        self.name.splitn(2, ": ").nth(1).unwrap_or(&self.name)
    }

    /// Whether its function gives something of a type without a name.
    pub fn returns_opaque(&self) -> bool {
        self.function.as_ref().is_some_and(|function| function.return_type.contains("impl "))
    }

    /// The room of the engine, where it is one of ours.
    pub fn module(&self) -> Option<&'static str> {
        let path = self.file.strip_prefix(ENGINE)?;
        let first = path.split('/').next()?.trim_end_matches(".rs");
        MODULES.iter().copied().find(|module| *module == first)
    }
}

pub const ENGINE: &str = "src-tauri/engine/src/";

/// The rooms whose numbers end in the yard.
pub const MODULES: [&str; 10] =
    ["base", "guys", "ground", "survey", "yard", "stakeout", "wind_capacity", "structure", "anchor", "wind"];

const VERSION: &str = "27.1.0";

/// Every mutant of the ten rooms, in the order of the text.
///
/// # Errors
/// Where cargo-mutants can be neither found nor installed, or says something else than a list.
pub fn all(root: &Path, home: &Path) -> Result<BTreeMap<&'static str, Vec<Mutant>>, String> {
    let program = installed(home)?;
    let output = Command::new(program)
        .current_dir(root)
        .args(["mutants", "--list", "--json", "-p", "mastwright-engine"])
        .output()
        .map_err(|error| format!("cargo-mutants could not be started: {error}."))?;
    let text = String::from_utf8_lossy(&output.stdout);
    let mutants: Vec<Mutant> =
        serde_json::from_str(&text).map_err(|error| format!("cargo-mutants gave no list: {error}."))?;
    let mut by_module: BTreeMap<&'static str, Vec<Mutant>> = BTreeMap::new();
    for mutant in mutants {
        if let Some(module) = mutant.module() {
            by_module.entry(module).or_default().push(mutant);
        }
    }
    Ok(by_module)
}

/// What to do where there is no way to the registry from here.
fn how_to_install(home: &Path) -> String {
    let program = home.join("bin").join(format!("cargo-mutants{}", std::env::consts::EXE_SUFFIX));
    format!(
        "cargo-mutants {VERSION} could not be installed: what cargo said of it stands above. It comes from crates.io, which \
         asks for a way into the network, once. Where there is none, install it elsewhere and put the program here:\n  {}",
        program.display()
    )
}

/// The program, installed into a folder of its own where it is missing (a few minutes, once).
fn installed(home: &Path) -> Result<std::path::PathBuf, String> {
    let program = home.join("bin").join(format!("cargo-mutants{}", std::env::consts::EXE_SUFFIX));
    if program.is_file() {
        return Ok(program);
    }
    println!(
        "Installing cargo-mutants {VERSION} from crates.io into {} (a few minutes, once) …",
        home.display()
    );
    let status = Command::new("cargo")
        .args(["install", "cargo-mutants", "--version", VERSION, "--locked", "--debug", "--root"])
        .arg(home)
        .status()
        .map_err(|error| format!("cargo could not be started: {error}."))?;
    if status.success() { Ok(program) } else { Err(how_to_install(home)) }
}
