//! What a compass's readings are worth: repeated bearings, bearings read from both ends, the field's strength.

use super::declination::MagneticField;
use crate::finding::north::{NorthRemedy, NorthRule, SteelShows};
use crate::finding::{Finding, Limit, Quantity, Sense, Severity, Subject};
use crate::numerics::real::hypot;
use crate::quantity::bearing::{of_vector, turn_deg, unit, wrap_360};
use crate::source::SourceKey;

/// A reading further than this many standard deviations from the rest is left out of the mean (common practice,
/// the habit of the network's residuals too).
const STANDS_OUT: f64 = 3.0;

/// A median absolute deviation times this is a standard deviation for normal errors: 1/Φ⁻¹(¾).
/// Source: Hampel, J. Am. Stat. Assoc. 69 (1974) 383. From memory.
const MAD_TO_SIGMA: f64 = 1.482_602_218_505_602;

/// A phone shows whole degrees at best, so repeated readings can't be told apart below this (common practice).
const LEAST_SPREAD_DEG: f64 = 0.5;

/// One sigma of the model's field strength: WMM2025 report, error model, dF = 138 nT.
const MODEL_STRENGTH_SIGMA_NT: f64 = 138.0;

/// One sigma of a calibrated phone's field strength: some 2 µT of left-over hard iron. From memory.
pub const PHONE_STRENGTH_SIGMA_NT: f64 = 2_000.0;

/// The mean of repeated bearings.
#[derive(Debug, Clone, PartialEq)]
pub struct MeanBearing {
    pub bearing_deg: f64,
    /// Standard uncertainty of the mean: from the readings' spread alone. What is common to them all, such as the
    /// compass's own error or steel beside the observer, is not in it.
    pub sigma_deg: f64,
    /// Standard deviation of one reading.
    pub spread_deg: f64,
    /// Indices of the readings left out because they stand out from the rest.
    pub left_out: Vec<usize>,
}

/// The vector mean of repeated bearings, without those that stand out; none without a finite reading or where the
/// readings point every way.
///
/// The middle is first taken as the reading that lies nearest to all others, the scale as the median of their
/// distances from it; readings beyond three such scales are left out and the rest averaged as unit vectors.
///
/// # References
/// Mardia & Jupp, Directional Statistics (2000), 2.2: mean direction. From memory.
pub fn mean_bearing(readings_deg: &[f64]) -> Option<MeanBearing> {
    let sound: Vec<(usize, f64)> =
        readings_deg.iter().copied().enumerate().filter(|(_, reading)| reading.is_finite()).collect();
    let away = |middle: f64| sound.iter().map(move |&(_, reading)| turn_deg(middle, reading).abs());
    let middle = sound
        .iter()
        .map(|&(_, reading)| reading)
        .min_by(|&a, &b| away(a).sum::<f64>().total_cmp(&away(b).sum()))?;
    let mut distances: Vec<f64> = away(middle).collect();
    distances.sort_by(f64::total_cmp);
    let scale = (MAD_TO_SIGMA * distances[distances.len() / 2]).max(LEAST_SPREAD_DEG);
    let stands_out = |reading: f64| turn_deg(middle, reading).abs() > STANDS_OUT * scale;
    let kept: Vec<f64> = sound.iter().map(|&(_, reading)| reading).filter(|&r| !stands_out(r)).collect();
    let sum =
        kept.iter().map(|&reading| unit(reading)).fold([0.0; 2], |sum, u| [sum[0] + u[0], sum[1] + u[1]]);
    let count = kept.len() as f64;
    // A mean vector shorter than a third has no direction to speak of.
    if hypot(sum[0], sum[1]) < count / 3.0 {
        return None;
    }
    let bearing_deg = of_vector(sum[0], sum[1]);
    let squares: f64 = kept.iter().map(|&r| turn_deg(bearing_deg, r)).map(|turn| turn * turn).sum();
    let spread_deg = if kept.len() > 1 { (squares / (count - 1.0)).sqrt() } else { 0.0 };
    // Readings that all agree still hide their rounding.
    let spread_deg = spread_deg.max(LEAST_SPREAD_DEG);
    let left_out = (0..readings_deg.len())
        .filter(|&i| !readings_deg[i].is_finite() || stands_out(readings_deg[i]))
        .collect();
    Some(MeanBearing { bearing_deg, sigma_deg: spread_deg / count.sqrt(), spread_deg, left_out })
}

