//! A steel tube in compression and bending, by either code.

use serde::{Deserialize, Serialize};

use super::unshown::TubeUnshown;
use super::{aisc360, en1993};
use crate::source::SourceKey;
use crate::tube::TubeSection;

/// Yield of a tube that nobody has papers of, in MPa. The conduit standards C80.1, C80.3 and C80.6 set none; mild steel
/// has 205 to 240 (common practice, from memory). With papers: EN 10255 195, EN 39 235, ASTM A53 grade B 240, grade A
/// 205.
pub const CAUTIOUS_YIELD_MPA: f64 = 205.0;

/// The same where it may be of the softest steel of the tables: EN 10255:2004, table 2, S195T.
pub const SOFTEST_YIELD_MPA: f64 = 195.0;

/// A round steel tube with what its section formulas need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteelTube {
    pub outside_mm: f64,
    pub wall_mm: f64,
    pub yield_mpa: f64,
}

impl SteelTube {
    pub fn new(section: &TubeSection, yield_mpa: f64) -> Self {
        SteelTube { outside_mm: section.outside_mm, wall_mm: section.wall_mm, yield_mpa }
    }

    fn section(&self) -> TubeSection {
        TubeSection {
            outside_mm: self.outside_mm,
            wall_mm: self.wall_mm,
            mass_kg_per_m: 0.0,
            source: SourceKey::Geometry,
        }
    }

    pub fn area_mm2(&self) -> f64 {
        self.section().area_mm2()
    }

    pub fn radius_of_gyration_mm(&self) -> f64 {
        self.section().radius_of_gyration_mm()
    }

    /// Elastic section modulus I/(D/2).
    pub fn elastic_modulus_mm3(&self) -> f64 {
        2.0 * self.section().second_moment_mm4() / self.outside_mm
    }

    /// Plastic section modulus (D³ − d³)/6.
    pub fn plastic_modulus_mm3(&self) -> f64 {
        let (outside, inside) = (self.outside_mm, self.section().inside_mm());
        (outside * outside * outside - inside * inside * inside) / 6.0
    }

    /// Outside diameter over wall.
    pub fn slenderness_of_wall(&self) -> f64 {
        self.outside_mm / self.wall_mm
    }

    /// Whether the numbers are those of a tube.
    fn is_tube(&self) -> bool {
        self.yield_mpa > 0.0
            && self.wall_mm > 0.0
            && 2.0 * self.wall_mm < self.outside_mm
            && (self.outside_mm * self.yield_mpa).is_finite()
    }
}

/// By which code a tube is reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TubeCode {
    En1993,
    Aisc360,
}

impl TubeCode {
    pub fn source(self) -> SourceKey {
        match self {
            TubeCode::En1993 => SourceKey::En1993_1_1,
            TubeCode::Aisc360 => SourceKey::Aisc360,
        }
    }
}

/// What a tube carries before it yields or buckles, and the factor for daily use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeStrength {
    /// Compression, buckling over the effective length included.
    pub axial_n: f64,
    pub moment_nm: f64,
    pub shear_n: f64,
    /// By which each is divided.
    pub factor: f64,
    pub code: TubeCode,
}

impl TubeStrength {
    /// Load over what the tube may carry under compression and bending together: 1 is the limit.
    ///
    /// The moment is that of the bent mast (second order); tension may be given as nothing, since it only helps.
    ///
    /// # References
    /// EN 1993-1-1 6.2.1 (7): the ratios added. AISC 360-16 H1-1.
    pub fn utilisation(&self, compression_n: f64, moment_nm: f64) -> f64 {
        // A comparison, not f64::max: that would turn a force that is not a number into a pass.
        let compression_n = if compression_n < 0.0 { 0.0 } else { compression_n };
        let axial = compression_n * self.factor / self.axial_n;
        let bending = moment_nm.abs() * self.factor / self.moment_nm;
        match self.code {
            TubeCode::En1993 => axial + bending,
            TubeCode::Aisc360 => aisc360::interaction(axial, bending),
        }
    }

    pub fn shear_utilisation(&self, shear_n: f64) -> f64 {
        shear_n.abs() * self.factor / self.shear_n
    }
}

/// What a tube carries.
///
/// # Units
/// `effective_length_m`: that of the strut that it would buckle as; none where the mast's second-order analysis already
/// holds the buckling, so that the section alone is asked for.
/// # Errors
/// Where the code does not cover the tube: walls too thin.
pub fn strength(
    tube: &SteelTube,
    effective_length_m: Option<f64>,
    code: TubeCode,
) -> Result<TubeStrength, TubeUnshown> {
    if !tube.is_tube() || effective_length_m.is_some_and(|length| !(length >= 0.0 && length.is_finite())) {
        return Err(TubeUnshown::TubeSizeMissing);
    }
    let length_mm = effective_length_m.map(|length| 1000.0 * length);
    match code {
        TubeCode::En1993 => en1993::strength(tube, length_mm),
        TubeCode::Aisc360 => aisc360::strength(tube, length_mm),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nonsense_has_no_strength() {
        let tube = SteelTube { outside_mm: 48.3, wall_mm: 4.0, yield_mpa: 235.0 };
        for code in [TubeCode::En1993, TubeCode::Aisc360] {
            assert!(strength(&tube, Some(f64::NAN), code).is_err());
            assert!(strength(&SteelTube { wall_mm: 30.0, ..tube }, None, code).is_err());
            assert!(strength(&SteelTube { yield_mpa: f64::NAN, ..tube }, None, code).is_err());
            let section = strength(&tube, None, code).unwrap();
            let strut = strength(&tube, Some(3.0), code).unwrap();
            assert!(strut.axial_n < section.axial_n && strut.moment_nm == section.moment_nm);
            assert!(section.utilisation(0.0, 0.0) == 0.0 && section.utilisation(-500.0, 0.0) == 0.0);
            assert!(
                section.utilisation(f64::NAN, 0.0).is_nan() && section.utilisation(0.0, f64::NAN).is_nan()
            );
        }
    }
}
