//! Picket holdfasts: stout wooden pickets driven leaning away from the pull and lashed one to the next.

use serde::{Deserialize, Serialize};

use super::deadman::HoldfastSoil;
use super::{ANCHOR_FACTOR, SOIL_UNKNOWN};
use crate::resistance::Resistance;
use crate::source::SourceKey;

const POUND_N: f64 = 4.448_221_615_260_5;

/// How many pickets stand in each row, front row first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Pickets {
    Single,
    OneOne,
    OneOneOne,
    TwoOne,
    ThreeTwoOne,
}

impl Pickets {
    /// Holding power in loam, pounds, and where it was read.
    fn loam_lb(self) -> (f64, SourceKey) {
        match self {
            // NAVEDTRA 14251, figs. 6-45 to 6-47.
            Pickets::Single => (700.0, SourceKey::NavedtraPickets),
            Pickets::OneOneOne => (1800.0, SourceKey::NavedtraPickets),
            Pickets::ThreeTwoOne => (4000.0, SourceKey::NavedtraPickets),
            // FM 5-125, from memory.
            Pickets::OneOne => (1400.0, SourceKey::Fm5_125),
            Pickets::TwoOne => (2000.0, SourceKey::Fm5_125),
        }
    }
}

/// What a holdfast of full-size pickets holds: at least 3 in thick and 5 ft long, driven 3 to 4 ft deep, 3 to 6 ft
/// apart, leaning 15° away from the pull. A thinner or shorter stake is reckoned by [`stake`](super::stake) instead.
///
/// Another manual (Australian Emergency Manual, Disaster Rescue, 8.3) gives a steel picket of 25 mm by 1.5 m, two
/// thirds in the ground and leaning 45°, 350 kg of safe load, more than the 318 kg of the wooden one: the lower is
/// kept, and divided by the anchor's factor.
pub fn resistance(pickets: Pickets, soil: HoldfastSoil) -> Resistance {
    let (loam_lb, source) = pickets.loam_lb();
    // FM 5-125, from memory: 0.5 in river clay and sand. Rock and hardpan take no wooden picket.
    let factor = match soil {
        HoldfastSoil::Loam => 1.0,
        HoldfastSoil::WetOrSandy => 0.5,
        HoldfastSoil::Hard => {
            return Resistance::not_shown("No published value for pickets in rock or hardpan.");
        }
        HoldfastSoil::Unknown => return Resistance::not_shown(SOIL_UNKNOWN),
    };
    let note = "Wooden pickets at least 75 mm (3 in) thick and 1.5 m (5 ft) long, driven 0.9 to 1.2 m (3 to 4 ft) deep, \
                leaning 15° away from the pull, lashed in line.";
    let held =
        Resistance::shown(loam_lb * POUND_N * factor, ANCHOR_FACTOR, source, note).in_soil(soil.name());
    if soil == HoldfastSoil::Loam { held } else { held.from_memory() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Confidence;

    #[test]
    fn soil_factors_are_from_memory() {
        let Resistance::Shown(wet) = resistance(Pickets::Single, HoldfastSoil::WetOrSandy) else {
            panic!("a known soil")
        };
        assert_eq!(wet.confidence, Confidence::FromMemory);
        assert!((wet.ultimate_n - 350.0 * POUND_N).abs() < 1e-9);
        assert!(resistance(Pickets::Single, HoldfastSoil::Unknown).allowable_n().is_none());
    }
}
