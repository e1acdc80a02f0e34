//! Version 3 calls things by the words of the field: what a guy is made fast to is its `anchor`, how the anchors of a level
//! are placed its `anchor_layout`; an entry of the survey log has a `subject`, an `action` and a `value`.

use serde_json::{Value, json};

use super::{MINOR, Members, VERSION};

/// Additions to version 2 that version 3 holds from its beginning.
const HELD: u64 = 2;

const OF_A_LEVEL: [(&str, &str); 2] = [("holdfast", "anchor"), ("anchors", "anchor_layout")];

const OF_AN_ENTRY: [(&str, &str); 3] = [("about", "subject"), ("did", "action"), ("read", "value")];

pub(super) fn step(mut document: Members) -> Members {
    document.insert(VERSION.to_owned(), json!(3));
    // What was newer than all that this program knows of version 2 is newer than what it knows of version 3.
    let minor = document.get(MINOR).and_then(Value::as_f64).unwrap_or(0.0);
    document.insert(MINOR.to_owned(), json!((minor as u64).saturating_sub(HELD)));
    let levels = document.get_mut("rig").and_then(|rig| rig.get_mut("guy_levels"));
    rename_in_each(levels, &OF_A_LEVEL);
    rename_in_each(document.get_mut("log"), &OF_AN_ENTRY);
    let places = document.get_mut("mastwright_history").and_then(|history| history.get_mut("places"));
    for place in places.and_then(Value::as_array_mut).into_iter().flatten() {
        if let Some(Value::String(place)) = place.get_mut("place") {
            *place = renamed(place);
        }
    }
    document
}

fn rename_in_each(list: Option<&mut Value>, names: &[(&str, &str)]) {
    for item in list.and_then(Value::as_array_mut).into_iter().flatten() {
        let Some(members) = item.as_object_mut() else { continue };
        for (before, after) in names {
            if let Some(value) = members.remove(*before) {
                members.insert((*after).to_owned(), value);
            }
        }
    }
}

/// The place of a history with the field's new name: `/rig/guy_levels/@upper/holdfast`.
fn renamed(place: &str) -> String {
    let steps: Vec<&str> = place.split('/').collect();
    let new = match *steps.as_slice() {
        ["", "rig", "guy_levels", level, field] => {
            let name = OF_A_LEVEL.iter().find(|(before, _)| *before == field);
            name.map(|(_, after)| format!("/rig/guy_levels/{level}/{after}"))
        }
        _ => None,
    };
    new.unwrap_or_else(|| place.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn brought_up(document: Value) -> Value {
        Value::Object(step(document.as_object().cloned().unwrap_or_default()))
    }

    #[test]
    fn fields_keep_their_values_under_new_names() {
        let before = json!({
            "mastwright_job": 2, "mastwright_minor": 1, "anchors": "of nobody",
            "rig": { "guy_levels": [
                { "id": "a", "anchors": { "rule": "free", "anchors": [1, 2, 3] }, "holdfast": { "kind": "plate" } },
                { "id": "b" }, 7,
            ] },
            "as_built": { "anchors": [{ "guy": "a-1" }] },
            "log": [{ "number": 1, "about": { "kind": "mast" }, "did": "read", "read": { "kind": "turned" } }],
        });
        let after = json!({
            "mastwright_job": 3, "mastwright_minor": 0, "anchors": "of nobody",
            "rig": { "guy_levels": [
                { "id": "a", "anchor_layout": { "rule": "free", "anchors": [1, 2, 3] }, "anchor": { "kind": "plate" } },
                { "id": "b" }, 7,
            ] },
            "as_built": { "anchors": [{ "guy": "a-1" }] },
            "log": [{ "number": 1, "subject": { "kind": "mast" }, "action": "read", "value": { "kind": "turned" } }],
        });
        assert_eq!(brought_up(before), after);
    }

    #[test]
    fn places_of_a_history_go_along() {
        let place = |of: &str| json!({ "place": of, "written": [{ "json": "{\"holdfast\":1}" }] });
        let history = |of: &[&str]| {
            let places: Vec<Value> = of.iter().map(|of| place(of)).collect();
            json!({ "mastwright_history": { "places": places } })
        };
        let before =
            ["/rig/guy_levels/@a/holdfast", "/rig/guy_levels/@a/anchors", "/as_built/anchors/@a-1", "/notes"];
        let after = ["/rig/guy_levels/@a/anchor", "/rig/guy_levels/@a/anchor_layout", before[2], "/notes"];
        assert_eq!(brought_up(history(&before))["mastwright_history"], history(&after)["mastwright_history"]);
    }

    #[test]
    fn fields_that_were_newer_stay_so() {
        for (minor, after) in [(json!(2), 0), (json!(7), 5), (json!(null), 0), (json!("x"), 0)] {
            let up = brought_up(json!({ "mastwright_job": 2, "mastwright_minor": minor }));
            assert_eq!(up["mastwright_minor"], json!(after));
        }
    }
}
