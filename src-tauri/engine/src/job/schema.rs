//! Checks a document against the published schema, `docs/job.schema.json`, which is generated from the types: so a
//! range stands in one place, beside its field. Only the part of JSON Schema that the types give rise to is
//! walked; `tests/published/job_schema.rs` holds the walk against an independent validator.

use std::sync::OnceLock;

use serde_json::{Map, Value};

use super::versions::Carried;
use super::wording::{escaped, given, listed, nearest, of_unknown, shortened};
use crate::quantity::range::{Range, is_told_otherwise};
use crate::quantity::{FieldError, FieldErrors, MOST_ERRORS, UnitSystem, Units, format};

/// The published schema as text.
pub const JOB_SCHEMA: &str = include_str!("../../../../docs/job.schema.json");

/// The same with no more than the reader looks at: a browser loads it before its first map. Written with it from the types.
const TABLE: &str = include_str!("schema.table.json");

/// Everything in which a document departs from the schema; none where it does not.
pub(super) fn departures(document: &Value, units: Units) -> Option<FieldErrors> {
    let mut walk = Walk::new(units);
    walk.visit(walk.root, "", document);
    walk.found()
}

/// The same of one field of the document.
pub(super) fn departures_of(name: &'static str, value: &Value, units: Units) -> Option<FieldErrors> {
    let mut walk = Walk::new(units);
    let schema = walk.root.get("properties").and_then(|properties| properties.get(name))?;
    walk.at(name, |walk| walk.visit(schema, name, value));
    walk.found()
}

/// Takes out of a document every field that the schema does not know.
pub(super) fn take_unknown(document: &mut Value) -> Vec<Carried> {
    taken(root(), document)
}

/// The same of one field of the document.
pub(super) fn take_unknown_of(name: &'static str, value: &mut Value) -> Vec<Carried> {
    let schema = root().get("properties").and_then(|properties| properties.get(name));
    schema.map_or_else(Vec::new, |schema| taken(schema, value))
}

fn taken(schema: &'static Value, value: &mut Value) -> Vec<Carried> {
    let mut carried = Vec::new();
    // Errors are not asked for, so their units are of no account.
    Walk::new(Units { system: UnitSystem::Metric, inch_fraction: 16 }).take(schema, value, &mut carried);
    carried
}

fn root() -> &'static Value {
    static ROOT: OnceLock<Value> = OnceLock::new();
    ROOT.get_or_init(|| serde_json::from_str(TABLE).unwrap_or(Value::Bool(false)))
}

struct Walk {
    root: &'static Value,
    units: Units,
    /// JSON pointer of the value in hand.
    path: String,
    errors: Vec<FieldError>,
    /// Errors counted and not written down.
    unlisted: usize,
}

impl Walk {
    fn new(units: Units) -> Self {
        Walk { root: root(), units, path: String::new(), errors: Vec::new(), unlisted: 0 }
    }

    fn found(self) -> Option<FieldErrors> {
        let Walk { errors, unlisted, .. } = self;
        (!errors.is_empty()).then_some(FieldErrors { errors, unlisted })
    }

    fn visit(&mut self, schema: &'static Value, name: &str, value: &Value) {
        let schema = self.resolved(schema);
        if value.is_null() && self.allows_null(schema) {
            return;
        }
        if let Some(meant) = self.unless_null(schema) {
            return self.visit(meant, name, value);
        }
        if let Some(alternatives) = list(schema, "oneOf").filter(|_| choices(schema).is_empty()) {
            return self.tagged(alternatives, value);
        }
        let choices = choices(schema);
        if !choices.is_empty() {
            if !choices.iter().any(|choice| same(choice, value)) {
                self.wrong(name, schema, value);
            }
            return;
        }
        match value {
            Value::Object(members) if has_type(schema, "object") => self.object(schema, members),
            Value::Array(items) if has_type(schema, "array") => self.array(schema, name, items, value),
            _ if fits(schema, value) => {}
            Value::Number(_) => self.out_of_range(name, schema, value),
            _ => self.wrong(name, schema, value),
        }
    }

