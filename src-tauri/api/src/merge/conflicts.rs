//! What two devices wrote without knowing of each other, put into words.

use mastwright_engine::job::Stamp;
use mastwright_engine::quantity::{FieldError, UnitSystem, Units, format};
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};

use super::held::{Held, Table};
use super::places::{self, Orders, Places};
use super::registers::{Written, sayings};

/// A place where several writings stand side by side. The job shows one of them until somebody says which holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Conflict {
    pub place: String,
    /// What it is about: `Slope reading`, `Tree “Oak”: height`.
    pub about: String,
    /// What is to be decided: `One device took it out, another changed it. Is it still there?`
    pub asks: String,
    /// The last one first.
    pub sides: Vec<ConflictSide>,
    /// Which of the sides the job shows.
    pub shown: u32,
    /// Whether both can be kept, each as an item of its own.
    pub can_keep_both: bool,
}

/// What one device wrote.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ConflictSide {
    pub by: Stamp,
    /// What the device is called; empty where nobody said.
    pub device_name: String,
    /// It was taken out.
    pub is_gone: bool,
    /// What stands there, in the user's units: only where the sides differ.
    pub says: Vec<SaidValue>,
}

#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct SaidValue {
    pub label: String,
    pub value: String,
}

/// More lines than these nobody compares.
const MOST_LINES: usize = 40;

/// Every open conflict of a job, in the order of its places.
pub fn conflicts(held: &Held) -> Vec<Conflict> {
    let table = Table::of(held);
    let (there, orders) = held.apart();
    let units = units_of(held.job());
    table
        .places
        .iter()
        .filter(|(place, _)| places::is_in_what_is_there(place, &there))
        .filter_map(|(place, all)| {
            let sides = sides_of(place, all, &there, &table);
            let job = (held.job(), &orders);
            (sides.len() > 1).then(|| Conflict {
                asks: asks(place, &sides, all).to_owned(),
                ..conflict(place, &sides, &there, &table, job, units)
            })
        })
        .collect()
}

/// The different things that stand at a place. That a mark is gone, and still used by what another device measured from it,
/// is a conflict, too: nobody wrote the mark anew, but it is there, and who measured from it last says so.
pub(super) fn sides_of(place: &str, all: &[Written], there: &Places, table: &Table) -> Vec<Written> {
    let mut sides: Vec<Written> = sayings(all).into_iter().cloned().collect();
    if let [Written { by, is: None, .. }] = sides.as_slice()
        && let Some(mark) = places::mark_of(place)
        && there.contains_key(place)
    {
        let uses = measured_from(&mark, there, table);
        let by = uses.iter().map(|(_, by)| *by).max().unwrap_or(by).clone();
        sides.push(Written::new(&by, Some(places::there())));
    }
    sides
}

/// The places at which something is measured from a mark, each with who last wrote it.
fn measured_from<'a>(mark: &str, there: &'a Places, table: &'a Table) -> Vec<(&'a str, &'a Stamp)> {
    let starts = |place: &str, value: &Value| {
        let name = place.rsplit('/').next().unwrap_or_default();
        places::is_started_from(&json!({ name: value }), mark)
    };
    let using = there.iter().filter(|(place, value)| starts(place, value));
    using
        .filter_map(|(place, _)| {
            Some((place.as_str(), table.places.get(place)?.iter().map(Written::said_by).max()?))
        })
        .collect()
}

/// What there is to decide.
fn asks(place: &str, sides: &[Written], all: &[Written]) -> &'static str {
    if !sides.iter().any(|side| side.is.is_none()) {
        return "Two devices wrote different things. Which one holds?";
    }
    // Somebody wrote the mark anew, or only measured from it.
    if places::mark_of(place).is_some() && all.iter().all(|one| one.is.is_none()) {
        return "One device took the mark out, another measured from it. Is it still there?";
    }
    "One device took it out, another changed it. Is it still there?"
}

