//! Readings of the phone in words: each with its 95 % interval.

use serde::{Deserialize, Serialize};

use super::say;
use crate::finding::Quantity;
use crate::job::Units;
use crate::quantity::show;

/// What makes a rough height surer.
pub const ROUGH_HEIGHT: &str = "This is rough. Stand so that the top is seen at about 45°, go back twice as far for the \
     second angle, lean the phone on a post while you aim, and take the zero error out by a pair first.";

/// A captured value with its standard uncertainty, in the unit of the field it is meant for, and in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Captured {
    pub value: f64,
    pub sigma: f64,
    /// The value as the user would write it.
    pub shown: String,
    /// `± …`, the half-width of the 95 % interval.
    pub interval: String,
}

/// A slope or lean.
pub fn slope(value_deg: f64, sigma_deg: f64, units: Units) -> Captured {
    let interval = of_angle(sigma_deg, units);
    Captured { value: value_deg, sigma: sigma_deg, shown: say::angle(value_deg), interval }
}

/// A bearing or heading.
pub fn bearing(value_deg: f64, sigma_deg: f64, units: Units) -> Captured {
    let interval = of_angle(sigma_deg, units);
    Captured { value: value_deg, sigma: sigma_deg, shown: say::bearing(value_deg), interval }
}

/// A height or distance.
pub fn length(value_m: f64, sigma_m: f64, units: Units) -> Captured {
    let half = Quantity::LengthM { value: 2.0 * sigma_m };
    Captured {
        value: value_m,
        sigma: sigma_m,
        shown: say::length(value_m, units),
        interval: show::interval(half, units),
    }
}

/// Which way something leans or falls, such as `to the north-east`.
pub fn towards(bearing_deg: f64) -> String {
    format!("to the {}", say::compass_point(bearing_deg))
}

/// What to do with a rope: `take in 34 mm`, `let out 12 mm`.
pub fn rope(take_in_m: f64, units: Units) -> String {
    let verb = if take_in_m < 0.0 { "let out" } else { "take in" };
    format!("{verb} {}", say::length(take_in_m.abs(), units))
}

/// What to do with the block under a leg: `raise it by 12 mm`.
pub fn block(raise_m: f64, units: Units) -> String {
    let verb = if raise_m < 0.0 { "lower it by" } else { "raise it by" };
    format!("{verb} {}", say::length(raise_m.abs(), units))
}

fn of_angle(sigma_deg: f64, units: Units) -> String {
    // Beyond half a turn an interval says no more than that nothing is known.
    let half = (2.0 * sigma_deg).min(180.0);
    show::interval(Quantity::AngleDeg { value: half }, units)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::UnitSystem;

    #[test]
    fn readings_are_said_with_their_interval() {
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let seen = slope(-3.24, 0.22, units);
        assert_eq!((seen.shown.as_str(), seen.interval.as_str()), ("−3.2°", "± 0.5°"));
        assert_eq!(bearing(7.0, 2.0, units).shown, "007.0°");
        assert_eq!(bearing(7.0, 200.0, units).interval, "± 180.0°");
        assert_eq!(towards(40.0), "to the north-east");
        assert_eq!(rope(-0.0124, units), "let out 12 mm");
    }
}
