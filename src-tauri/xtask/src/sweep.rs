//! `cargo xtask sweep-wind`: the gust limits of many random jobs, turned and compared.

use crate::command::{cargo, run};
use crate::place::Place;

/// # Errors
/// Where it does not build, or a limit is wrong.
pub fn wind(place: &Place, options: &[String]) -> Result<(), String> {
    let mut words = vec!["run", "--release", "-q", "-p", "mastwright-benches", "--bin", "sweep-wind", "--"];
    words.extend(options.iter().map(String::as_str));
    run(cargo(&place.root, &words))
}
