//! Picket holdfasts: stout wooden pickets driven leaning away from the pull and lashed one to the next.

use serde::{Deserialize, Serialize};

use super::ANCHOR_FACTOR;
use super::deadman::MilitarySoil;
use crate::resistance::{Condition, GroundUnshown, Resistance};
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
///
/// In sand the loosest value of a rescue engineers' guide is taken for a single picket, and nothing is known of rows.
pub fn resistance(pickets: Pickets, soil: MilitarySoil) -> Resistance {
    let (loam_lb, source) = pickets.loam_lb();
    let shown = |pounds: f64, source| {
        Resistance::shown(pounds * POUND_N, ANCHOR_FACTOR, source, Condition::StoutPickets)
            .in_soil(soil.class())
    };
    match soil {
        MilitarySoil::Loam => shown(loam_lb, source),
        // FM 5-125, from memory: 0.5 in river clay.
        MilitarySoil::Wet => shown(0.5 * loam_lb, source).from_memory(),
        MilitarySoil::Sandy if pickets == Pickets::Single => shown(SAND_LB, SourceKey::RescuePickets),
        MilitarySoil::Sandy => Resistance::not_shown(GroundUnshown::PicketRowInSand),
        MilitarySoil::Hard => Resistance::not_shown(GroundUnshown::PicketInRock),
        MilitarySoil::Unknown => Resistance::not_shown(GroundUnshown::SoilUnknown),
    }
}

/// Of a single picket of 3 in, driven 36 in, in the loosest sand: twice the 150 lb that the US rescue engineers' guide
/// (USACE, 2006, after FHWA-IP-84-11) lets it bear at about half of its hold. In clay the guide has 1000 to 2000 lb.
const SAND_LB: f64 = 300.0;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::Confidence;

    #[test]
    fn soil_factors_are_from_memory() {
        let Resistance::Shown(wet) = resistance(Pickets::Single, MilitarySoil::Wet) else {
            panic!("a known soil")
        };
        assert_eq!(wet.confidence, Confidence::FromMemory);
        assert!((wet.ultimate_n - 350.0 * POUND_N).abs() < 1e-9);
        assert!(resistance(Pickets::Single, MilitarySoil::Unknown).allowable_n().is_none());
    }

    /// USACE Urban Search and Rescue Field Operations Guide (2006): 150 lb for one 3 in picket in the loosest sand.
    #[test]
    fn in_sand_one_picket_holds_what_was_published_and_a_row_nothing() {
        let in_sand = |pickets| resistance(pickets, MilitarySoil::Sandy).allowable_n();
        assert!((in_sand(Pickets::Single).unwrap() / POUND_N - 150.0).abs() < 1e-9);
        for row in [Pickets::OneOne, Pickets::OneOneOne, Pickets::TwoOne, Pickets::ThreeTwoOne] {
            assert_eq!(in_sand(row), None);
            assert!(resistance(row, MilitarySoil::Wet).allowable_n().is_some());
        }
    }
}
