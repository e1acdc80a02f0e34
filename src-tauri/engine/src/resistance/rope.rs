//! Ropes: the least strength, less what the knot or clip takes, over the design factor.

use serde::{Deserialize, Serialize};

use super::condition::Condition;
use super::unshown::RopeUnshown;
use super::verdict::Resistance;
use crate::source::SourceKey;

/// How the end of a rope is made fast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RopeEnd {
    /// A bowline, two half hitches, or another sound knot at an eye, in fibre rope.
    #[default]
    Knot,
    FigureEightLoop,
    /// A reef knot, or a knot that joins two ropes: nothing to hang a mast on.
    ReefKnot,
    /// An eye spliced into fibre rope as its maker says.
    EyeSplice,
    /// Wire rope clips, as many as [`clips_needed`], made to the maker's instructions.
    Clips,
    /// Pressed sleeve on wire rope.
    Sleeve,
    /// Hand-tucked splice round a thimble in wire rope.
    ThimbleSplice,
    WedgeSocket,
}

impl RopeEnd {
    /// Part of the rope's strength that the end keeps; none where it is no end for a guy.
    pub fn efficiency(self) -> Option<(f64, SourceKey)> {
        match self {
            // Sellers' tables: about half for common knots, 35 % lost in a figure-eight loop. Tests of a bowline and two
            // half hitches keep 60–75 %.
            RopeEnd::Knot => Some((0.50, SourceKey::RopeLore)),
            RopeEnd::FigureEightLoop => Some((0.65, SourceKey::RopeLore)),
            // It keeps 43–47 % and spills when it is nudged (Cordage Institute figures in a sailing paper).
            RopeEnd::ReefKnot => None,
            // A rigger's page: 70–90 % of the breaking load for a splice, 90 % for a professional one.
            RopeEnd::EyeSplice => Some((0.70, SourceKey::RopeSplices)),
            // TM 5-3810-305-10, Table 4; the lower of its values where it gives several.
            RopeEnd::Clips => Some((0.80, SourceKey::Tm5_3810)),
            RopeEnd::Sleeve => Some((0.925, SourceKey::Tm5_3810)),
            RopeEnd::ThimbleSplice => Some((0.76, SourceKey::Tm5_3810)),
            RopeEnd::WedgeSocket => Some((0.75, SourceKey::Tm5_3810)),
        }
    }

    fn is_knot(self) -> bool {
        matches!(self, RopeEnd::Knot | RopeEnd::FigureEightLoop | RopeEnd::ReefKnot)
    }

    fn is_for_wire(self) -> bool {
        matches!(self, RopeEnd::Clips | RopeEnd::Sleeve | RopeEnd::ThimbleSplice | RopeEnd::WedgeSocket)
    }
}

/// What a rope is made of: by it go its factor, its knots and what it loses when wet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RopeMaterial {
    /// Fibre of a kind that nobody has named: nothing is shown of it.
    #[default]
    Fibre,
    Polyester,
    Nylon,
    /// Polypropylene and other floating rope.
    Polypropylene,
    /// Manila, hemp, sisal, cotton.
    Natural,
    /// High-modulus polyethylene, sold under makers' names: very strong, very smooth.
    Hmpe,
    Steel,
}

impl RopeMaterial {
    /// By which the strength is divided where the user says no other.
    ///
    /// # References
    /// CI 1308 and 1401: 5 to 12 on fibre rope, the low end only with known rope, load and practice, more for knots, for
    /// loads that stand for long, for sun and age, and where somebody can be hurt. A guy has all of these: 8, the middle.
    /// Sellers' lists divide manila and polypropylene by 10. Steel guys: 2.0 (ANSI/TIA-222-F, from memory).
    pub fn design_factor(self) -> f64 {
        match self {
            RopeMaterial::Steel => STEEL_GUY_FACTOR,
            RopeMaterial::Natural | RopeMaterial::Polypropylene => 10.0,
            RopeMaterial::Fibre | RopeMaterial::Polyester | RopeMaterial::Nylon | RopeMaterial::Hmpe => {
                FIBRE_FACTOR
            }
        }
    }

    /// No smaller factor is taken from the user.
    pub fn least_factor(self) -> f64 {
        if self == RopeMaterial::Steel { STEEL_GUY_FACTOR } else { LEAST_FIBRE_FACTOR }
    }

    /// What is left of the strength in the rain.
    ///
    /// # References
    /// Rope notes (`wet-rope`): nylon loses 10–20 %, natural fibre up to about half, the others nothing.
    pub fn wet_share(self) -> f64 {
        match self {
            RopeMaterial::Nylon => 0.80,
            RopeMaterial::Natural => 0.50,
            _ => 1.0,
        }
    }
}

/// Design factor of fibre rope, in the middle of the 5 to 12 that CI 1308 names.
pub const FIBRE_FACTOR: f64 = 8.0;
/// The least that CI 1308 names for fibre rope.
pub const LEAST_FIBRE_FACTOR: f64 = 5.0;
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

/// A rope as a guy is made of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuyRope {
    pub breaking: Breaking,
    pub material: RopeMaterial,
    pub ends: [RopeEnd; 2],
    /// By which the strength is divided; none for the material's own.
    pub factor: Option<f64>,
}

