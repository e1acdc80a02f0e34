//! The Earth's main magnetic field by the World Magnetic Model 2025, and from it the declination.
//!
//! # References
//! - *The US/UK World Magnetic Model for 2025–2030: Technical Report* (NOAA/NCEI and BGS), section 1.2
//!   (equations), 3 (error model). Equation numbers are from memory; the whole chain is held against the
//!   report's Table 3b in `tests/published/wmm2025.rs`.

use chrono::{DateTime, Datelike, FixedOffset, NaiveDate, Timelike, Utc};

use super::wmm2025::{COEFFICIENTS, DEGREE, EPOCH};
use crate::numerics::real::{asin, atan2, cos, hypot, sin};

/// The model holds from its epoch for five years.
pub const VALID_FROM: f64 = 2025.0;
/// End of the model's validity.
pub const VALID_UNTIL: f64 = 2030.0;

/// Below this horizontal intensity a compass is of no use (the report's blackout zone).
pub const BLACKOUT_NT: f64 = 2000.0;
/// Below this horizontal intensity a compass is doubtful (the report's caution zone).
pub const CAUTION_NT: f64 = 6000.0;

/// WGS 84 semi-major axis in metres and reciprocal flattening (WMM report, 1.2).
const SEMI_MAJOR_M: f64 = 6_378_137.0;
const RECIPROCAL_FLATTENING: f64 = 298.257_223_563;
/// The model's reference radius in metres (WMM report, 1.2).
const REFERENCE_RADIUS_M: f64 = 6_371_200.0;

/// A place on or above the WGS 84 ellipsoid.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geodetic {
    pub latitude_deg: f64,
    pub longitude_deg: f64,
    pub height_m: f64,
}

/// The same place from the Earth's centre.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geocentric {
    pub latitude_rad: f64,
    pub longitude_rad: f64,
    pub radius_m: f64,
}

/// A field vector, or its change a year: north, east, down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NorthEastDown {
    pub north_nt: f64,
    pub east_nt: f64,
    pub down_nt: f64,
}

/// The seven magnetic elements; declination east positive, inclination down positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Elements {
    pub x_nt: f64,
    pub y_nt: f64,
    pub z_nt: f64,
    pub h_nt: f64,
    pub f_nt: f64,
    pub declination_deg: f64,
    pub inclination_deg: f64,
}

/// What a compass is worth at a place, by the horizontal intensity.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CompassZone {
    Usable,
    /// 2000 to 6000 nT: doubtful.
    Caution,
    /// Below 2000 nT: useless.
    Blackout,
}

/// The magnetic field at a place and time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MagneticField {
    pub elements: Elements,
    /// Change of each element a year (nT or degrees).
    pub rates: Elements,
    /// One sigma of the declination: the model's own error and that of the crust, which it leaves out.
    pub declination_sigma_deg: f64,
    pub zone: CompassZone,
    /// Whether the time lies within the model's five years; outside, the values are extrapolated.
    pub in_validity: bool,
    /// On the way: the place from the Earth's centre, and X′, Y′, Z′ with their rates there.
    pub geocentric: Geocentric,
    pub geocentric_field: NorthEastDown,
    pub geocentric_rates: NorthEastDown,
}

/// The field by WMM2025 at a decimal year.
///
/// # Accuracy
/// The sum itself is exact to about 1e-9 nT; what the model is worth is `declination_sigma_deg`.
///
/// # Examples
/// ```
/// use mastwright_engine::survey::declination::{Geodetic, magnetic_field};
/// let greenwich = Geodetic { latitude_deg: 51.4779, longitude_deg: -0.0015, height_m: 50.0 };
/// let field = magnetic_field(greenwich, 2026.5);
/// // A compass at Greenwich points about a degree east of true north.
/// assert!((field.elements.declination_deg - 1.2).abs() < 0.2);
/// ```
pub fn magnetic_field(place: Geodetic, year: f64) -> MagneticField {
    let geocentric = geocentric(place);
    let (geocentric_field, geocentric_rates) = sum_harmonics(geocentric, year);
    // Equation (17): turn by the angle between the geocentric and the geodetic vertical.
    let turn = geocentric.latitude_rad - place.latitude_deg.to_radians();
    let field = to_geodetic(geocentric_field, turn);
    let rates = to_geodetic(geocentric_rates, turn);
    let elements = elements(field);
    MagneticField {
        elements,
        rates: element_rates(&elements, rates),
        declination_sigma_deg: declination_sigma_deg(elements.h_nt),
        zone: zone(elements.h_nt),
        in_validity: (VALID_FROM..=VALID_UNTIL).contains(&year),
        geocentric,
        geocentric_field,
        geocentric_rates,
    }
}

