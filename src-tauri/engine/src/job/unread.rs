//! A part of the job that is read when it is asked for. Its fields and ranges are checked with all others, by the schema; but who asks
//! nothing of it carries no reader of it: the first map's module has none. What an older document leaves out is filled in from a template, so
//! that every screen finds every field.

use std::fmt;
use std::ops::Deref;
use std::sync::OnceLock;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Map, Value};

/// A part whose missing fields are filled in without its reader.
pub trait Filled {
    /// Every field that may be left out, as JSON, with what it is then. A list has one item: what its entries may leave out; left out itself it
    /// is empty. A group with `"?"` is nothing where it is left out, and one with `"if kind"` is filled only where it is of that kind.
    const TEMPLATE: &'static str;
}

fn filled(mut part: Value, template: &str) -> Value {
    // Every template is read by a test.
    if let Ok(template) = serde_json::from_str(template) {
        fill(&mut part, &template);
    }
    part
}

fn fill(part: &mut Value, template: &Value) {
    match (part, template) {
        (Value::Object(fields), Value::Object(template)) => {
            if template.get("if kind").is_some_and(|kind| fields.get("kind") != Some(kind)) {
                return;
            }
            for (name, left_out) in template.iter().filter(|(name, _)| *name != "?" && *name != "if kind") {
                match fields.get_mut(name) {
                    Some(field) => fill(field, left_out),
                    None => {
                        fields.insert(name.clone(), empty(left_out));
                    }
                }
            }
        }
        (Value::Array(entries), Value::Array(template)) => {
            for (entry, template) in
                entries.iter_mut().flat_map(|entry| template.first().map(|it| (entry, it)))
            {
                fill(entry, template);
            }
        }
        _ => {}
    }
}

fn empty(template: &Value) -> Value {
    match template {
        Value::Array(_) => Value::Array(Vec::new()),
        Value::Object(fields) if fields.contains_key("?") => Value::Null,
        Value::Object(_) => {
            let mut part = Value::Object(Map::new());
            fill(&mut part, template);
            part
        }
        said => said.clone(),
    }
}

/// Such a part as it stands in the document, and as its type once it was asked for.
pub struct Unread<T> {
    kept: Value,
    read: OnceLock<T>,
}

impl<T> Unread<T> {
    /// As it stands in the document: what is not there was never said.
    pub fn kept(&self) -> &Value {
        &self.kept
    }
}

impl<T: DeserializeOwned + Default> Deref for Unread<T> {
    type Target = T;

    /// A document that passed its schema can be read as its type; nothing is known of one that did not.
    fn deref(&self) -> &T {
        self.read.get_or_init(|| T::deserialize(&self.kept).unwrap_or_default())
    }
}

impl<T: DeserializeOwned + Default + Serialize> Unread<T> {
    /// Changes it.
    pub fn change(&mut self, change: impl FnOnce(&mut T)) {
        let mut part = T::deserialize(&self.kept).unwrap_or_default();
        change(&mut part);
        *self = Self { kept: serde_json::to_value(&part).unwrap_or_default(), read: OnceLock::new() };
    }
}

impl<T: Filled> Default for Unread<T> {
    fn default() -> Self {
        Self { kept: filled(Value::Object(Map::new()), T::TEMPLATE), read: OnceLock::new() }
    }
}

impl<T> Clone for Unread<T> {
    fn clone(&self) -> Self {
        Self { kept: self.kept.clone(), read: OnceLock::new() }
    }
}

impl<T> PartialEq for Unread<T> {
    fn eq(&self, other: &Self) -> bool {
        self.kept == other.kept
    }
}

impl<T> fmt::Debug for Unread<T> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.kept.fmt(out)
    }
}

impl<T> Serialize for Unread<T> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.kept.serialize(serializer)
    }
}

impl<'de, T: Filled> Deserialize<'de> for Unread<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Self { kept: filled(Value::deserialize(deserializer)?, T::TEMPLATE), read: OnceLock::new() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{CardWork, LabelSays, Lights, Pegging, Season, SeasonRound, Tensions};

    /// Left out whole or entry by entry, a part is filled in as its reader would do it.
    #[test]
    fn what_is_left_out_is_what_the_reader_makes_of_it() {
        fn same<T: Filled + DeserializeOwned + Serialize + Default>(text: &str) {
            let kept: Unread<T> = serde_json::from_str(text).expect("a part");
            let read: T = serde_json::from_str(text).expect("a part");
            assert_eq!(kept.kept(), &serde_json::to_value(&read).expect("JSON"), "{text}");
            serde_json::from_str::<Value>(T::TEMPLATE).expect("the template is JSON");
        }
        same::<Lights>("{}");
        same::<Lights>(r#"{"strand":{"load_amps":0.1},"lead":{"feeds":"top"}}"#);
        same::<Pegging>("{}");
        same::<CardWork>("{}");
        same::<CardWork>(r#"{"done":[{"card":"raise:walk-up"}],"lower_rehearsed":{"minutes":4.5}}"#);
        same::<Tensions>("{}");
        let reading = r#"{"id":"a","guy":"b","taken_at":"2026-11-14T15:05:00-05:00","way":"felt"}"#;
        same::<Tensions>(&format!(r#"{{"readings":[{reading}]}}"#));
        same::<Season>("{}");
        for (cause, lean) in [("wind", r#","lean":{"to_front_deg":0.1,"to_right_deg":0.2}"#), ("rain", "")] {
            let round = format!(
                r#"{{"id":"a","taken_at":"2026-11-14T15:05:00-05:00","cause":{{"kind":"{cause}"}}{lean}}}"#
            );
            let kept: Unread<Season> =
                serde_json::from_str(&format!(r#"{{"rounds":[{round}]}}"#)).expect("a season");
            let read: SeasonRound = serde_json::from_str(&round).expect("a round");
            assert_eq!(kept.kept()["rounds"][0], serde_json::to_value(&read).expect("JSON"), "{round}");
        }
    }

    /// What stands in the document comes out of it again to the letter, and is read as its type.
    #[test]
    fn a_part_is_kept_as_it_came_and_read_when_it_is_asked_for() {
        let text = r#"{"circuit":{"breaker_amps":15,"residual_current_device":"no"}}"#;
        let mut part: Unread<Lights> = serde_json::from_str(text).expect("a part");
        assert_eq!(part.kept()["circuit"]["breaker_amps"], 15);
        assert_eq!(part.circuit.breaker_amps, Some(15.0));
        assert_eq!(part.circuit.residual_current_device, LabelSays::No);
        let before = part.clone();
        part.change(|lights| lights.circuit.breaker_amps = Some(20.0));
        assert_eq!((part.circuit.breaker_amps, before.circuit.breaker_amps), (Some(20.0), Some(15.0)));
        assert!(part != before && Unread::<Lights>::default().circuit.breaker_amps.is_none());
    }
}
