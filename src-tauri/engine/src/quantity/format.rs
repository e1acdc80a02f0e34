//! Shows a quantity in the unit and fraction of the user.
//!
//! A computed number is shown to what can be marked on a tape or read on a level (`length`, `angle`); a number
//! that the user entered is shown fine enough to be recognised as typed (`field`).

use super::bearing::wrap_360;
use super::convert::{
    FOOT_POUND_FORCE_NM, INCH_M, INCH_MM, INCH_PER_100_FEET_MM_PER_M, KSI_MPA, MILE_PER_HOUR_M_PER_S,
    POUND_FORCE_N, POUND_KG, POUND_PER_100_FEET_G_PER_M,
};
use super::{UnitSystem, Units, split_unit};
use crate::finding::Quantity;

const NOT_A_NUMBER: &str = "not known";
/// Beyond this nothing in a yard is measured, and whole millimetres no longer fit the arithmetic.
const LARGEST_SHOWN: f64 = 1e9;

/// A length: `1.850 m` or `178 mm`; `6' 1 1/4"` or `3/4"`.
///
/// # Accuracy
/// The nearest millimetre, or the nearest mark of the user's tape (1/16, 1/8 or 1/4 inch).
pub fn length(value_m: f64, units: Units) -> String {
    if let Some(odd) = odd(value_m, "m") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric => metric_length((value_m.abs() * 1000.0).round(), value_m < 0.0),
        UnitSystem::Imperial => {
            feet_and_inches((value_m.abs() / INCH_M * fraction(units)).round(), value_m < 0.0, units)
        }
    }
}

/// A small length, such as a tube's wall or a timber's width: `48.3 mm`; `1 1/2"`, or `1.315"` where no mark of
/// the tape comes within 0.05 mm.
pub fn length_small(value_mm: f64, units: Units) -> String {
    if let Some(odd) = odd(value_mm, "mm") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric => format!("{} mm", trimmed(value_mm, 2)),
        UnitSystem::Imperial => {
            let marks = (value_mm.abs() / INCH_MM * fraction(units)).round();
            if (marks / fraction(units) * INCH_MM - value_mm.abs()).abs() < 0.05 {
                inches(marks, value_mm < 0.0, units)
            } else {
                format!("{}\"", trimmed(value_mm / INCH_MM, 3))
            }
        }
    }
}

/// A round length as it is said in a sentence: `75 mm`, `0.9 m`; `3"`, `3'`, `3' 7"`.
pub fn round_length(value_m: f64, system: UnitSystem) -> String {
    if let Some(odd) = odd(value_m, "m") {
        return odd;
    }
    match system {
        UnitSystem::Metric if value_m.abs() < 0.0995 => format!("{} mm", trimmed(value_m * 1000.0, 1)),
        UnitSystem::Metric => format!("{} m", trimmed(value_m, 2)),
        UnitSystem::Imperial => {
            let text = length(value_m, Units { system, inch_fraction: 16 });
            // Whole feet as they are spoken of: 6', not 6' 0".
            text.strip_suffix("' 0\"").map_or(text.clone(), |feet| format!("{feet}'"))
        }
    }
}

/// An angle to a tenth of a degree: `7.0°`.
pub fn angle(value_deg: f64) -> String {
    odd(value_deg, "°").unwrap_or_else(|| format!("{}°", fixed(value_deg, 1)))
}

/// A bearing to a tenth of a degree, three figures before the point as a compass has them: `045.0°`.
pub fn bearing(value_deg: f64) -> String {
    if let Some(odd) = odd(value_deg, "°") {
        return odd;
    }
    // 359.96° rounds to north, not to 360.0°.
    let tenths = (wrap_360(value_deg) * 10.0).round() % 3600.0;
    format!("{:05.1}°", tenths / 10.0)
}

/// A force: `250 N`, `1.5 kN`; `56.2 lbf`.
pub fn force(value_n: f64, units: Units) -> String {
    if let Some(odd) = odd(value_n, "N") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric if value_n.abs() < 999.5 => format!("{} N", trimmed(value_n, 0)),
        UnitSystem::Metric => format!("{} kN", trimmed(value_n / 1000.0, 3)),
        UnitSystem::Imperial => format!("{} lbf", trimmed(value_n / POUND_FORCE_N, 1)),
    }
}

