//! From a bearing as read to a true bearing.

use chrono::{DateTime, FixedOffset};

use super::declination::{self, CompassZone, Geodetic, MagneticField};
use super::results::NorthFrom;
use crate::finding::north::{NorthRemedy, NorthRule};
use crate::finding::{Finding, Quantity, Severity, Subject};
use crate::job::{BearingReference, Place, Yard};
use crate::numerics::real::hypot;
use crate::quantity::bearing;
use crate::source::SourceKey;

/// One sigma of a declination that the user gives. It came from a chart or a calculator, so it holds the
/// model's error, about 0.38° at middle latitudes (WMM2025 error model at H = 20,000 nT), and often the
/// rounding to a whole degree, 1°/√12 = 0.29° (GUM 4.3.7): together 0.5°.
const GIVEN_DECLINATION_SIGMA_DEG: f64 = 0.5;

/// What to add to a bearing as read to have it from true north.
#[derive(Debug, Clone, PartialEq)]
pub struct NorthCorrection {
    pub add_to_reading_deg: f64,
    /// Standard uncertainty of the correction; it turns the whole yard at once. 0 where the readings' own zero
    /// is the plan's north by definition: a baseline, true north, or magnetic north kept for want of a place.
    pub sigma_deg: f64,
    pub from: NorthFrom,
}

impl NorthCorrection {
    /// The true bearing of a bearing as read, in [0, 360).
    pub fn true_from_reading(&self, reading_deg: f64) -> f64 {
        bearing::wrap_360(reading_deg + self.add_to_reading_deg)
    }

    /// What the compass or baseline shows for a true bearing, in [0, 360).
    pub fn reading_from_true(&self, true_deg: f64) -> f64 {
        bearing::wrap_360(true_deg - self.add_to_reading_deg)
    }
}

/// How the yard's bearings are brought to true north, and what is doubtful about it.
pub fn north(yard: &Yard) -> (NorthCorrection, Vec<Finding>) {
    match &yard.bearings {
        BearingReference::True => (exact(0.0, NorthFrom::True), vec![]),
        BearingReference::Baseline { from, to, bearing_deg } => {
            let (from, to, bearing_deg) = (from.clone(), to.clone(), *bearing_deg);
            (exact(bearing_deg, NorthFrom::Baseline { from, to, bearing_deg }), vec![])
        }
        &BearingReference::Magnetic { declination_deg: Some(declination_deg) } => {
            let correction = NorthCorrection {
                add_to_reading_deg: declination_deg,
                sigma_deg: GIVEN_DECLINATION_SIGMA_DEG,
                from: NorthFrom::DeclinationGiven { declination_deg },
            };
            (correction, vec![])
        }
        BearingReference::Magnetic { declination_deg: None } => match (&yard.place, &yard.surveyed_at) {
            (Some(place), Some(moment)) => by_model(place, moment),
            (place, moment) => magnetic_only(place.is_none(), moment.is_none()),
        },
    }
}

fn exact(add_to_reading_deg: f64, from: NorthFrom) -> NorthCorrection {
    NorthCorrection { add_to_reading_deg, sigma_deg: 0.0, from }
}

fn by_model(place: &Place, moment: &DateTime<FixedOffset>) -> (NorthCorrection, Vec<Finding>) {
    let year = declination::decimal_year(moment);
    let at = Geodetic {
        latitude_deg: place.latitude_deg,
        longitude_deg: place.longitude_deg,
        height_m: place.altitude_m,
    };
    let field = declination::magnetic_field(at, year);
    let declination_deg = field.elements.declination_deg;
    if !(declination_deg.is_finite() && field.declination_sigma_deg.is_finite()) {
        return magnetic_only(true, false);
    }
    let from = NorthFrom::DeclinationByModel { declination_deg, on: moment.date_naive().to_string() };
    let correction =
        NorthCorrection { add_to_reading_deg: declination_deg, sigma_deg: sigma_deg(&field, year), from };
    (correction, doubts(&field))
}

/// The model's sigma; outside its five years also the whole change since, which nobody has measured for it.
fn sigma_deg(field: &MagneticField, year: f64) -> f64 {
    let inside = year.clamp(declination::VALID_FROM, declination::VALID_UNTIL);
    hypot(field.declination_sigma_deg, field.rates.declination_deg * (year - inside))
}