    fn object(&mut self, schema: &'static Value, members: &Map<String, Value>) {
        let Some(properties) = schema.get("properties").and_then(Value::as_object) else { return };
        for name in members.keys().filter(|name| !properties.contains_key(*name)) {
            let known: Vec<&String> = properties.keys().collect();
            let field = format!("a field “{}”", shortened(name));
            self.at(name, |walk| walk.error(field, of_unknown(name, &known)));
        }
        for (name, property) in properties {
            match members.get(name) {
                Some(value) => self.at(name, |walk| walk.visit(property, name, value)),
                None if is_required(schema, name) => self.at(name, |walk| {
                    let allowed = walk.allowed(property, name);
                    walk.error("nothing".to_owned(), allowed);
                }),
                None => {}
            }
        }
    }

    fn array(&mut self, schema: &'static Value, name: &str, items: &[Value], value: &Value) {
        let length =
            Range { least: number(schema, "minItems"), most: number(schema, "maxItems"), ..Range::default() };
        if !length.contains(items.len() as f64) {
            self.wrong(name, schema, value);
        }
        let Some(of) = schema.get("items") else { return };
        for (index, item) in items.iter().enumerate() {
            self.at(&index.to_string(), |walk| walk.visit(of, name, item));
        }
    }

    /// One of several groups of fields, told apart by the constant of their tag.
    fn tagged(&mut self, alternatives: &'static [Value], value: &Value) {
        let Some(tag) = alternatives.first().and_then(tag_of).map(|(tag, _)| tag) else { return };
        let Some(members) = value.as_object() else {
            return self
                .error(given(value), format!("a group of fields with {}", told_by(tag, alternatives)));
        };
        let told = members.get(tag);
        match alternative(alternatives, value) {
            Some(schema) => self.object(schema, members),
            None => self.at(tag, |walk| {
                let names = tag_values(alternatives);
                let allowed = with_nearest(told.unwrap_or(&Value::Null), &names);
                walk.error(told.map_or("nothing".to_owned(), given), allowed);
            }),
        }
    }

    /// Walks as `visit` does, and takes out what is not known. What does not fit the schema is left to `visit`.
    fn take(&mut self, schema: &'static Value, value: &mut Value, carried: &mut Vec<Carried>) {
        let schema = self.resolved(schema);
        if let Some(meant) = self.unless_null(schema) {
            return self.take(meant, value, carried);
        }
        let schema = match list(schema, "oneOf") {
            Some(alternatives) => match alternative(alternatives, value) {
                Some(chosen) => chosen,
                None => return,
            },
            None => schema,
        };
        match value {
            Value::Object(members) => self.take_from_group(schema, members, carried),
            Value::Array(items) => {
                let Some(of) = schema.get("items") else { return };
                for (index, item) in items.iter_mut().enumerate() {
                    self.at(&index.to_string(), |walk| walk.take(of, item, carried));
                }
            }
            _ => {}
        }
    }

    fn take_from_group(
        &mut self,
        schema: &'static Value,
        members: &mut Map<String, Value>,
        carried: &mut Vec<Carried>,
    ) {
        let Some(properties) = schema.get("properties").and_then(Value::as_object) else { return };
        let unknown: Vec<String> =
            members.keys().filter(|name| !properties.contains_key(*name)).cloned().collect();
        for name in unknown {
            if let Some(value) = members.remove(&name) {
                carried.push(Carried { group: self.path.clone(), name, value });
            }
        }
        for (name, property) in properties {
            if let Some(value) = members.get_mut(name) {
                self.at(name, |walk| walk.take(property, value, carried));
            }
        }
    }

    fn wrong(&mut self, name: &str, schema: &'static Value, value: &Value) {
        let mut allowed = self.allowed(schema, name);
        let choices: Vec<&str> = choices(schema).into_iter().filter_map(Value::as_str).collect();
        if !choices.is_empty() {
            allowed = with_nearest(value, &choices);
        } else if value.is_string() && (has_type(schema, "number") || has_type(schema, "integer")) {
            allowed.push_str(", without quotes");
        }
        self.error(given(value), allowed);
    }

    /// A number beyond its range, in the user's unit where it is another than the document's.
    fn out_of_range(&mut self, name: &str, schema: &'static Value, value: &Value) {
        match value.as_f64().filter(|_| is_told_otherwise(name, self.units)) {
            Some(number) => {
                let own = self.unless_null(schema).unwrap_or(schema);
                let or_null = if self.allows_null(schema) { ", or nothing" } else { "" };
                let allowed = Range::of(self.resolved(own)).of_user(name, self.units) + or_null;
                self.error(format::field(name, number, self.units), allowed);
            }
            None => self.wrong(name, schema, value),
        }
    }

