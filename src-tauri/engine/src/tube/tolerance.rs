//! What a tube of a table may measure within its standard. A catalogue's sizes are not those of the tube in hand: whether one
//! goes into another hangs on the largest outside and the narrowest bore.

use super::tables::{TubeSize, TubeTable, sizes};
use crate::source::{Confidence, SourceKey};
use Confidence::{FromMemory, Read};

const INCH_MM: f64 = 25.4;

/// Between what a diameter may lie.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct DiameterRange {
    pub least_mm: f64,
    pub largest_mm: f64,
}

impl DiameterRange {
    pub fn about(middle_mm: f64, off_mm: f64) -> Self {
        Self { least_mm: middle_mm - off_mm, largest_mm: middle_mm + off_mm }
    }

    pub fn middle_mm(&self) -> f64 {
        0.5 * (self.least_mm + self.largest_mm)
    }

    /// Standard uncertainty where every value between is as likely: a/√3 (GUM 4.3.7).
    pub fn sigma_mm(&self) -> f64 {
        0.5 * (self.largest_mm - self.least_mm) / 3.0_f64.sqrt()
    }
}

/// Between what a tube's outside and its bore lie; a side that nobody knows is none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DiameterLimits {
    pub outside: Option<DiameterRange>,
    pub bore: Option<DiameterRange>,
}

/// How far a calliper in a yard may be off, where nobody says: common practice.
pub const CALLIPER_OFF_MM: f64 = 0.1;

impl DiameterLimits {
    /// Of a listed size, as its standard allows.
    pub fn listed(table: TubeTable, size: &str) -> Self {
        tolerance(table, size).map_or(Self::default(), |of| Self { outside: of.outside, bore: of.bore })
    }

    /// Of a tube known by its outside and its wall as measured: the bore hangs on three readings.
    pub fn measured(outside_mm: f64, wall_mm: f64) -> Self {
        let bore_mm = outside_mm - 2.0 * wall_mm;
        Self {
            outside: Some(DiameterRange::about(outside_mm, CALLIPER_OFF_MM)),
            bore: Some(DiameterRange::about(bore_mm, 3.0 * CALLIPER_OFF_MM)),
        }
    }
}

/// What a listed tube may measure; a side that nobody could find is none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TubeTolerance {
    pub outside: Option<DiameterRange>,
    pub bore: Option<DiameterRange>,
    pub source: SourceKey,
    pub confidence: Confidence,
}

/// The tolerance of a listed size; none where the table has no such size.
pub fn tolerance(table: TubeTable, size: &str) -> Option<TubeTolerance> {
    let row = sizes(table).iter().find(|row| row.size == size)?;
    Some(match table {
        TubeTable::Rmc => rigid(row),
        TubeTable::Imc => intermediate(row),
        TubeTable::Emt => metallic(row),
        TubeTable::Sch40 => pipe(row),
        TubeTable::En39 => scaffold(row),
        TubeTable::En10255Medium => medium(row),
    })
}

/// ±0.015 in to size 2, ±0.025 in above (ANSI C80.1, from memory); it sets no tolerance of the wall that was found.
fn rigid(row: &TubeSize) -> TubeTolerance {
    let off_in = if row.outside_mm < 2.5 * INCH_MM { 0.015 } else { 0.025 };
    TubeTolerance {
        outside: Some(DiameterRange::about(row.outside_mm, off_in * INCH_MM)),
        bore: None,
        source: SourceKey::AnsiC80_1,
        confidence: FromMemory,
    }
}

/// Listed walls are the least ones: to size 2 a wall may be 0.015 in thicker, above that 0.020 in, and the outside diameter 0.005 or
/// 0.010 in off either way (ANSI C80.6, a list in a catalogue of fittings).
fn intermediate(row: &TubeSize) -> TubeTolerance {
    let (thicker_in, off_in) = if row.outside_mm < 2.5 * INCH_MM { (0.015, 0.005) } else { (0.020, 0.010) };
    let bore_mm = row.outside_mm - 2.0 * row.wall_mm;
    TubeTolerance {
        outside: Some(DiameterRange::about(row.outside_mm, off_in * INCH_MM)),
        bore: Some(DiameterRange {
            least_mm: bore_mm - (2.0 * thicker_in + off_in) * INCH_MM,
            largest_mm: bore_mm + off_in * INCH_MM,
        }),
        source: SourceKey::AnsiC80_6,
        confidence: Read,
    }
}

/// ±0.005 in to size 2, ±0.010, 0.015 and 0.020 in for 2-1/2, 3 and above (ANSI C80.3, from memory); of the wall none was found.
fn metallic(row: &TubeSize) -> TubeTolerance {
    let off_in = match row.outside_mm / INCH_MM {
        size if size < 2.5 => 0.005,
        size if size < 3.0 => 0.010,
        size if size < 3.6 => 0.015,
        _ => 0.020,
    };
    TubeTolerance {
        outside: Some(DiameterRange::about(row.outside_mm, off_in * INCH_MM)),
        bore: None,
        source: SourceKey::AnsiC80_3,
        confidence: FromMemory,
    }
}