fn doubts(field: &MagneticField) -> Vec<Finding> {
    let mut findings = Vec::new();
    let measured = Some(Quantity::AngleDeg { value: field.declination_sigma_deg });
    let near_pole =
        |severity, rule| Finding { measured, ..finding(severity, rule, NorthRemedy::UseABaseline) };
    match field.zone {
        CompassZone::Usable => {}
        CompassZone::Caution => findings.push(near_pole(Severity::Caution, NorthRule::CompassWeak)),
        CompassZone::Blackout => findings.push(near_pole(Severity::Stop, NorthRule::CompassUseless)),
    }
    if !field.in_validity {
        let (rule, remedy) = (NorthRule::DeclinationOutOfDate, NorthRemedy::CheckTheDate);
        findings.push(finding(Severity::Caution, rule, remedy));
    }
    findings
}

/// Without a place or a date magnetic north stays the plan's north.
fn magnetic_only(no_place: bool, no_date: bool) -> (NorthCorrection, Vec<Finding>) {
    let rule = NorthRule::TrueNorthUnknown { no_place, no_date };
    let finding = finding(Severity::Unchecked, rule, NorthRemedy::EnterPlaceAndDate);
    (exact(0.0, NorthFrom::Unknown), vec![finding])
}

fn finding(severity: Severity, rule: NorthRule, remedy: NorthRemedy) -> Finding {
    Finding { source: SourceKey::Wmm2025, ..Finding::rule_of_thumb(severity, rule, Subject::Job, remedy) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn yard(json: &str) -> Yard {
        let mut value: serde_json::Value = serde_json::from_str(json).unwrap();
        value["marks"] = serde_json::json!([{ "id": "A", "name": "", "at": { "by": "origin" } }]);
        serde_json::from_value(value).unwrap()
    }

    #[test]
    fn readings_and_true_bearings_are_inverse() {
        let correction = exact(-15.5, NorthFrom::True);
        assert_eq!(correction.true_from_reading(10.0), 354.5);
        assert_eq!(correction.reading_from_true(354.5), 10.0);
    }

    #[test]
    fn known_references_need_no_model() {
        let check = |json: &str, add: f64, sigma: f64| {
            let (correction, findings) = north(&yard(json));
            assert_eq!((correction.add_to_reading_deg, correction.sigma_deg), (add, sigma));
            assert!(findings.is_empty());
        };
        check(r#"{"bearings":{"kind":"true"}}"#, 0.0, 0.0);
        check(r#"{"bearings":{"kind":"baseline","from":"A","to":"B","bearing_deg":77}}"#, 77.0, 0.0);
        check(r#"{"bearings":{"kind":"magnetic","declination_deg":-3.5}}"#, -3.5, 0.5);
    }

    fn magnetic(place: &str, moment: &str) -> (NorthCorrection, Vec<(Severity, &'static str)>) {
        let json = format!(r#"{{"bearings":{{"kind":"magnetic"}},"place":{place},"surveyed_at":{moment}}}"#);
        let (correction, findings) = north(&yard(&json));
        let found = findings.into_iter().map(|finding| (finding.severity, finding.rule.name())).collect();
        (correction, found)
    }

    const SYDNEY: &str = r#"{"latitude_deg":-33.8688,"longitude_deg":151.2093}"#;
    const SUMMER: &str = r#""2026-07-04T00:00:00Z""#;

    #[test]
    fn place_and_date_give_the_models_declination() {
        let (correction, findings) = magnetic(SYDNEY, SUMMER);
        assert!((correction.add_to_reading_deg - 12.82).abs() < 0.01);
        assert!((0.3..0.5).contains(&correction.sigma_deg));
        let NorthFrom::DeclinationByModel { declination_deg, on } = &correction.from else { panic!() };
        assert!((declination_deg, on.as_str()) == (&correction.add_to_reading_deg, "2026-07-04"));
        assert!(findings.is_empty());
    }

    #[test]
    fn what_is_missing_is_said() {
        for (place, moment) in [("null", SUMMER), (SYDNEY, "null"), ("null", "null")] {
            let (correction, findings) = magnetic(place, moment);
            assert_eq!(correction.add_to_reading_deg, 0.0);
            assert_eq!(findings, [(Severity::Unchecked, "true_north_unknown")]);
        }
    }

    #[test]
    fn doubtful_places_and_dates_are_called_out() {
        let check = |place: &str, moment: &str, severity, rule: &str| {
            assert_eq!(magnetic(place, moment).1, [(severity, rule)]);
        };
        check(r#"{"latitude_deg":89,"longitude_deg":-121}"#, SUMMER, Severity::Stop, "compass_useless");
        check(r#"{"latitude_deg":80,"longitude_deg":-60}"#, SUMMER, Severity::Caution, "compass_weak");
        check(SYDNEY, r#""2031-07-04T00:00:00Z""#, Severity::Caution, "declination_out_of_date");
    }
}