fn conflict(
    place: &str,
    sides: &[Written],
    there: &Places,
    table: &Table,
    job: (&Value, &Orders),
    units: Units,
) -> Conflict {
    let stands = there.get(place);
    let said: Vec<Vec<SaidValue>> = sides
        .iter()
        .map(|side| match &side.is {
            Some(_) if places::is_there_place(place) => what_for(place, side, there, table, job, units),
            is => lines(place, is.as_ref(), units),
        })
        .collect();
    let differs = |line: &SaidValue| said.iter().any(|lines| !lines.contains(line));
    let left: Vec<Vec<SaidValue>> =
        said.iter().map(|lines| lines.iter().filter(|line| differs(line)).cloned().collect()).collect();
    let left = if left.iter().all(Vec::is_empty) { said } else { left };
    let is_shown =
        |side: &Written| side.is.as_ref().zip(stands).is_some_and(|(is, stands)| places::same(is, stands));
    let shown = sides.iter().position(is_shown).unwrap_or(0);
    Conflict {
        place: place.to_owned(),
        about: about(place, sides, job),
        asks: String::new(),
        shown: u32::try_from(shown).unwrap_or(0),
        can_keep_both: can_keep_both(place, sides),
        sides: sides
            .iter()
            .zip(left)
            .map(|(side, says)| ConflictSide {
                by: side.said_by().clone(),
                device_name: table.name_of(&side.said_by().device).to_owned(),
                is_gone: side.is.is_none(),
                says,
            })
            .collect(),
    }
}

/// Why a thing or a mark is wanted: what the device wrote of it, and what it measured from it.
fn what_for(
    place: &str,
    side: &Written,
    there: &Places,
    table: &Table,
    job: (&Value, &Orders),
    units: Units,
) -> Vec<SaidValue> {
    let device = &side.said_by().device;
    let below = format!("{place}/");
    let mut said = Vec::new();
    for (field, all) in table.places.range(below.clone()..).take_while(|(at, _)| at.starts_with(&below)) {
        let name = field.rsplit('/').next().unwrap_or_default();
        let written = all.iter().find(|one| table.is_written(one) && &one.said_by().device == device);
        let is = written.and_then(|one| one.is.as_ref()).filter(|_| !places::is_of_kinds(field));
        if let Some(is) = is {
            match is {
                // A reading of several fields: each has a name of its own, and what was not read is none.
                Value::Object(members) => {
                    for (name, value) in members.iter().filter(|(_, value)| !value.is_null()) {
                        add_lines(name, &words(&format!("/{name}")), value, units, &mut said);
                    }
                }
                value => add_lines(name, &words(&format!("/{name}")), value, units, &mut said),
            }
        }
    }
    if let Some(mark) = places::mark_of(place) {
        let uses = measured_from(&mark, there, table);
        for (user, _) in uses.into_iter().filter(|(_, by)| &by.device == device) {
            said.push(SaidValue { label: "Measured from it".to_owned(), value: about(user, &[], job) });
        }
    }
    said.truncate(MOST_LINES);
    said
}

pub(super) fn can_keep_both(place: &str, sides: &[Written]) -> bool {
    places::is_item(place)
        && !places::is_there_place(place)
        && sides.iter().all(|side| side.is.is_some())
        && places::id_field(place) == Some("id")
}

fn units_of(job: &Value) -> Units {
    let units = job.get("units").and_then(|units| Units::deserialize(units).ok());
    units.unwrap_or(Units { system: UnitSystem::Metric, inch_fraction: 16 })
}

/// What a place is called.
fn about(place: &str, sides: &[Written], (job, orders): (&Value, &Orders)) -> String {
    let steps: Vec<&str> = place.split('/').skip(1).collect();
    let Some(at) = steps.iter().position(|step| step.starts_with('@')) else {
        return capital(&words(place));
    };
    let is_item = steps.len() == at + 1;
    let item = sides.iter().find_map(|side| side.is.as_ref()).filter(|is| is_item && is.is_object());
    let list = format!("/{}", steps[..at].join("/"));
    let id = places::unescaped(&steps[at][1..]);
    let item = item.or_else(|| {
        let items = job.pointer(&list)?.as_array()?;
        items.iter().find(|item| {
            ["id", "guy", "leg"].iter().any(|name| item.get(name).and_then(Value::as_str) == Some(&id))
        })
    });
    let name = item.and_then(|item| item.get("name")).and_then(Value::as_str).unwrap_or_default();
    let noun = noun(steps[at - 1]);
    // What has no id is known by where it stands.
    let number = orders.get(&list).filter(|_| list == places::KEYED);
    let number = number.and_then(|order| order.iter().position(|key| key == steps[at]));
    let id = number.map_or(id, |at| (at + 1).to_string());
    let shows_id = number.is_some() || matches!(steps[at - 1], "marks" | "anchors" | "legs");
    let mut said = if shows_id { format!("{noun} {id}") } else { noun.to_owned() };
    if !name.is_empty() {
        said.push_str(&format!(" “{name}”"));
    }
    // A thing's height lies under its kind.
    if let Some(field) = steps[at + 1..].last() {
        said.push_str(&format!(": {}", words(&format!("/{field}"))));
    }
    said
}

