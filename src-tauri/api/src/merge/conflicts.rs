//! What two devices wrote without knowing of each other: put into words, and settled by somebody.

use mastwright_engine::job::Stamp;
use mastwright_engine::quantity::{FieldError, FieldErrors, UnitSystem, Units, format};
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::held::{Held, Table};
use super::places::{self, Orders};
use super::registers::{Written, sayings};

/// A place where several writings stand side by side. The job shows one of them until somebody says which holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Conflict {
    pub place: String,
    /// What it is about: `Slope reading`, `Tree “Oak”: height`.
    pub about: String,
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
            let sides = sides_of(place, all, &there);
            (sides.len() > 1)
                .then(|| conflict(place, &sides, there.get(place), &table, (held.job(), &orders), units))
        })
        .collect()
}

/// The different things that stand at a place. That a mark is gone, and still used by what another device measured from it,
/// is a conflict, too: nobody wrote the mark anew, but it is there.
fn sides_of(place: &str, all: &[Written], there: &places::Places) -> Vec<Written> {
    let mut sides: Vec<Written> = sayings(all).into_iter().cloned().collect();
    if let [Written { by, is: None }] = sides.as_slice()
        && places::mark_of(place).is_some()
        && there.contains_key(place)
    {
        sides.push(Written { by: Stamp { at_ms: 0, ..by.clone() }, is: Some(places::there()) });
    }
    sides
}

fn conflict(
    place: &str,
    sides: &[Written],
    stands: Option<&Value>,
    table: &Table,
    job: (&Value, &Orders),
    units: Units,
) -> Conflict {
    let said: Vec<Vec<SaidValue>> = sides.iter().map(|side| lines(place, side.is.as_ref(), units)).collect();
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
        shown: u32::try_from(shown).unwrap_or(0),
        can_keep_both: can_keep_both(place, sides),
        sides: sides
            .iter()
            .zip(left)
            .map(|(side, says)| ConflictSide {
                by: side.by.clone(),
                device_name: table.name_of(&side.by.device).to_owned(),
                is_gone: side.is.is_none(),
                says,
            })
            .collect(),
    }
}

fn can_keep_both(place: &str, sides: &[Written]) -> bool {
    places::is_item(place)
        && !places::is_there_place(place)
        && sides.iter().all(|side| side.is.is_some())
        && places::id_field(place) == Some("id")
}

/// Says which writing holds.
///
/// # Errors
/// Where there is no such conflict or side, or both can't be kept.
pub fn settle(held: &Held, place: &str, side: Option<u32>, by: &Stamp) -> Result<Held, FieldErrors> {
    let mut table = Table::of(held);
    let (there, _) = held.apart();
    let sides = table.places.get(place).map(|all| sides_of(place, all, &there)).unwrap_or_default();
    if sides.len() < 2 {
        return Err(FieldError::new("/place", format!("“{place}”"), "a place with an open conflict").into());
    }
    let by = held.next(by);
    match side {
        Some(side) => {
            let Some(chosen) = sides.get(side as usize) else {
                let allowed = format!("0 to {}", sides.len() - 1);
                return Err(FieldError::new("/side", side.to_string(), allowed).into());
            };
            table.write(place, chosen.is.clone(), &by);
        }
        None if can_keep_both(place, &sides) => keep_all(&mut table, place, &sides, &by),
        None => {
            return Err(
                FieldError::new("/side", "both", "one side: only items of a list can both be kept").into()
            );
        }
    }
    table.into_held()
}

/// The first stays where it is, each other becomes an item of its own behind the others.
fn keep_all(table: &mut Table, place: &str, sides: &[Written], by: &Stamp) {
    let Some((list, _)) = places::list_and_key(place) else { return };
    for (count, side) in sides.iter().enumerate() {
        let Some(value) = &side.is else { continue };
        if count == 0 {
            table.write(place, Some(value.clone()), by);
            continue;
        }
        let mut value = value.clone();
        let id = value.get("id").and_then(Value::as_str).unwrap_or_default();
        let stem: String = id.chars().take(12).collect();
        // Device and counter, as every id that is made (`ui/src/state/ids.ts`): the time of the settling counts.
        let id = format!(
            "{stem}-{}-{}{count}",
            by.device.chars().take(8).collect::<String>(),
            by.at_ms % 1_000_000_000
        );
        value["id"] = Value::from(id.as_str());
        let key = places::key_of(&id);
        table.write(&format!("{list}/{key}"), Some(value), by);
        table.append(list, key, by);
    }
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
    if let Some(value) = value.filter(|_| !places::is_there_place(place)) {
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
