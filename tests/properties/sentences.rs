//! Sentences for the user are made from data in one place: this reads the engine's sources and names every other line
//! that holds one.

use std::fs;
use std::path::Path;

use crate::floors::{engine, is_test, sources};

/// Where sentences belong: those about results, and those of pictures and sheets.
const WORDS: [&str; 2] = ["report/words/", "drawing/words/"];

/// Where a text is no sentence of ours: citations are names of publications.
const CITATIONS: &str = "source";

/// String literals of a text with the lines they begin in, without comments, attributes, tests, and what only a programmer reads.
fn literals(text: &str) -> Vec<(usize, String)> {
    let product = text.split("#[cfg(test)]").next().unwrap_or_default();
    let mut found = Vec::new();
    let mut open: Option<(usize, String)> = None;
    for (at, line) in product.lines().enumerate() {
        let mut rest = line.trim_start();
        if open.is_none() && (rest.starts_with("//") || rest.starts_with("#[")) {
            continue;
        }
        loop {
            match open.take() {
                None => {
                    let Some((before, after)) = rest.split_once('"') else { break };
                    let skipped =
                        before.ends_with('\'') || before.ends_with("expect(") || before.contains("panic!(");
                    let (words, left) = until_quote(after);
                    match left {
                        Some(left) => {
                            if !skipped {
                                found.push((at + 1, words));
                            }
                            rest = left;
                        }
                        None => {
                            open = Some((at + 1, words));
                            break;
                        }
                    }
                }
                Some((line, mut words)) => {
                    let (more, left) = until_quote(rest);
                    words.push_str(&more);
                    match left {
                        Some(left) => {
                            found.push((line, words));
                            rest = left;
                        }
                        None => {
                            open = Some((line, words));
                            break;
                        }
                    }
                }
            }
        }
    }
    found
}

/// What stands before the closing quote, and what after it; nothing after where the literal goes on in the next line.
fn until_quote(text: &str) -> (String, Option<&str>) {
    let mut words = String::new();
    let mut letters = text.char_indices();
    while let Some((at, letter)) = letters.next() {
        match letter {
            '\\' => words.extend(letters.next().map(|(_, escaped)| escaped)),
            '"' => return (words, Some(&text[at + 1..])),
            letter => words.push(letter),
        }
    }
    (words, None)
}

/// Three words or more that end as a sentence does.
fn is_sentence(text: &str) -> bool {
    let words = text.split_whitespace().filter(|word| word.chars().any(char::is_alphabetic)).count();
    let starts = text.trim_start().chars().next().is_some_and(|first| first.is_uppercase() || first == '{');
    words >= 3 && starts && (text.trim_end().ends_with('.') || text.contains(". "))
}

fn count(path: &Path) -> Vec<usize> {
    let text = fs::read_to_string(path).unwrap();
    literals(&text).into_iter().filter(|(_, words)| is_sentence(words)).map(|(line, _)| line).collect()
}

#[test]
fn sentences_stand_in_the_rooms_of_words_alone() {
    let (mut wrong, mut in_words) = (Vec::new(), 0);
    for path in sources(&engine()) {
        let name = path.strip_prefix(engine()).unwrap().to_string_lossy().into_owned();
        // The demo's job is a document with a user's own words.
        if is_test(&path) || !name.ends_with(".rs") || name.starts_with(CITATIONS) {
            continue;
        }
        let lines = count(&path);
        if WORDS.iter().any(|room| name.starts_with(room)) {
            in_words += lines.len();
            continue;
        }
        if !lines.is_empty() {
            wrong.push(format!("{name}: lines {lines:?}"));
        }
    }
    assert!(in_words > 150, "{in_words}: the sources are not read as they are written any more");
    assert!(wrong.is_empty(), "sentences outside report/words:\n{}", wrong.join("\n"));
}

#[test]
fn a_sentence_is_found_wherever_it_hides() {
    let text = "let a = \"The mast leans.\";\n// \"A comment is none.\"\n#[error(\"No error is one.\")]\n\
                let b = format!(\"{who} is far too \\\n    near to {name}.\");\nlet c = \"not one\"; x.expect(\"The demo reads well.\");\n\
                #[cfg(test)]\nmod tests { \"Nor is this one.\" }";
    let found: Vec<usize> =
        literals(text).into_iter().filter(|(_, words)| is_sentence(words)).map(|(line, _)| line).collect();
    assert_eq!(found, [1, 4]);
}
