//! Timber pressed across its grain: the base under the mast, the feet under the base.

use serde::{Deserialize, Serialize};

use super::verdict::Resistance;
use crate::source::SourceKey;

/// Pounds per square inch in MPa.
const PSI_MPA: f64 = 0.006_894_757;

/// The wood.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Wood {
    DouglasFirLarch,
    SouthernPine,
    SprucePineFir,
    HemFir,
    /// Spruce, pine and fir of the south of the United States.
    SprucePineFirSouth,
    /// Softwood of no known kind: the weakest of the above.
    #[default]
    UnknownSoftwood,
}

impl Wood {
    /// Allowable pressure across the grain F_c⊥ in psi (NDS Supplement, Table 4A: read in open-source libraries, but
    /// for the last, which is from memory).
    fn across_grain_psi(self) -> f64 {
        match self {
            Wood::DouglasFirLarch => 625.0,
            Wood::SouthernPine => 565.0,
            Wood::SprucePineFir => 425.0,
            Wood::HemFir => 405.0,
            Wood::SprucePineFirSouth | Wood::UnknownSoftwood => 335.0,
        }
    }
}

/// A part standing on a timber.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimberBearing {
    /// Length of the contact along the grain, l_b.
    pub along_grain_mm: f64,
    pub across_grain_mm: f64,
    /// From the contact to the nearer end of the timber.
    pub from_end_mm: f64,
    /// Lying outdoors it is wet, whatever it was when bought.
    pub is_wet: bool,
}

/// Bearing area factor C_b = (l_b + 9.5 mm)/l_b for contacts under 150 mm along the grain and 75 mm or more from the
/// end; 1 otherwise (NDS 3.10.4, from memory).
pub fn area_factor(along_grain_mm: f64, from_end_mm: f64) -> f64 {
    if along_grain_mm < 6.0 * 25.4 && from_end_mm >= 3.0 * 25.4 {
        1.0 + 0.375 * 25.4 / along_grain_mm
    } else {
        1.0
    }
}

/// Wet service factor C_M of pressure across the grain: 0.67 (NDS Supplement, Table 4A, from memory).
pub const WET_FACTOR: f64 = 0.67;

/// What the timber carries across its grain under the part. The allowable pressure is a safe one already: factor 1.
pub fn bearing(contact: &TimberBearing, wood: Wood) -> Resistance {
    let TimberBearing { along_grain_mm, across_grain_mm, from_end_mm, is_wet } = *contact;
    if !(along_grain_mm > 0.0 && across_grain_mm > 0.0) {
        return Resistance::not_shown("The size of the contact is missing.");
    }
    let wet = if is_wet { WET_FACTOR } else { 1.0 };
    let pressure_mpa = wood.across_grain_psi() * PSI_MPA * wet * area_factor(along_grain_mm, from_end_mm);
    let note = "The wood gives a millimetre at this load; sound wood, no knot under the part.";
    // The area and wet factors are from memory.
    Resistance::shown(pressure_mpa * along_grain_mm * across_grain_mm, 1.0, SourceKey::Nds2018, note)
        .from_memory()
}

#[cfg(test)]
mod tests {
    use super::*;

    const POST: TimberBearing =
        TimberBearing { along_grain_mm: 88.9, across_grain_mm: 88.9, from_end_mm: 500.0, is_wet: false };

    #[test]
    fn wet_or_near_the_end_it_carries_less() {
        let carried = |contact: TimberBearing| bearing(&contact, Wood::HemFir).allowable_n().unwrap();
        assert!((carried(TimberBearing { is_wet: true, ..POST }) / carried(POST) - 0.67).abs() < 1e-12);
        assert!(carried(TimberBearing { from_end_mm: 20.0, ..POST }) < carried(POST));
        assert!(
            bearing(&TimberBearing { along_grain_mm: f64::NAN, ..POST }, Wood::HemFir)
                .allowable_n()
                .is_none()
        );
    }
}
