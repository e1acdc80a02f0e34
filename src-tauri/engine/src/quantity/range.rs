//! The range of a field's number in words: in the document's unit, or in the user's own and round in it.

use serde_json::Value;

use super::convert::INCH_M;
use super::imperial::imperial;
use super::{UnitSystem, Units, format, split_unit};

/// The bounds that a schema sets on a number.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Range {
    pub least: Option<f64>,
    pub most: Option<f64>,
    pub above: Option<f64>,
    pub below: Option<f64>,
}

impl Range {
    pub fn of(schema: &Value) -> Self {
        let bound = |keyword: &str| schema.get(keyword).and_then(Value::as_f64);
        Self {
            least: bound("minimum"),
            most: bound("maximum"),
            above: bound("exclusiveMinimum"),
            below: bound("exclusiveMaximum"),
        }
    }

    pub fn contains(&self, number: f64) -> bool {
        self.least.is_none_or(|bound| number >= bound)
            && self.most.is_none_or(|bound| number <= bound)
            && self.above.is_none_or(|bound| number > bound)
            && self.below.is_none_or(|bound| number < bound)
    }

    /// In the document's unit: `a number from 0.1 to 12 metres`.
    pub fn of_document(&self, whole: bool, name: &str) -> String {
        let number = if whole { "a whole number" } else { "a number" };
        let words = format!("{number}{}", self.bounds(|bound, _| bound.to_string()));
        format!("{words} {}", unit_in_words(name)).trim_end().to_owned()
    }

    /// In the user's units alone, rounded to what is allowed: `from 4" to 39'`.
    pub fn of_user(&self, name: &str, units: Units) -> String {
        let said = |value: f64| match split_unit(name) {
            (stem, "_m") if !stem.contains("sigma") => format::round_length(value, units.system),
            _ => format::field(name, value, units),
        };
        let shown = self.bounds(|bound, end| said(inward(name, bound, end, units)));
        shown.trim_start().trim_start_matches("of ").to_owned()
    }

    fn bounds(&self, write: impl Fn(f64, End) -> String) -> String {
        use End::{Least, Most};
        match (self.least, self.most, self.above, self.below) {
            (Some(least), Some(most), ..) => {
                format!(" from {} to {}", write(least, Least), write(most, Most))
            }
            (_, _, Some(above), Some(below)) => {
                format!(" above {} and below {}", write(above, Least), write(below, Most))
            }
            (Some(least), ..) => format!(" of at least {}", write(least, Least)),
            (_, Some(most), ..) => format!(" of at most {}", write(most, Most)),
            (_, _, Some(above), _) => format!(" above {}", write(above, Least)),
            (_, _, _, Some(below)) => format!(" below {}", write(below, Most)),
            _ => String::new(),
        }
    }
}

/// Which end of a range.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Least,
    Most,
}

/// Whether a field's number is told in another unit than the document's to users of feet.
pub(crate) fn is_told_otherwise(name: &str, units: Units) -> bool {
    units.system == UnitSystem::Imperial && of_user_unit(name).is_some()
}

/// The user's own unit in the document's, for users of feet; lengths of any size by inches.
fn of_user_unit(name: &str) -> Option<f64> {
    match split_unit(name).1 {
        "_m" => Some(INCH_M),
        "_c" => Some(1.0 / 1.8),
        suffix => imperial(suffix).map(|(_, unit)| unit),
    }
}

/// The power of ten at or below a number, in which its first digit stands.
fn decade(size: f64) -> f64 {
    let mut at = 1.0;
    while at > size {
        at /= 10.0;
    }
    while at * 10.0 <= size {
        at *= 10.0;
    }
    at
}

