//! Two survey logs in one. An entry is never changed and never taken away, so both have what they had in common, and of the
//! rest everything is kept: in the order of the times, numbered anew.

use std::cmp::Ordering;
use std::collections::BTreeMap;

use chrono::DateTime;
use serde_json::Value;

use super::places::canonical;

/// An entry apart from its number: what is the same on both sides is one entry.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Key {
    /// When it can have been at the earliest: its own time, and not before that of the entry that it refers to, for a clock
    /// may have been set back between them.
    at_ms: i64,
    /// How many entries it refers to, one over the other.
    depth: usize,
    says: String,
    /// The same of the entry that it refers to; they differ where two entries say the same of two others.
    of: Option<usize>,
    /// Entries that are alike in all of this are counted.
    count: usize,
}

pub fn merged(here: &[Value], there: &[Value]) -> Vec<Value> {
    // Keys of both in one table, so that what they refer to can be compared by number.
    let mut known: BTreeMap<Key, usize> = BTreeMap::new();
    let mut all: Vec<(Key, Value, Option<usize>)> = Vec::new();
    for log in [here, there] {
        let mut by_number: BTreeMap<u64, usize> = BTreeMap::new();
        let mut counts: BTreeMap<Key, usize> = BTreeMap::new();
        for entry in log {
            let of = number(entry, "replaces").and_then(|number| by_number.get(&number).copied());
            let earliest = of.map_or(i64::MIN, |of| all[of].0.at_ms);
            let mut key = Key {
                at_ms: at_ms(entry).max(earliest),
                depth: of.map_or(0, |of| all[of].0.depth + 1),
                says: says(entry),
                of,
                count: 0,
            };
            let count = counts.entry(key.clone()).or_default();
            key.count = *count;
            *count += 1;
            let at = *known.entry(key.clone()).or_insert_with(|| {
                all.push((key, entry.clone(), of));
                all.len() - 1
            });
            if let Some(number) = number(entry, "number") {
                by_number.insert(number, at);
            }
        }
    }
    let mut order: Vec<usize> = (0..all.len()).collect();
    order.sort_by(|&a, &b| compared(a, b, &all));
    let numbers: BTreeMap<usize, usize> = order.iter().enumerate().map(|(i, &at)| (at, i + 1)).collect();
    order.iter().map(|&at| numbered(&all[at].1, numbers[&at], all[at].2.map(|of| numbers[&of]))).collect()
}

/// By time, then by what they say; of two that say the same of two others, as those.
fn compared(a: usize, b: usize, all: &[(Key, Value, Option<usize>)]) -> Ordering {
    let (mut a, mut b) = (a, b);
    loop {
        let (left, right) = (&all[a].0, &all[b].0);
        let own = (left.at_ms, left.depth, &left.says, left.count).cmp(&(
            right.at_ms,
            right.depth,
            &right.says,
            right.count,
        ));
        match (own, left.of, right.of) {
            (Ordering::Equal, Some(of_a), Some(of_b)) if of_a != of_b => (a, b) = (of_a, of_b),
            (own, ..) => return own,
        }
    }
}

fn number(entry: &Value, name: &str) -> Option<u64> {
    entry.get(name)?.as_u64()
}

fn at_ms(entry: &Value) -> i64 {
    let text = entry.get("taken_at").and_then(Value::as_str).unwrap_or_default();
    DateTime::parse_from_rfc3339(text).map_or(i64::MIN, |at| at.timestamp_millis())
}

fn says(entry: &Value) -> String {
    let mut rest = entry.clone();
    if let Some(members) = rest.as_object_mut() {
        members.remove("number");
        members.remove("replaces");
    }
    canonical(&rest)
}

fn numbered(entry: &Value, number: usize, replaces: Option<usize>) -> Value {
    let mut entry = entry.clone();
    entry["number"] = number.into();
    entry["replaces"] = replaces.map_or(Value::Null, Value::from);
    entry
}