impl GuyRope {
    /// What a guy of this rope may be pulled with: the weaker of its two ends, in the rain.
    pub fn resistance(&self) -> Resistance {
        let (efficiency, source) = match self.weaker_end() {
            Ok(end) => end,
            Err(reason) => return Resistance::not_shown(reason),
        };
        let factor = self.factor.unwrap_or(self.material.design_factor());
        if factor < self.material.least_factor() {
            return Resistance::not_shown(RopeUnshown::FactorTooSmall);
        }
        let ultimate_n = efficiency * self.material.wet_share() * self.breaking.least_n();
        let rope = if self.material.wet_share() < 1.0 { Condition::NewRopeWet } else { Condition::NewRope };
        match self.material {
            RopeMaterial::Steel => {
                Resistance::shown(ultimate_n, factor, SourceKey::Tia222F, rope).from_memory()
            }
            _ => Resistance::shown(ultimate_n, factor, source, rope),
        }
    }

    /// What the weaker end keeps, or why that is not known.
    fn weaker_end(&self) -> Result<(f64, SourceKey), RopeUnshown> {
        let wire = self.material == RopeMaterial::Steel;
        let [a, b] = self.ends;
        if self.material == RopeMaterial::Fibre {
            return Err(RopeUnshown::FibreUnnamed);
        }
        if [a, b].contains(&RopeEnd::ReefKnot) {
            return Err(RopeUnshown::ReefKnot);
        }
        // HMPE in a bowline or a figure-eight keeps about a third, between two lines a fifth; knots in it slip at 20–35 %
        // (tests told in a thesis and in sailing papers).
        if self.material == RopeMaterial::Hmpe && (a.is_knot() || b.is_knot()) {
            return Err(RopeUnshown::KnotInHmpe);
        }
        if a.is_for_wire() != wire || b.is_for_wire() != wire {
            return Err(RopeUnshown::EndNotForMaterial);
        }
        match (a.efficiency(), b.efficiency()) {
            (Some(a), Some(b)) => Ok(if a.0 <= b.0 { a } else { b }),
            _ => Err(RopeUnshown::NoEndForAMast),
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

    const ROPE: GuyRope = GuyRope {
        breaking: Breaking::Least { strength_n: 7000.0 },
        material: RopeMaterial::Polyester,
        ends: [RopeEnd::Knot; 2],
        factor: None,
    };

    fn held_n(rope: GuyRope) -> Option<f64> {
        rope.resistance().allowable_n()
    }

    #[test]
    fn the_weaker_end_holds() {
        // 6 mm polyester of 7 kN least strength, a knot at one end: 7000·0.5/8 = 437.5 N.
        for ends in [[RopeEnd::Knot, RopeEnd::FigureEightLoop], [RopeEnd::FigureEightLoop, RopeEnd::Knot]] {
            assert!((held_n(GuyRope { ends, ..ROPE }).unwrap() - 437.5).abs() < 1e-9);
        }
        let breaking = Breaking::Average { strength_n: f64::NAN };
        let wire =
            GuyRope { breaking, material: RopeMaterial::Steel, ends: [RopeEnd::Clips; 2], factor: None };
        assert_eq!(held_n(wire), None);
    }

    /// Wet nylon 0.8 of dry, wet manila half; manila and polypropylene over 10, as their sellers do.
    #[test]
    fn what_rain_and_fibre_take() {
        for (material, expected_n) in [
            (RopeMaterial::Polyester, 7000.0 * 0.5 / 8.0),
            (RopeMaterial::Nylon, 7000.0 * 0.5 * 0.8 / 8.0),
            (RopeMaterial::Polypropylene, 7000.0 * 0.5 / 10.0),
            (RopeMaterial::Natural, 7000.0 * 0.5 * 0.5 / 10.0),
        ] {
            let held = held_n(GuyRope { material, ..ROPE }).unwrap();
            assert!((held - expected_n).abs() < 1e-9, "{material:?}");
        }
    }

    #[test]
    fn an_unnamed_fibre_a_reef_knot_and_a_knot_in_hmpe_are_not_shown() {
        let fibre = RopeMaterial::Fibre;
        assert_eq!(held_n(GuyRope { material: fibre, ..ROPE }), None);
        assert_eq!(held_n(GuyRope { ends: [RopeEnd::Knot, RopeEnd::ReefKnot], ..ROPE }), None);
        let hmpe = GuyRope { material: RopeMaterial::Hmpe, ..ROPE };
        for knot in [RopeEnd::Knot, RopeEnd::FigureEightLoop] {
            assert_eq!(held_n(GuyRope { ends: [knot, RopeEnd::EyeSplice], ..hmpe }), None);
        }
        let spliced = GuyRope { ends: [RopeEnd::EyeSplice; 2], ..hmpe };
        assert!((held_n(spliced).unwrap() - 7000.0 * 0.7 / 8.0).abs() < 1e-9);
        // Clips belong on wire, knots do not.
        assert_eq!(held_n(GuyRope { ends: [RopeEnd::Clips; 2], ..ROPE }), None);
        assert_eq!(held_n(GuyRope { material: RopeMaterial::Steel, ..ROPE }), None);
    }

    #[test]
    fn no_factor_below_the_rules_is_taken() {
        assert!((held_n(GuyRope { factor: Some(5.0), ..ROPE }).unwrap() - 700.0).abs() < 1e-9);
        assert_eq!(held_n(GuyRope { factor: Some(4.9), ..ROPE }), None);
        let wire = GuyRope { material: RopeMaterial::Steel, ends: [RopeEnd::Clips; 2], ..ROPE };
        assert!(held_n(GuyRope { factor: Some(2.0), ..wire }).is_some());
        assert_eq!(held_n(GuyRope { factor: Some(1.9), ..wire }), None);
    }
}
