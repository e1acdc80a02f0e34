//! Tube tables: ANSI C80.1, C80.6 and C80.3 as reprinted in a maker's general catalogue; ASME B36.10M in a
//! maker's IH-1000-M, page 368; EN 39 in a maker's sheet and in TG20/BS 1139 section properties; EN 10255 from
//! memory. Inches and pounds as printed.

use mastwright_engine::source::Confidence;
use mastwright_engine::tube::TubeTable;
use mastwright_engine::tube::section::steel_kg_per_m;
use mastwright_engine::tube::{TubeSection, section, sizes};

const LB_PER_FT: f64 = 0.453_592_37 / 0.3048;

fn listed(table: TubeTable, size: &str) -> TubeSection {
    section::listed(table, size).unwrap()
}

/// Size, outside and inside diameter in inches, pounds per 100 ft: exact.
fn conduit(table: TubeTable, rows: &[(&str, f64, f64, f64)]) {
    assert_eq!(sizes(table).len(), rows.len());
    for &(size, outside_in, inside_in, lb_per_100_ft) in rows {
        let tube = listed(table, size);
        assert!((tube.outside_mm / 25.4 - outside_in).abs() < 1e-9, "{size}");
        assert!((tube.inside_mm() / 25.4 - inside_in).abs() < 1e-9, "{size}");
        assert!((tube.mass_kg_per_m / LB_PER_FT * 100.0 - lb_per_100_ft).abs() < 1e-9, "{size}");
    }
}

#[test]
fn rigid_metal_conduit() {
    conduit(
        TubeTable::Rmc,
        &[
            ("1/2", 0.840, 0.632, 79.0),
            ("3/4", 1.050, 0.836, 105.0),
            ("1", 1.315, 1.063, 153.0),
            ("1-1/4", 1.660, 1.394, 201.0),
            ("1-1/2", 1.900, 1.624, 249.0),
            ("2", 2.375, 2.083, 332.0),
            ("2-1/2", 2.875, 2.489, 527.0),
            ("3", 3.500, 3.090, 682.6),
            ("3-1/2", 4.000, 3.570, 831.0),
            ("4", 4.500, 4.050, 972.3),
        ],
    );
}

/// The weight of the 4 in row was not read (682, from memory).
#[test]
fn intermediate_metal_conduit() {
    conduit(
        TubeTable::Imc,
        &[
            ("1/2", 0.815, 0.675, 60.0),
            ("3/4", 1.029, 0.879, 82.0),
            ("1", 1.290, 1.120, 116.0),
            ("1-1/4", 1.638, 1.468, 150.0),
            ("1-1/2", 1.883, 1.703, 182.0),
            ("2", 2.360, 2.170, 242.0),
            ("2-1/2", 2.857, 2.597, 428.0),
            ("3", 3.476, 3.216, 526.0),
            ("3-1/2", 3.971, 3.711, 612.0),
            ("4", 4.466, 4.206, 682.0),
        ],
    );
    let unread: Vec<&str> =
        sizes(TubeTable::Imc).iter().filter(|row| row.mass != Confidence::Read).map(|row| row.size).collect();
    assert_eq!(unread, ["4"]);
}

#[test]
fn electrical_metallic_tubing() {
    conduit(
        TubeTable::Emt,
        &[
            ("1/2", 0.706, 0.622, 28.5),
            ("3/4", 0.922, 0.824, 43.5),
            ("1", 1.163, 1.049, 64.0),
            ("1-1/4", 1.510, 1.380, 95.0),
            ("1-1/2", 1.740, 1.610, 110.0),
            ("2", 2.197, 2.067, 140.0),
            ("2-1/2", 2.875, 2.731, 205.0),
            ("3", 3.500, 3.356, 250.0),
            ("3-1/2", 4.000, 3.834, 325.0),
            ("4", 4.500, 4.334, 370.0),
        ],
    );
}

