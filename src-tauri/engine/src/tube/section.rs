//! The section of a tube: its size, weight and stiffness.

use std::f64::consts::PI;

use super::tables::{TubeTable, sizes, source};
use crate::source::SourceKey;

/// Density of steel in kg/m³. Source: 7850 kg/m³ is 77.0 kN/m³, EN 1991-1-1:2002 Table A.4.
pub const STEEL_KG_PER_M3: f64 = 7850.0;

/// A round tube.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeSection {
    pub outside_mm: f64,
    pub wall_mm: f64,
    /// The table's where the size is a listed one, otherwise that of steel.
    pub mass_kg_per_m: f64,
    /// Where size and mass come from.
    pub source: SourceKey,
}

impl TubeSection {
    pub fn inside_mm(&self) -> f64 {
        self.outside_mm - 2.0 * self.wall_mm
    }

    /// Area of the metal: π·t·(D − t).
    pub fn area_mm2(&self) -> f64 {
        PI * self.wall_mm * (self.outside_mm - self.wall_mm)
    }

    /// Second moment of area: A·(D² + d²)/16, the difference of two circles' πD⁴/64.
    pub fn second_moment_mm4(&self) -> f64 {
        let (outside, inside) = (self.outside_mm, self.inside_mm());
        self.area_mm2() * (outside * outside + inside * inside) / 16.0
    }

    /// Radius of gyration: √(I/A).
    pub fn radius_of_gyration_mm(&self) -> f64 {
        let (outside, inside) = (self.outside_mm, self.inside_mm());
        (outside * outside + inside * inside).sqrt() / 4.0
    }
}

/// Mass per length of a steel tube of this size.
pub fn steel_kg_per_m(outside_mm: f64, wall_mm: f64) -> f64 {
    PI * wall_mm * (outside_mm - wall_mm) * 1e-6 * STEEL_KG_PER_M3
}

/// The section of a size listed in a published table; none where the table has no such size.
pub fn listed(table: TubeTable, size: &str) -> Option<TubeSection> {
    let row = sizes(table).iter().find(|row| row.size == size)?;
    Some(TubeSection {
        outside_mm: row.outside_mm,
        wall_mm: row.wall_mm,
        mass_kg_per_m: row.mass_kg_per_m,
        source: source(table),
    })
}

/// The section of a steel tube as measured; none where the walls leave no bore.
pub fn measured(outside_mm: f64, wall_mm: f64) -> Option<TubeSection> {
    if !(outside_mm.is_finite() && wall_mm > 0.0 && 2.0 * wall_mm < outside_mm) {
        return None;
    }
    let mass_kg_per_m = steel_kg_per_m(outside_mm, wall_mm);
    Some(TubeSection { outside_mm, wall_mm, mass_kg_per_m, source: SourceKey::En1991_1_1 })
}
