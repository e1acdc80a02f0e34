//! Tubes weakened by pin holes and threads.

use crate::job::{Section, Tube};
use crate::resistance::en1993::FACTOR;
use crate::resistance::threaded::{moment_nm, npt, under_thread};
use crate::resistance::{SteelTube, TubeUnshown};
use crate::tube::TubeTable;

/// A section that yields before the whole tube does: its ratios are added, elastic.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeakSection {
    pub axial_n: f64,
    pub moment_nm: f64,
}

impl WeakSection {
    /// EN 1993-1-1 6.2.1 (7): the ratios added; tension helps nothing and is left out.
    pub fn utilisation(&self, compression_n: f64, moment_nm: f64) -> f64 {
        // A comparison, not f64::max: a force that is not a number is no pass.
        let compression_n = if compression_n < 0.0 { 0.0 } else { compression_n };
        FACTOR * (compression_n / self.axial_n + moment_nm.abs() / self.moment_nm)
    }
}

/// The tube where a pin goes through both its walls, the hole at its most strained fibres.
///
/// The two strips d·t at half the mean diameter are taken off area and second moment; the rest yields elastically
/// (EN 1993-1-1, 6.2.2.2 net section, from memory; the rest is geometry).
///
/// # Errors
/// Where the hole is no small one.
pub fn with_pin_hole(tube: &SteelTube, hole_mm: f64) -> Result<WeakSection, TubeUnshown> {
    if hole_mm.is_nan() || hole_mm > 0.4 * tube.outside_mm {
        return Err(TubeUnshown::PinHoleTooWide);
    }
    let strips_mm2 = 2.0 * hole_mm * tube.wall_mm;
    let arm_mm = 0.5 * (tube.outside_mm - tube.wall_mm);
    let area_mm2 = tube.area_mm2() - strips_mm2;
    let modulus_mm3 = tube.elastic_modulus_mm3() - strips_mm2 * arm_mm * arm_mm / (0.5 * tube.outside_mm);
    Ok(WeakSection { axial_n: area_mm2 * tube.yield_mpa, moment_nm: modulus_mm3 * tube.yield_mpa / 1000.0 })
}

/// The tube under the thread by which it is screwed on: listed conduit and pipe have one.
///
/// # Errors
/// Where the thread is not known or leaves no wall.
pub fn threaded(tube: &SteelTube, part: &Tube) -> Result<WeakSection, TubeUnshown> {
    let Section::Listed { table: TubeTable::Rmc | TubeTable::Imc | TubeTable::Sch40, size } = &part.section
    else {
        return Err(TubeUnshown::ThreadUnknown);
    };
    let root = under_thread(tube, npt(size).ok_or(TubeUnshown::ThreadUnknown)?)?;
    Ok(WeakSection { axial_n: root.area_mm2() * root.yield_mpa, moment_nm: moment_nm(&root) })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pin_hole_takes_its_two_strips_away() {
        // 60.325 × 3.708 mm: A 659.5 mm², W 8793 mm³; an 11.1125 mm hole: 82.4 mm² at 28.309 mm.
        let tube = SteelTube { outside_mm: 60.325, wall_mm: 3.708, yield_mpa: 205.0 };
        let net = with_pin_hole(&tube, 11.1125).unwrap();
        assert!((net.axial_n / (205.0 * (659.54 - 82.41)) - 1.0).abs() < 1e-4);
        let strips = 82.41 * 28.3085 * 28.3085 / 30.1625;
        assert!((net.moment_nm / (0.205 * (tube.elastic_modulus_mm3() - strips)) - 1.0).abs() < 1e-4);
        assert!(with_pin_hole(&tube, 30.0).is_err());
        assert!((net.utilisation(0.0, net.moment_nm) - FACTOR).abs() < 1e-12);
        assert_eq!(net.utilisation(-1e3, 0.0), 0.0);
    }
}
