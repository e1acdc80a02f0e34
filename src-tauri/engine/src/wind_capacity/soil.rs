//! The job's soil in the three classes that the rules of anchors and footings know.

use crate::anchor::deadman::MilitarySoil;
use crate::anchor::soil::{ClayFeel, SandFeel, Soil, Strength};
use crate::job::{SoilFeel, Yard};

/// What is left of the hold of fine-grained ground once it is wet through: about half, by rules of thumb (`wet-ground`).
pub const WET_SHARE: f64 = 0.5;

/// The yard's soil as it may come to be: by feel, and wetter than it was then where it may get so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SoilState {
    pub feel: SoilFeel,
    pub wet: bool,
}

impl SoilState {
    /// Clay, garden soil and soft ground are taken to get wet as long as nobody says that they do not.
    pub fn of(yard: &Yard) -> Self {
        let softens = matches!(yard.soil, SoilFeel::Clay { .. } | SoilFeel::Loam | SoilFeel::SoftOrFill);
        Self { feel: yard.soil, wet: yard.wet_season.unwrap_or(softens) }
    }

    /// Strength for plates, helices and stakes. None is published for loam, gravel and rock by feel.
    ///
    /// # References
    /// Wet clay: [`WET_SHARE`]. Wet sand has its weight under water and its friction (EM 1110-2-2504, Table 3-1).
    pub fn strength(self) -> Strength {
        match self.feel {
            SoilFeel::Clay { feel } => match Strength::of_clay(feel) {
                Strength::Clay { undrained_pa } if self.wet => {
                    Strength::Clay { undrained_pa: WET_SHARE * undrained_pa }
                }
                dry => dry,
            },
            SoilFeel::Sand { feel, under_water } => Strength::of_sand(feel, under_water || self.wet),
            SoilFeel::Unknown | SoilFeel::Loam | SoilFeel::Gravel | SoilFeel::Rock | SoilFeel::SoftOrFill => {
                Strength::Unknown
            }
        }
    }

    /// What is left, wet, of what a screw's turning moment told. Deep screws in drowned sand hold nearly what they hold
    /// in dry sand (Ghaly 1991); the weight of that sand is looked at beside the moment.
    pub fn torque_share(self) -> f64 {
        let coarse = matches!(self.feel, SoilFeel::Sand { .. } | SoilFeel::Gravel | SoilFeel::Rock);
        if self.wet && !coarse { WET_SHARE } else { 1.0 }
    }

    /// Class of the military tables: what is fine-grained becomes their wet class.
    pub fn military_class(self) -> MilitarySoil {
        match military_class(self.feel) {
            MilitarySoil::Loam if self.wet => MilitarySoil::Wet,
            class => class,
        }
    }
}

/// Class of the building code. Soft clay counts as soft ground; loam has its silt's class; rock the weaker one.
pub fn code_class(soil: SoilFeel) -> Soil {
    match soil {
        SoilFeel::Unknown => Soil::Unknown,
        SoilFeel::Clay { feel: ClayFeel::VerySoft | ClayFeel::Soft } | SoilFeel::SoftOrFill => {
            Soil::SoftOrFill
        }
        SoilFeel::Clay { .. } | SoilFeel::Loam => Soil::Clay,
        SoilFeel::Sand { .. } => Soil::Sand,
        SoilFeel::Gravel => Soil::Gravel,
        SoilFeel::Rock => Soil::LayeredRock,
    }
}

/// Class of the military tables as felt. That clay must be stiff to count as loam is our caution, not theirs.
fn military_class(soil: SoilFeel) -> MilitarySoil {
    match soil {
        SoilFeel::Loam | SoilFeel::Clay { feel: ClayFeel::Stiff | ClayFeel::VeryStiff | ClayFeel::Hard } => {
            MilitarySoil::Loam
        }
        SoilFeel::Clay { feel: ClayFeel::Firm | ClayFeel::Soft } => MilitarySoil::Wet,
        SoilFeel::Sand { .. } => MilitarySoil::Sandy,
        SoilFeel::Rock => MilitarySoil::Hard,
        SoilFeel::Unknown
        | SoilFeel::Gravel
        | SoilFeel::SoftOrFill
        | SoilFeel::Clay { feel: ClayFeel::VerySoft } => MilitarySoil::Unknown,
    }
}

