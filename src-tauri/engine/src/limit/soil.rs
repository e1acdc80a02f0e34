//! The job's soil in the three classes that the rules of anchors and footings know.

use crate::anchor::deadman::HoldfastSoil;
use crate::anchor::soil::{ClayFeel, Soil, Strength};
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