    /// What a schema allows, in words.
    fn allowed(&self, schema: &'static Value, name: &str) -> String {
        let schema = self.resolved(schema);
        let or_null = if self.allows_null(schema) { ", or nothing" } else { "" };
        let words = match self.unless_null(schema) {
            Some(meant) => self.allowed(meant, name),
            None => self.allowed_plain(schema, name),
        };
        format!("{words}{or_null}")
    }

    fn allowed_plain(&self, schema: &'static Value, name: &str) -> String {
        let choices = choices(schema);
        if !choices.is_empty() {
            return listed(&choices.into_iter().map(Value::to_string).collect::<Vec<_>>());
        }
        if let Some(alternatives) = list(schema, "oneOf") {
            let tag = alternatives.first().and_then(tag_of).map_or("kind", |(tag, _)| tag);
            return format!("a group of fields with {}", told_by(tag, alternatives));
        }
        let size = |least: &str, most: &str| match (number(schema, least), number(schema, most)) {
            (Some(least), Some(most)) => format!(" of {least} to {most}"),
            (None, Some(most)) => format!(" of at most {most}"),
            (Some(least), None) => format!(" of at least {least}"),
            (None, None) => String::new(),
        };
        match ["number", "integer", "string", "boolean", "array", "object"]
            .into_iter()
            .find(|t| has_type(schema, t))
        {
            Some("number") => Range::of(schema).of_document(false, name),
            Some("integer") => Range::of(schema).of_document(true, name),
            Some("string") if is_date(schema) => {
                "a date and time with its zone, as 2026-11-21T15:30:00-05:00".to_owned()
            }
            Some("string") => format!("text{} characters", size("minLength", "maxLength")),
            Some("boolean") => "true or false".to_owned(),
            Some("array") => format!("a list{}", size("minItems", "maxItems")),
            _ => "a group of fields".to_owned(),
        }
    }