/// The next class up of the same soil by the bands of its strength (TM 5-818-1, Table 2-2; EM 1110-2-2504, Table 3-1).
///
/// None where there is no band above, or none is published by feel. None for soft clay either: the building code
/// presumes nothing of it and something of firm clay, so that the limit with firm clay looks at more parts than the
/// limit now, and is no measure of what that helps.
pub fn one_class_firmer(soil: SoilFeel) -> Option<SoilFeel> {
    let clay = |feel| Some(SoilFeel::Clay { feel });
    let sand = |feel, under_water| Some(SoilFeel::Sand { feel, under_water });
    match soil {
        SoilFeel::Clay { feel: ClayFeel::Firm } => clay(ClayFeel::Stiff),
        SoilFeel::Clay { feel: ClayFeel::Stiff } => clay(ClayFeel::VeryStiff),
        SoilFeel::Clay { feel: ClayFeel::VeryStiff } => clay(ClayFeel::Hard),
        SoilFeel::Sand { feel: SandFeel::Loose, under_water } => sand(SandFeel::Medium, under_water),
        SoilFeel::Sand { feel: SandFeel::Medium, under_water } => sand(SandFeel::Dense, under_water),
        SoilFeel::Clay { feel: ClayFeel::VerySoft | ClayFeel::Soft | ClayFeel::Hard }
        | SoilFeel::Sand { feel: SandFeel::Dense, .. }
        | SoilFeel::Unknown
        | SoilFeel::Loam
        | SoilFeel::Gravel
        | SoilFeel::Rock
        | SoilFeel::SoftOrFill => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A class up must lose no check: each of the three readings knows as much of it as before.
    #[test]
    fn a_class_up_is_stronger_and_known_to_every_rule_as_before() {
        use ClayFeel::{Firm, Stiff, VeryStiff};
        let clays = [Firm, Stiff, VeryStiff].map(|feel| SoilFeel::Clay { feel });
        let sands =
            [SandFeel::Loose, SandFeel::Medium].map(|feel| SoilFeel::Sand { feel, under_water: true });
        for before in clays.into_iter().chain(sands) {
            let after = one_class_firmer(before).unwrap();
            assert_eq!(code_class(before), code_class(after));
            assert!(military_class(after).factor() >= military_class(before).factor());
            let strength = |feel| SoilState { feel, wet: true }.strength();
            let stronger = match (strength(before), strength(after)) {
                (Strength::Clay { undrained_pa: was }, Strength::Clay { undrained_pa: is }) => is > was,
                (Strength::Sand { friction_deg: was, .. }, Strength::Sand { friction_deg: is, .. }) => {
                    is > was
                }
                _ => false,
            };
            assert!(stronger, "{before:?}");
        }
        assert_eq!(one_class_firmer(SoilFeel::Clay { feel: ClayFeel::Soft }), None);
        assert_eq!(one_class_firmer(SoilFeel::Sand { feel: SandFeel::Dense, under_water: false }), None);
    }

    fn yard(soil: SoilFeel, wet_season: Option<bool>) -> Yard {
        Yard {
            soil,
            wet_season,
            ..crate::job::blank(crate::quantity::Units {
                system: crate::quantity::UnitSystem::Metric,
                inch_fraction: 16,
            })
            .yard
        }
    }

    /// Nobody said: clay is taken to get wet. 50 kPa felt (stiff: at least 47.88) leave 23.94.
    #[test]
    fn clay_gets_wet_unless_somebody_says_that_it_does_not() {
        let stiff = SoilFeel::Clay { feel: ClayFeel::Stiff };
        let undrained = |wet| match SoilState::of(&yard(stiff, wet)).strength() {
            Strength::Clay { undrained_pa } => undrained_pa,
            other => panic!("{other:?}"),
        };
        assert!((undrained(None) - 0.5 * 47_880.259).abs() < 1e-6);
        assert_eq!(undrained(None), undrained(Some(true)));
        assert!((undrained(Some(false)) - 47_880.259).abs() < 1e-6);
        assert_eq!(SoilState::of(&yard(stiff, None)).torque_share(), 0.5);
        assert_eq!(SoilState::of(&yard(SoilFeel::Loam, None)).military_class(), MilitarySoil::Wet);
        assert_eq!(SoilState::of(&yard(SoilFeel::Loam, Some(false))).military_class(), MilitarySoil::Loam);
    }

    #[test]
    fn wet_sand_has_its_weight_under_water() {
        let dry = SoilFeel::Sand { feel: SandFeel::Medium, under_water: false };
        let drowned = Strength::of_sand(SandFeel::Medium, true);
        assert_eq!(SoilState::of(&yard(dry, Some(true))).strength(), drowned);
        assert_eq!(SoilState::of(&yard(dry, None)).strength(), Strength::of_sand(SandFeel::Medium, false));
        assert_eq!(SoilState::of(&yard(dry, Some(true))).torque_share(), 1.0);
    }
}
