//! The mast as its builder describes it.

use std::f64::consts::PI;

use crate::numerics::vector::Vector;
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::tube::section::STEEL_KG_PER_M3;

/// E of structural steel: 210 000 N/mm². Source: EN 1993-1-1:2005, 3.2.6(1) (from memory).
pub const STEEL_YOUNG_PA: f64 = 210e9;

/// G = E/(2(1 + ν)) with ν = 0.3. Source: EN 1993-1-1:2005, 3.2.6(1) (from memory).
pub const STEEL_SHEAR_PA: f64 = STEEL_YOUNG_PA / 2.6;

/// A mast, its tubes from the bottom up, with its guys. Places are in the site frame (east, north, up).
#[derive(Debug, Clone, PartialEq)]
pub struct Mast {
    pub foot_m: Vector,
    /// How far out of plumb it stands unloaded: movement east and north per metre of height.
    pub lean: [f64; 2],
    pub tubes: Vec<TubePart>,
    pub base: BaseSupport,
    pub guys: Vec<GuyPart>,
    /// Further heights above the foot that want a node, such as where strands pull.
    pub stations_m: Vec<f64>,
    /// No element is longer.
    pub longest_element_m: f64,
}

/// A round tube, or a part of one. It stands in the one before (overlapping it) or on it (beginning where that
/// one ends, joined stiffly, as by a coupling).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubePart {
    /// Of its two ends, along the mast above the foot.
    pub bottom_m: f64,
    pub top_m: f64,
    /// EA.
    pub axial_n: f64,
    /// EI.
    pub bending_n_m2: f64,
    /// GJ.
    pub torsion_n_m2: f64,
    pub weight_n_per_m: f64,
    /// Radial play in the tube before, times the direction (east, north) in which the tube leans by it: over
    /// the overlap its axis goes off by twice that.
    pub play_m: [f64; 2],
}

/// What the foot does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum BaseSupport {
    /// Turns freely about any level axis.
    Pinned,
    /// Turns against a spring, the same about every level axis.
    Spring { n_m_per_rad: f64 },
    /// Does not turn.
    Fixed,
}

/// A guy from its anchor to the mast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GuyPart {
    /// Along the mast above the foot.
    pub attach_height_m: f64,
    /// From the mast's axis to where the rope leaves the collar.
    pub collar_offset_m: Vector,
    /// The anchor's eye, in the site frame.
    pub anchor_m: Vector,
    /// EA.
    pub stiffness_n: f64,
    pub weight_n_per_m: f64,
    pub length: GuyLength,
}

/// How long a guy is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GuyLength {
    /// Set to this tension at its upper end in still air, with the mast held plumb (see
    /// [`super::Model::tune`] for the mast's own shortening).
    UpperTension { tension_n: f64 },
    /// The same, set before ice hung on it, when it weighed so much a metre.
    UpperTensionBare { tension_n: f64, bare_n_per_m: f64 },
    /// Unstressed length between the eyes.
    Unstressed { length_m: f64 },
}

impl Mast {
    /// A plumb mast without guys on a pinned foot.
    pub fn standing_on(foot_m: Vector, tubes: Vec<TubePart>) -> Self {
        Self {
            foot_m,
            lean: [0.0; 2],
            tubes,
            base: BaseSupport::Pinned,
            guys: Vec::new(),
            stations_m: Vec::new(),
            longest_element_m: 0.5,
        }
    }
}

impl TubePart {
    /// A steel tube by its outside diameter and wall.
    pub fn of_steel(bottom_m: f64, top_m: f64, outside_m: f64, wall_m: f64) -> Self {
        let inside_m = outside_m - 2.0 * wall_m;
        let area_m2 = PI * wall_m * (outside_m - wall_m);
        let second_moment_m4 = area_m2 * (outside_m * outside_m + inside_m * inside_m) / 16.0;
        Self {
            bottom_m,
            top_m,
            axial_n: STEEL_YOUNG_PA * area_m2,
            bending_n_m2: STEEL_YOUNG_PA * second_moment_m4,
            torsion_n_m2: STEEL_SHEAR_PA * 2.0 * second_moment_m4,
            weight_n_per_m: STEEL_KG_PER_M3 * STANDARD_GRAVITY * area_m2,
            play_m: [0.0; 2],
        }
    }
}

/// What is wrong with the description of a mast.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ModelError {
    #[error("a mast needs at least one tube")]
    NoTube,
    #[error("tube {tube}: {what} must be {allowed}; given {given}")]
    Tube { tube: usize, what: &'static str, allowed: &'static str, given: f64 },
    #[error("guy {guy}: {what} must be {allowed}; given {given}")]
    Guy { guy: usize, what: &'static str, allowed: &'static str, given: f64 },
    #[error("guy {guy}: {cause}")]
    GuyLength { guy: usize, cause: crate::structure::catenary::CatenaryError },
    #[error("{what} must be {allowed}; given {given}")]
    Mast { what: &'static str, allowed: &'static str, given: f64 },
}

#[cfg(test)]
mod tests {
    use super::*;

    const SECOND_MOMENT_M4: f64 = 2.76079e-07;

    /// A tube of 60.3 × 3.9 mm by the formulas of any handbook, π/4·(D² − d²), π/64·(D⁴ − d⁴), twice that in torsion: 691.02 mm²,
    /// 276,079 mm⁴ (computed in Python); 7850 kg/m³.
    #[test]
    fn a_steel_tube_s_stiffness_and_weight() {
        let tube = TubePart::of_steel(0.0, 3.0, 0.0603, 0.0039);
        let near = |ours: f64, by_hand: f64| (ours / by_hand - 1.0).abs() < 1e-3;
        assert!(near(tube.axial_n, STEEL_YOUNG_PA * 691.02e-6), "{}", tube.axial_n);
        assert!(near(tube.bending_n_m2, STEEL_YOUNG_PA * SECOND_MOMENT_M4), "{}", tube.bending_n_m2);
        assert!(near(tube.torsion_n_m2, STEEL_SHEAR_PA * 2.0 * SECOND_MOMENT_M4), "{}", tube.torsion_n_m2);
        assert!(near(tube.weight_n_per_m, 7850.0 * 9.80665 * 691.02e-6), "{}", tube.weight_n_per_m);
    }
}
