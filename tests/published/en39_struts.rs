//! Safe axial load of the EN 39 scaffold tube 48.3 × 4.0 by effective length, from TG20/BS 1139 (read at a teaching
//! page on scaffolding tubes): A 5.57 cm², I 13.8 cm⁴, f_y 235 N/mm².
//!
//! All 18 values come out of buckling curve c of EN 1993-1-1 over 1.1·1.5. The table's own rounded section is used
//! first, and must agree to 0.15 kN; the engine's exact section to 1 %.

use mastwright_engine::resistance::en1993::{self, FACTOR, reduction};
use mastwright_engine::resistance::tube::{SteelTube, TubeCode, strength};

const TABLE: [(f64, f64); 18] = [
    (0.6, 70.9),
    (0.8, 65.0),
    (1.0, 58.6),
    (1.2, 51.9),
    (1.4, 45.3),
    (1.6, 39.2),
    (1.8, 33.7),
    (2.0, 29.1),
    (2.2, 25.3),
    (2.4, 22.0),
    (2.6, 19.3),
    (2.8, 17.1),
    (3.0, 15.2),
    (3.2, 13.6),
    (3.4, 12.2),
    (3.6, 11.0),
    (3.8, 10.0),
    (4.0, 9.1),
];

#[test]
fn eighteen_lengths_with_the_tables_section() {
    for (length_m, printed_kn) in TABLE {
        let first_yield = std::f64::consts::PI * (en1993::ELASTICITY_MPA / 235.0).sqrt();
        let radius_mm = (138_000.0_f64 / 557.0).sqrt();
        let chi = reduction(length_m * 1000.0 / radius_mm / first_yield);
        let safe_kn = chi * 557.0 * 235.0 / FACTOR / 1000.0;
        assert!((safe_kn - printed_kn).abs() < 0.15, "{length_m} m: {safe_kn}");
    }
}

#[test]
fn eighteen_lengths_with_the_exact_section() {
    let tube = SteelTube { outside_mm: 48.3, wall_mm: 4.0, yield_mpa: 235.0 };
    assert_eq!(en1993::class(&tube), 1);
    for (length_m, printed_kn) in TABLE {
        let strut = strength(&tube, Some(length_m), TubeCode::En1993).unwrap();
        let safe_kn = strut.axial_n / strut.factor / 1000.0;
        assert!((safe_kn / printed_kn - 1.0).abs() < 0.01, "{length_m} m: {safe_kn}");
        assert!((strut.utilisation(printed_kn * 1000.0, 0.0) - 1.0).abs() < 0.01);
    }
}

/// Same page: plastic modulus 7.87 cm³, elastic 5.7 cm³; safe moment 1.12 kN·m, which is 7.87·235/1.65; safe shear
/// 26.1 kN. DIFFERENCE: the page's shear takes another area; ours is more by 12 % and both are far from governing.
#[test]
fn bending() {
    let tube = SteelTube { outside_mm: 48.3, wall_mm: 4.0, yield_mpa: 235.0 };
    assert!((tube.plastic_modulus_mm3() / 7870.0 - 1.0).abs() < 0.005);
    assert!((tube.elastic_modulus_mm3() / 5700.0 - 1.0).abs() < 0.005);
    let section = strength(&tube, None, TubeCode::En1993).unwrap();
    assert!((section.moment_nm / section.factor / 1120.0 - 1.0).abs() < 0.005);
    let shear_n = section.shear_n / section.factor;
    assert!((26_100.0..26_100.0 * 1.15).contains(&shear_n), "{shear_n}");
}
