//! One name a thing: no two public types of the engine share a name.

use std::collections::BTreeMap;
use std::fs;

use crate::floors::{engine, is_test, sources};

/// Types that may share a name, with why.
const SHARED: [(&str, &str); 0] = [];

/// The name of a type that is declared for other files on this line.
fn declared(line: &str) -> Option<&str> {
    let rest = line.strip_prefix("pub(crate) ").or_else(|| line.strip_prefix("pub "))?;
    let name = ["struct ", "enum ", "trait ", "type "].iter().find_map(|kind| rest.strip_prefix(kind))?;
    name.split(|letter: char| !letter.is_alphanumeric()).next().filter(|name| !name.is_empty())
}

#[test]
fn no_two_public_types_of_the_engine_share_a_name() {
    let mut places: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for path in sources(&engine()) {
        let is_rust = path.extension().is_some_and(|extension| extension == "rs");
        if !is_rust || is_test(&path) {
            continue;
        }
        let text = fs::read_to_string(&path).unwrap();
        let product = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
        // Those of a test or of a macro's body are indented.
        for name in product.lines().filter_map(declared) {
            let place = path.strip_prefix(engine()).unwrap().to_string_lossy().into_owned();
            places.entry(name.to_owned()).or_default().push(place);
        }
    }
    assert!(places.len() > 300, "{} types were found", places.len());
    places.retain(|name, places| places.len() > 1 && !SHARED.iter().any(|(shared, _)| shared == name));
    assert!(places.is_empty(), "one name for several things:\n{places:#?}");
}

#[test]
fn a_type_is_found_by_its_declaration() {
    assert_eq!(declared("pub struct Peg {"), Some("Peg"));
    assert_eq!(declared("pub(crate) enum Sides<'a> {"), Some("Sides"));
    assert_eq!(declared("pub type Vector = [f64; 3];"), Some("Vector"));
    for other in ["struct Own {", "    pub struct Inner {", "pub fn find() {", "pub mod peg;"] {
        assert_eq!(declared(other), None, "{other}");
    }
}