/// A voltage: `230 V`, `11 kV`.
pub fn voltage(value_kv: f64) -> String {
    if let Some(odd) = odd(value_kv, "kV") {
        return odd;
    }
    if value_kv.abs() < 0.9995 {
        format!("{} V", trimmed(value_kv * 1000.0, 0))
    } else {
        format!("{} kV", trimmed(value_kv, 3))
    }
}

/// Of a circuit: `120 V`, `2.4 V`.
pub fn volts(value: f64) -> String {
    odd(value, "V").unwrap_or_else(|| format!("{} V", trimmed(value, 1)))
}

/// `7.5 A`, `350 mA`.
pub fn amps(value: f64) -> String {
    if let Some(odd) = odd(value, "A") {
        return odd;
    }
    if value != 0.0 && value.abs() < 0.9995 {
        format!("{} mA", trimmed(value * 1000.0, 0))
    } else {
        format!("{} A", trimmed(value, 2))
    }
}

/// `420 W`, `4.8 W`.
pub fn watts(value: f64) -> String {
    odd(value, "W").unwrap_or_else(|| format!("{} W", trimmed(value, 1)))
}

/// A mass: `12.3 kg`; `27.1 lb`.
pub fn mass(value_kg: f64, units: Units) -> String {
    if let Some(odd) = odd(value_kg, "kg") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric => format!("{} kg", trimmed(value_kg, 1)),
        UnitSystem::Imperial => format!("{} lb", trimmed(value_kg / POUND_KG, 1)),
    }
}

/// A speed: `15 m/s`; `33.6 mph`.
pub fn speed(value_m_per_s: f64, units: Units) -> String {
    if let Some(odd) = odd(value_m_per_s, "m/s") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric => format!("{} m/s", trimmed(value_m_per_s, 2)),
        UnitSystem::Imperial => format!("{} mph", trimmed(value_m_per_s / MILE_PER_HOUR_M_PER_S, 1)),
    }
}

/// A speed that must not be shown higher than it is: the whole mile an hour or half metre a second below.
pub fn speed_rounded_down(value_m_per_s: f64, units: Units) -> String {
    let step = match units.system {
        UnitSystem::Metric => 0.5,
        UnitSystem::Imperial => MILE_PER_HOUR_M_PER_S,
    };
    speed((value_m_per_s / step + 1e-9).floor() * step, units)
}

/// A turning moment: `80 Nm`; `59 ft-lb`.
pub fn torque(value_nm: f64, units: Units) -> String {
    if let Some(odd) = odd(value_nm, "Nm") {
        return odd;
    }
    match units.system {
        UnitSystem::Metric => format!("{} Nm", trimmed(value_nm, 1)),
        UnitSystem::Imperial => format!("{} ft-lb", trimmed(value_nm / FOOT_POUND_FORCE_NM, 1)),
    }
}

/// A number of a finding, in the user's unit.
pub fn quantity(value: Quantity, units: Units) -> String {
    match value {
        Quantity::LengthM { value } => length(value, units),
        Quantity::AngleDeg { value } => angle(value),
        Quantity::ForceN { value } => force(value, units),
        Quantity::VoltageKv { value } => voltage(value),
        Quantity::SpeedMPerS { value } => speed(value, units),
        Quantity::Ratio { value } => odd(value, "").unwrap_or_else(|| trimmed(value, 2)),
    }
}

