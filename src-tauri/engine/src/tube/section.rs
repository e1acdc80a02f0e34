//! The section of a tube: its size, weight and stiffness.

use std::f64::consts::PI;

use super::tables::{sizes, source};
use crate::job::Section;
use crate::quantity::FieldError;
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
    /// By how much its outside diameter may be larger, and its bore smaller, than that.
    pub outside_more_mm: f64,
    pub bore_less_mm: f64,
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

/// The section that the job names or measured; `path` is its JSON pointer, such as `/rig/tubes/0/section`.
///
/// # Errors
/// Where the table has no such size, or the measured walls leave no bore.
pub fn section(given: &Section, path: &str) -> Result<TubeSection, FieldError> {
    match given {
        Section::Listed { table, size } => {
            let rows = sizes(*table);
            let row = rows.iter().find(|row| row.size == size.trim());
            let row = row.ok_or_else(|| {
                let names: Vec<&str> = rows.iter().map(|row| row.size).collect();
                FieldError::new(
                    format!("{path}/size"),
                    shortened(size),
                    format!("one of {}", names.join(", ")),
                )
            })?;
            Ok(TubeSection {
                outside_mm: row.outside_mm,
                wall_mm: row.wall_mm,
                mass_kg_per_m: row.mass_kg_per_m,
                outside_more_mm: row.outside_more_mm,
                bore_less_mm: row.bore_less_mm,
                source: source(*table),
            })
        }
        &Section::Measured { outside_mm, wall_mm } => {
            if !(outside_mm.is_finite() && wall_mm > 0.0 && 2.0 * wall_mm < outside_mm) {
                let allowed = "more than nothing and less than half the outside diameter";
                return Err(FieldError::new(format!("{path}/wall_mm"), wall_mm.to_string(), allowed));
            }
            let mass_kg_per_m = steel_kg_per_m(outside_mm, wall_mm);
            // A calliper was there.
            let (outside_more_mm, bore_less_mm) = (0.0, 0.0);
            let source = SourceKey::En1991_1_1;
            Ok(TubeSection { outside_mm, wall_mm, mass_kg_per_m, outside_more_mm, bore_less_mm, source })
        }
    }
}

fn shortened(text: &str) -> String {
    let mut short: String = text.chars().take(40).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    short
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::TubeTable;

    #[test]
    fn an_unknown_size_names_the_ones_there_are() {
        let wrong = Section::Listed { table: TubeTable::En39, size: "60".into() };
        let error = section(&wrong, "/rig/tubes/1/section").unwrap_err();
        assert_eq!(error.path, "/rig/tubes/1/section/size");
        assert_eq!(error.allowed, "one of 48.3x3.2, 48.3x4.0");
    }

    #[test]
    fn measured_walls_must_leave_a_bore() {
        let tube = |wall_mm| section(&Section::Measured { outside_mm: 40.0, wall_mm }, "");
        assert!(tube(2.0).is_ok());
        for wall_mm in [20.0, 0.0, f64::NAN, 1e308] {
            assert_eq!(tube(wall_mm).unwrap_err().path, "/wall_mm");
        }
    }
}
