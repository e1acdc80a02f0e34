//! What was given and what is allowed, in words.

use serde_json::Value;

use crate::quantity::range::unit_in_words;
use crate::quantity::split_unit;
use crate::quantity::visible::visible;

/// A name as a step of a JSON pointer (RFC 6901, clause 3).
pub(super) fn escaped(name: &str) -> String {
    name.replace('~', "~0").replace('/', "~1")
}

/// A value, shortened.
pub(super) fn given(value: &Value) -> String {
    match value {
        Value::Null => "null".to_owned(),
        Value::Bool(yes) => yes.to_string(),
        Value::Number(number) => number.to_string(),
        Value::String(text) => format!("text “{}”", shortened(text)),
        Value::Array(items) => format!("a list of {}", items.len()),
        Value::Object(members) => format!("a group of {} fields", members.len()),
    }
}

pub(super) fn shortened(text: &str) -> String {
    let short: String = text.chars().take(40).collect();
    let more = if short.len() < text.len() { "…" } else { "" };
    visible(&short) + more
}

/// `4, 8 or 16`.
pub(super) fn listed(items: &[String]) -> String {
    match items {
        [] => "nothing".to_owned(),
        [only] => only.clone(),
        [most @ .., last] => format!("{} or {last}", most.join(", ")),
    }
}

/// Unit suffixes that a person may put on a name though the document has others.
const FOREIGN_SUFFIXES: [&str; 22] = [
    "_ft",
    "_feet",
    "_in",
    "_inch",
    "_inches",
    "_yd",
    "_cm",
    "_km",
    "_metres",
    "_meters",
    "_lbf",
    "_lb",
    "_kn",
    "_kgf",
    "_v",
    "_volts",
    "_rad",
    "_degrees",
    "_kg_per_m",
    "_lb_per_ft",
    "_pct",
    "_g",
];

/// What to say of a field that is not known, where these are.
pub(super) fn of_unknown(name: &str, known: &[&String]) -> String {
    let own = split_unit(name).0;
    let stem = FOREIGN_SUFFIXES.iter().find_map(|suffix| name.strip_suffix(suffix)).unwrap_or(own);
    let other_unit =
        known.iter().find(|known| split_unit(known).0 == stem && !split_unit(known).1.is_empty());
    if let Some(meant) = other_unit {
        return format!("this document is in {}: {meant}", unit_in_words(meant));
    }
    if let Some(meant) = nearest(name, known.iter().map(|known| known.as_str())) {
        return format!("no field of this name; perhaps {meant}");
    }
    let names: Vec<String> = known.iter().map(|name| (*name).clone()).collect();
    format!("only the fields {}", listed(&names))
}

/// The candidate that differs least in spelling, where one is near enough to be meant.
pub(super) fn nearest<'a>(given: &str, candidates: impl Iterator<Item = &'a str>) -> Option<&'a str> {
    if given.len() > 60 {
        return None;
    }
    let given: Vec<char> = given.to_lowercase().chars().collect();
    let near = 1 + given.len() / 4;
    candidates
        .map(|candidate| (edits(&given, &candidate.chars().collect::<Vec<_>>()), candidate))
        .filter(|(edits, _)| *edits <= near)
        .min_by_key(|(edits, _)| *edits)
        .map(|(_, candidate)| candidate)
}

/// Insertions, deletions, replacements and swaps of neighbours between two spellings. Source: Damerau, CACM 7(3)
/// 1964, p. 171, in the form without repeated edits of one place.
fn edits(from: &[char], to: &[char]) -> usize {
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=to.len()).collect();
    for (i, a) in from.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, b) in to.iter().enumerate() {
            let mut least = (above[j] + usize::from(a != b)).min(above[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && *a == to[j - 1] && from[i - 1] == *b {
                least = least.min(before[j - 1] + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut above, row);
    }
    above.last().copied().unwrap_or(0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spellings_and_units() {
        let names: Vec<String> = ["height_m", "trunk_radius_m", "by", "at"].map(str::to_owned).to_vec();
        let known: Vec<&String> = names.iter().collect();
        let check = |name: &str, expected: &str| assert_eq!(of_unknown(name, &known), expected);
        check("height_ft", "this document is in metres: height_m");
        check("height", "this document is in metres: height_m");
        check("height_mm", "this document is in metres: height_m");
        check("heigth_m", "no field of this name; perhaps height_m");
        check("colour", "only the fields height_m, trunk_radius_m, by or at");
    }

    #[test]
    fn edits_are_counted() {
        let check = |a: &str, b: &str, expected: usize| {
            let (a, b): (Vec<char>, Vec<char>) = (a.chars().collect(), b.chars().collect());
            assert_eq!(edits(&a, &b), expected);
        };
        check("", "abc", 3);
        check("kitten", "sitting", 3); // the usual worked example of the Levenshtein distance
        check("heigth", "height", 1);
        check("same", "same", 0);
    }
}