/// One sigma of the declination by the error model of WMM2025: √(0.26² + (5417/H)²) degrees, H in nT
/// (WMM2025 report, section 3; the formula was read in the source of pygeomag 1.1.0).
pub fn declination_sigma_deg(h_nt: f64) -> f64 {
    error_model_deg(5417.0, h_nt)
}

/// The error model's form, common to WMM2020 (5625 nT) and WMM2025 (5417 nT).
pub fn error_model_deg(nt: f64, h_nt: f64) -> f64 {
    hypot(0.26, nt / h_nt)
}

/// The Gauss coefficients (g, h) in nT of a degree and order at a decimal year; none where the model has none.
pub fn gauss_coefficients(n: usize, m: usize, year: f64) -> Option<(f64, f64)> {
    let line = COEFFICIENTS.iter().find(|line| line.n == n && line.m == m)?;
    let years = year - EPOCH;
    // Equation (9): linear secular variation.
    Some((line.g_nt + years * line.g_nt_per_year, line.h_nt + years * line.h_nt_per_year))
}

/// The decimal year of a moment, reckoned in UTC.
pub fn decimal_year(moment: &DateTime<FixedOffset>) -> f64 {
    let utc = moment.with_timezone(&Utc);
    let day = f64::from(utc.ordinal0()) + f64::from(utc.num_seconds_from_midnight()) / 86_400.0;
    let leap = NaiveDate::from_ymd_opt(utc.year(), 2, 29).is_some();
    f64::from(utc.year()) + day / if leap { 366.0 } else { 365.0 }
}

/// Equations (7) and (8): geodetic to geocentric.
fn geocentric(place: Geodetic) -> Geocentric {
    let flattening = 1.0 / RECIPROCAL_FLATTENING;
    let e_squared = flattening * (2.0 - flattening);
    let latitude_rad = place.latitude_deg.to_radians();
    let (s, c) = (sin(latitude_rad), cos(latitude_rad));
    let prime_vertical_m = SEMI_MAJOR_M / (1.0 - e_squared * s * s).sqrt();
    let p = (prime_vertical_m + place.height_m) * c;
    let z = (prime_vertical_m * (1.0 - e_squared) + place.height_m) * s;
    let radius_m = (p * p + z * z).sqrt();
    Geocentric { latitude_rad: asin(z / radius_m), longitude_rad: place.longitude_deg.to_radians(), radius_m }
}

