//! The Beaufort scale: what a *mean* wind looks like.
//!
//! A Beaufort number is a ten-minute mean at 10 m over open flat ground, not a gust. The gusts of a wind of force 6
//! inland reach what the scale calls 9: see [`usual_gust_m_per_s`]. Whoever looks up a gust in this table finds a
//! number three too high, and whoever takes the mean for the gust believes in less than half of the force.

use super::gust::{Mean, Upwind, gust_over_mean};

/// The names of the scale, from 0 to 12; what each does on land stands in `report::words::beaufort`.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Beaufort {
    Calm,
    LightAir,
    LightBreeze,
    GentleBreeze,
    ModerateBreeze,
    FreshBreeze,
    StrongBreeze,
    NearGale,
    Gale,
    StrongGale,
    Storm,
    ViolentStorm,
    Hurricane,
}

/// One number of the scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Force {
    pub number: u8,
    pub name: Beaufort,
    /// Lowest ten-minute mean of the number in m/s; its highest lies just under the next number's lowest.
    pub mean_from_m_per_s: f64,
    /// The band in whole knots, both ends included; the last number has no upper end.
    pub mean_knots: (u16, Option<u16>),
    /// The band in whole miles an hour.
    pub mean_mph: (u16, Option<u16>),
}

const fn force(
    name: Beaufort,
    mean_from_m_per_s: f64,
    mean_knots: (u16, Option<u16>),
    mean_mph: (u16, Option<u16>),
) -> Force {
    Force { number: name as u8, name, mean_from_m_per_s, mean_knots, mean_mph }
}

/// The scale, 0 to 12 (World Meteorological Organization, Manual on Codes; bands read).
#[rustfmt::skip]
pub const SCALE: [Force; 13] = [
    force(Beaufort::Calm, 0.0, (0, Some(0)), (0, Some(0))),
    force(Beaufort::LightAir, 0.3, (1, Some(3)), (1, Some(3))),
    force(Beaufort::LightBreeze, 1.6, (4, Some(6)), (4, Some(7))),
    force(Beaufort::GentleBreeze, 3.4, (7, Some(10)), (8, Some(12))),
    force(Beaufort::ModerateBreeze, 5.5, (11, Some(16)), (13, Some(18))),
    force(Beaufort::FreshBreeze, 8.0, (17, Some(21)), (19, Some(24))),
    force(Beaufort::StrongBreeze, 10.8, (22, Some(27)), (25, Some(31))),
    force(Beaufort::NearGale, 13.9, (28, Some(33)), (32, Some(38))),
    force(Beaufort::Gale, 17.2, (34, Some(40)), (39, Some(46))),
    force(Beaufort::StrongGale, 20.8, (41, Some(47)), (47, Some(54))),
    force(Beaufort::Storm, 24.5, (48, Some(55)), (55, Some(63))),
    force(Beaufort::ViolentStorm, 28.5, (56, Some(63)), (64, Some(72))),
    force(Beaufort::Hurricane, 32.7, (64, None), (73, None)),
];

/// The Beaufort number of a ten-minute *mean* wind.
pub fn of_mean(mean_m_per_s: f64) -> &'static Force {
    let [calm, ..] = &SCALE;
    SCALE.iter().rev().find(|force| mean_m_per_s >= force.mean_from_m_per_s).unwrap_or(calm)
}

/// The Beaufort number of the mean wind whose gusts usually reach this *gust*: what to look for in a forecast or in
/// the trees.
pub fn of_usual_gust(gust_m_per_s: f64, upwind: Upwind) -> &'static Force {
    of_mean(gust_m_per_s / gust_over_mean(upwind, Mean::TenMinutes))
}

/// The gust that usually goes with the lowest mean wind of a number.
pub fn usual_gust_m_per_s(force: &Force, upwind: Upwind) -> f64 {
    force.mean_from_m_per_s * gust_over_mean(upwind, Mean::TenMinutes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_gust_is_not_a_mean() {
        // 20 m/s as a mean is a gale; as a gust inland it goes with a mean of 12 m/s, force 6.
        assert_eq!(of_mean(20.0).number, 8);
        assert_eq!(of_usual_gust(20.0, Upwind::InLand).number, 6);
        assert_eq!(of_mean(usual_gust_m_per_s(&SCALE[7], Upwind::InLand)).number, 9);
        assert_eq!(of_mean(f64::NAN).number, 0);
        assert_eq!(of_mean(-1.0).number, 0);
    }
}
