//! A phone's own zero error: found by a reversal pair, kept for the device, and taken off later readings.
//!
//! The zero error belongs to the side that the phone rests on: its case and camera lift each side differently.

use serde::{Deserialize, Serialize};

use super::hold::Tilt;
use super::tilt::{RestsOn, reversal};
use crate::finding::north::{NorthRemedy, NorthRule};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::numerics::real::hypot;
use crate::source::SourceKey;

/// One sigma of laying the phone down again, and of all else that a reversal does not take out: the lower end of
/// 0.2–0.5° for a phone after reversal. From memory (`phone-tilt`).
pub const LAYING_SIGMA_DEG: f64 = 0.2;

/// One sigma of the zero error of a phone that nobody has reversed yet. From memory (`phone-tilt`).
pub const UNKNOWN_ZERO_SIGMA_DEG: f64 = 1.0;

/// A zero error older than this is found anew: heat, a fall or another case change it (common practice).
const OLD_DAYS: f64 = 30.0;

/// A zero error beyond this is hardly the phone's: it was not turned end for end on the same spot (common practice).
const LARGE_ZERO_DEG: f64 = 4.0;

const MS_PER_DAY: f64 = 86_400_000.0;

/// What a phone shows on level ground while it rests on one of its sides.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct ZeroError {
    pub rests_on: RestsOn,
    pub long_edge_deg: f64,
    pub short_edge_deg: f64,
    pub sigma_deg: f64,
    /// When it was found, in milliseconds since 1970.
    pub found_at_ms: f64,
}

/// Slopes of a phone's edges with the zero error taken off as well as it is known.
#[derive(Debug, Clone, PartialEq)]
pub struct TiltReading {
    pub rests_on: RestsOn,
    pub long_edge_deg: f64,
    pub short_edge_deg: f64,
    /// Standard uncertainty of either: both of the next two.
    pub sigma_deg: f64,
    /// Without what the zero error leaves: noise and laying down.
    pub own_sigma_deg: f64,
    /// What the zero error leaves; all readings on this side share it. 0 from a pair.
    pub zero_sigma_deg: f64,
    /// The zero error that this pair found; none from a single reading.
    pub zero: Option<ZeroError>,
    pub findings: Vec<Finding>,
}

/// Why two holds are no reversal pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoPair {
    #[error("the phone lay on another side the second time: lay it on the same side, turned end for end")]
    OtherSide,
    #[error("a reading is not a finite number, or its uncertainty is negative")]
    NotFinite,
}

/// One reading, with the kept zero error of the same side taken off it where there is one.
///
/// # Errors
/// When a number is unusable.
pub fn single(held: &Tilt, kept: &[ZeroError], now_ms: f64) -> Result<TiltReading, NoPair> {
    usable(held)?;
    let noise = hypot(held.standard_uncertainty_deg, LAYING_SIGMA_DEG);
    let zero = kept.iter().find(|zero| zero.rests_on == held.rests_on && zero.sigma_deg.is_finite());
    let (long, short, zero_sigma) = zero.map_or((0.0, 0.0, UNKNOWN_ZERO_SIGMA_DEG), |zero| {
        (zero.long_edge_deg, zero.short_edge_deg, zero.sigma_deg)
    });
    Ok(TiltReading {
        rests_on: held.rests_on,
        long_edge_deg: held.long_edge_deg - long,
        short_edge_deg: held.short_edge_deg - short,
        sigma_deg: hypot(noise, zero_sigma),
        own_sigma_deg: noise,
        zero_sigma_deg: zero_sigma,
        zero: None,
        findings: zero.map_or_else(|| vec![unknown()], |zero| aged(zero, now_ms).into_iter().collect()),
    })
}

/// A reading and its repeat with the phone turned end for end on the same spot: slope and zero error apart.
///
/// # Errors
/// When the phone rested on two different sides or a number is unusable.
///
/// # References
/// See [`reversal`]; both halves of a sum and a difference have the sigma √(u₁² + u₂²)/2 (GUM 2008, 5.1.2).
pub fn pair(first: &Tilt, turned: &Tilt, kept: &[ZeroError], now_ms: f64) -> Result<TiltReading, NoPair> {
    usable(first)?;
    usable(turned)?;
    if first.rests_on != turned.rests_on {
        return Err(NoPair::OtherSide);
    }
    let long = reversal(first.long_edge_deg, turned.long_edge_deg);
    let short = reversal(first.short_edge_deg, turned.short_edge_deg);
    let noise = 0.5 * hypot(first.standard_uncertainty_deg, turned.standard_uncertainty_deg);
    let sigma_deg = hypot(noise, LAYING_SIGMA_DEG);
    let zero = ZeroError {
        rests_on: first.rests_on,
        long_edge_deg: long.zero_error_deg,
        short_edge_deg: short.zero_error_deg,
        sigma_deg,
        found_at_ms: now_ms,
    };
    let before = kept.iter().find(|kept| kept.rests_on == zero.rests_on);
    Ok(TiltReading {
        rests_on: first.rests_on,
        long_edge_deg: long.slope_deg,
        short_edge_deg: short.slope_deg,
        sigma_deg,
        own_sigma_deg: sigma_deg,
        zero_sigma_deg: 0.0,
        zero: Some(zero),
        findings: large(&zero).into_iter().chain(before.and_then(|before| drifted(before, &zero))).collect(),
    })
}

fn usable(held: &Tilt) -> Result<(), NoPair> {
    let numbers = [held.long_edge_deg, held.short_edge_deg, held.standard_uncertainty_deg];
    let sound = numbers.iter().all(|number| number.is_finite()) && held.standard_uncertainty_deg >= 0.0;
    if sound { Ok(()) } else { Err(NoPair::NotFinite) }
}