/// Equations (10) to (15): X′, Y′, Z′ and their rates.
fn sum_harmonics(at: Geocentric, year: f64) -> (NorthEastDown, NorthEastDown) {
    let legendre = Legendre::at(sin(at.latitude_rad), cos(at.latitude_rad));
    let mut powers = [0.0; DEGREE + 1]; // (a/r)^(n + 2)
    let ratio = REFERENCE_RADIUS_M / at.radius_m;
    let mut power = ratio * ratio;
    for value in &mut powers {
        *value = power;
        power *= ratio;
    }
    let turns: [(f64, f64); DEGREE + 1] = std::array::from_fn(|m| {
        let angle = m as f64 * at.longitude_rad;
        (sin(angle), cos(angle))
    });
    let zero = NorthEastDown { north_nt: 0.0, east_nt: 0.0, down_nt: 0.0 };
    let (mut field, mut rates) = (zero, zero);
    for line in &COEFFICIENTS {
        let (n, m) = (line.n, line.m);
        let (sin_m, cos_m) = turns[m];
        let add = |sum: &mut NorthEastDown, g: f64, h: f64| {
            let along = g * cos_m + h * sin_m;
            let across = g * sin_m - h * cos_m;
            sum.north_nt -= powers[n] * along * legendre.by_latitude[n][m];
            sum.east_nt += powers[n] * m as f64 * across * legendre.over_cosine[n][m];
            sum.down_nt -= (n + 1) as f64 * powers[n] * along * legendre.value[n][m];
        };
        let years = year - EPOCH;
        add(&mut field, line.g_nt + years * line.g_nt_per_year, line.h_nt + years * line.h_nt_per_year);
        add(&mut rates, line.g_nt_per_year, line.h_nt_per_year);
    }
    (field, rates)
}

type Triangle = [[f64; DEGREE + 1]; DEGREE + 1];

/// Schmidt quasi-normalised associated Legendre functions of sin φ′ (report, equation (5)).
///
/// DIFFERENCE: the report has dP/dφ′ through tan φ′ and sec φ′ (equation (16)), and divides by cos φ′, which
/// fails at the poles. The same recurrence, differentiated by φ′ and started with one cosine fewer, gives both
/// quantities without a division.
struct Legendre {
    value: Triangle,
    by_latitude: Triangle,
    /// P/cos φ′ for orders from 1 on.
    over_cosine: Triangle,
}

impl Legendre {
    fn at(s: f64, c: f64) -> Self {
        let mut value = [[0.0; DEGREE + 1]; DEGREE + 1];
        let mut by_latitude = value;
        let mut over_cosine = value;
        value[0][0] = 1.0;
        for m in 0..=DEGREE {
            if m > 0 {
                // P_m^m = √((2m − 1)/(2m))·cos φ′·P_{m−1}^{m−1}; the root is 1 for m = 1, as Schmidt's
                // normalisation doubles every order but 0.
                let root = if m == 1 { 1.0 } else { ((2 * m - 1) as f64 / (2 * m) as f64).sqrt() };
                value[m][m] = root * c * value[m - 1][m - 1];
                by_latitude[m][m] = root * (c * by_latitude[m - 1][m - 1] - s * value[m - 1][m - 1]);
                over_cosine[m][m] = if m == 1 { 1.0 } else { root * c * over_cosine[m - 1][m - 1] };
            }
            for n in m + 1..=DEGREE {
                // √(n² − m²)·P_n^m = (2n − 1)·sin φ′·P_{n−1}^m − √((n − 1)² − m²)·P_{n−2}^m
                let first = (2 * n - 1) as f64;
                let second = (((n - 1) * (n - 1) - m * m) as f64).sqrt();
                let divisor = ((n * n - m * m) as f64).sqrt();
                let before = |table: &Triangle| if n >= 2 { table[n - 2][m] } else { 0.0 };
                let step =
                    |table: &Triangle| (first * s * table[n - 1][m] - second * before(table)) / divisor;
                let slope = step(&by_latitude) + first * c * value[n - 1][m] / divisor;
                value[n][m] = step(&value);
                over_cosine[n][m] = step(&over_cosine);
                by_latitude[n][m] = slope;
            }
        }
        Self { value, by_latitude, over_cosine }
    }
}

fn to_geodetic(primed: NorthEastDown, turn: f64) -> NorthEastDown {
    let (s, c) = (sin(turn), cos(turn));
    NorthEastDown {
        north_nt: primed.north_nt * c - primed.down_nt * s,
        east_nt: primed.east_nt,
        down_nt: primed.north_nt * s + primed.down_nt * c,
    }
}

