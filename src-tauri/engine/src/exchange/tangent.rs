//! Between the site frame and WGS 84 by the plane that touches the ellipsoid at the yard's place.
//!
//! # References
//! NIMA TR8350.2 (WGS 84): a = 6,378,137 m, 1/f = 298.257223563; radii of curvature in the meridian
//! M = a·(1 − e²)/(1 − e²·sin²φ)^(3/2) and in the prime vertical N = a/√(1 − e²·sin²φ). From memory; held by the
//! published lengths of a degree in the tests.

use crate::numerics::real::{cos, sin};

const SEMI_MAJOR_M: f64 = 6_378_137.0;
const RECIPROCAL_FLATTENING: f64 = 298.257_223_563;

/// Nearer to a pole than this, metres east are no longitude to speak of.
pub const FARTHEST_LATITUDE_DEG: f64 = 89.0;

/// The tangent plane at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tangent {
    latitude_deg: f64,
    longitude_deg: f64,
    per_degree_north_m: f64,
    per_degree_east_m: f64,
}

impl Tangent {
    /// The plane at the place of the site frame's origin; none where the place is not on Earth or at a pole.
    ///
    /// # Accuracy
    /// Seen from the origin, points up to 2 km away are right to 0.6 m at 60° of latitude and to 1.2 m at 75°; in a yard
    /// of 200 m to 1 cm there (the meridians draw together by E·N·tan φ/R, the parallel curves by E²·tan φ/2R).
    /// The origin itself is only as good as its latitude and longitude: a phone gives some 5 m, and all points move
    /// with it.
    pub fn at(latitude_deg: f64, longitude_deg: f64) -> Option<Self> {
        let sound = latitude_deg.abs() <= FARTHEST_LATITUDE_DEG && longitude_deg.abs() <= 180.0;
        if !sound {
            return None; // NaN is not sound
        }
        let flattening = 1.0 / RECIPROCAL_FLATTENING;
        let e2 = flattening * (2.0 - flattening);
        let phi = latitude_deg.to_radians();
        let w2 = 1.0 - e2 * sin(phi) * sin(phi);
        let meridian_m = SEMI_MAJOR_M * (1.0 - e2) / (w2 * w2.sqrt());
        let prime_vertical_m = SEMI_MAJOR_M / w2.sqrt();
        Some(Self {
            latitude_deg,
            longitude_deg,
            per_degree_north_m: meridian_m.to_radians(),
            per_degree_east_m: (prime_vertical_m * cos(phi)).to_radians(),
        })
    }

    /// Longitude and latitude in degrees of a point of the site frame.
    pub fn longitude_latitude(&self, [east_m, north_m]: [f64; 2]) -> [f64; 2] {
        let longitude = self.longitude_deg + east_m / self.per_degree_east_m;
        // RFC 7946, 3.1.9: longitudes stay within ±180.
        let longitude = if longitude > 180.0 {
            longitude - 360.0
        } else if longitude < -180.0 {
            longitude + 360.0
        } else {
            longitude
        };
        [longitude, self.latitude_deg + north_m / self.per_degree_north_m]
    }

    /// East and north in metres of a longitude and latitude in degrees.
    pub fn east_north(&self, [longitude_deg, latitude_deg]: [f64; 2]) -> [f64; 2] {
        let turn = crate::quantity::bearing::turn_deg(self.longitude_deg, longitude_deg);
        [turn * self.per_degree_east_m, (latitude_deg - self.latitude_deg) * self.per_degree_north_m]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Lengths of a degree on WGS 84 as tables give them: at the equator 110.574 km and 111.320 km, at 45° 111.132 km
    /// and 78.847 km.
    #[test]
    fn a_degree_has_its_published_length() {
        for (latitude_deg, north_km, east_km) in [(0.0, 110.574, 111.320), (45.0, 111.132, 78.847)] {
            let plane = Tangent::at(latitude_deg, 0.0).unwrap();
            assert!((plane.per_degree_north_m / 1000.0 - north_km).abs() < 0.001);
            assert!((plane.per_degree_east_m / 1000.0 - east_km).abs() < 0.001);
        }
    }

    #[test]
    fn there_and_back() {
        for place in [[44.1, -72.9], [-33.9, 179.999], [0.0, -180.0]] {
            let plane = Tangent::at(place[0], place[1]).unwrap();
            for at in [[120.0, -80.0], [-1500.0, 1999.0], [0.0, 0.0]] {
                let back = plane.east_north(plane.longitude_latitude(at));
                assert!((back[0] - at[0]).abs() < 1e-6 && (back[1] - at[1]).abs() < 1e-6, "{back:?}");
            }
        }
        assert_eq!(Tangent::at(90.0, 0.0), None);
        assert_eq!(Tangent::at(f64::NAN, 0.0), None);
    }
}
