//! Fields of a newer minor version: taken out before a document is read, and put back where they stood when it is
//! written.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};
use serde::ser::{Serialize, SerializeMap, Serializer};
use serde_json::{Number, Value};

/// One field that this program does not know.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::job) struct Carried {
    /// JSON pointer of the group of fields that it stands in.
    pub group: String,
    pub name: String,
    pub value: Value,
}

/// The document with the fields back in it. A group that is gone has taken its own along.
pub(in crate::job) fn put_back(document: &mut Value, carried: &[Carried]) {
    for Carried { group, name, value } in carried {
        if let Some(Value::Object(members)) = document.pointer_mut(group) {
            members.entry(name.clone()).or_insert_with(|| value.clone());
        }
    }
}

/// The same of a document's text, in which the known fields keep their order.
pub(in crate::job) fn put_back_into_text(text: &str, carried: &[Carried]) -> Option<String> {
    let mut document: Ordered = serde_json::from_str(text).ok()?;
    for Carried { group, name, value } in carried {
        let steps = group.split('/').skip(1).map(|step| step.replace("~1", "/").replace("~0", "~"));
        let found = steps.into_iter().try_fold(&mut document, |here, step| here.part(&step));
        if let Some(Ordered::Group(members)) = found {
            members.push((name.clone(), serde_json::from_value(value.clone()).ok()?));
        }
    }
    serde_json::to_string_pretty(&document).ok()
}

/// JSON whose groups keep the order of their fields.
enum Ordered {
    Plain(Value),
    List(Vec<Ordered>),
    Group(Vec<(String, Ordered)>),
}

impl Ordered {
    fn part(&mut self, step: &str) -> Option<&mut Self> {
        match self {
            Ordered::Plain(_) => None,
            Ordered::List(items) => items.get_mut(step.parse::<usize>().ok()?),
            Ordered::Group(members) => {
                members.iter_mut().find(|(name, _)| name == step).map(|(_, value)| value)
            }
        }
    }
}

impl Serialize for Ordered {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Ordered::Plain(value) => value.serialize(serializer),
            Ordered::List(items) => items.serialize(serializer),
            Ordered::Group(members) => {
                let mut map = serializer.serialize_map(Some(members.len()))?;
                for (name, value) in members {
                    map.serialize_entry(name, value)?;
                }
                map.end()
            }
        }
    }
}

impl<'de> Deserialize<'de> for Ordered {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(Build)
    }
}

struct Build;

impl<'de> Visitor<'de> for Build {
    type Value = Ordered;

    fn expecting(&self, formatter: &mut std::fmt::Formatter) -> std::fmt::Result {
        formatter.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Ordered, E> {
        Ok(Ordered::Plain(Value::Null))
    }

    fn visit_bool<E>(self, value: bool) -> Result<Ordered, E> {
        Ok(Ordered::Plain(Value::Bool(value)))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Ordered, E> {
        Ok(Ordered::Plain(value.into()))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Ordered, E> {
        Ok(Ordered::Plain(value.into()))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Ordered, E> {
        Ok(Ordered::Plain(Number::from_f64(value).map_or(Value::Null, Value::Number)))
    }

    fn visit_str<E>(self, value: &str) -> Result<Ordered, E> {
        Ok(Ordered::Plain(Value::String(value.to_owned())))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Ordered, A::Error> {
        let mut list = Vec::new();
        while let Some(item) = items.next_element()? {
            list.push(item);
        }
        Ok(Ordered::List(list))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut members: A) -> Result<Ordered, A::Error> {
        let mut group = Vec::new();
        while let Some(member) = members.next_entry()? {
            group.push(member);
        }
        Ok(Ordered::Group(group))
    }
}