/// A line's bearing read from both of its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct ThereAndBack {
    /// The line's bearing as read, from the first end: the mean of the reading there and the turned one from the
    /// other end.
    pub bearing_deg: f64,
    pub sigma_deg: f64,
    /// How much further clockwise the turned back bearing lies.
    pub disagreement_deg: f64,
    /// Beyond three standard deviations of the two readings together.
    pub agrees: bool,
}

/// Compares a bearing with the one read back from the other end, which differs by 180° where nothing pulls the
/// needle at either end. `sigma_deg` is that of one reading.
///
/// # References
/// Ghilani & Wolf, Elementary Surveying: local attraction. From memory.
pub fn there_and_back(forward_deg: f64, back_deg: f64, sigma_deg: f64) -> Option<ThereAndBack> {
    if !(forward_deg.is_finite() && back_deg.is_finite() && sigma_deg.is_finite() && sigma_deg > 0.0) {
        return None;
    }
    let disagreement_deg = turn_deg(forward_deg, back_deg + 180.0);
    Some(ThereAndBack {
        bearing_deg: wrap_360(forward_deg + 0.5 * disagreement_deg),
        sigma_deg: sigma_deg / 2.0_f64.sqrt(),
        disagreement_deg,
        agrees: disagreement_deg.abs() <= STANDS_OUT * 2.0_f64.sqrt() * sigma_deg,
    })
}

impl ThereAndBack {
    /// A caution where the two do not agree: something pulls the needle at one of the ends.
    pub fn finding(&self, reading_id: &str, sigma_deg: f64) -> Option<Finding> {
        (!self.agrees).then(|| Finding {
            measured: Some(Quantity::AngleDeg { value: self.disagreement_deg.abs() }),
            limit: Limit::at_most(Quantity::AngleDeg { value: STANDS_OUT * 2.0_f64.sqrt() * sigma_deg }),
            source: SourceKey::GhilaniWolf,
            ..steel_nearby(reading_id, SteelShows::AtOneEnd, NorthRemedy::StandAwayFromSteel)
        })
    }
}

/// A caution where the phone's magnetometer gives a field stronger or weaker than the Earth's is here.
///
/// # References
/// WMM2025 report, error model: one sigma of the total field 138 nT. The phone's own part is
/// [`PHONE_STRENGTH_SIGMA_NT`] unless it is known better.
pub fn strength_finding(
    reading_id: &str,
    measured_nt: f64,
    field: &MagneticField,
    phone_sigma_nt: f64,
) -> Option<Finding> {
    let expected_nt = field.elements.f_nt;
    let limit_nt = STANDS_OUT * hypot(MODEL_STRENGTH_SIGMA_NT, phone_sigma_nt);
    let off_nt = (measured_nt - expected_nt).abs();
    // A NaN is no agreement either.
    if off_nt <= limit_nt {
        return None;
    }
    let value = 1.0 + limit_nt.copysign(measured_nt - expected_nt) / expected_nt;
    // A field may be too weak or too strong.
    let sense = if measured_nt / expected_nt < value { Sense::AtLeast } else { Sense::AtMost };
    Some(Finding {
        measured: Some(Quantity::Ratio { value: measured_nt / expected_nt }),
        limit: Some(Limit { sense, quantity: Quantity::Ratio { value } }),
        source: SourceKey::Wmm2025,
        ..steel_nearby(reading_id, SteelShows::ByStrength, NorthRemedy::MoveAwayAndReadAgain)
    })
}

