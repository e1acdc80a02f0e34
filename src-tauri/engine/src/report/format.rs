//! Quantities in the words of the report and the drawings.

use crate::finding::Quantity;
use crate::quantity::bearing::wrap_360;
use crate::quantity::convert::{FOOT_M, INCH_M};
use crate::quantity::{UnitSystem, Units};

pub(crate) use crate::quantity::format::*;

/// A minus sign as wide as a plus.
fn minus(text: String) -> String {
    text.replace('-', "−")
}

/// Words as they begin a line.
pub(crate) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A bearing of a scale in few letters: the eight points of the compass by name.
pub(crate) fn bearing_mark(bearing_deg: u32) -> String {
    const POINTS: [&str; 8] = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];
    let point = POINTS.get(bearing_deg as usize / 45).filter(|_| bearing_deg.is_multiple_of(45));
    point.map_or_else(|| format!("{bearing_deg}°"), |point| (*point).to_owned())
}

/// A length to the centimetre or the inch, for labels where more would be noise.
pub(crate) fn length_short(value_m: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => {
            let text = format!("{value_m:.2}");
            minus(format!("{} m", trimmed(&text)))
        }
        UnitSystem::Imperial => round_length((value_m / INCH_M).round() * INCH_M, units.system),
    }
}

/// An area to whole square metres or square feet.
pub(crate) fn area(value_m2: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => format!("{value_m2:.0} m²"),
        UnitSystem::Imperial => format!("{:.0} sq ft", value_m2 / (FOOT_M * FOOT_M)),
    }
}

/// Where a point lies, as seen from the first mark.
pub(crate) fn place([east_m, north_m]: [f64; 2], units: Units) -> String {
    let way = |m: f64, plus: &str, minus: &str| {
        format!("{} {}", length_short(m.abs(), units), if m < 0.0 { minus } else { plus })
    };
    format!("{}, {} of the first mark", way(north_m, "north", "south"), way(east_m, "east", "west"))
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
    if text == length(0.0, units) {
        "level".into()
    } else if value_m > 0.0 {
        format!("{text} up")
    } else {
        format!("{text} down")
    }
}

/// The point of the compass nearest to a bearing.
pub(crate) fn compass_point(bearing_deg: f64) -> &'static str {
    const POINTS: [&str; 8] =
        ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];
    let eighth = (wrap_360(bearing_deg) / 45.0).round() as usize % 8;
    POINTS.get(eighth).copied().unwrap_or("north")
}

pub(crate) fn frequency(value_hz: f64) -> String {
    format!("{value_hz:.2} Hz")
}

/// `± …` for a length's half-width; nothing where it is not known.
pub(crate) fn length_interval(half_width_m: f64, units: Units) -> String {
    known(half_width_m).map_or_else(String::new, |value| interval(Quantity::LengthM { value }, units))
}

/// `± …` for an angle's half-width; nothing where it is not known.
pub(crate) fn angle_interval(half_width_deg: f64, units: Units) -> String {
    known(half_width_deg).map_or_else(String::new, |value| interval(Quantity::AngleDeg { value }, units))
}

fn known(half_width: f64) -> Option<f64> {
    (half_width.is_finite() && half_width > 0.0).then_some(half_width)
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    const IMPERIAL: Units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };

    #[test]
    fn points_of_the_compass() {
        assert_eq!(compass_point(224.6), "south-west");
        assert_eq!(compass_point(350.0), "north");
    }

    #[test]
    fn short_lengths_go_to_the_centimetre_or_the_inch() {
        assert_eq!(length_short(5.9, METRIC), "5.9 m");
        // 6 ft 1 in = 73 in = 1.8542 m exactly.
        assert_eq!(length_short(1.8542, IMPERIAL), "6' 1\"");
        assert_eq!(length_short(6.0 * 0.3048, IMPERIAL), "6'");
        assert_eq!(length_short(0.0, IMPERIAL), "0\"");
    }

    #[test]
    fn up_and_down_are_words() {
        assert_eq!(up_or_down(-0.42, METRIC), "420 mm down");
        assert_eq!(up_or_down(0.0, METRIC), "level");
        assert_eq!(height(-0.4, METRIC), "−0.40 m");
    }
}
