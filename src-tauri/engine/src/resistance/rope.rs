//! Ropes: the least strength, less what the knot or clip takes, over the design factor.

use serde::{Deserialize, Serialize};

use super::verdict::Resistance;
use crate::source::SourceKey;

/// How the end of a rope is made fast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RopeEnd {
    /// Any common knot or hitch in fibre rope.
    #[default]
    Knot,
    FigureEightLoop,
    /// Wire rope clips, as many as [`clips_needed`], made to the maker's instructions.
    Clips,
    /// Pressed sleeve on wire rope.
    Sleeve,
    /// Hand-tucked splice round a thimble in wire rope.
    ThimbleSplice,
    WedgeSocket,
}

impl RopeEnd {
    /// Part of the rope's strength that the end keeps.
    pub fn efficiency(self) -> (f64, SourceKey) {
        match self {
            // Sellers' tables: about half for common knots, 35 % lost in a figure-eight loop.
            RopeEnd::Knot => (0.50, SourceKey::RopeLore),
            RopeEnd::FigureEightLoop => (0.65, SourceKey::RopeLore),
            // TM 5-3810-305-10, Table 4; the lower of its values where it gives several.
            RopeEnd::Clips => (0.80, SourceKey::Tm5_3810),
            RopeEnd::Sleeve => (0.925, SourceKey::Tm5_3810),
            RopeEnd::ThimbleSplice => (0.76, SourceKey::Tm5_3810),
            RopeEnd::WedgeSocket => (0.75, SourceKey::Tm5_3810),
        }
    }
}

/// What a rope is made of, for its design factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RopeMaterial {
    #[default]
    Fibre,
    Steel,
}

/// Least design factor of fibre rope: 5 of the 5 to 12 that CI 1308 names; sellers say 10 for manila and polypropylene.
pub const FIBRE_FACTOR: f64 = 5.0;
/// Design factor of steel guys: 2.0 (ANSI/TIA-222-F, from memory).
pub const STEEL_GUY_FACTOR: f64 = 2.0;
/// The least over the average strength of one and the same rope, from two sellers' lists of three-strand rope (nylon
/// 1490/1650 lb, polypropylene 1130/1250 lb; both 0.90).
pub const LEAST_OVER_AVERAGE: f64 = 0.90;

/// The breaking strength that the maker states.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Breaking {
    Least { strength_n: f64 },
    Average { strength_n: f64 },
}

impl Breaking {
    pub fn least_n(self) -> f64 {
        match self {
            Breaking::Least { strength_n } => strength_n,
            Breaking::Average { strength_n } => LEAST_OVER_AVERAGE * strength_n,
        }
    }
}

/// What a guy of this rope may be pulled with: the weaker of its two ends.
pub fn resistance(breaking: Breaking, material: RopeMaterial, ends: [RopeEnd; 2]) -> Resistance {
    let [a, b] = ends.map(RopeEnd::efficiency);
    let (efficiency, end_source) = if a.0 <= b.0 { a } else { b };
    let note =
        "A new rope, out of the sun and off sharp edges; old, chafed or knotted in the middle it holds less.";
    let ultimate_n = efficiency * breaking.least_n();
    match material {
        RopeMaterial::Fibre => Resistance::shown(ultimate_n, FIBRE_FACTOR, end_source, note),
        RopeMaterial::Steel => {
            Resistance::shown(ultimate_n, STEEL_GUY_FACTOR, SourceKey::Tia222F, note).from_memory()
        }
    }
}

/// How many clips a wire rope of a diameter takes: 3·D + 1 with D in inches, rounded up (NAVEDTRA 14026, p. 1-8).
pub fn clips_needed(diameter_mm: f64) -> u32 {
    // A hair off, so that a diameter given as 25.4 mm is one inch and not a little more.
    (3.0 * diameter_mm / 25.4 + 1.0 - 1e-9).ceil().clamp(2.0, 20.0) as u32
}

/// How far apart they sit: 6·D (same place).
pub fn clip_spacing_mm(diameter_mm: f64) -> f64 {
    6.0 * diameter_mm
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_weaker_end_holds() {
        // 6 mm polyester of 7 kN least strength, a knot at one end: 7000·0.5/5 = 700 N.
        let breaking = Breaking::Least { strength_n: 7000.0 };
        for ends in [[RopeEnd::Knot, RopeEnd::FigureEightLoop], [RopeEnd::FigureEightLoop, RopeEnd::Knot]] {
            let held = resistance(breaking, RopeMaterial::Fibre, ends);
            assert!((held.allowable_n().unwrap() - 700.0).abs() < 1e-9);
        }
        assert!(
            resistance(Breaking::Average { strength_n: f64::NAN }, RopeMaterial::Steel, [RopeEnd::Clips; 2])
                .allowable_n()
                .is_none()
        );
    }
}