/// ASTM A53: outside +0.015/−0.031 in (1/64, 1/32) to size 1-1/2, ±1 % above; wall at most 12.5 % under. It names no thickest wall:
/// that follows from a mass at most 10 % over.
fn pipe(row: &TubeSize) -> TubeTolerance {
    let outside = if row.outside_mm < 2.0 * INCH_MM {
        DiameterRange {
            least_mm: row.outside_mm - 0.031 * INCH_MM,
            largest_mm: row.outside_mm + 0.015 * INCH_MM,
        }
    } else {
        DiameterRange::about(row.outside_mm, 0.01 * row.outside_mm)
    };
    // π·t·(D − t) is 1.1 of the listed one: t² − D·t + 1.1·t₀·(D − t₀) = 0.
    let (diameter, wall) = (row.outside_mm, row.wall_mm);
    let thickest = 0.5 * (diameter - (diameter * diameter - 4.4 * wall * (diameter - wall)).sqrt());
    TubeTolerance {
        outside: Some(outside),
        bore: Some(DiameterRange {
            least_mm: outside.least_mm - 2.0 * thickest,
            largest_mm: outside.largest_mm - 2.0 * 0.875 * wall,
        }),
        source: SourceKey::AstmA53,
        confidence: Read,
    }
}

/// EN 39: outside ±0.5 mm, wall at most 10 % under, and a gauge of 37.7 mm enters for 200 mm: no bore is narrower at its end.
fn scaffold(row: &TubeSize) -> TubeTolerance {
    let outside = DiameterRange::about(row.outside_mm, 0.5);
    TubeTolerance {
        outside: Some(outside),
        bore: Some(DiameterRange {
            least_mm: 37.7,
            largest_mm: outside.largest_mm - 2.0 * 0.9 * row.wall_mm,
        }),
        source: SourceKey::En39,
        confidence: Read,
    }
}

/// Least and largest outside diameters of the medium series in millimetres (EN 10255). Read in two public tables: DN15, DN40 and
/// DN50; the rest from memory.
const MEDIUM_OUTSIDE_MM: [(&str, f64, f64); 8] = [
    ("DN15", 21.1, 21.8),
    ("DN20", 26.5, 27.3),
    ("DN25", 33.3, 34.2),
    ("DN32", 42.0, 42.9),
    ("DN40", 47.9, 48.8),
    ("DN50", 59.7, 60.8),
    ("DN65", 75.3, 76.6),
    ("DN80", 88.0, 89.5),
];

/// EN 10255, medium: outside between the limits of its table; wall ±10 % (from memory).
fn medium(row: &TubeSize) -> TubeTolerance {
    let limits = MEDIUM_OUTSIDE_MM.iter().find(|(size, ..)| *size == row.size);
    let Some(&(_, least_mm, largest_mm)) = limits else {
        let (outside, bore) = (None, None);
        return TubeTolerance { outside, bore, source: SourceKey::En10255, confidence: FromMemory };
    };
    let outside = DiameterRange { least_mm, largest_mm };
    let bore = DiameterRange {
        least_mm: outside.least_mm - 2.2 * row.wall_mm,
        largest_mm: outside.largest_mm - 1.8 * row.wall_mm,
    };
    TubeTolerance {
        outside: Some(outside),
        bore: Some(bore),
        source: SourceKey::En10255,
        confidence: FromMemory,
    }
}

/// Plastic pipe to turn bushings from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlasticPipe {
    /// As the trade calls it.
    pub size: &'static str,
    pub outside: DiameterRange,
    pub wall: DiameterRange,
}

impl PlasticPipe {
    /// The narrowest and the widest bore that its limits leave.
    pub fn bore(&self) -> DiameterRange {
        DiameterRange {
            least_mm: self.outside.least_mm - 2.0 * self.wall.largest_mm,
            largest_mm: self.outside.largest_mm - 2.0 * self.wall.least_mm,
        }
    }
}

const fn plastic(size: &'static str, outside: [f64; 2], wall: [f64; 2]) -> PlasticPipe {
    PlasticPipe {
        size,
        outside: DiameterRange { least_mm: outside[0], largest_mm: outside[1] },
        wall: DiameterRange { least_mm: wall[0], largest_mm: wall[1] },
    }
}

/// PVC pipe, schedule 40: least and largest outside diameter and wall in millimetres (ASTM D1785-88, as quoted).
pub static PVC_SCH40: [PlasticPipe; 9] = [
    plastic("1/2", [21.24, 21.44], [2.77, 3.28]),
    plastic("3/4", [26.57, 26.77], [2.87, 3.38]),
    plastic("1", [33.27, 33.53], [3.38, 3.89]),
    plastic("1-1/4", [42.03, 42.29], [3.56, 4.07]),
    plastic("1-1/2", [48.11, 48.41], [3.68, 4.19]),
    plastic("2", [60.17, 60.47], [3.91, 4.42]),
    plastic("2-1/2", [72.84, 73.20], [5.16, 5.77]),
    plastic("3", [88.70, 89.10], [5.49, 6.15]),
    plastic("4", [114.07, 114.53], [6.02, 6.73]),
];
