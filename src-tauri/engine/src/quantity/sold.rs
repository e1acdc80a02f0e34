//! Sizes as shops sell them, and lengths as the bench sets them: what nobody can read off a tape or buy is never shown as a decimal
//! of an inch. What a calliper reads keeps its decimals ([`super::format::length_small`]).

use super::convert::INCH_MM;
use super::format::{length, length_small};
use super::{UnitSystem, Units};

/// Steps of twist drills: 0.5 mm, 1/64 in (sets as they are sold; common practice).
const DRILL_MM: [f64; 2] = [0.5, INCH_MM / 64.0];
/// Steps of the lengths of bolts and pins: 5 mm, 1/4 in (common practice).
const BOLT_MM: [f64; 2] = [5.0, INCH_MM / 4.0];
/// To what dividers are set along a steel rule: 0.5 mm, 1/64 in.
const RULE_MM: [f64; 2] = [0.5, INCH_MM / 64.0];

fn of([metric, imperial]: [f64; 2], system: UnitSystem) -> f64 {
    match system {
        UnitSystem::Metric => metric,
        UnitSystem::Imperial => imperial,
    }
}

/// The next whole step up; what is one but for its last bits stays.
fn up(value_mm: f64, step_mm: f64) -> f64 {
    (value_mm / step_mm - 1e-6).ceil() * step_mm
}

/// The next drill that is sold, in millimetres.
pub fn drill_mm(at_least_mm: f64, system: UnitSystem) -> f64 {
    up(at_least_mm, of(DRILL_MM, system))
}

/// The next length in which bolts and pins are sold, in millimetres.
pub fn bolt_length_mm(at_least_mm: f64, system: UnitSystem) -> f64 {
    up(at_least_mm, of(BOLT_MM, system))
}

/// A step of these, in words: `8.5 mm`; `11/32"`.
fn stepped(value_mm: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => length_small(value_mm, units),
        UnitSystem::Imperial => length(value_mm / 1000.0, Units { inch_fraction: 64, ..units }),
    }
}

/// The drill for a hole, in words.
pub fn drill(at_least_mm: f64, units: Units) -> String {
    stepped(drill_mm(at_least_mm, units.system), units)
}

/// The length of a bolt or a pin, in words.
pub fn bolt_length(at_least_mm: f64, units: Units) -> String {
    stepped(bolt_length_mm(at_least_mm, units.system), units)
}

/// A small length that is laid out with a tape or a rule: the nearest mark of the user's tape, in inches; as it is, in millimetres.
pub fn tape(value_mm: f64, units: Units) -> String {
    match units.system {
        UnitSystem::Metric => length_small(value_mm, units),
        UnitSystem::Imperial => length(value_mm / 1000.0, units),
    }
}

/// The same of what must not be less: the next mark of the user's tape.
pub fn tape_at_least(value_mm: f64, units: Units) -> String {
    let step_mm = of([1.0, INCH_MM / f64::from(units.inch_fraction)], units.system);
    tape(up(value_mm, step_mm), units)
}

/// A thickness by which something is bought (rope, bar, pin): the nearest sixteenth of an inch, and beside it what a calliper reads
/// where that is another one.
pub fn thickness(value_mm: f64, units: Units) -> String {
    if units.system == UnitSystem::Metric {
        return length_small(value_mm, units);
    }
    let sixteenths = Units { inch_fraction: 16, ..units };
    let (nearest, read) = (length(value_mm / 1000.0, sixteenths), length_small(value_mm, sixteenths));
    if nearest == read { nearest } else { format!("{nearest} ({read} by calliper)") }
}

/// To what dividers are set along a steel rule, in millimetres, and how much more it should be.
pub fn dividers_mm(value_mm: f64, system: UnitSystem) -> (f64, f64) {
    let step_mm = of(RULE_MM, system);
    let set_mm = (value_mm / step_mm).round() * step_mm;
    (set_mm, value_mm - set_mm)
}

/// The setting of dividers with what a rule does not show: `2 37/64" and 0.004" more`.
pub fn dividers(value_mm: f64, units: Units) -> String {
    let (set_mm, rest_mm) = dividers_mm(value_mm, units.system);
    let set = stepped(set_mm, units);
    let way = if rest_mm < 0.0 { "less" } else { "more" };
    let rest = match units.system {
        UnitSystem::Metric => format!("{:.2}", rest_mm.abs()),
        UnitSystem::Imperial => format!("{:.3}", rest_mm.abs() / INCH_MM),
    };
    if rest.bytes().all(|byte| byte == b'0' || byte == b'.') {
        return set;
    }
    match units.system {
        UnitSystem::Metric => format!("{set} and {} mm {way}", rest.trim_end_matches('0')),
        UnitSystem::Imperial => format!("{set} and {}\" {way}", rest.trim_end_matches('0')),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const METRIC: Units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
    const INCHES: Units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };

    /// By hand: 8.5 mm is 0.3346 in, 21.4 of 64: 22/64 = 11/32. 174.225 mm is 6.859 in: 7 in; 78.3 mm is 3.083 in: 3 1/4 in.
    #[test]
    fn what_is_sold_is_the_next_size_up() {
        assert_eq!((drill(8.5, INCHES).as_str(), drill(8.5, METRIC).as_str()), ("11/32\"", "8.5 mm"));
        assert_eq!(drill(9.525, INCHES), "3/8\"");
        assert_eq!((drill_mm(8.6, UnitSystem::Metric), drill_mm(9.0, UnitSystem::Metric)), (9.0, 9.0));
        assert_eq!(bolt_length(174.225, INCHES), "7\"");
        assert_eq!(
            (bolt_length(78.3, INCHES).as_str(), bolt_length(78.3, METRIC).as_str()),
            ("3 1/4\"", "80 mm")
        );
    }

    /// By hand: 100.1 mm are 63.06 sixteenths of an inch; 63 would be too little.
    #[test]
    fn what_must_not_be_less_is_the_next_mark_up() {
        assert_eq!(tape(100.1, INCHES), "3 15/16\"");
        assert_eq!(tape_at_least(100.1, INCHES), "4\"");
        assert_eq!(tape_at_least(101.6, INCHES), "4\"");
        assert_eq!(tape_at_least(100.1, METRIC), "101 mm");
    }

    /// By hand: 65.58 mm is 2.5819 in, 165.24 of 64: 2 37/64 in is 2.5781 in, 0.004 in less than it should be.
    #[test]
    fn dividers_name_what_a_rule_does_not_show() {
        assert_eq!(dividers(65.58, INCHES), "2 37/64\" and 0.004\" more");
        assert_eq!(dividers(65.58, METRIC), "65.5 mm and 0.08 mm more");
        assert_eq!(dividers(65.4, METRIC), "65.5 mm and 0.1 mm less");
        assert_eq!((dividers(40.0, METRIC).as_str(), dividers(25.4, INCHES).as_str()), ("40 mm", "1\""));
    }

    #[test]
    fn thicknesses_are_named_by_sixteenths() {
        assert_eq!(thickness(12.7, INCHES), "1/2\"");
        assert_eq!(thickness(6.0, INCHES), "1/4\" (0.236\" by calliper)");
        assert_eq!(thickness(6.0, METRIC), "6 mm");
        // 88.9 mm is 3 1/2 in; 21.35 mm 0.8406 in, 13.45 of 16.
        assert_eq!((tape(88.9, INCHES).as_str(), tape(21.35, INCHES).as_str()), ("3 1/2\"", "13/16\""));
    }
}
