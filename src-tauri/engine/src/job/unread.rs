//! A part of the job that is read when it is asked for. Its fields and ranges are checked with all others, by the schema; but who asks
//! nothing of it carries no reader of it: the first map's module has none.

use std::fmt;
use std::ops::Deref;
use std::sync::OnceLock;

use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::{Map, Value};

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

impl<T> Default for Unread<T> {
    fn default() -> Self {
        Self { kept: Value::Object(Map::new()), read: OnceLock::new() }
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

impl<'de, T> Deserialize<'de> for Unread<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(Self { kept: Value::deserialize(deserializer)?, read: OnceLock::new() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::{LabelSays, Lights};

    /// What stands in the document comes out of it again to the letter, and is read as its type.
    #[test]
    fn a_part_is_kept_as_it_came_and_read_when_it_is_asked_for() {
        let text = r#"{"circuit":{"breaker_amps":15,"residual_current_device":"no"}}"#;
        let mut part: Unread<Lights> = serde_json::from_str(text).expect("a part");
        assert_eq!(serde_json::to_string(&part).expect("text"), text);
        assert_eq!(part.circuit.breaker_amps, Some(15.0));
        assert_eq!(part.circuit.residual_current_device, LabelSays::No);
        let before = part.clone();
        part.change(|lights| lights.circuit.breaker_amps = Some(20.0));
        assert_eq!((part.circuit.breaker_amps, before.circuit.breaker_amps), (Some(20.0), Some(15.0)));
        assert!(part != before && Unread::<Lights>::default().circuit.breaker_amps.is_none());
    }
}
