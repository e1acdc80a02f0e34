//! What was given and what is allowed, in words.

use serde_json::Value;

use crate::quantity::show;
use crate::quantity::visible::visible;
use crate::quantity::{UnitSystem, Units, split_unit};

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

/// The bounds that a schema sets on a number.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Range {
    pub least: Option<f64>,
    pub most: Option<f64>,
    pub above: Option<f64>,
    pub below: Option<f64>,
}

impl Range {
    pub fn of(schema: &Value) -> Self {
        let bound = |keyword: &str| schema.get(keyword).and_then(Value::as_f64);
        Self {
            least: bound("minimum"),
            most: bound("maximum"),
            above: bound("exclusiveMinimum"),
            below: bound("exclusiveMaximum"),
        }
    }

    pub fn contains(&self, number: f64) -> bool {
        self.least.is_none_or(|bound| number >= bound)
            && self.most.is_none_or(|bound| number <= bound)
            && self.above.is_none_or(|bound| number > bound)
            && self.below.is_none_or(|bound| number < bound)
    }

    /// `a number from 0.1 to 12 metres (3 15/16" to 39' 4 7/16")`.
    pub fn in_words(&self, whole: bool, name: &str, units: Units) -> String {
        let number = if whole { "a whole number" } else { "a number" };
        let unit = unit_in_words(name);
        let mut words = format!("{number}{}", self.bounds(|bound| bound.to_string()));
        if !unit.is_empty() {
            words.push(' ');
            words.push_str(unit);
        }
        if units.system == UnitSystem::Imperial
            && ["_m", "_mm", "_n", "_kg", "_g_per_m", "_m_per_s", "_nm", "_mpa", "_c"]
                .contains(&split_unit(name).1)
        {
            let shown = self.bounds(|bound| show::field(name, bound, units));
            words.push_str(&format!(" ({})", shown.trim_start()));
        }
        words
    }

    fn bounds(&self, write: impl Fn(f64) -> String) -> String {
        match (self.least, self.most, self.above, self.below) {
            (Some(least), Some(most), ..) => format!(" from {} to {}", write(least), write(most)),
            (_, _, Some(above), Some(below)) => format!(" above {} and below {}", write(above), write(below)),
            (Some(least), ..) => format!(" of at least {}", write(least)),
            (_, Some(most), ..) => format!(" of at most {}", write(most)),
            (_, _, Some(above), _) => format!(" above {}", write(above)),
            (_, _, _, Some(below)) => format!(" below {}", write(below)),
            _ => String::new(),
        }
    }
}

/// The unit that a field's name states.
fn unit_in_words(name: &str) -> &'static str {
    match split_unit(name).1 {
        "_m" => "metres",
        "_mm" => "millimetres",
        "_deg" => "degrees",
        "_n" => "newtons",
        "_kg" => "kilograms",
        "_kv" => "kilovolts",
        "_percent" => "per cent",
        "_g_per_m" => "grams a metre",
        "_mm_per_m" => "millimetres a metre",
        "_m_per_s" => "metres a second",
        "_nm" => "newton metres",
        "_mpa" => "megapascals",
        "_c" => "degrees Celsius",
        _ => "",
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

    #[test]
    fn a_range_is_told_in_the_document_and_in_the_users_unit() {
        let range = Range { least: Some(0.1), most: Some(12.0), ..Range::default() };
        let metric = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let imperial = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
        assert_eq!(range.in_words(false, "length_m", metric), "a number from 0.1 to 12 metres");
        assert_eq!(
            range.in_words(false, "length_m", imperial),
            "a number from 0.1 to 12 metres (from 3 15/16\" to 39' 4 7/16\")"
        );
    }
}