/// The half-width of a 95 % interval: `± 6 mm`; rounded up, so that an interval is never shown narrower than it is.
pub fn interval(half_width: Quantity, units: Units) -> String {
    let up = |value: f64, step: f64| {
        // A value that lies on a step but for rounding errors stays there.
        let steps = value.abs() / step;
        if (steps - steps.round()).abs() < 1e-9 { steps.round() * step } else { steps.ceil() * step }
    };
    let length_step = match units.system {
        UnitSystem::Metric => 0.001,
        UnitSystem::Imperial => INCH_M / fraction(units),
    };
    let rounded = match half_width {
        Quantity::LengthM { value } => Quantity::LengthM { value: up(value, length_step) },
        Quantity::AngleDeg { value } => Quantity::AngleDeg { value: up(value, 0.1) },
        Quantity::ForceN { value } => Quantity::ForceN { value: up(value, 1.0) },
        other => other,
    };
    format!("± {}", quantity(rounded, units))
}

/// A number of the job as the user would write it; the field's unit suffix says what it is.
///
/// # Accuracy
/// Lengths to the millimetre or the mark of the tape; angles to 0.001°; `read_quantity` of the text gives the
/// number back to that.
pub fn field(name: &str, value: f64, units: Units) -> String {
    let (stem, suffix) = split_unit(name);
    if let Some(odd) = odd(value, "") {
        return odd;
    }
    match suffix {
        "_m" if stem.contains("sigma") => sigma_length(value, units),
        "_m" => length(value, units),
        "_mm" => length_small(value, units),
        "_deg" if stem.contains("bearing") && !stem.contains("sigma") => padded_bearing(value),
        "_deg" => format!("{}°", trimmed(value, finest(value, 3))),
        "_n" => force(value, units),
        "_kv" => voltage(value),
        "_volts" => format!("{} V", trimmed(value, finest(value, 3))),
        "_amps" => format!("{} A", trimmed(value, finest(value, 3))),
        "_watts" => format!("{} W", trimmed(value, finest(value, 3))),
        "_kg" => mass(value, units),
        "_percent" => format!("{} %", trimmed(value, 3)),
        "_g_per_m" => match units.system {
            UnitSystem::Metric => format!("{} g/m", trimmed(value, 1)),
            UnitSystem::Imperial => format!("{} lb/100 ft", trimmed(value / POUND_PER_100_FEET_G_PER_M, 3)),
        },
        "_mm_per_m" if units.system == UnitSystem::Imperial => {
            format!("{} in/100 ft", trimmed(value / INCH_PER_100_FEET_MM_PER_M, 3))
        }
        "_mm_per_m" => format!("{} mm/m", trimmed(value, 3)),
        "_m_per_s" => speed(value, units),
        "_nm" => torque(value, units),
        "_mpa" if units.system == UnitSystem::Imperial => format!("{} ksi", trimmed(value / KSI_MPA, 2)),
        "_mpa" => format!("{} MPa", trimmed(value, 1)),
        "_c" if units.system == UnitSystem::Imperial => format!("{} °F", trimmed(32.0 + 1.8 * value, 1)),
        "_c" => format!("{} °C", trimmed(value, 1)),
        _ => trimmed(value, 6),
    }
}

/// What to write for a number that is none, or beyond anything real.
fn odd(value: f64, unit: &str) -> Option<String> {
    if !value.is_finite() {
        return Some(NOT_A_NUMBER.to_owned());
    }
    (value.abs() > LARGEST_SHOWN).then(|| format!("{value:e} {unit}").trim_end().to_owned())
}

fn metric_length(millimetres: f64, negative: bool) -> String {
    let sign = minus(negative && millimetres > 0.0);
    if millimetres < 1000.0 {
        format!("{sign}{millimetres} mm")
    } else {
        format!("{sign}{:.3} m", millimetres / 1000.0)
    }
}

/// A length of so many marks of the tape: feet where there are any, then inches.
fn feet_and_inches(marks: f64, negative: bool, units: Units) -> String {
    let marks_a_foot = 12.0 * fraction(units);
    let feet = (marks / marks_a_foot).floor();
    if feet == 0.0 {
        return inches(marks, negative, units);
    }
    let rest = marks - feet * marks_a_foot;
    // `8' 0 1/2"` rather than `8' 1/2"`: a naught where the inches stand is not mistaken for a slip.
    let naught = if rest > 0.0 && rest < fraction(units) { "0 " } else { "" };
    format!("{}{feet}' {naught}{}", minus(negative), inches(rest, false, units))
}

