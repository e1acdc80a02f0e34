//! The soil: its building-code class, and its strength by feel.

use serde::{Deserialize, Serialize};

use crate::resistance::GroundClass;

/// One pound per square foot in Pa.
pub(crate) const PSF_PA: f64 = 47.880_259;
const FOOT_M: f64 = 0.3048;

/// The soil by the classes of the International Building Code.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
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

    pub fn class(self) -> GroundClass {
        match self {
            Soil::CrystallineBedrock => GroundClass::SolidRock,
            Soil::LayeredRock => GroundClass::LayeredRock,
            Soil::Gravel => GroundClass::Gravel,
            Soil::Sand => GroundClass::Sand,
            Soil::Clay => GroundClass::ClayOrSilt,
            Soil::SoftOrFill => GroundClass::SoftOrFill,
            Soil::Unknown => GroundClass::Unknown,
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
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ClayFeel {
    /// A fist goes in some inches with ease.
    VerySoft,
    /// The thumb goes in some inches with ease.
    Soft,
    /// The thumb goes in some inches with an effort.
    Firm,
    /// The thumb dents it, and goes in only with great effort.
    Stiff,
    /// The nail of the thumb dents it.
    VeryStiff,
    /// The nail dents it hardly.
    Hard,
}

/// How dense sand lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
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
    /// TM 5-818-1, Table 2-2: unconfined strength 0.25–0.5 tsf soft, to 1 medium, to 2 stiff, to 4 very stiff, above
    /// hard; half of it is the undrained shear strength.
    pub fn of_clay(feel: ClayFeel) -> Self {
        let unconfined_tsf = match feel {
            ClayFeel::VerySoft => return Strength::Unknown,
            ClayFeel::Soft => 0.25,
            ClayFeel::Firm => 0.5,
            ClayFeel::Stiff => 1.0,
            ClayFeel::VeryStiff => 2.0,
            ClayFeel::Hard => 4.0,
        };
        Strength::Clay { undrained_pa: 0.5 * unconfined_tsf * 2000.0 * PSF_PA }
    }

    /// The lower end of the band of the feel, dry or under water.
    ///
    /// # References
    /// EM 1110-2-2504, Table 3-1: friction 28–30°, 31–36°, 37–41°; moist 95–125, 110–130, 110–140 lb/ft³; under water
    /// 55–65, 60–70, 65–85 lb/ft³. What a rod tells of the density: common practice.
    pub fn of_sand(feel: SandFeel, under_water: bool) -> Self {
        let (friction_deg, moist_pcf, under_water_pcf) = match feel {
            SandFeel::Loose => (28.0, 95.0, 55.0),
            SandFeel::Medium => (31.0, 110.0, 60.0),
            SandFeel::Dense => (37.0, 110.0, 65.0),
        };
        let pcf = if under_water { under_water_pcf } else { moist_pcf };
        Strength::Sand { friction_deg, unit_weight_n_per_m3: pcf * PSF_PA / FOOT_M }
    }

    pub fn class(self) -> GroundClass {
        match self {
            Strength::Clay { .. } => GroundClass::Clay,
            Strength::Sand { .. } => GroundClass::Sand,
            Strength::Unknown => GroundClass::Unknown,
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
