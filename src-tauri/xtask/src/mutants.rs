//! `cargo xtask mutants`: how many small faults do the tests of meaning catch? The work is a program of its own, which
//! no other command has to compile.

use crate::command::{cargo, run};
use crate::place::Place;

/// # Errors
/// Where it does not build, or a test fails with no fault in it.
pub fn mutants(place: &Place, options: &[String]) -> Result<(), String> {
    let manifest = place.root.join("src-tauri/mutants/Cargo.toml");
    let manifest = manifest.to_string_lossy();
    let target = place.target.join("mutants-tool");
    let tool = |first: &[&str], options: &[&str]| {
        let mut command =
            cargo(&place.root, &[first, &["-q", "--manifest-path", &manifest], options].concat());
        command.env("CARGO_TARGET_DIR", &target);
        run(command)
    };
    // Its own tests first: a switch in the wrong place would count faults that nobody made.
    tool(&["test"], &[])?;
    let options: Vec<&str> = options.iter().map(String::as_str).collect();
    tool(&["run"], &[&["--"], &options[..]].concat())
}