/// Outside diameter and wall as read: exact. Weight: that of steel, 10.69·t·(D − t) lb/ft with inches, and the
/// table's, within 1 %.
#[test]
fn schedule_40_pipe() {
    let rows = [
        ("1/2", 0.84, 0.109),
        ("3/4", 1.05, 0.113),
        ("1", 1.315, 0.133),
        ("1-1/4", 1.66, 0.14),
        ("1-1/2", 1.9, 0.145),
        ("2", 2.375, 0.154),
        ("2-1/2", 2.875, 0.203),
        ("3", 3.5, 0.216),
        ("3-1/2", 4.0, 0.226),
        ("4", 4.5, 0.237),
    ];
    assert_eq!(sizes(TubeTable::Sch40).len(), rows.len());
    for (size, outside_in, wall_in) in rows {
        let tube = listed(TubeTable::Sch40, size);
        assert!(
            (tube.outside_mm / 25.4 - outside_in).abs() < 1e-9
                && (tube.wall_mm / 25.4 - wall_in).abs() < 1e-9
        );
        let rule = 10.69 * wall_in * (outside_in - wall_in) * LB_PER_FT;
        let steel = steel_kg_per_m(tube.outside_mm, tube.wall_mm);
        assert!((tube.mass_kg_per_m / rule - 1.0).abs() < 0.01, "{size}: {} {rule}", tube.mass_kg_per_m);
        assert!((steel / rule - 1.0).abs() < 0.001, "{size}");
    }
}

/// AISC's 2 in Sch 40: A 1.0745 in², I 0.6657 in⁴, r 0.7871 in (from memory, re-computed); 0.1 %.
#[test]
fn schedule_40_two_inch_section() {
    let tube = listed(TubeTable::Sch40, "2");
    assert!((tube.area_mm2() / 25.4_f64.powi(2) / 1.0745 - 1.0).abs() < 1e-3);
    assert!((tube.second_moment_mm4() / 25.4_f64.powi(4) / 0.6657 - 1.0).abs() < 1e-3);
    assert!((tube.radius_of_gyration_mm() / 25.4 / 0.7871 - 1.0).abs() < 1e-3);
}

/// EN 39 sheet: 4.37 and 3.56 kg/m; TG20/BS 1139: A 5.57 cm², I 13.8 cm⁴, r 1.57 cm. 1 %.
#[test]
fn scaffold_tube() {
    let tube = listed(TubeTable::En39, "48.3x4.0");
    assert_eq!((tube.outside_mm, tube.wall_mm, tube.mass_kg_per_m), (48.3, 4.0, 4.37));
    assert!((tube.area_mm2() / 557.0 - 1.0).abs() < 0.01);
    assert!((tube.second_moment_mm4() / 138_000.0 - 1.0).abs() < 0.01);
    assert!((tube.radius_of_gyration_mm() / 15.7 - 1.0).abs() < 0.01);
    assert!((tube.inside_mm() - 40.3).abs() < 1e-9);
    let light = listed(TubeTable::En39, "48.3x3.2");
    assert_eq!((light.wall_mm, light.mass_kg_per_m), (3.2, 3.56));
    for row in sizes(TubeTable::En39).iter().chain(sizes(TubeTable::En10255Medium)) {
        let steel = steel_kg_per_m(row.outside_mm, row.wall_mm);
        assert!((row.mass_kg_per_m / steel - 1.0).abs() < 0.01, "{}: {steel}", row.size);
    }
}

/// What goes into what, by the C80.1 table: radial gaps in inches.
#[test]
fn nesting_of_rigid_conduit() {
    let gap = |inner: &str, outer: &str| {
        let (inner, outer) = (listed(TubeTable::Rmc, inner), listed(TubeTable::Rmc, outer));
        (outer.inside_mm() - inner.outside_mm) / 2.0 / 25.4
    };
    for (inner, outer, expected) in
        [("1", "1-1/4", 0.0395), ("1-1/2", "2", 0.0915), ("2", "2-1/2", 0.057), ("2-1/2", "3", 0.1075)]
    {
        assert!((gap(inner, outer) - expected).abs() < 1e-9, "{inner} in {outer}");
    }
    assert!(gap("1-1/4", "1-1/2") < 0.0);
}
