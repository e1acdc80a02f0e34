//! Readings of the phone in words: each with its 95 % interval.

use serde::{Deserialize, Serialize};

use super::format;
pub use super::words::cautions::ROUGH_HEIGHT;
use crate::finding::Quantity;
use crate::quantity::convert::INCH_M;
use crate::quantity::{UnitSystem, Units};

/// A captured value with its standard uncertainty, in the unit of the field it is meant for, and in words.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct Captured {
    pub value: f64,
    pub sigma: f64,
    /// The standard uncertainty as the user would write it.
    pub sigma_shown: String,
    /// The value as the user would write it.
    pub shown: String,
    /// `± …`, the half-width of the 95 % interval.
    pub interval: String,
}

/// A slope or lean.
pub fn slope(value_deg: f64, sigma_deg: f64, units: Units) -> Captured {
    of_angle(value_deg, sigma_deg, format::angle(value_deg), units)
}

/// A bearing or heading.
pub fn bearing(value_deg: f64, sigma_deg: f64, units: Units) -> Captured {
    of_angle(value_deg, sigma_deg, format::bearing(value_deg), units)
}

/// A height or distance.
pub fn length(value_m: f64, sigma_m: f64, units: Units) -> Captured {
    // What is known to no better than this is not said to the millimetre or the sixteenth of an inch.
    const ROUGH_M: f64 = 0.01;
    let (half_m, finest_m) = (2.0 * sigma_m, short_step_m(units));
    let (shown, interval) = if sigma_m < ROUGH_M {
        (format::length(value_m, units), format::interval(Quantity::LengthM { value: half_m }, units))
    } else {
        let up = (half_m / finest_m).ceil() * finest_m;
        (format::length_short(value_m, units), format!("± {}", format::length_short(up, units)))
    };
    Captured {
        value: value_m,
        sigma: sigma_m,
        sigma_shown: format::field("sigma_m", sigma_m, units),
        shown,
        interval,
    }
}

/// Which way something leans, such as `to the north-east`, where the lean is more than nothing for sure.
pub fn towards(bearing_deg: f64, lean_deg: f64, sigma_deg: f64) -> String {
    /// √(−2·ln 0.05): 95 % of two normal errors lie within.
    const SIGMAS_95_IN_TWO: f64 = 2.447_7;
    if lean_deg > SIGMAS_95_IN_TWO * sigma_deg {
        format!("to the {}", format::compass_point(bearing_deg))
    } else {
        "which way can't be told".to_owned()
    }
}

/// What to do with a rope: `take in 34 mm`, `let out 12 mm`.
pub fn rope(take_in_m: f64, units: Units) -> String {
    let verb = if take_in_m < 0.0 { "let out" } else { "take in" };
    format!("{verb} {}", format::length(take_in_m.abs(), units))
}

/// What to do with the block under a leg: `raise it by 12 mm`.
pub fn block(raise_m: f64, units: Units) -> String {
    let verb = if raise_m < 0.0 { "lower it by" } else { "raise it by" };
    format!("{verb} {}", format::length(raise_m.abs(), units))
}

fn of_angle(value_deg: f64, sigma_deg: f64, shown: String, units: Units) -> Captured {
    // Beyond half a turn an interval says no more than that nothing is known.
    let half = (2.0 * sigma_deg).min(180.0);
    Captured {
        value: value_deg,
        sigma: sigma_deg,
        sigma_shown: format::field("sigma_deg", (100.0 * sigma_deg).round() / 100.0, units),
        shown,
        interval: format::interval(Quantity::AngleDeg { value: half }, units),
    }
}

/// The step of [`format::length_short`].
fn short_step_m(units: Units) -> f64 {
    match units.system {
        UnitSystem::Metric => 0.01,
        UnitSystem::Imperial => INCH_M,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn readings_are_said_with_their_interval() {
        let units = Units { system: UnitSystem::Metric, inch_fraction: 16 };
        let seen = slope(-3.24, 0.22, units);
        assert_eq!((seen.shown.as_str(), seen.interval.as_str()), ("−3.2°", "± 0.5°"));
        assert_eq!(bearing(7.0, 2.0, units).shown, "007.0°");
        assert_eq!(bearing(7.0, 200.0, units).interval, "± 180.0°");
        let tree = length(14.0865, 0.283, units);
        assert_eq!((tree.shown.as_str(), tree.interval.as_str()), ("14.09 m", "± 0.57 m"));
        assert_eq!(length(-0.85, 0.0042, units).interval, "± 9 mm");
        assert_eq!(towards(40.0, 1.0, 0.1), "to the north-east");
        assert_eq!(towards(40.0, 0.2, 0.1), "which way can't be told");
        assert_eq!(rope(-0.0124, units), "let out 12 mm");
    }
}
