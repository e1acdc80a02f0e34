//! How the ring's pipe gives between its supports, and how hard it springs back to straight.
//!
//! Joints lie on supports, so every span is taken as a beam on two of them: it gives by 5·w·L⁴/(384·E·I) under an even load (Beer &
//! Johnston, table of deflections of beams). Bent to a radius R it wants back with M = E·I/R.

use std::f64::consts::PI;

use serde::Serialize;

use crate::job::RingStuff;
use crate::quantity::convert::{KSI_MPA, STANDARD_GRAVITY};
use crate::resistance::aisc360::ELASTICITY_MPA;
use crate::tube::section::STEEL_KG_PER_M3;

/// Of rigid PVC: 400 ksi (ASTM D1784, class 12454; from memory).
const PVC_MPA: f64 = 400.0 * KSI_MPA;
/// From memory.
const PVC_KG_PER_M3: f64 = 1400.0;

/// A pipe of the ring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BentPipe {
    pub outside_mm: f64,
    pub wall_mm: f64,
    pub elasticity_mpa: f64,
    pub density_kg_per_m3: f64,
}

/// What the pipe does between supports.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct RingStiffness {
    /// By its own weight, or up by the strands, whichever is more.
    pub sag_mm: f64,
    pub most_mm: f64,
    /// Supports at most so far apart.
    pub apart_m: f64,
    /// How many supports that takes round the ring.
    pub supports: u32,
    /// With which it springs back, and what holds one end of a piece against it; none where a bender has bent it to stay.
    pub spring_nm: Option<f64>,
    pub spring_n: Option<f64>,
}

impl BentPipe {
    /// None where nobody knows what it is made of.
    pub fn of(stuff: RingStuff, outside_mm: f64, wall_mm: f64) -> Option<Self> {
        let (elasticity_mpa, density_kg_per_m3) = match stuff {
            RingStuff::Pvc => (PVC_MPA, PVC_KG_PER_M3),
            RingStuff::SteelConduit => (ELASTICITY_MPA, STEEL_KG_PER_M3),
            RingStuff::Other => return None,
        };
        (2.0 * wall_mm < outside_mm).then_some(Self {
            outside_mm,
            wall_mm,
            elasticity_mpa,
            density_kg_per_m3,
        })
    }

    /// E·I in N·m².
    pub fn stiffness_nm2(&self) -> f64 {
        let inside_mm = self.outside_mm - 2.0 * self.wall_mm;
        let fourth = |mm: f64| mm * mm * mm * mm;
        self.elasticity_mpa * PI / 64.0 * (fourth(self.outside_mm) - fourth(inside_mm)) * 1e-6
    }

    pub fn weight_n_per_m(&self) -> f64 {
        let area_mm2 = PI * self.wall_mm * (self.outside_mm - self.wall_mm);
        area_mm2 * 1e-6 * self.density_kg_per_m3 * STANDARD_GRAVITY
    }

    /// How a span gives under an even load.
    pub fn sag_m(&self, load_n_per_m: f64, span_m: f64) -> f64 {
        5.0 * load_n_per_m * span_m * span_m * span_m * span_m / (384.0 * self.stiffness_nm2())
    }

    /// The longest span that gives by no more.
    pub fn span_m(&self, load_n_per_m: f64, sag_m: f64) -> f64 {
        (384.0 * self.stiffness_nm2() * sag_m / (5.0 * load_n_per_m)).sqrt().sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: 1/2 in PVC of 21.336 by 2.769 mm: I = π/64·(21.336⁴ − 15.798⁴) = 7114 mm⁴, E 2758 MPa: 19.62 N·m². Of 161.5 mm² by 1400
    /// kg/m³ it weighs 2.218 N/m; over 1 m it sags 5·2.218/(384·19.62) = 1.472 mm, and 16 times that over 2 m.
    #[test]
    fn a_pipe_sags_by_hand() {
        let pipe = BentPipe::of(RingStuff::Pvc, 21.336, 2.769).unwrap();
        assert!((pipe.stiffness_nm2() / 19.62 - 1.0).abs() < 2e-3, "{}", pipe.stiffness_nm2());
        let weight = pipe.weight_n_per_m();
        assert!((weight / 2.218 - 1.0).abs() < 2e-3, "{weight}");
        let sag = pipe.sag_m(weight, 1.0);
        assert!((sag / 1.472e-3 - 1.0).abs() < 4e-3, "{sag}");
        assert!((pipe.sag_m(weight, 2.0) / sag - 16.0).abs() < 1e-9);
        assert!((pipe.span_m(weight, sag) - 1.0).abs() < 1e-12);
        assert!(BentPipe::of(RingStuff::Other, 20.0, 2.0).is_none());
        assert!(BentPipe::of(RingStuff::Pvc, 20.0, 10.0).is_none());
    }
}