/// The nearest round number of the user's within a bound: what is said to be allowed is.
fn inward(name: &str, bound: f64, end: End, units: Units) -> f64 {
    let Some(unit) = of_user_unit(name).filter(|_| units.system == UnitSystem::Imperial) else {
        return bound;
    };
    let freezing = if split_unit(name).1 == "_c" { 32.0 } else { 0.0 };
    let own = bound / unit + freezing;
    let is_length = ["_m", "_mm"].contains(&split_unit(name).1);
    let step = match own.abs() {
        size if size < 1e-12 => return bound,
        size if is_length && size < 0.5 => decade(size).min(1.0 / 16.0),
        size if is_length && size < 4.0 => 0.125,
        size if is_length && size < 120.0 => 1.0,
        _ if is_length => 12.0,
        _ if freezing > 0.0 => 1.0,
        // No finer than a force is shown.
        size if split_unit(name).1 == "_n" => (decade(size) / 10.0).max(0.1),
        size => decade(size) / 10.0,
    };
    let steps = own / step;
    let whole = if end == End::Least { (steps - 1e-9).ceil() } else { (steps + 1e-9).floor() };
    (whole * step - freezing) * unit
}

/// A range of a field in the user's own words.
pub fn allowed(name: &str, least: Option<f64>, most: Option<f64>, units: Units) -> String {
    let range = Range { least, most, ..Range::default() };
    if is_told_otherwise(name, units) { range.of_user(name, units) } else { range.of_document(false, name) }
}

/// The unit that a field's name states.
pub(crate) fn unit_in_words(name: &str) -> &'static str {
    match split_unit(name).1 {
        "_m" => "metres",
        "_mm" => "millimetres",
        "_deg" => "degrees",
        "_n" => "newtons",
        "_kg" => "kilograms",
        "_kv" => "kilovolts",
        "_volts" => "volts",
        "_amps" => "amperes",
        "_watts" => "watts",
        "_percent" => "per cent",
        "_g_per_m" => "grams a metre",
        "_mm_per_m" => "millimetres a metre",
        "_m_per_s" => "metres a second",
        "_nm" => "newton metres",
        "_mpa" => "megapascals",
        "_c" => "degrees Celsius",
        _ => "",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_range_is_told_in_one_unit_and_round_in_it() {
        let range = |least, most| Range { least: Some(least), most: Some(most), ..Range::default() };
        let imperial = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
        let told = |name: &str, least, most| range(least, most).of_user(name, imperial);
        assert_eq!(range(0.1, 12.0).of_document(false, "length_m"), "a number from 0.1 to 12 metres");
        // 0.1 m are 3.94 in, 12 m 39.37 ft.
        assert_eq!(told("length_m", 0.1, 12.0), "from 4\" to 39'");
        assert_eq!(told("height_m", -100.0, 100.0), "from −328' to 328'");
        // 50 kN are 11,240 lbf, 80 m/s are 178.95 mph, −60 °C are −76 °F.
        assert_eq!(told("tension_n", 0.0, 50_000.0), "from 0 lbf to 11000 lbf");
        assert_eq!(told("asked_gust_m_per_s", 1.0, 80.0), "from 2.3 mph to 170 mph");
        assert_eq!(told("temperature_c", -60.0, 60.0), "from −76 °F to 140 °F");
    }

    /// Whatever the bounds: what is told lies within them, and not far inside.
    #[test]
    fn what_is_told_as_allowed_is_allowed() {
        use crate::quantity::entry::read_quantity;
        let imperial = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
        let names = [
            "length_m",
            "wall_mm",
            "tension_n",
            "mass_kg",
            "mass_g_per_m",
            "asked_gust_m_per_s",
            "torque_nm",
        ];
        for name in names {
            for bound in [1.7, 12.0, 250.0, 1000.0, 44_000.0] {
                let read = |end: End| {
                    read_quantity(
                        name,
                        &format::field(name, inward(name, bound, end, imperial), imperial),
                        imperial,
                    )
                };
                let (least, most) = (read(End::Least).unwrap(), read(End::Most).unwrap());
                assert!(
                    least >= bound * (1.0 - 1e-6) && most <= bound * (1.0 + 1e-6),
                    "{name} {bound}: {least} {most}"
                );
            }
        }
    }
}
