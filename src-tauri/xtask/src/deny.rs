//! What may be among the libraries (`deny.toml`), looked into by cargo-deny where it is there.

use crate::command::{cargo, find_program, output, run};
use crate::place::Place;

/// Licences, sources and double versions need nothing but the tool; known faults need its database from GitHub.
///
/// # Errors
/// Where a library may not be there, or has a known fault.
pub fn libraries(place: &Place) -> Result<(), String> {
    if find_program("cargo-deny").is_none() {
        println!(
            "NOT CHECKED: licences, sources, double versions and known faults: `cargo install --locked cargo-deny` first."
        );
        return Ok(());
    }
    run(cargo(&place.root, &["deny", "check", "bans", "licenses", "sources"]))?;
    match output(cargo(&place.root, &["deny", "check", "advisories"])) {
        Err(said) if said.contains("failed to fetch advisory database") => {
            println!(
                "NOT CHECKED: known faults of the libraries: their database at github.com was not reached."
            );
            Ok(())
        }
        answer => answer.map(|_| ()),
    }
}