/// The same of a place of which one state of the job is looked at.
pub(super) fn about_place(place: &str, job: (&Value, &Orders)) -> String {
    about(place, &[], job)
}

/// What two states have at a place, in the units of one of them, as far as it differs.
pub(super) fn differing_lines(place: &str, values: [Option<&Value>; 2], job: &Value) -> [Vec<SaidValue>; 2] {
    let units = units_of(job);
    let [one, other] = values.map(|value| lines(place, value, units));
    let only = |these: &[SaidValue], those: &[SaidValue]| -> Vec<SaidValue> {
        these.iter().filter(|line| !those.contains(line)).cloned().collect()
    };
    [only(&one, &other), only(&other, &one)]
}

fn noun(list: &str) -> &'static str {
    match list {
        "marks" => "Mark",
        "measurements" => "Measurement between marks",
        "slopes" => "Slope reading",
        "spot_heights" => "Height of the ground",
        "obstacles" => "Thing in the yard",
        "overhead_lines" => "Overhead line",
        "buried_services" => "Buried service",
        "tubes" => "Tube",
        "guy_levels" => "Guys",
        "anchors" => "Anchor as built",
        "legs" => "Leg as built",
        "photos" => "Photo",
        "rounds" => "Round of the season",
        _ => "Entry",
    }
}

/// A pointer in words, as in errors: `rig › base › front reach`.
fn words(pointer: &str) -> String {
    FieldError::new(pointer, "", "").field
}

fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

fn lines(place: &str, value: Option<&Value>, units: Units) -> Vec<SaidValue> {
    let mut lines = Vec::new();
    if let Some(value) = value {
        let name = place.rsplit('/').next().unwrap_or_default();
        add_lines(name, "", value, units, &mut lines);
    }
    lines.truncate(MOST_LINES);
    lines
}

/// One line a value. `name` is its field, which says the unit; `label` what goes before it.
fn add_lines(name: &str, label: &str, value: &Value, units: Units, lines: &mut Vec<SaidValue>) {
    let mut add = |value: String| lines.push(SaidValue { label: capital(label), value });
    match value {
        Value::Null => add("not given".to_owned()),
        Value::Bool(true) => add("yes".to_owned()),
        Value::Bool(false) => add("no".to_owned()),
        Value::Number(number) => add(format::field(name, number.as_f64().unwrap_or(f64::NAN), units)),
        Value::String(text) if text.is_empty() => add("nothing".to_owned()),
        Value::String(text) => add(plain(name, text)),
        Value::Array(items) if items.is_empty() => add("none".to_owned()),
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                add_lines(name, &joined(label, &words(&format!("/{i}"))), item, units, lines);
            }
        }
        Value::Object(members) => {
            for (name, value) in
                members.iter().filter(|(name, _)| !matches!(name.as_str(), "id" | "guy" | "leg"))
            {
                add_lines(name, &joined(label, &words(&format!("/{name}"))), value, units, lines);
            }
        }
    }
}

fn joined(label: &str, more: &str) -> String {
    if label.is_empty() { more.to_owned() } else { format!("{label} › {more}") }
}

/// What a person wrote stays as it is; a choice of the document is a word with underscores.
fn plain(name: &str, text: &str) -> String {
    let is_written = matches!(name, "name" | "notes" | "reference" | "who");
    let is_choice =
        text.chars().all(|letter| letter.is_ascii_lowercase() || letter == '_' || letter.is_ascii_digit());
    if !is_written && is_choice { text.replace('_', " ") } else { text.to_owned() }
}
