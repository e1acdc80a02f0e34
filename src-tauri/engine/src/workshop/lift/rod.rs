//! The rod as a strut between its guides.

use std::f64::consts::PI;

use crate::resistance::SteelTube;
use crate::resistance::aisc360;

/// Euler's load of a strut that turns freely at both ends: π²·E·I/L².
pub fn euler_n(elasticity_mpa: f64, second_moment_mm4: f64, length_mm: f64) -> f64 {
    PI * PI * elasticity_mpa * second_moment_mm4 / (length_mm * length_mm)
}

/// A tube, or a bar where it has no bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rod {
    pub outside_mm: f64,
    pub bore_mm: f64,
    pub yield_mpa: f64,
}

impl Rod {
    pub fn area_mm2(&self) -> f64 {
        0.25 * PI * (self.outside_mm * self.outside_mm - self.bore_mm * self.bore_mm)
    }

    pub fn second_moment_mm4(&self) -> f64 {
        let fourth = |d: f64| d * d * d * d;
        PI / 64.0 * (fourth(self.outside_mm) - fourth(self.bore_mm))
    }

    /// What it may be pushed with between two guides: AISC 360-16, E3, over 1.67.
    pub fn allowable_n(&self, length_mm: f64) -> f64 {
        // A bar is the tube whose walls meet.
        let wall_mm = 0.5 * (self.outside_mm - self.bore_mm);
        let tube = SteelTube { outside_mm: self.outside_mm, wall_mm, yield_mpa: self.yield_mpa };
        aisc360::buckling_stress_mpa(&tube, length_mm) * self.area_mm2() / aisc360::FACTOR
    }

    /// The longest distance between guides that carries a push, in millimetres; none where even a short piece does not.
    pub fn longest_mm(&self, push_n: f64) -> Option<f64> {
        if self.allowable_n(1.0) < push_n {
            return None;
        }
        let (mut low, mut high) = (1.0, 20_000.0);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.allowable_n(middle) >= push_n {
                low = middle;
            } else {
                high = middle;
            }
        }
        Some(low)
    }
}
