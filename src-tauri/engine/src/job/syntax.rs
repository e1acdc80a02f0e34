//! JSON text into a value, with the place of a slip and with fields given twice.

use std::cell::{Cell, RefCell};
use std::fmt;

use serde::de::{DeserializeSeed, Deserializer, Error as _, MapAccess, SeqAccess, Visitor};
use serde_json::{Map, Number, Value};

use super::wording;
use crate::quantity::{FieldError, FieldErrors};

/// Groups of fields that a document may have: enough for 200,000 spot heights, each of which has two. Every group
/// takes some hundred bytes, whatever stands in it: braces alone would otherwise fill the memory.
const MOST_GROUPS: usize = 600_000;
const TOO_MANY_GROUPS: &str = "too many groups of fields";

/// Lists that a document may have, the pairs of a map's coordinates among them: five million of those in one file took
/// 1.4 GB.
const MOST_LISTS: usize = 1_000_000;
const TOO_MANY_LISTS: &str = "too many lists";

/// Parses JSON text (RFC 8259).
///
/// # Errors
/// Text that is no JSON, by line and column; fields that stand twice in one group, of which a reader can't know
/// the one that was meant.
pub(super) fn parse(text: &str) -> Result<Value, FieldErrors> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let twice = RefCell::new(Vec::new());
    let groups = Cell::new(0);
    let lists = Cell::new(0);
    let mut reader = serde_json::Deserializer::from_str(text);
    let value =
        Build { path: String::new(), twice: &twice, groups: &groups, lists: &lists }.deserialize(&mut reader);
    let value = value.and_then(|value| reader.end().map(|()| value)).map_err(|slip| slip_of(&slip, text))?;
    let errors = twice.into_inner();
    if errors.is_empty() { Ok(value) } else { Err(errors.into()) }
}

/// A slip in the text, with its place.
fn slip_of(slip: &serde_json::Error, text: &str) -> FieldErrors {
    let (line, column) = (slip.line(), slip.column());
    let found = found_at(text, line, column);
    let message = slip.to_string();
    let allowed = if message.starts_with(TOO_MANY_GROUPS) {
        "at most 600,000 groups of fields"
    } else if message.starts_with(TOO_MANY_LISTS) {
        "at most 1,000,000 lists"
    } else if let Some(words) = slip_in_words(text, line, column) {
        words
    } else if message.starts_with("recursion limit") {
        "lists and groups nested less than 128 deep"
    } else if message.starts_with("number out of range") {
        "a number that a computer can hold (at most about 1.8e308, and here far less)"
    } else if ["NaN", "nan", "Inf", "inf", "-Inf", "-inf", "-NaN"].iter().any(|word| found.starts_with(word))
    {
        "a number in digits: JSON knows no NaN and no infinity"
    } else if slip.is_eof() {
        "a whole JSON document: this one breaks off"
    } else {
        "JSON"
    };
    let what = message.split(" at line ").next().unwrap_or_default();
    let found = if found.is_empty() { "the end of the text".to_owned() } else { format!("`{found}`") };
    let given = format!("line {line}, column {column}: {found} ({what})");
    FieldError::new("", given, allowed).into()
}

/// What people write by habit and JSON does not know.
fn slip_in_words(text: &str, line: usize, column: usize) -> Option<&'static str> {
    let line = text.split('\n').nth(line.checked_sub(1)?)?.as_bytes();
    // The parser stops at the first character that can't be, or at the one after it.
    let at = column.saturating_sub(1).min(line.len().saturating_sub(1));
    let from = |start: usize| line.get(start..).unwrap_or_default();
    let digit = |byte: Option<&u8>| byte.is_some_and(u8::is_ascii_digit);
    let before = line.get(..at).unwrap_or_default().trim_ascii_end();
    let thousands = |comma: usize| {
        line.get(comma) == Some(&b',')
            && digit(comma.checked_sub(1).and_then(|i| line.get(i)))
            && from(comma + 1).iter().take_while(|byte| byte.is_ascii_digit()).count() == 3
    };
    if (at.saturating_sub(1)..=at).any(thousands) || at.checked_sub(2).is_some_and(thousands) {
        return Some("a number without a comma between its digits, as 1000");
    }
    match from(at) {
        [b'+', ..] => Some("a number without a plus sign, as 5"),
        [b'.', next, ..] if next.is_ascii_digit() => Some("a number with a digit before its point, as 0.5"),
        [b'/', b'/' | b'*', ..] => Some("JSON, which has no comments"),
        [b'\'', ..] => Some("texts and names in double quotes"),
        [b']' | b'}', ..] if before.ends_with(b",") => Some("no comma after the last one of a list or group"),
        [next, ..] if next.is_ascii_digit() && begins_with_zero(before) => {
            Some("a number without zeros in front, as 5")
        }
        _ => None,
    }
}

/// Whether the last thing of a line is a number's first digit, and that a zero.
fn begins_with_zero(before: &[u8]) -> bool {
    matches!(before, [.., earlier, b'0'] if !earlier.is_ascii_alphanumeric() && *earlier != b'.')
}

/// A few characters from a line and column, both counted from 1; columns count bytes.
fn found_at(text: &str, line: usize, column: usize) -> String {
    let line = text.split('\n').nth(line.saturating_sub(1)).unwrap_or_default();
    let mut start = column.saturating_sub(1).min(line.len());
    while !line.is_char_boundary(start) {
        start -= 1;
    }
    // In `-Infinity` the parser stumbles over the second sign; the first belongs to what was found.
    if start > 0 && line.as_bytes().get(start - 1) == Some(&b'-') {
        start -= 1;
    }
    line.get(start..).unwrap_or_default().trim_end().chars().take(16).collect()
}

