//! Published tables of tubes, row by row.

use serde::{Deserialize, Serialize};

use crate::source::{Confidence, SourceKey};

/// A published table of tubes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum TubeTable {
    /// Rigid metal conduit, ANSI C80.1.
    Rmc,
    /// Intermediate metal conduit, ANSI C80.6.
    Imc,
    /// Electrical metallic tubing, ANSI C80.3.
    Emt,
    /// Steel pipe schedule 40, ASME B36.10M.
    Sch40,
    /// Scaffold tube, EN 39.
    En39,
    /// Steel tube medium series, EN 10255.
    En10255Medium,
}

impl TubeTable {
    pub const ALL: [TubeTable; 6] =
        [Self::Rmc, Self::Imc, Self::Emt, Self::Sch40, Self::En39, Self::En10255Medium];
}

/// A row of a published table.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct TubeSize {
    /// As the trade calls it: `1-1/4`, `DN32`, `48.3x4.0`.
    pub size: &'static str,
    pub outside_mm: f64,
    pub wall_mm: f64,
    pub mass_kg_per_m: f64,
    /// How sure we are of outside diameter and wall.
    pub dimensions: Confidence,
    /// How sure we are of the mass.
    pub mass: Confidence,
}

use Confidence::{FromMemory, Read};

/// 1 in = 25.4 mm and 1 lb = 0.453 592 37 kg, exactly. Source: international yard and pound agreement, 1959.
const INCH_MM: f64 = 25.4;
const POUND_KG: f64 = 0.453_592_37;
const FOOT_M: f64 = 0.3048;

/// A conduit by its outside and inside diameters in inches and its weight in pounds per 100 ft.
const fn conduit(
    size: &'static str,
    outside_in: f64,
    inside_in: f64,
    lb_per_100_ft: f64,
    mass: Confidence,
) -> TubeSize {
    TubeSize {
        size,
        outside_mm: outside_in * INCH_MM,
        wall_mm: (outside_in - inside_in) / 2.0 * INCH_MM,
        mass_kg_per_m: lb_per_100_ft * POUND_KG / (100.0 * FOOT_M),
        dimensions: Read,
        mass,
    }
}

/// A pipe by its outside diameter and wall in inches and its weight in pounds per foot.
const fn pipe(size: &'static str, outside_in: f64, wall_in: f64, lb_per_ft: f64) -> TubeSize {
    TubeSize {
        size,
        outside_mm: outside_in * INCH_MM,
        wall_mm: wall_in * INCH_MM,
        mass_kg_per_m: lb_per_ft * POUND_KG / FOOT_M,
        dimensions: Read,
        mass: Read,
    }
}

const fn metric(
    size: &'static str,
    outside_mm: f64,
    wall_mm: f64,
    mass_kg_per_m: f64,
    how: Confidence,
) -> TubeSize {
    TubeSize { size, outside_mm, wall_mm, mass_kg_per_m, dimensions: how, mass: how }
}

/// Intermediate conduit: its listed walls are the least ones.
const fn imc(size: &'static str, outside_in: f64, inside_in: f64, lb_per_100_ft: f64) -> TubeSize {
    conduit(size, outside_in, inside_in, lb_per_100_ft, Read)
}

/// Medium tube of EN 10255 with its nominal outside diameter and wall.
const fn en10255(size: &'static str, outside_mm: f64, wall_mm: f64, mass_kg_per_m: f64) -> TubeSize {
    metric(size, outside_mm, wall_mm, mass_kg_per_m, Read)
}

/// Rigid metal conduit, ANSI C80.1: outside and inside diameters and weights as reprinted in a maker's general
/// catalogue. The weights are the least allowed, with a coupling on each length.
static RMC: [TubeSize; 10] = [
    conduit("1/2", 0.840, 0.632, 79.0, Read),
    conduit("3/4", 1.050, 0.836, 105.0, Read),
    conduit("1", 1.315, 1.063, 153.0, Read),
    conduit("1-1/4", 1.660, 1.394, 201.0, Read),
    conduit("1-1/2", 1.900, 1.624, 249.0, Read),
    conduit("2", 2.375, 2.083, 332.0, Read),
    conduit("2-1/2", 2.875, 2.489, 527.0, Read),
    conduit("3", 3.500, 3.090, 682.6, Read),
    conduit("3-1/2", 4.000, 3.570, 831.0, Read),
    conduit("4", 4.500, 4.050, 972.3, Read),
];

