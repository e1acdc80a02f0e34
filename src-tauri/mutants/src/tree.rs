//! The copy of the workspace that holds the switches, and its build.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use serde_json::Value;

use crate::list::{ENGINE, Mutant};
use crate::switch;

const SWITCH: &str = include_str!("mutant_switch.rs.txt");

/// The copy, in a folder of its own with a target folder of its own.
pub struct Tree {
    from: PathBuf,
    pub root: PathBuf,
    /// Files of ours in which something else than the workspace's text stands.
    changed: BTreeMap<String, Vec<(usize, Range<usize>)>>,
}

/// What a build said of the mutants.
#[derive(Debug, Default)]
pub struct Refused {
    /// They don't compile, however they are written.
    pub unviable: BTreeSet<usize>,
    /// They compile, but not behind a switch: constants, functions known while compiling, opaque types.
    pub slow: BTreeSet<usize>,
}

/// A program with tests, and the folder in which it wants to be started.
#[derive(Debug, Clone)]
pub struct TestBinary {
    pub name: String,
    pub path: PathBuf,
    pub folder: PathBuf,
}

impl Tree {
    /// Copies what git knows of the workspace; a file that is the same stays untouched, so that little is built anew.
    ///
    /// # Errors
    /// Where git or the disk fail.
    pub fn copy(from: &Path, root: &Path) -> Result<Self, String> {
        let output = Command::new("git")
            .current_dir(from)
            .args(["ls-files", "-z", "--cached", "--others", "--exclude-standard"])
            .output()
            .map_err(|error| format!("git could not be started: {error}."))?;
        let names = String::from_utf8_lossy(&output.stdout).into_owned();
        for name in names.split('\0').filter(|name| !name.is_empty() && from.join(name).is_file()) {
            let bytes = fs::read(from.join(name)).map_err(|error| format!("{name}: {error}"))?;
            write(&root.join(name), &bytes)?;
        }
        write(&root.join(ENGINE).join("mutant_switch.rs"), SWITCH.as_bytes())?;
        let entry = format!("{ENGINE}lib.rs");
        let text = fs::read_to_string(from.join(&entry)).map_err(|error| format!("{entry}: {error}"))?;
        write(&root.join(&entry), format!("{text}\n#[doc(hidden)]\npub mod mutant_switch;\n").as_bytes())?;
        Ok(Self { from: from.into(), root: root.into(), changed: BTreeMap::new() })
    }

    /// The copy as it lies there.
    pub fn there(from: &Path, root: &Path) -> Self {
        Self { from: from.into(), root: root.into(), changed: BTreeMap::new() }
    }

    /// The mutants that have no switch in the copy. Which of them could be built alone is not known any more.
    ///
    /// # Errors
    /// Where a file can't be read.
    pub fn refused(&self, mutants: &[(usize, &Mutant)]) -> Result<Refused, String> {
        let mut refused = Refused::default();
        for (id, mutant) in mutants {
            let text = fs::read_to_string(self.root.join(&mutant.file))
                .map_err(|error| format!("{}: {error}", mutant.file))?;
            if !text.contains(&format!("mutant_switch::on({id})")) {
                refused.unviable.insert(*id);
            }
        }
        Ok(refused)
    }

    /// The tests as they were built last.
    ///
    /// # Errors
    /// Where there are none.
    pub fn tests_there(&self) -> Result<Vec<TestBinary>, String> {
        let folders =
            [("mastwright_engine", "src-tauri/engine"), ("properties", "tests"), ("published", "tests")];
        let deps = self.root.join("target/debug/deps");
        let newest = |name: &str| {
            let files = fs::read_dir(&deps).ok()?.filter_map(Result::ok);
            let of = files.filter(|file| {
                let file = file.file_name().to_string_lossy().into_owned();
                file.strip_prefix(name)
                    .and_then(|rest| rest.strip_prefix('-'))
                    .is_some_and(|rest| !rest.contains('.'))
            });
            of.max_by_key(|file| file.metadata().and_then(|about| about.modified()).ok())
                .map(|file| file.path())
        };
        let found = folders.map(|(name, folder)| {
            let path = newest(name).ok_or_else(|| format!("No tests `{name}` were built."))?;
            Ok(TestBinary { name: name.to_owned(), path, folder: self.root.join(folder) })
        });
        found.into_iter().collect()
    }

    pub fn original(&self, file: &str) -> Result<String, String> {
        fs::read_to_string(self.from.join(file)).map_err(|error| format!("{file}: {error}"))
    }

    /// Writes the switches of these mutants; gives those for which the text had no place.
    ///
    /// # Errors
    /// Where a file can't be read, parsed or written.
    pub fn switch(&mut self, mutants: &[(usize, &Mutant)]) -> Result<BTreeSet<usize>, String> {
        let mut by_file: BTreeMap<&str, Vec<(usize, &Mutant)>> = BTreeMap::new();
        for (id, mutant) in mutants {
            by_file.entry(&mutant.file).or_default().push((*id, mutant));
        }
        let before = std::mem::take(&mut self.changed);
        for file in before.keys().filter(|file| !by_file.contains_key(file.as_str())) {
            write(&self.root.join(file), self.original(file)?.as_bytes())?;
        }
        let mut lost = BTreeSet::new();
        for (file, mutants) in by_file {
            let switched = switch::switch(&self.original(file)?, &mutants)
                .map_err(|error| format!("{file}: {error}"))?;
            write(&self.root.join(file), switched.text.as_bytes())?;
            lost.extend(switched.lost);
            self.changed.insert(file.into(), switched.places);
        }
        Ok(lost)
    }