/// Builds a value, keeping note of fields that come twice.
struct Build<'a> {
    path: String,
    twice: &'a RefCell<Vec<FieldError>>,
    groups: &'a Cell<usize>,
    lists: &'a Cell<usize>,
}

impl<'de> DeserializeSeed<'de> for Build<'_> {
    type Value = Value;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<Value, D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Build<'_> {
    type Value = Value;

    fn expecting(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        formatter.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Value, E> {
        Ok(Value::Null)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Value, E> {
        Ok(Value::Bool(value))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_i64<E>(self, value: i64) -> Result<Value, E> {
        Ok(value.into())
    }

    fn visit_f64<E>(self, value: f64) -> Result<Value, E> {
        Ok(Number::from_f64(value).map_or(Value::Null, Value::Number))
    }

    fn visit_str<E>(self, value: &str) -> Result<Value, E> {
        Ok(Value::String(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Value, A::Error> {
        self.lists.set(self.lists.get() + 1);
        if self.lists.get() > MOST_LISTS {
            return Err(A::Error::custom(TOO_MANY_LISTS));
        }
        let mut list = Vec::new();
        loop {
            let build = Build {
                path: format!("{}/{}", self.path, list.len()),
                twice: self.twice,
                groups: self.groups,
                lists: self.lists,
            };
            match items.next_element_seed(build)? {
                Some(item) => list.push(item),
                None => return Ok(Value::Array(list)),
            }
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Value, A::Error> {
        self.groups.set(self.groups.get() + 1);
        if self.groups.get() > MOST_GROUPS {
            return Err(A::Error::custom(TOO_MANY_GROUPS));
        }
        let mut group = Map::new();
        while let Some(name) = members.next_key::<String>()? {
            let path = format!("{}/{}", self.path, wording::escaped(&name));
            let build =
                Build { path: path.clone(), twice: self.twice, groups: self.groups, lists: self.lists };
            let value = members.next_value_seed(build)?;
            if let Some(first) = group.insert(name, value.clone()) {
                let given = format!("twice: {} and {}", wording::given(&first), wording::given(&value));
                self.twice.borrow_mut().push(FieldError::new(path, given, "each field once"));
            }
        }
        Ok(Value::Object(group))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_million_small_lists_are_refused() {
        let text = format!("[{}[]]", "[],".repeat(MOST_LISTS));
        let errors = parse(&text).expect_err("it is too much").errors;
        assert_eq!(errors[0].allowed, "at most 1,000,000 lists");
    }

    fn error(text: &str) -> FieldError {
        let mut errors = parse(text).expect_err("the text is wrong").errors;
        errors.remove(0)
    }

    #[test]
    fn a_slip_is_placed() {
        let nested = "[".repeat(5000);
        // Text, how what was given begins, a part of what is allowed.
        let slips = [
            ("{\n  \"a\": NaN\n}", "line 2, column 8: `NaN`", "no NaN"),
            ("{\"a\": -Infinity}", "line 1, column", "no infinity"),
            ("{\"a\": 1e400}", "line 1, column", "computer can hold"),
            ("{\"a\": 1", "line 1, column 7", "breaks off"),
            ("{\"a\": 1} x", "line 1, column 10: `x`", "JSON"),
            ("", "line 1, column 0: the end of the text", "breaks off"),
            (nested.as_str(), "line 1, column 128", "nested"),
            ("{\"a\": 1,000}", "line 1, column", "without a comma"),
            ("{\"a\": [1,000, 2]}", "line 1, column", "without a comma"),
            ("{\"a\": 12,500}", "line 1, column", "without a comma"),
            ("{\"a\": +5}", "line 1, column 7: `+5}`", "without a plus"),
            ("{\"a\": .5}", "line 1, column 7: `.5}`", "digit before its point"),
            ("{\"a\": 007}", "line 1, column", "zeros in front"),
            ("{'a': 1}", "line 1, column 2", "double quotes"),
            ("{\"a\": 1 // metres\n}", "line 1, column", "no comments"),
            ("{\"a\": 1,}", "line 1, column", "no comma after"),
            ("[1, 2,]", "line 1, column", "no comma after"),
            ("{\"ä\": ä}", "line 1, column 8: `ä}`", "JSON"),
        ];
        for (text, given, allowed) in slips {
            let error = error(text);
            assert!(error.given.starts_with(given), "{text}: {}", error.given);
            assert!(error.allowed.contains(allowed), "{text}: {}", error.allowed);
        }
    }

    #[test]
    fn a_field_given_twice_is_refused() {
        let error = error(r#"{"a": [{"b/c": 1, "b/c": 2}]}"#);
        assert_eq!(error.path, "/a/0/b~1c");
        assert_eq!(error.given, "twice: 1 and 2");
    }

    #[test]
    fn good_text_reads_as_serde_json_reads_it() {
        let text = "\u{feff}{\"a\": [1, -2, 2.5, -0, 1e308, 18446744073709551616, null, true, \"x\"]}";
        let plain: Value = serde_json::from_str(&text[3..]).expect("the text is JSON");
        assert_eq!(parse(text).expect("the text is JSON"), plain);
    }
}
