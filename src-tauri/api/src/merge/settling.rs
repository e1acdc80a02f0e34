//! What somebody says of a conflict, and how they take it back.

use mastwright_engine::job::Stamp;
use mastwright_engine::quantity::{FieldError, FieldErrors};
use serde_json::Value;

use super::conflicts::{can_keep_both, sides_of};
use super::held::{Held, Table};
use super::places;
use super::registers::Written;

/// Says which writing of a conflict holds.
///
/// # Errors
/// Where there is no such conflict or side, or both can't be kept.
pub fn settle(held: &Held, place: &str, side: Option<u32>, by: &Stamp) -> Result<Held, FieldErrors> {
    let mut table = Table::of(held);
    let (there, _) = held.apart();
    let sides = table.places.get(place).map(|all| sides_of(place, all, &there, &table)).unwrap_or_default();
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

/// Takes back what was said of a conflict: what was overwritten by that stands side by side again, as it did `before`, and is
/// asked about again on every device. Each writing is put back with who had written it first. What was written there since by
/// anybody stays.
///
/// # Errors
/// Where nothing of what was said then stands any more.
pub fn reopen(held: &Held, before: &Held, said: &Stamp, by: &Stamp) -> Result<Held, FieldErrors> {
    let (mut table, was) = (Table::of(held), Table::of(before));
    let by = held.next(by);
    let is_said = |all: &[Written]| matches!(all, [one] if one.by == *said);
    let said_there: Vec<String> =
        table.places.iter().filter(|(_, all)| is_said(all)).map(|(place, _)| place.clone()).collect();
    if said_there.is_empty() {
        let allowed = "an answer that nobody wrote over since";
        return Err(FieldError::new("/said", said.at_ms.to_string(), allowed).into());
    }
    for place in said_there {
        if let Some((list, _)) = places::list_and_key(&place) {
            table.put_back_in_order(&was, list, &by);
        }
        match was.places.get(&place) {
            Some(all) => table.write_all(&place, all.iter().map(|one| one.again(&by)).collect(), &by),
            // It was made of the second of two that were both kept.
            None => table.write(&place, None, &by),
        }
    }
    table.into_held_showing(&before.apart().0)
}
