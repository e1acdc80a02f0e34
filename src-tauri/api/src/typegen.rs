//! Writes the job's JSON Schema and the screens' TypeScript types from the Rust types, so that there is one
//! place where a field, its range and its meaning are written down.

use std::any::TypeId;
use std::collections::{BTreeMap, BTreeSet};

use crate::wind::Withstood;
use crate::workshop::WorkshopPlan;
use mastwright_engine::calls::CallList;
use mastwright_engine::finding::Finding;
use mastwright_engine::job::{FORMAT_VERSION, Job};
use mastwright_engine::pegging::PegOutGuide;
use mastwright_engine::plan::Plan;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::raising::RaiseWays;
use mastwright_engine::report::Report;
use mastwright_engine::rigs::RigChoice;
use mastwright_engine::shares::ReadingShares;
use mastwright_engine::siting::Siting;
use mastwright_engine::spread::YardSpread;
use mastwright_engine::view::ViewSeen;
use mastwright_engine::workshop::circle::Circles;
use mastwright_engine::workshop::shopping::ShoppingList;
use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::{Map, Value};
use ts_rs::{Config, TS, TypeVisitor};

/// Where the schema of the job document is kept, from the root of the workspace.
pub const SCHEMA_PATH: &str = "docs/job.schema.json";
/// Where the same is kept with no more than the reader looks at: a browser loads it before its first map.
pub const SCHEMA_TABLE_PATH: &str = "src-tauri/engine/src/job/schema.table.json";
/// Where the screens' types are kept, from the root of the workspace.
pub const TYPES_PATH: &str = "ui/src/backend/types.ts";

/// Where the screens' style sheet and legend of the map's things are kept.
pub const KEY_STYLE_PATH: &str = "ui/src/styles/key.css";
pub const KEY_PATH: &str = "ui/src/backend/key.ts";

/// Where the screens' round figures in sentences are kept.
pub const ROUND_FIGURES_PATH: &str = "ui/src/backend/round-figures.ts";

/// The page whose lists of recalled values are written from the sources.
pub const VALIDATION_PATH: &str = "docs/validation.md";

const BEGIN: &str = "<!-- written from source.rs: begin -->\n";
const END: &str = "<!-- written from source.rs: end -->\n";

/// The page with its lists as the sources have them now.
///
/// # Errors
/// Where the page has lost its two marks.
pub fn with_recalled_values(page: &str) -> Result<String, String> {
    let (before, rest) = page.split_once(BEGIN).ok_or("docs/validation.md has lost its first mark")?;
    let (_, after) = rest.split_once(END).ok_or("docs/validation.md has lost its second mark")?;
    let lists = mastwright_engine::source::values::as_markdown();
    Ok(format!("{before}{BEGIN}{lists}{END}{after}"))
}

/// The JSON Schema (draft 2020-12) of the job document, as text.
///
/// # References
/// JSON Schema: A Media Type for Describing JSON Documents, draft 2020-12; RFC 6901 for the pointers within it.
pub fn job_schema() -> String {
    let schema = SchemaSettings::draft2020_12().into_generator().into_root_schema_for::<Job>();
    published(schema, &format!("job:{FORMAT_VERSION}"), "Mastwright job")
}

/// The same in one line, with no more than the reader of jobs looks at: the first map carries it.
pub fn job_schema_table() -> String {
    let schema: Value = serde_json::from_str(&job_schema()).unwrap_or_default();
    for_the_reader(schema).to_string() + "\n"
}

/// Without what only people read (texts), what the types do by themselves (defaults, closed objects), and formats of numbers.
fn for_the_reader(schema: Value) -> Value {
    match schema {
        Value::Object(members) => {
            let kept = members.into_iter().filter(|(word, said)| match word.as_str() {
                "description" | "default" | "additionalProperties" => false,
                "format" => said == "date-time",
                _ => true,
            });
            Value::Object(kept.map(|(word, said)| (word.clone(), of_keyword(&word, said))).collect())
        }
        Value::Array(items) => Value::Array(items.into_iter().map(for_the_reader).collect()),
        other => other,
    }
}