fn unknown() -> Finding {
    Finding {
        measured: Some(Quantity::AngleDeg { value: UNKNOWN_ZERO_SIGMA_DEG }),
        source: SourceKey::PhoneTilt,
        ..finding(NorthRule::ZeroUnknown, NorthRemedy::MeasureTurnedAround)
    }
}

fn aged(zero: &ZeroError, now_ms: f64) -> Option<Finding> {
    let days = (now_ms - zero.found_at_ms) / MS_PER_DAY;
    // A clock that went back says nothing good either, and a NaN is no date.
    let fresh = (0.0..=OLD_DAYS).contains(&days);
    (!fresh).then(|| finding(NorthRule::ZeroOld, NorthRemedy::TurnEndForEnd))
}

fn large(zero: &ZeroError) -> Option<Finding> {
    let largest = zero.long_edge_deg.abs().max(zero.short_edge_deg.abs());
    (largest > LARGE_ZERO_DEG).then(|| Finding {
        measured: Some(Quantity::AngleDeg { value: largest }),
        limit: Limit::at_most(Quantity::AngleDeg { value: LARGE_ZERO_DEG }),
        ..finding(NorthRule::ZeroLarge, NorthRemedy::DoBothAgain)
    })
}

/// Two sigma of the difference: the habit of 95 %.
fn drifted(before: &ZeroError, now: &ZeroError) -> Option<Finding> {
    let away = (now.long_edge_deg - before.long_edge_deg)
        .abs()
        .max((now.short_edge_deg - before.short_edge_deg).abs());
    let allowed = 2.0 * hypot(before.sigma_deg, now.sigma_deg);
    let agrees = away <= allowed;
    (!agrees).then(|| Finding {
        measured: Some(Quantity::AngleDeg { value: away }),
        limit: Limit::at_most(Quantity::AngleDeg { value: allowed }),
        source: SourceKey::PhoneTilt,
        ..finding(NorthRule::ZeroDrifted, NorthRemedy::DoThePairOnceMore)
    })
}

fn finding(rule: NorthRule, remedy: NorthRemedy) -> Finding {
    Finding::rule_of_thumb(Severity::Caution, rule, Subject::Ground, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(long_edge_deg: f64, short_edge_deg: f64) -> Tilt {
        Tilt {
            long_edge_deg,
            short_edge_deg,
            screen_deg: 80.0,
            rests_on: RestsOn::Back,
            standard_uncertainty_deg: 0.03,
            acceleration: [0.0, 0.0, 9.81],
        }
    }

    fn rules(reading: &TiltReading) -> Vec<&str> {
        reading.findings.iter().map(|finding| finding.rule.name()).collect()
    }

    #[test]
    fn a_pair_takes_the_zero_error_out_and_later_readings_use_it() {
        // A slope of 6° and −1° with 0.4° and −0.3° of zero error.
        let both = pair(&held(6.4, -1.3), &held(-5.6, 0.7), &[], 0.0).unwrap();
        assert!((both.long_edge_deg - 6.0).abs() < 1e-12 && (both.short_edge_deg + 1.0).abs() < 1e-12);
        let zero = both.zero.unwrap();
        assert!((zero.long_edge_deg - 0.4).abs() < 1e-12 && (zero.short_edge_deg + 0.3).abs() < 1e-12);
        // By hand: √(2·0.03²)/2 = 0.0212; with 0.2 in squares 0.2011.
        assert!((both.sigma_deg - 0.2011).abs() < 1e-4);
        assert!(both.findings.is_empty());

        let later = single(&held(3.4, 0.7), &[zero], 10.0 * MS_PER_DAY).unwrap();
        assert!((later.long_edge_deg - 3.0).abs() < 1e-12 && later.findings.is_empty());
        assert!(later.sigma_deg > both.sigma_deg && later.sigma_deg < 0.3);
    }

    #[test]
    fn an_unknown_old_or_changed_zero_is_said() {
        let rough = single(&held(3.4, 0.0), &[], 0.0).unwrap();
        assert_eq!(rules(&rough), ["zero_unknown"]);
        assert!(rough.sigma_deg > 1.0);
        let zero = pair(&held(0.4, 0.0), &held(0.4, 0.0), &[], 0.0).unwrap().zero.unwrap();
        assert_eq!(rules(&single(&held(1.0, 0.0), &[zero], 31.0 * MS_PER_DAY).unwrap()), ["zero_old"]);
        assert_eq!(rules(&single(&held(1.0, 0.0), &[zero], -1.0).unwrap()), ["zero_old"]);
        // 2·√2·0.201 = 0.569: 0.5 more is within it, 0.7 more is not.
        let again = |zero_deg: f64| pair(&held(zero_deg, 0.0), &held(zero_deg, 0.0), &[zero], 1.0).unwrap();
        assert!(again(0.9).findings.is_empty());
        assert_eq!(rules(&again(1.1)), ["zero_drifted"]);
        assert_eq!(rules(&pair(&held(6.0, 0.0), &held(6.0, 0.0), &[], 0.0).unwrap()), ["zero_large"]);
    }

    #[test]
    fn what_is_no_pair_is_refused() {
        let on_edge = Tilt { rests_on: RestsOn::LeftEdge, ..held(1.0, 0.0) };
        assert_eq!(pair(&held(1.0, 0.0), &on_edge, &[], 0.0), Err(NoPair::OtherSide));
        assert_eq!(single(&held(f64::NAN, 0.0), &[], 0.0), Err(NoPair::NotFinite));
        // A zero error of another side is not used.
        let zero = pair(&on_edge, &on_edge, &[], 0.0).unwrap().zero.unwrap();
        assert_eq!(rules(&single(&held(1.0, 0.0), &[zero], 0.0).unwrap()), ["zero_unknown"]);
    }
}
