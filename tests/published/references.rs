//! Every source that the engine cites has an entry in docs/references.bib, and the other way round.

use std::collections::BTreeSet;

use mastwright_engine::source::SourceKey;

const BIBLIOGRAPHY: &str = include_str!("../../docs/references.bib");

fn bibliography_keys() -> Vec<&'static str> {
    BIBLIOGRAPHY
        .lines()
        .filter_map(|line| line.strip_prefix('@'))
        .filter_map(|entry| entry.split_once('{'))
        .map(|(_, key)| key.trim_end_matches([',', ' ']))
        .collect()
}

#[test]
fn every_source_key_is_in_the_bibliography() {
    let known: BTreeSet<&str> = bibliography_keys().into_iter().collect();
    let missing: Vec<&str> =
        SourceKey::ALL.iter().map(|key| key.source().key).filter(|key| !known.contains(key)).collect();
    assert!(missing.is_empty(), "not in docs/references.bib: {missing:?}");
}

#[test]
fn no_entry_stands_twice_or_without_an_author_or_title() {
    let keys = bibliography_keys();
    let once: BTreeSet<&str> = keys.iter().copied().collect();
    assert_eq!(keys.len(), once.len());
    assert_eq!(BIBLIOGRAPHY.matches("title = {").count(), keys.len());
}

/// The list of what nobody could confirm is written from the sources, and is not stale.
#[test]
fn the_validation_page_lists_the_recalled_values_as_the_sources_have_them() {
    let page = include_str!("../../docs/validation.md");
    assert!(page.contains(&mastwright_engine::source::values::as_markdown()), "run `cargo xtask types`");
}

#[test]
fn every_recalled_value_has_its_publication_in_the_bibliography() {
    let known: BTreeSet<&str> = bibliography_keys().into_iter().collect();
    let missing: Vec<&str> = mastwright_engine::source::values::looked_for()
        .map(|value| value.key)
        .filter(|key| !known.contains(key))
        .collect();
    assert!(missing.is_empty(), "not in docs/references.bib: {missing:?}");
}