/// Equation (19).
fn elements(field: NorthEastDown) -> Elements {
    let NorthEastDown { north_nt: x, east_nt: y, down_nt: z } = field;
    let h = hypot(x, y);
    Elements {
        x_nt: x,
        y_nt: y,
        z_nt: z,
        h_nt: h,
        f_nt: hypot(h, z),
        declination_deg: atan2(y, x).to_degrees(),
        inclination_deg: atan2(z, h).to_degrees(),
    }
}

/// Equation (20): the time derivatives of equation (19).
fn element_rates(at: &Elements, rates: NorthEastDown) -> Elements {
    let NorthEastDown { north_nt: x_dot, east_nt: y_dot, down_nt: z_dot } = rates;
    let (x, y, z, h, f) = (at.x_nt, at.y_nt, at.z_nt, at.h_nt, at.f_nt);
    let h_dot = (x * x_dot + y * y_dot) / h;
    Elements {
        x_nt: x_dot,
        y_nt: y_dot,
        z_nt: z_dot,
        h_nt: h_dot,
        f_nt: (x * x_dot + y * y_dot + z * z_dot) / f,
        declination_deg: ((x * y_dot - y * x_dot) / (h * h)).to_degrees(),
        inclination_deg: ((h * z_dot - z * h_dot) / (f * f)).to_degrees(),
    }
}

/// The zones of the WMM report, by the horizontal intensity.
fn zone(h_nt: f64) -> CompassZone {
    if h_nt < BLACKOUT_NT {
        CompassZone::Blackout
    } else if h_nt < CAUTION_NT {
        CompassZone::Caution
    } else {
        CompassZone::Usable
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(latitude_deg: f64, longitude_deg: f64, year: f64) -> MagneticField {
        magnetic_field(Geodetic { latitude_deg, longitude_deg, height_m: 0.0 }, year)
    }

    #[test]
    fn rates_are_the_change_over_a_year() {
        let (before, after, middle) =
            (at(48.0, 11.0, 2026.0), at(48.0, 11.0, 2027.0), at(48.0, 11.0, 2026.5));
        let check = |element: fn(&Elements) -> f64| {
            let change = element(&after.elements) - element(&before.elements);
            assert!((change - element(&middle.rates)).abs() < 1e-4 * change.abs().max(1.0));
        };
        check(|e| e.h_nt);
        check(|e| e.f_nt);
        check(|e| e.declination_deg);
        check(|e| e.inclination_deg);
    }

    #[test]
    fn the_poles_are_places_like_others() {
        let (pole, near) = (at(90.0, 30.0, 2025.0), at(89.999_999, 30.0, 2025.0));
        assert!((pole.elements.x_nt - near.elements.x_nt).abs() < 0.01);
        assert!((pole.elements.y_nt - near.elements.y_nt).abs() < 0.01);
    }

    #[test]
    fn validity_and_zones_are_flags() {
        assert!(at(48.0, 11.0, 2025.0).in_validity && at(48.0, 11.0, 2030.0).in_validity);
        assert!(!at(48.0, 11.0, 2030.01).in_validity && !at(48.0, 11.0, 2024.99).in_validity);
        assert_eq!(zone(1999.9), CompassZone::Blackout);
        assert_eq!(zone(2000.0), CompassZone::Caution);
        assert_eq!(zone(6000.0), CompassZone::Usable);
    }

    #[test]
    fn decimal_years() {
        let check = |text: &str, year: f64| {
            let moment = DateTime::parse_from_rfc3339(text).unwrap();
            assert!((decimal_year(&moment) - year).abs() < 1e-9, "{text}");
        };
        check("2026-01-01T00:00:00Z", 2026.0);
        check("2026-07-04T00:00:00Z", 2026.0 + 184.0 / 365.0);
        check("2026-07-04T02:00:00+02:00", 2026.0 + 184.0 / 365.0);
        check("2028-12-31T12:00:00Z", 2028.0 + 365.5 / 366.0);
        // New Year's party in the east while it is still the old year in UTC.
        check("2027-01-01T00:00:00+12:00", 2026.0 + 364.5 / 365.0);
    }
}