    fn resolved(&self, schema: &'static Value) -> &'static Value {
        let target = schema.get("$ref").and_then(Value::as_str).and_then(|link| link.strip_prefix('#'));
        target.and_then(|pointer| self.root.pointer(pointer)).unwrap_or(schema)
    }

    /// `anyOf: [meant, null]` is how the types' `Option` appears.
    fn unless_null(&self, schema: &'static Value) -> Option<&'static Value> {
        list(schema, "anyOf")?.iter().find(|option| !has_type(option, "null"))
    }

    fn allows_null(&self, schema: &'static Value) -> bool {
        has_type(schema, "null")
            || list(schema, "anyOf").is_some_and(|all| all.iter().any(|one| has_type(one, "null")))
    }

    fn at(&mut self, step: &str, visit: impl FnOnce(&mut Self)) {
        let length = self.path.len();
        self.path.push('/');
        self.path.push_str(&escaped(step));
        visit(self);
        self.path.truncate(length);
    }

    fn error(&mut self, given: String, allowed: String) {
        if self.errors.len() < MOST_ERRORS {
            self.errors.push(FieldError::new(self.path.clone(), given, allowed));
        } else {
            self.unlisted += 1;
        }
    }
}

fn list(schema: &'static Value, keyword: &str) -> Option<&'static [Value]> {
    schema.get(keyword).and_then(Value::as_array).map(Vec::as_slice)
}

fn number(schema: &Value, keyword: &str) -> Option<f64> {
    schema.get(keyword).and_then(Value::as_f64)
}

fn has_type(schema: &Value, wanted: &str) -> bool {
    match schema.get("type") {
        Some(Value::String(only)) => only == wanted,
        Some(Value::Array(several)) => several.iter().any(|one| one == wanted),
        _ => false,
    }
}

fn is_required(schema: &Value, name: &str) -> bool {
    schema.get("required").and_then(Value::as_array).is_some_and(|names| names.iter().any(|one| one == name))
}

fn is_date(schema: &Value) -> bool {
    schema.get("format").is_some_and(|format| format == "date-time")
}

/// The values a schema lists: by `const`, by `enum`, or by alternatives that are nothing but these.
fn choices(schema: &'static Value) -> Vec<&'static Value> {
    if let Some(only) = schema.get("const") {
        return vec![only];
    }
    if let Some(several) = list(schema, "enum") {
        return several.iter().collect();
    }
    let alternatives = list(schema, "oneOf").unwrap_or_default();
    let each: Vec<Vec<&Value>> = alternatives.iter().map(choices).collect();
    if each.iter().any(Vec::is_empty) { Vec::new() } else { each.concat() }
}

/// Equal as JSON Schema has it: `4` and `4.0` are one number.
fn same(choice: &Value, value: &Value) -> bool {
    choice == value || (choice.is_number() && choice.as_f64() == value.as_f64())
}

/// Whether a number, a text, a truth value or null is of the type and within the bounds.
fn fits(schema: &Value, value: &Value) -> bool {
    match value {
        Value::Number(number) => number.as_f64().is_some_and(|number| {
            let of_type =
                has_type(schema, "number") || (has_type(schema, "integer") && number.fract() == 0.0);
            of_type && Range::of(schema).contains(number)
        }),
        Value::String(text) => {
            let length = Range {
                least: number(schema, "minLength"),
                most: number(schema, "maxLength"),
                ..Range::default()
            };
            let dated = !is_date(schema) || chrono::DateTime::parse_from_rfc3339(text).is_ok();
            has_type(schema, "string") && dated && length.contains(text.chars().count() as f64)
        }
        Value::Bool(_) => has_type(schema, "boolean"),
        Value::Null => has_type(schema, "null"),
        _ => false,
    }
}

/// The name and the constant of the field that tells a group of fields from its alternatives.
fn tag_of(schema: &'static Value) -> Option<(&'static str, &'static Value)> {
    let properties = schema.get("properties").and_then(Value::as_object)?;
    properties.iter().find_map(|(name, property)| Some((name.as_str(), property.get("const")?)))
}

/// The alternative that a value is told to be by its tag.
fn alternative(alternatives: &'static [Value], value: &Value) -> Option<&'static Value> {
    alternatives.iter().find(|schema| tag_of(schema).is_some_and(|(tag, is)| value.get(tag) == Some(is)))
}

fn tag_values(alternatives: &'static [Value]) -> Vec<&'static str> {
    alternatives.iter().filter_map(tag_of).filter_map(|(_, is)| is.as_str()).collect()
}

fn told_by(tag: &str, alternatives: &'static [Value]) -> String {
    let values: Vec<String> = tag_values(alternatives).into_iter().map(|is| format!("\"{is}\"")).collect();
    format!("\"{tag}\": {}", listed(&values))
}

/// `"wall", "fence" or "hedge"; perhaps "hedge"`.
fn with_nearest(value: &Value, choices: &[&str]) -> String {
    let quoted: Vec<String> = choices.iter().map(|choice| format!("\"{choice}\"")).collect();
    let near = value.as_str().and_then(|text| nearest(text, choices.iter().copied()));
    match near {
        Some(near) if choices.len() > 1 => format!("{}; perhaps \"{near}\"", listed(&quoted)),
        _ => listed(&quoted),
    }
}

#[cfg(test)]
mod table_tests {
    use super::*;

    /// What the reader never looks at: texts, what the types do by themselves, formats of numbers.
    fn is_for_others(word: &str, said: &Value) -> bool {
        ["description", "default", "additionalProperties"].contains(&word)
            || (word == "format" && said != "date-time")
    }

    /// Under `properties` and `$defs` (`named`) stand names, none of which may be left out.
    fn holds(table: &Value, published: &Value, named: bool) {
        match (table, published) {
            (Value::Object(table), Value::Object(published)) => {
                assert!(table.keys().all(|word| published.contains_key(word)));
                for (word, said) in published {
                    match table.get(word) {
                        Some(kept) => {
                            holds(kept, said, !named && ["properties", "$defs"].contains(&word.as_str()));
                        }
                        None => assert!(!named && is_for_others(word, said), "{word} is left out: {said}"),
                    }
                }
            }
            (Value::Array(table), Value::Array(published)) => {
                assert_eq!(table.len(), published.len());
                table.iter().zip(published).for_each(|(table, published)| holds(table, published, false));
            }
            _ => assert_eq!(table, published),
        }
    }

    /// What is read by is what is published.
    #[test]
    fn the_table_is_what_is_published_but_for_what_no_reader_looks_at() {
        let [published, table] =
            [JOB_SCHEMA, TABLE].map(|text| serde_json::from_str::<Value>(text).expect("JSON"));
        holds(&table, &published, false);
        assert!(TABLE.len() * 2 < JOB_SCHEMA.len());
    }
}
