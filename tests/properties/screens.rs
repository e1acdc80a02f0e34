//! The screens show the engine's words as they are: none takes them apart, compares them or changes their letters. What a
//! face needs to know stands beside the words, as a cell, a key or a name.

use std::fs;
use std::path::{Path, PathBuf};

use crate::floors::sources;

/// Members of the answers that hold words for people.
const WORDS: [&str; 20] = [
    "label", "value", "interval", "title", "caution", "sentence", "numbers", "remedy", "lead", "rest",
    "planned", "drawn", "verdict", "says", "thing", "how", "note", "allowed", "given", "bearing",
];

/// What takes a text apart or changes it.
const PARSES: [&str; 12] = [
    "toLowerCase",
    "toUpperCase",
    "split",
    "slice",
    "substring",
    "replace",
    "match",
    "startsWith",
    "endsWith",
    "includes",
    "charAt",
    "indexOf",
];

fn screens() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../ui/src");
    let written = |path: &PathBuf| {
        let name = path.to_string_lossy().into_owned();
        let ours = name.ends_with(".svelte") || (name.ends_with(".ts") && !name.ends_with(".test.ts"));
        ours && !name.contains("/wasm/") && !name.ends_with("backend/types.ts")
    };
    sources(&root).into_iter().filter(written).collect()
}

/// What stands after `.member`, where the member ends there.
fn after_member<'a>(line: &'a str, member: &'a str) -> impl Iterator<Item = &'a str> {
    line.match_indices(member).filter_map(move |(at, _)| {
        let rest = &line[at + member.len()..];
        let ends = !rest.starts_with(|letter: char| letter.is_alphanumeric() || letter == '_');
        (line[..at].ends_with('.') && ends).then_some(rest)
    })
}

/// How a line treats words of the engine as more than words to show; none where it does not.
fn fault(line: &str) -> Option<String> {
    for member in WORDS {
        for rest in after_member(line, member) {
            let rest = rest.trim_start_matches([')', '!', '?']);
            let called = rest.strip_prefix('.').unwrap_or_default();
            if let Some(parse) = PARSES.iter().find(|parse| called.starts_with(&format!("{parse}("))) {
                return Some(format!("{member} is taken apart by {parse}"));
            }
            if member != "verdict" && ["===", "!=="].iter().any(|is| compares(rest, is)) {
                return Some(format!("{member} is compared with a text"));
            }
        }
        // A pattern held against the words.
        for (at, _) in line.match_indices("/.exec(").chain(line.match_indices("/.test(")) {
            if after_member(&line[at..], member).next().is_some() {
                return Some(format!("{member} is held against a pattern"));
            }
        }
    }
    None
}

/// Against a text of letters; an empty one asks only whether there is something to show.
fn compares(rest: &str, is: &str) -> bool {
    let Some(other) = rest.trim_start().strip_prefix(is) else { return false };
    let mut letters = other.trim_start().chars();
    let quoted = letters.next().is_some_and(|quote| "'\"`".contains(quote));
    // Names of the engine's enums are one word in small letters; what a person reads is not.
    let text: String = letters.take_while(|letter| !"'\"`".contains(*letter)).collect();
    quoted && text.chars().any(|letter| letter.is_uppercase() || letter == ' ')
}

#[test]
fn no_screen_takes_the_engines_words_apart() {
    let screens = screens();
    assert!(screens.len() > 150, "{} files of the screens were found", screens.len());
    let mut wrong = Vec::new();
    for path in screens {
        for (at, line) in fs::read_to_string(&path).unwrap().lines().enumerate() {
            let what = fault(line);
            wrong.extend(what.map(|what| format!("{}:{}: {what}: {}", path.display(), at + 1, line.trim())));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The faults that were there, word for word, and what is none.
#[test]
fn a_fault_is_found_wherever_it_hides() {
    for line in [
        "      .map((row) => `${row.label.toLowerCase()} ${row.value}`)",
        "const direction = new Direction(() => /\\((.+)\\)/.exec(said?.label ?? '')?.[1] ?? '');",
        "if (row.value === 'Not known yet') return;",
        "const [lead, rest] = row.value.split(': ');",
        "problem = error.errors[0]?.allowed?.charAt(0);",
    ] {
        assert!(fault(line).is_some(), "{line}");
    }
    for line in [
        "{row.label}: {row.value}",
        "use.carries?.verdict === 'not_shown'",
        "if (finding.remedy !== '') show(finding.remedy);",
        "doc.value.kind === 'magnetic'",
        "labels.slice(0, 3)",
    ] {
        assert_eq!(fault(line), None, "{line}");
    }
}