fn inches(marks: f64, negative: bool, units: Units) -> String {
    let sign = minus(negative && marks > 0.0);
    let whole = (marks / fraction(units)).floor();
    let (mut over, mut under) = (marks - whole * fraction(units), fraction(units));
    while over > 0.0 && over % 2.0 == 0.0 && under % 2.0 == 0.0 {
        (over, under) = (over / 2.0, under / 2.0);
    }
    match (whole == 0.0, over == 0.0) {
        (_, true) => format!("{sign}{whole}\""),
        (true, false) => format!("{sign}{over}/{under}\""),
        (false, false) => format!("{sign}{whole} {over}/{under}\""),
    }
}

/// An uncertainty, as a neighbour would say it: an eighth of an inch and more in sixteenths, below that one digit.
/// Nobody knows an uncertainty better than that.
fn sigma_length(value_m: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric if value_m.abs() < 0.9995 => format!("{} mm", trimmed(value_m * 1000.0, 2)),
        UnitSystem::Metric => format!("{} m", trimmed(value_m, 4)),
        UnitSystem::Imperial => {
            let sixteenths = Units { inch_fraction: 16, ..units };
            let marks = (value_m.abs() / INCH_M * 16.0).round();
            if marks >= 2.0 {
                return feet_and_inches(marks, value_m < 0.0, sixteenths);
            }
            let inches = value_m / INCH_M;
            let steps = [(1, 10.0), (2, 100.0), (3, 1000.0), (4, 10_000.0)];
            let digit = steps.into_iter().find(|(_, scale)| (inches.abs() * scale).round() >= 1.0);
            format!("{}\"", trimmed(inches, digit.map_or(4, |(decimals, _)| decimals)))
        }
    }
}

fn padded_bearing(value_deg: f64) -> String {
    let text = trimmed(value_deg, 3);
    let whole = text.find('.').unwrap_or(text.len());
    let zeros = if value_deg < 0.0 { "" } else { "000".get(whole.min(3)..).unwrap_or("") };
    format!("{zeros}{text}°")
}

/// Decimals for an entered angle: a place on Earth keeps its metres (1e-5° is about a metre).
fn finest(value: f64, usual: usize) -> usize {
    let rounded = (value * 1000.0).round() / 1000.0;
    if (rounded - value).abs() > 1e-9 { 6 } else { usual }
}

fn fraction(units: Units) -> f64 {
    f64::from(units.inch_fraction.max(1))
}

fn minus(negative: bool) -> &'static str {
    if negative { "−" } else { "" }
}

/// With so many decimals, and no minus sign before a zero.
fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{:.decimals$}", value.abs());
    let zero = text.bytes().all(|byte| byte == b'0' || byte == b'.');
    format!("{}{text}", minus(value < 0.0 && !zero))
}