/// Under `properties` and `$defs` stand names, not words of the schema.
fn of_keyword(word: &str, said: Value) -> Value {
    match said {
        Value::Object(named) if ["properties", "$defs"].contains(&word) => {
            Value::Object(named.into_iter().map(|(name, schema)| (name, for_the_reader(schema))).collect())
        }
        other => for_the_reader(other),
    }
}

/// The schemas of what the command line prints with `--json`: where each is kept, and its text.
pub fn printed_schemas() -> [(&'static str, String); 19] {
    [
        ("docs/printed/plan.schema.json", printed::<Plan>("plan")),
        ("docs/printed/raise-ways.schema.json", printed::<RaiseWays>("raise-ways")),
        ("docs/printed/rigs.schema.json", printed::<RigChoice>("rigs")),
        ("docs/printed/siting.schema.json", printed::<Siting>("siting")),
        ("docs/printed/calls.schema.json", printed::<CallList>("calls")),
        ("docs/printed/circles.schema.json", printed::<Circles>("circles")),
        ("docs/printed/shop.schema.json", printed::<ShoppingList>("shop")),
        ("docs/printed/peg-out.schema.json", printed::<PegOutGuide>("peg-out")),
        ("docs/printed/shares.schema.json", printed::<ReadingShares>("shares")),
        ("docs/printed/spread.schema.json", printed::<YardSpread>("spread")),
        ("docs/printed/view.schema.json", printed::<ViewSeen>("view")),
        ("docs/printed/wind.schema.json", printed::<Withstood>("wind")),
        ("docs/printed/cards.schema.json", printed::<mastwright_engine::cards::Deck>("cards")),
        ("docs/printed/tension.schema.json", printed::<mastwright_engine::ringing::GuyTensions>("tension")),
        ("docs/printed/season.schema.json", printed::<mastwright_engine::season::SeasonDiary>("season")),
        ("docs/printed/pack.schema.json", printed::<mastwright_engine::season::PackingList>("pack")),
        ("docs/printed/again.schema.json", printed::<mastwright_engine::season::SamePlace>("again")),
        ("docs/printed/lights.schema.json", printed::<mastwright_engine::lighting::LightsPlan>("lights")),
        ("docs/printed/workshop.schema.json", printed::<WorkshopPlan>("workshop")),
    ]
}

fn printed<Printed: JsonSchema>(command: &str) -> String {
    let settings = SchemaSettings::draft2020_12().for_serialize().with_transform(RecursiveTransform(closed));
    let mut schema = settings.into_generator().into_root_schema_for::<Printed>();
    open_what_is_shared(&mut schema);
    published(schema, &format!("printed:{command}"), &format!("What `mastwright {command} --json` prints"))
}

/// An object has the fields that are described and no others: what is not described would else be told by nothing. Where a
/// struct has another one's fields among its own, the two are closed together.
fn closed(schema: &mut Schema) {
    if schema.get("properties").is_none() || schema.get("additionalProperties").is_some() {
        return;
    }
    let mut shared = false;
    for word in ["allOf", "anyOf", "oneOf"] {
        for part in schema.get_mut(word).and_then(Value::as_array_mut).into_iter().flatten() {
            if let Value::Object(part) = part {
                part.entry("additionalProperties").or_insert(true.into());
                shared = true;
            }
        }
    }
    let word =
        if shared || schema.get("$ref").is_some() { "unevaluatedProperties" } else { "additionalProperties" };
    schema.insert(word.into(), false.into());
}

/// A definition whose fields another schema has among its own is closed there, not by itself.
fn open_what_is_shared(root: &mut Schema) {
    let mut shared = BTreeSet::new();
    let mut waiting: Vec<&Value> = vec![root.as_value()];
    while let Some(value) = waiting.pop() {
        if let (Some(Value::String(to)), Some(_)) = (value.get("$ref"), value.get("properties")) {
            shared.extend(to.rsplit('/').next().map(str::to_owned));
        }
        match value {
            Value::Array(items) => waiting.extend(items),
            Value::Object(members) => waiting.extend(members.values()),
            _ => {}
        }
    }
    for name in shared {
        if let Some(Value::Object(definition)) = root.pointer_mut(&format!("/$defs/{name}")) {
            definition.remove("additionalProperties");
        }
    }
}

/// A schema under its name, its fields in the order of the alphabet.
fn published(schema: Schema, id: &str, title: &str) -> String {
    let mut root = match schema.to_value() {
        Value::Object(root) => root,
        other => Map::from_iter([("allOf".to_owned(), Value::Array(vec![other]))]),
    };
    root.insert("$id".into(), format!("urn:mastwright:{id}").into());
    root.insert("title".into(), title.into());
    let mut text = serde_json::to_string_pretty(&sorted(Value::Object(root))).unwrap_or_default();
    text.push('\n');
    text
}

/// The same value with every object's members in alphabetical order, whatever map serde_json was built with.
fn sorted(value: Value) -> Value {
    match value {
        Value::Object(members) => {
            let by_name: BTreeMap<String, Value> =
                members.into_iter().map(|(name, v)| (name, sorted(v))).collect();
            Value::Object(by_name.into_iter().collect())
        }
        Value::Array(items) => Value::Array(items.into_iter().map(sorted).collect()),
        other => other,
    }
}

/// Every type that the screens meet, as one TypeScript file.
///
/// # Errors
/// Two Rust types of one name: give one of them a `ts(rename = "…")`.
pub fn typescript() -> Result<String, String> {
    // JSON numbers are doubles in JavaScript, so a 64-bit integer is a `number` there, never a `bigint`.
    let mut found =
        Found { config: Config::new().with_large_int("number"), types: BTreeMap::new(), clash: None };
    collect_roots(&mut found);
    if let Some(name) = found.clash {
        return Err(format!(
            "two Rust types would both be called {name} in TypeScript; rename one with ts(rename)"
        ));
    }
    let mut text = String::from("// generated by cargo xtask types\n");
    for declaration in found.types.values() {
        text.push('\n');
        text.push_str(&declaration.text);
    }
    text.push('\n');
    text.push_str(&crate::operations::typescript_interfaces(&found.config));
    Ok(text)
}

/// The types from which all the others are reached. An operation's request and answer go in here.
fn collect_roots(found: &mut Found) {
    found.visit::<Job>();
    found.visit::<FieldErrors>();
    found.visit::<Plan>();
    found.visit::<Finding>();
    found.visit::<Report>();
    crate::operations::visit_messages(found);
}

struct Found {
    config: Config,
    /// By TypeScript name, so that the file's order does not depend on that of the Rust code.
    types: BTreeMap<String, Declaration>,
    clash: Option<String>,
}

struct Declaration {
    of: TypeId,
    text: String,
}

impl TypeVisitor for Found {
    fn visit<T: TS + 'static + ?Sized>(&mut self) {
        // Only a type with a file of its own is declared; numbers, arrays and the like are written in place.
        if T::output_path().is_none() {
            T::visit_dependencies(self);
            T::visit_generics(self);
            return;
        }
        let name = T::ident(&self.config);
        if let Some(known) = self.types.get(&name) {
            if known.of != TypeId::of::<T>() {
                self.clash = Some(name);
            }
            return;
        }
        let docs = T::docs().unwrap_or_default();
        let text = format!("{docs}export {}\n", T::decl(&self.config));
        self.types.insert(name, Declaration { of: TypeId::of::<T>(), text });
        T::visit_dependencies(self);
        T::visit_generics(self);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn screens_get_no_bigint_and_every_type_once() {
        let text = typescript().expect("no two types share a name");
        assert!(!text.contains("bigint"));
        for name in ["Job", "Plan", "Scene", "Report", "Finding", "FieldError", "PlanAnswer"] {
            assert_eq!(text.matches(&format!("export type {name} =")).count(), 1, "{name}");
        }
    }

    #[test]
    fn schema_names_its_draft_and_itself() {
        let schema: Value = serde_json::from_str(&job_schema()).expect("the schema is JSON");
        assert_eq!(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
        assert_eq!(schema["$id"], "urn:mastwright:job:3");
        assert_eq!(schema["additionalProperties"], false);
    }
}
