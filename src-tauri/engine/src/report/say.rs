//! Quantities in the words of the report and the drawings.

use crate::finding::Quantity;
use crate::job::{UnitSystem, Units};
use crate::quantity::bearing::wrap_360;

/// Source: international foot and pound, 0.3048 m and 0.45359237 kg exactly (1959 agreement).
const M_PER_IN: f64 = 0.0254;
const KG_PER_LB: f64 = 0.453_592_37;
/// Pound-force: the pound at standard gravity 9.806 65 m/s² (ISO 80000-3:2019).
const N_PER_LBF: f64 = KG_PER_LB * 9.806_65;

/// A minus sign as wide as a plus.
fn minus(text: String) -> String {
    text.replace('-', "−")
}

/// A length as read on the user's tape.
pub(crate) fn length(value_m: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric if value_m.abs() < 0.9995 => minus(format!("{:.0} mm", value_m * 1000.0 + 0.0)),
        UnitSystem::Metric => minus(format!("{value_m:.3} m")),
        UnitSystem::Imperial => imperial(value_m, units.inch_fraction),
    }
}

fn imperial(value_m: f64, fraction: u8) -> String {
    let parts = i64::from(fraction.max(1));
    let total = (value_m.abs() / M_PER_IN * parts as f64).round() as i64;
    let sign = if value_m < 0.0 && total > 0 { "−" } else { "" };
    let (feet, inches, over) = (total / (12 * parts), total / parts % 12, total % parts);
    let feet_words = if feet > 0 { format!("{feet}' ") } else { String::new() };
    let divisor = gcd(over, parts);
    let over_words =
        if over > 0 { format!(" {}/{}", over / divisor, parts / divisor) } else { String::new() };
    format!("{sign}{feet_words}{inches}{over_words}\"")
}

fn gcd(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { gcd(b, a % b) }
}

/// A length to the centimetre or the inch, for labels where more would be noise.
pub(crate) fn length_short(value_m: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => {
            let text = format!("{value_m:.2}");
            minus(format!("{} m", trimmed(&text)))
        }
        UnitSystem::Imperial => imperial(value_m, 1),
    }
}

fn trimmed(text: &str) -> &str {
    text.trim_end_matches('0').trim_end_matches('.')
}

/// A height above the origin, with its sign.
pub(crate) fn height(value_m: f64, units: Units) -> String {
    let near_zero = value_m.abs() < 5e-4;
    let sign = if near_zero || value_m < 0.0 { "" } else { "+" };
    let value_m = if near_zero { 0.0 } else { value_m };
    match units.system {
        UnitSystem::Metric => minus(format!("{sign}{value_m:.2} m")),
        UnitSystem::Imperial => format!("{sign}{}", length(value_m, units)),
    }
}

/// A difference of heights in words: up or down.
pub(crate) fn up_or_down(value_m: f64, units: Units) -> String {
    let text = length(value_m.abs(), units);
    if value_m.abs() < 5e-4 {
        "level".into()
    } else if value_m > 0.0 {
        format!("{text} up")
    } else {
        format!("{text} down")
    }
}

/// A bearing to the nearest half degree: finer than a hand compass reads.
pub(crate) fn bearing(bearing_deg: f64) -> String {
    let half = (wrap_360(bearing_deg) * 2.0).round() / 2.0 % 360.0;
    format!("{}°", trimmed(&format!("{half:.1}")).trim_start_matches('-'))
}

/// An angle to a tenth of a degree.
pub(crate) fn angle(angle_deg: f64) -> String {
    let tenths = (angle_deg * 10.0).round() / 10.0 + 0.0;
    minus(format!("{tenths:.1}°"))
}

/// The point of the compass nearest to a bearing.
pub(crate) fn compass_point(bearing_deg: f64) -> &'static str {
    const POINTS: [&str; 8] =
        ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
    let eighth = (wrap_360(bearing_deg) / 45.0).round() as usize % 8;
    POINTS.get(eighth).copied().unwrap_or("north")
}

/// A force to three figures.
pub(crate) fn force(value_n: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric if value_n.abs() >= 10_000.0 => minus(format!("{:.1} kN", value_n / 1000.0)),
        UnitSystem::Metric => minus(format!("{value_n:.0} N")),
        UnitSystem::Imperial => minus(format!("{:.0} lbf", value_n / N_PER_LBF)),
    }
}

pub(crate) fn mass(value_kg: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => format!("{value_kg:.1} kg"),
        UnitSystem::Imperial => format!("{:.1} lb", value_kg / KG_PER_LB),
    }
}

pub(crate) fn voltage(value_kv: f64) -> String {
    if value_kv < 1.0 {
        format!("{:.0} V", value_kv * 1000.0)
    } else {
        format!("{} kV", trimmed(&format!("{value_kv:.1}")))
    }
}

pub(crate) fn frequency(value_hz: f64) -> String {
    format!("{value_hz:.2} Hz")
}

/// A number of a finding in the user's unit.
pub(crate) fn quantity(quantity: &Quantity, units: Units) -> String {
    match *quantity {
        Quantity::LengthM { value } => length(value, units),
        Quantity::AngleDeg { value } => angle(value),
        Quantity::ForceN { value } => force(value, units),
        Quantity::VoltageKv { value } => voltage(value),
        Quantity::Ratio { value } => minus(format!("{value:.2}")),
    }
}

/// `±` and a half-width; nothing where it is not known or not worth showing.
pub(crate) fn plus_minus(half_width: f64, show: impl Fn(f64) -> String) -> String {
    if half_width.is_finite() && half_width > 0.0 {
        format!("± {}", show(half_width))
    } else {
        String::new()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    const IMPERIAL: Units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };

    #[test]
    fn lengths_read_as_on_a_tape() {
        assert_eq!(length(0.178, METRIC), "178 mm");
        assert_eq!(length(2.5, METRIC), "2.500 m");
        // 7 1/16 in = 179.3875 mm exactly.
        assert_eq!(length(0.179_387_5, IMPERIAL), "7 1/16\"");
        assert_eq!(length(2.54, IMPERIAL), "8' 4\"");
    }

    #[test]
    fn bearings_stay_below_360() {
        assert_eq!(bearing(359.9), "0°");
        assert_eq!(bearing(224.6), "224.5°");
        assert_eq!(compass_point(224.6), "south-west");
        assert_eq!(compass_point(350.0), "north");
    }

    #[test]
    fn up_and_down_are_words() {
        assert_eq!(up_or_down(-0.42, METRIC), "420 mm down");
        assert_eq!(up_or_down(0.0, METRIC), "level");
        assert_eq!(height(-0.4, METRIC), "−0.40 m");
    }
}
