//! The job's soil in the three classes that the rules of anchors and footings know.

use crate::anchor::deadman::HoldfastSoil;
use crate::anchor::soil::{ClayFeel, SandFeel, Soil, Strength};
use crate::job::SoilFeel;

/// Strength for plates, helices and stakes. None is published for loam, gravel and rock by feel.
pub fn strength(soil: SoilFeel) -> Strength {
    match soil {
        SoilFeel::Clay { feel } => Strength::of_clay(feel),
        SoilFeel::Sand { feel, under_water } => Strength::of_sand(feel, under_water),
        SoilFeel::Unknown | SoilFeel::Loam | SoilFeel::Gravel | SoilFeel::Rock | SoilFeel::SoftOrFill => {
            Strength::Unknown
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

/// Class of the military tables. That clay must be stiff to count as loam is our caution, not theirs.
pub fn holdfast_class(soil: SoilFeel) -> HoldfastSoil {
    match soil {
        SoilFeel::Loam | SoilFeel::Clay { feel: ClayFeel::Stiff | ClayFeel::VeryStiff | ClayFeel::Hard } => {
            HoldfastSoil::Loam
        }
        SoilFeel::Clay { feel: ClayFeel::Firm | ClayFeel::Soft } | SoilFeel::Sand { .. } => {
            HoldfastSoil::WetOrSandy
        }
        SoilFeel::Rock => HoldfastSoil::Hard,
        SoilFeel::Unknown
        | SoilFeel::Gravel
        | SoilFeel::SoftOrFill
        | SoilFeel::Clay { feel: ClayFeel::VerySoft } => HoldfastSoil::Unknown,
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
            assert!(holdfast_class(after).factor() >= holdfast_class(before).factor());
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
}
