//! Numbers with their names, in the user's own unit: the name's suffix says which.

use serde_json::{Map, Value};

use crate::quantity::imperial::imperial;
use crate::quantity::{UnitSystem, Units, split_unit};

/// A name as it stands over the user's numbers: `east_m` is `east_ft` to users of feet.
pub(super) fn name(name: &str, units: Units) -> String {
    let (stem, suffix) = split_unit(name);
    match imperial(suffix).filter(|_| units.system == UnitSystem::Imperial) {
        Some((own, _)) => format!("{stem}{own}"),
        None => name.to_owned(),
    }
}

/// A number of a field in the unit that [`name`] says.
pub(super) fn number(field: &str, value: f64, units: Units) -> f64 {
    let own = imperial(split_unit(field).1).filter(|_| units.system == UnitSystem::Imperial);
    own.map_or(value, |(_, unit)| value / unit)
}

/// A JSON value with every name and number in it in the user's units; a number to a millionth of its unit.
pub(super) fn json(value: Value, units: Units) -> Value {
    if units.system == UnitSystem::Metric { value } else { within("", value, units) }
}

fn within(field: &str, value: Value, units: Units) -> Value {
    match value {
        Value::Number(ref of) => match (imperial(split_unit(field).1), of.as_f64()) {
            (Some((_, unit)), Some(number)) => Value::from((number / unit * 1e6).round() / 1e6),
            _ => value,
        },
        Value::Array(items) => items.into_iter().map(|item| within(field, item, units)).collect(),
        Value::Object(members) => Value::Object(
            members
                .into_iter()
                .map(|(member, item)| (name(&member, units), within(&member, item, units)))
                .collect::<Map<_, _>>(),
        ),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    /// 12 ft 6 in typed by a user of feet are 3.81 m in the job, and 12.5 ft again in the table.
    #[test]
    fn what_was_typed_in_feet_comes_out_in_feet() {
        let units = |system| Units { system, inch_fraction: 16 };
        let read =
            json!({ "kind": "point", "at": { "tape_m": 3.81, "bearing_deg": 45.0, "lengths_m": [0.3048] } });
        let feet =
            json!({ "kind": "point", "at": { "tape_ft": 12.5, "bearing_deg": 45.0, "lengths_ft": [1.0] } });
        assert_eq!(super::json(read.clone(), units(UnitSystem::Imperial)), feet);
        assert_eq!(super::json(read.clone(), units(UnitSystem::Metric)), read);
        assert_eq!(name("semi_major_95_m", units(UnitSystem::Imperial)), "semi_major_95_ft");
    }
}