    /// One file with one mutant in it for good and no switches.
    ///
    /// # Errors
    /// As for `switch`.
    pub fn replace(&mut self, mutant: &Mutant) -> Result<(), String> {
        let text = switch::replaced(&self.original(&mutant.file)?, mutant);
        self.changed.insert(mutant.file.clone(), Vec::new());
        write(&self.root.join(&mutant.file), text.as_bytes())
    }

    /// Checks the engine until it compiles, leaving out what the compiler refuses.
    ///
    /// # Errors
    /// Where it complains of something that no mutant of ours did.
    pub fn settle(&mut self, mutants: &[(usize, &Mutant)]) -> Result<Refused, String> {
        // The first `return` settles what `impl Iterator` stands for, and it is not the mutant's that should.
        let opaque =
            mutants.iter().filter(|(_, mutant)| mutant.genre == "FnValue" && mutant.returns_opaque());
        let mut refused = Refused { slow: opaque.map(|(id, _)| *id).collect(), ..Refused::default() };
        for round in 1.. {
            let left: Vec<(usize, &Mutant)> = mutants
                .iter()
                .filter(|(id, _)| !refused.unviable.contains(id) && !refused.slow.contains(id))
                .copied()
                .collect();
            let lost = self.switch(&left)?;
            refused.slow.extend(lost);
            println!("  round {round}: {} switches", left.len());
            let errors = self.errors()?;
            if errors.is_empty() {
                return Ok(refused);
            }
            let before = refused.unviable.len() + refused.slow.len();
            for error in &errors {
                self.lay_at_a_door(error, &mut refused);
            }
            if refused.unviable.len() + refused.slow.len() == before {
                return Err(format!(
                    "The copy does not compile:\n{}",
                    errors[0]["rendered"].as_str().unwrap_or("")
                ));
            }
        }
        unreachable!("the loop ends by returning")
    }

    fn errors(&self) -> Result<Vec<Value>, String> {
        let messages = self.cargo(&["check", "-p", "mastwright-engine", "--lib"])?.1;
        Ok(messages
            .into_iter()
            .filter(|message| {
                message["reason"] == "compiler-message" && message["message"]["level"] == "error"
            })
            .map(|message| message["message"].clone())
            .filter(|message| message["spans"].as_array().is_some_and(|spans| !spans.is_empty()))
            .collect())
    }

    fn lay_at_a_door(&self, error: &Value, refused: &mut Refused) {
        let known_while_compiling =
            matches!(error["code"]["code"].as_str(), Some("E0015" | "E0658" | "E0492"));
        for span in error["spans"].as_array().into_iter().flatten() {
            let file = span["file_name"].as_str().unwrap_or("");
            let (Some(start), Some(end)) = (span["byte_start"].as_u64(), span["byte_end"].as_u64()) else {
                continue;
            };
            let (start, end) = (start as usize, end as usize);
            let doors = self.changed.get(file).into_iter().flatten();
            let inside = doors.filter(|(_, place)| place.start <= start && end <= place.end);
            if let Some((id, _)) = inside.min_by_key(|(_, place)| place.len()) {
                if known_while_compiling {
                    refused.slow.insert(*id)
                } else {
                    refused.unviable.insert(*id)
                };
            }
        }
    }

    /// Builds the tests and says where they are.
    ///
    /// # Errors
    /// Where they do not compile.
    pub fn tests(&self) -> Result<Vec<TestBinary>, String> {
        let (done, messages) = self.cargo(&[
            "test",
            "--no-run",
            "-p",
            "mastwright-engine",
            "-p",
            "mastwright-tests",
            "--lib",
            "--test",
            "properties",
            "--test",
            "published",
        ])?;
        if !done {
            let said = messages.iter().filter_map(|message| message["message"]["rendered"].as_str());
            return Err(format!("The tests do not compile:\n{}", said.collect::<Vec<_>>().join("\n")));
        }
        let binaries = messages.iter().filter(|message| message["reason"] == "compiler-artifact").filter_map(
            |message| {
                let path = PathBuf::from(message["executable"].as_str()?);
                let folder = PathBuf::from(message["manifest_path"].as_str()?).parent()?.to_path_buf();
                Some(TestBinary { name: message["target"]["name"].as_str()?.to_owned(), path, folder })
            },
        );
        Ok(binaries.filter(|binary| binary.name != "mastwright_tests").collect())
    }

    /// The tests are built for speed, with the checks of arithmetic left in as every `cargo test` has them.
    fn cargo(&self, arguments: &[&str]) -> Result<(bool, Vec<Value>), String> {
        let output = Command::new("cargo")
            .current_dir(&self.root)
            .args(arguments)
            .arg("--message-format=json")
            // Nothing of these two is in a number, and they take longest to compile.
            .args(["--config", "profile.dev.package.jsonschema.opt-level=0"])
            .args(["--config", "profile.dev.package.lopdf.opt-level=0"])
            .env("CARGO_TARGET_DIR", self.root.join("target"))
            .env("CARGO_PROFILE_DEV_OPT_LEVEL", "1")
            .env("CARGO_PROFILE_DEV_DEBUG", "0")
            .stderr(Stdio::inherit())
            .output()
            .map_err(|error| format!("cargo could not be started: {error}."))?;
        let text = String::from_utf8_lossy(&output.stdout);
        Ok((
            output.status.success(),
            text.lines().filter_map(|line| serde_json::from_str(line).ok()).collect(),
        ))
    }
}

fn write(path: &Path, bytes: &[u8]) -> Result<(), String> {
    if fs::read(path).is_ok_and(|there| there == bytes) {
        return Ok(());
    }
    let failed = |error: std::io::Error| format!("{}: {error}", path.display());
    path.parent().map_or(Ok(()), fs::create_dir_all).map_err(failed)?;
    fs::write(path, bytes).map_err(failed)
}