/// A caution where a repeated reading's spread is more than the compass alone explains, or some had to be left out.
pub fn spread_finding(reading_id: &str, mean: &MeanBearing, sigma_deg: f64) -> Option<Finding> {
    let restless = mean.spread_deg > STANDS_OUT * sigma_deg;
    (restless || !mean.left_out.is_empty()).then(|| Finding {
        measured: Some(Quantity::AngleDeg { value: mean.spread_deg }),
        limit: Limit::at_most(Quantity::AngleDeg { value: STANDS_OUT * sigma_deg }),
        source: SourceKey::LvivPhones,
        ..steel_nearby(reading_id, SteelShows::BySpread, NorthRemedy::SetTheCompass)
    })
}

fn steel_nearby(reading_id: &str, shows: SteelShows, remedy: NorthRemedy) -> Finding {
    let subject = Subject::Reading { id: reading_id.to_owned() };
    Finding::rule_of_thumb(Severity::Caution, NorthRule::SteelNearby { shows }, subject, remedy)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::survey::declination::{Geodetic, magnetic_field};

    #[test]
    fn bearings_round_north_average_to_north() {
        let mean = mean_bearing(&[358.0, 2.0, 359.0, 1.0]).unwrap();
        assert!(turn_deg(0.0, mean.bearing_deg).abs() < 1e-9);
        // By hand: deviations 2, 2, 1, 1; √(10/3) = 1.826, over √4.
        assert!((mean.spread_deg - 1.826).abs() < 1e-3 && (mean.sigma_deg - 0.913).abs() < 1e-3);
        assert!(mean.left_out.is_empty());
    }

    #[test]
    fn a_wild_reading_is_left_out_and_said() {
        let mean = mean_bearing(&[120.0, 121.0, 119.5, 144.0, 120.5, f64::NAN]).unwrap();
        assert_eq!(mean.left_out, [3, 5]);
        assert!((mean.bearing_deg - 120.25).abs() < 1e-6);
        assert_eq!(spread_finding("s", &mean, 2.0).unwrap().rule, "steel_nearby");
        let calm = mean_bearing(&[120.0, 121.0, 119.5]).unwrap();
        assert!(spread_finding("s", &calm, 2.0).is_none());
    }

    #[test]
    fn readings_every_way_have_no_mean() {
        assert_eq!(mean_bearing(&[0.0, 120.0, 240.0]), None);
        assert_eq!(mean_bearing(&[]), None);
        let one = mean_bearing(&[77.0]).unwrap();
        assert!((one.bearing_deg - 77.0).abs() < 1e-9 && one.sigma_deg == 0.5);
    }

    #[test]
    fn a_back_bearing_is_turned_and_averaged() {
        let both = there_and_back(359.0, 183.0, 2.0).unwrap();
        assert!((both.bearing_deg - 1.0).abs() < 1e-9 && (both.disagreement_deg - 4.0).abs() < 1e-9);
        assert!(both.agrees && both.finding("r", 2.0).is_none());
        // 9° apart is beyond 3·√2·2° = 8.5°.
        let pulled = there_and_back(40.0, 229.0, 2.0).unwrap();
        assert!(!pulled.agrees && pulled.finding("r", 2.0).is_some());
        assert_eq!(there_and_back(f64::NAN, 0.0, 2.0), None);
    }

    #[test]
    fn a_field_that_is_not_the_earths_is_noticed() {
        let place = Geodetic { latitude_deg: 44.1, longitude_deg: -72.9, height_m: 220.0 };
        let field = magnetic_field(place, 2026.8);
        let found = |measured_nt| strength_finding("r", measured_nt, &field, PHONE_STRENGTH_SIGMA_NT);
        assert!(found(field.elements.f_nt + 3_000.0).is_none());
        assert!(found(field.elements.f_nt + 9_000.0).is_some() && found(30_000.0).is_some());
        assert!(found(f64::NAN).is_some());
    }
}
