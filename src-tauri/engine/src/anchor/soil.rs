//! The soil: its building-code class, and its strength by feel.

use serde::{Deserialize, Serialize};

/// One pound per square foot in Pa.
pub(crate) const PSF_PA: f64 = 47.880_259;
const FOOT_M: f64 = 0.3048;

/// The soil by the classes of the International Building Code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Soil {
    CrystallineBedrock,
    /// Sedimentary and foliated rock.
    LayeredRock,
    /// Gravel and sandy gravel.
    Gravel,
    /// Sand, silty or clayey sand, silty or clayey gravel.
    Sand,
    /// Clay, sandy or silty clay, silt, clayey silt.
    Clay,
    /// Mud, peat, organic silt or clay, fill that was not compacted: the code presumes nothing.
    SoftOrFill,
    Unknown,
}

/// What the code lets a builder presume without a test; safe values, their factor already in them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Presumptive {
    pub bearing_pa: f64,
    /// Sideways bearing, per metre of depth below the ground.
    pub lateral_pa_per_m: f64,
    /// Friction against sliding, where the soil slides by friction.
    pub friction: Option<f64>,
    /// Cohesion against sliding over the area of contact, where it slides by cohesion.
    pub cohesion_pa: Option<f64>,
}

impl Soil {
    /// The presumptive values; none for soft ground, fill and the unknown.
    ///
    /// # References
    /// IBC 2012, Table 1806.2.
    pub fn presumptive(self) -> Option<Presumptive> {
        let row = |bearing_psf: f64, lateral_psf_per_ft: f64, friction, cohesion_psf: Option<f64>| {
            Some(Presumptive {
                bearing_pa: bearing_psf * PSF_PA,
                lateral_pa_per_m: lateral_psf_per_ft * PSF_PA / FOOT_M,
                friction,
                cohesion_pa: cohesion_psf.map(|psf| psf * PSF_PA),
            })
        };
        match self {
            Soil::CrystallineBedrock => row(12_000.0, 1200.0, Some(0.70), None),
            Soil::LayeredRock => row(4000.0, 400.0, Some(0.35), None),
            Soil::Gravel => row(3000.0, 200.0, Some(0.35), None),
            Soil::Sand => row(2000.0, 150.0, Some(0.25), None),
            Soil::Clay => row(1500.0, 100.0, None, Some(130.0)),
            Soil::SoftOrFill | Soil::Unknown => None,
        }
    }

    pub fn name(self) -> &'static str {
        match self {
            Soil::CrystallineBedrock => "solid rock",
            Soil::LayeredRock => "layered rock",
            Soil::Gravel => "gravel",
            Soil::Sand => "sand",
            Soil::Clay => "clay or silt",
            Soil::SoftOrFill => "mud, peat or loose fill",
            Soil::Unknown => "unknown soil",
        }
    }
}

/// The strength of the soil, as the formulas of anchors need it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Strength {
    /// Clay by its undrained shear strength.
    Clay {
        undrained_pa: f64,
    },
    /// Sand by its friction angle and weight (under water: the buoyant weight).
    Sand {
        friction_deg: f64,
        unit_weight_n_per_m3: f64,
    },
    Unknown,
}

/// How firm a lump of clay feels.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ClayFeel {
    /// Runs through the fingers of a fist.
    VerySoft,
    /// The thumb goes in deep with little effort.
    Soft,
    /// The thumb goes in with an effort.
    Firm,
    /// The thumb only dents it.
    Stiff,
    /// The nail of the thumb marks it.
    VeryStiff,
}

/// How dense sand lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum SandFeel {
    /// A 12 mm rod goes in by hand.
    Loose,
    /// The rod goes in with a light hammer.
    Medium,
    /// The rod goes in a foot only, with a heavy hammer.
    Dense,
}

impl Strength {
    /// The lower end of the band of the feel; very soft clay is not shown to have any.
    ///
    /// # References
    /// Terzaghi & Peck: unconfined strength 25–50 kPa soft, 50–100 medium, 100–200 stiff, over 200 very stiff; half
    /// of it is the undrained shear strength. From memory.
    pub fn of_clay(feel: ClayFeel) -> Self {
        let undrained_pa = match feel {
            ClayFeel::VerySoft => return Strength::Unknown,
            ClayFeel::Soft => 12.5e3,
            ClayFeel::Firm => 25e3,
            ClayFeel::Stiff => 50e3,
            ClayFeel::VeryStiff => 100e3,
        };
        Strength::Clay { undrained_pa }
    }

    /// The lower end of the band of the feel, dry or under water.
    ///
    /// # References
    /// Terzaghi & Peck: friction 28°, 30°, 36° at the lower ends of loose, medium, dense. Weights 16, 17, 18 kN/m³
    /// moist, 9 kN/m³ under water: common practice. From memory.
    pub fn of_sand(feel: SandFeel, under_water: bool) -> Self {
        let (friction_deg, moist) = match feel {
            SandFeel::Loose => (28.0, 16e3),
            SandFeel::Medium => (30.0, 17e3),
            SandFeel::Dense => (36.0, 18e3),
        };
        let unit_weight_n_per_m3 = if under_water { 9e3 } else { moist };
        Strength::Sand { friction_deg, unit_weight_n_per_m3 }
    }

    pub fn name(self) -> &'static str {
        match self {
            Strength::Clay { .. } => "clay",
            Strength::Sand { .. } => "sand",
            Strength::Unknown => "unknown soil",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_presumed_of_what_nobody_knows() {
        assert!(Soil::Unknown.presumptive().is_none() && Soil::SoftOrFill.presumptive().is_none());
        assert_eq!(Strength::of_clay(ClayFeel::VerySoft), Strength::Unknown);
    }
}