/// Intermediate metal conduit, ANSI C80.6, from the same catalogue: least walls, least weights with couplings. The
/// nominal weights are 3–7 % more; the least are kept, because a mast's weight steadies its base.
static IMC: [TubeSize; 10] = [
    imc("1/2", 0.815, 0.675, 60.0),
    imc("3/4", 1.029, 0.879, 82.0),
    imc("1", 1.290, 1.120, 116.0),
    imc("1-1/4", 1.638, 1.468, 150.0),
    imc("1-1/2", 1.883, 1.703, 182.0),
    imc("2", 2.360, 2.170, 242.0),
    imc("2-1/2", 2.857, 2.597, 428.0),
    imc("3", 3.476, 3.216, 526.0),
    imc("3-1/2", 3.971, 3.711, 612.0),
    TubeSize { mass: FromMemory, ..imc("4", 4.466, 4.206, 682.0) },
];

/// Electrical metallic tubing, ANSI C80.3, from the same catalogue (an older listing of the weights; newer
/// ones are a few per cent larger).
static EMT: [TubeSize; 10] = [
    conduit("1/2", 0.706, 0.622, 28.5, Read),
    conduit("3/4", 0.922, 0.824, 43.5, Read),
    conduit("1", 1.163, 1.049, 64.0, Read),
    conduit("1-1/4", 1.510, 1.380, 95.0, Read),
    conduit("1-1/2", 1.740, 1.610, 110.0, Read),
    conduit("2", 2.197, 2.067, 140.0, Read),
    conduit("2-1/2", 2.875, 2.731, 205.0, Read),
    conduit("3", 3.500, 3.356, 250.0, Read),
    conduit("3-1/2", 4.000, 3.834, 325.0, Read),
    conduit("4", 4.500, 4.334, 370.0, Read),
];

/// Steel pipe schedule 40, ASME B36.10M: outside diameter and wall read in a maker's table, weights
/// by 10.69·t·(D − t) as a public table has them.
static SCH40: [TubeSize; 10] = [
    pipe("1/2", 0.840, 0.109, 0.85),
    pipe("3/4", 1.050, 0.113, 1.13),
    pipe("1", 1.315, 0.133, 1.68),
    pipe("1-1/4", 1.660, 0.140, 2.27),
    pipe("1-1/2", 1.900, 0.145, 2.72),
    pipe("2", 2.375, 0.154, 3.65),
    pipe("2-1/2", 2.875, 0.203, 5.79),
    pipe("3", 3.500, 0.216, 7.58),
    pipe("3-1/2", 4.000, 0.226, 9.11),
    pipe("4", 4.500, 0.237, 10.79),
];

/// Scaffold tube, EN 39:2001 types 3 and 4, read in a maker's sheet.
static EN39: [TubeSize; 2] =
    [metric("48.3x3.2", 48.3, 3.2, 3.56, Read), metric("48.3x4.0", 48.3, 4.0, 4.37, Read)];

/// Steel tube, medium series, EN 10255: nominal outside diameters, walls and masses. Read in two public tables: DN15, DN40
/// and DN50, and the masses to DN50; the rest from memory. Between what their outsides lie: [`super::tolerance`].
static EN10255_MEDIUM: [TubeSize; 8] = [
    en10255("DN15", 21.3, 2.6, 1.21),
    TubeSize { dimensions: FromMemory, ..en10255("DN20", 26.9, 2.6, 1.56) },
    TubeSize { dimensions: FromMemory, ..en10255("DN25", 33.7, 3.2, 2.41) },
    TubeSize { dimensions: FromMemory, ..en10255("DN32", 42.4, 3.2, 3.10) },
    en10255("DN40", 48.3, 3.2, 3.57),
    en10255("DN50", 60.3, 3.6, 5.03),
    TubeSize { dimensions: FromMemory, mass: FromMemory, ..en10255("DN65", 76.1, 3.6, 6.42) },
    TubeSize { dimensions: FromMemory, mass: FromMemory, ..en10255("DN80", 88.9, 4.0, 8.36) },
];

/// The sizes of a table, smallest first.
pub fn sizes(table: TubeTable) -> &'static [TubeSize] {
    match table {
        TubeTable::Rmc => &RMC,
        TubeTable::Imc => &IMC,
        TubeTable::Emt => &EMT,
        TubeTable::Sch40 => &SCH40,
        TubeTable::En39 => &EN39,
        TubeTable::En10255Medium => &EN10255_MEDIUM,
    }
}

/// The standard behind a table.
pub fn source(table: TubeTable) -> SourceKey {
    match table {
        TubeTable::Rmc => SourceKey::AnsiC80_1,
        TubeTable::Imc => SourceKey::AnsiC80_6,
        TubeTable::Emt => SourceKey::AnsiC80_3,
        TubeTable::Sch40 => SourceKey::AsmeB36_10,
        TubeTable::En39 => SourceKey::En39,
        TubeTable::En10255Medium => SourceKey::En10255,
    }
}
