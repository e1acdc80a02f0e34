//! Looks for bytes that break a promise: `cargo fuzz` on the targets of `tests/fuzz`. It wants a nightly compiler and the
//! program `cargo-fuzz`, which nothing else here does.

use std::fs;
use std::process::Command;

use crate::place::Place;

/// Every target, with what it is given.
const TARGETS: [&str; 7] = ["job", "geojson", "csv", "quantity", "plan", "wind", "serve"];
const MINUTES: u32 = 10;

/// # Errors
/// In words, also where something was found.
pub fn fuzz(place: &Place, options: &[String]) -> Result<(), String> {
    let (targets, minutes) = asked(options)?;
    let folder = place.root.join("tests/fuzz");
    let mut found = Vec::new();
    for target in targets {
        // What is found on the way stays out of git; what is worth keeping is copied into the corpus by hand.
        let grown = folder.join("target/grown").join(target);
        let artifacts = folder.join("artifacts").join(target);
        for folder in [&grown, &artifacts] {
            fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
        }
        let status = Command::new("cargo")
            .args(["+nightly", "fuzz", "run", "--fuzz-dir", "tests/fuzz", "--sanitizer", "none", target])
            .arg(&grown)
            .arg(folder.join("corpus").join(target))
            .args(["--", "-fork=1", "-ignore_crashes=1", "-timeout=60"])
            .arg(format!("-max_total_time={}", minutes * 60))
            .current_dir(&place.root)
            .status()
            .map_err(|error| format!("cargo can't be started: {error}"))?;
        if !status.success() {
            found.push(target);
        }
    }
    if found.is_empty() {
        return Ok(());
    }
    Err(format!(
        "{} ended with an error. Where there is nothing in tests/fuzz/artifacts the tools are missing: `rustup toolchain install \
         nightly`, `cargo install cargo-fuzz`.",
        found.join(", ")
    ))
}

fn asked(options: &[String]) -> Result<(Vec<&'static str>, u32), String> {
    let (mut targets, mut minutes) = (TARGETS.to_vec(), MINUTES);
    let mut rest = options.iter();
    while let Some(option) = rest.next() {
        let value = rest.next().ok_or_else(|| format!("{option} wants a value"))?;
        match option.as_str() {
            "--target" => {
                let known = TARGETS.iter().find(|one| *one == value);
                targets = vec![known.ok_or_else(|| format!("targets are {}", TARGETS.join(", ")))?];
            }
            "--minutes" => minutes = value.parse().map_err(|_| format!("{value} is no number of minutes"))?,
            other => return Err(format!("there is no option {other}: --target T --minutes N")),
        }
    }
    Ok((targets, minutes))
}