/// With at most so many decimals, trailing zeros left out.
fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    const SIXTEENTHS: Units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
    const QUARTERS: Units = Units { system: UnitSystem::Imperial, inch_fraction: 4 };

    #[test]
    fn metric_lengths() {
        let check = |value_m: f64, expected: &str| assert_eq!(length(value_m, METRIC), expected);
        check(1.85, "1.850 m");
        check(0.1785, "179 mm");
        check(0.9996, "1.000 m");
        check(0.0, "0 mm");
        check(-0.0001, "0 mm");
        check(-1.5, "−1.500 m");
        check(f64::NAN, "not known");
        check(1e308, "1e308 m");
    }

    #[test]
    fn imperial_lengths_reduce_and_carry() {
        let check = |inches: f64, expected: &str| assert_eq!(length(inches * INCH_M, SIXTEENTHS), expected);
        check(73.25, "6' 1 1/4\"");
        check(0.75, "3/4\"");
        check(11.0 + 63.0 / 64.0, "1' 0\"");
        check(96.5, "8' 0 1/2\"");
        check(0.0, "0\"");
        check(-0.01, "0\"");
        check(-18.0, "−1' 6\"");
        check(7.0 + 1.0 / 16.0, "7 1/16\"");
        assert_eq!(length(7.1 * INCH_M, QUARTERS), "7\"");
    }

    #[test]
    fn round_lengths_are_said_as_people_say_them() {
        let said = |metres: f64| {
            [UnitSystem::Metric, UnitSystem::Imperial].map(|system| round_length(metres, system))
        };
        assert_eq!(said(0.075)[0], "75 mm");
        assert_eq!(said(0.92)[0], "0.92 m");
        assert_eq!(said(1.5)[0], "1.5 m");
        assert_eq!(said(0.9144)[1], "3'");
        assert_eq!(said(0.0381)[1], "1 1/2\"");
        assert_eq!(said(43.0 * 0.0254)[1], "3' 7\"");
    }

    #[test]
    fn small_lengths() {
        assert_eq!(length_small(48.3, METRIC), "48.3 mm");
        assert_eq!(length_small(38.1, SIXTEENTHS), "1 1/2\"");
        assert_eq!(length_small(33.401, SIXTEENTHS), "1.315\"");
    }

    #[test]
    fn other_quantities() {
        assert_eq!(bearing(45.0), "045.0°");
        assert_eq!(bearing(359.96), "000.0°");
        assert_eq!(angle(-7.04), "−7.0°");
        assert_eq!(angle(-0.01), "0.0°");
        assert_eq!(force(100.0, SIXTEENTHS), "22.5 lbf");
        assert_eq!(force(1500.0, METRIC), "1.5 kN");
        assert_eq!(voltage(0.4), "400 V");
        assert_eq!(voltage(11.0), "11 kV");
        assert_eq!(mass(12.34, METRIC), "12.3 kg");
        assert_eq!(interval(Quantity::LengthM { value: 0.0051 }, METRIC), "± 6 mm");
        assert_eq!(interval(Quantity::LengthM { value: 0.005 }, METRIC), "± 5 mm");
        assert_eq!(interval(Quantity::LengthM { value: 0.0001 }, SIXTEENTHS), "± 1/16\"");
    }

    #[test]
    fn entered_numbers_are_recognised() {
        let check = |name: &str, value: f64, expected: &str| assert_eq!(field(name, value, METRIC), expected);
        check("bearing_deg", 45.5, "045.5°");
        check("bearing_deg", 225.0, "225°");
        check("front_bearing_deg", 0.0, "000°");
        check("slope_deg", -7.25, "−7.25°");
        check("latitude_deg", 47.123456, "47.123456°");
        check("tape_sigma_m", 0.0005, "0.5 mm");
        check("tape_sigma_mm_per_m", 1.0, "1 mm/m");
        check("asked_gust_m_per_s", 15.0, "15 m/s");
        check("torque_nm", 80.0, "80 Nm");
        check("yield_mpa", 205.0, "205 MPa");
        check("temperature_c", -5.0, "−5 °C");
        assert_eq!(field("asked_gust_m_per_s", 15.6464, SIXTEENTHS), "35 mph");
        assert_eq!(field("temperature_c", -5.0, SIXTEENTHS), "23 °F");
        assert_eq!(speed_rounded_down(24.99, METRIC), "24.5 m/s");
        assert_eq!(speed_rounded_down(15.6464, SIXTEENTHS), "35 mph");
        assert_eq!(speed_rounded_down(15.6, SIXTEENTHS), "34 mph");
        check("count", 24.0, "24");
        let sigma = |value_m: f64| field("tape_sigma_m", value_m, QUARTERS);
        assert_eq!(
            (sigma(0.01), sigma(0.0254), sigma(0.001)),
            ("3/8\"".into(), "1\"".into(), "0.04\"".into())
        );
        assert_eq!(sigma(0.25), "9 13/16\"");
        assert_eq!(field("mass_g_per_m", 25.0, SIXTEENTHS), "1.68 lb/100 ft");
        // 1 mm in a metre is a thousandth: 0.1 ft in 100 ft, which are 1.2 in.
        assert_eq!(field("tape_sigma_mm_per_m", 1.0, SIXTEENTHS), "1.2 in/100 ft");
    }
}
