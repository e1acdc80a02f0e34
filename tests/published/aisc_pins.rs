//! AISC 360: pins in bearing and bolts in shear, by AISC Design Examples v13, D.7, and Beginner's Guide to the Steel Construction
//! Manual, example 4.1; struts by textbook questions worked again. Kips and inches as printed.

use mastwright_engine::quantity::UnitSystem;
use mastwright_engine::resistance::pin::{Pinned, allowable, bearing_n, shear_n, thinnest};
use mastwright_engine::workshop::lift::rod::{Rod, euler_n};

const KIP_N: f64 = 4_448.221_615_260_5;
const INCH_MM: f64 = 25.4;
const KSI_MPA: f64 = KIP_N / (INCH_MM * INCH_MM);

/// A36 plate 1/2 in, pin 1 in: 1.8·36·1.0·0.5 = 32.4 kip, 16.2 over 2.00.
#[test]
fn bearing_of_a_pin_in_a_plate() {
    let nominal = bearing_n(36.0 * KSI_MPA, INCH_MM, 0.5 * INCH_MM) / KIP_N;
    assert!((nominal - 32.4).abs() < 0.01 && (nominal / 2.0 - 16.2).abs() < 0.01, "{nominal}");
}

/// Eleven 3/4 in A325-X bolts at 60 ksi: φR_n = 0.75·11·26.5 = 219 kip.
#[test]
fn shear_of_eleven_bolts() {
    let one = shear_n(60.0 * KSI_MPA, 0.75 * INCH_MM) / KIP_N;
    assert!((one - 26.5).abs() < 0.05 && (0.75 * 11.0 * one - 219.0).abs() < 0.5, "{one}");
}

/// By hand: an 8 mm pin of A307 steel (27 ksi = 186.16 MPa) cut twice carries 2·186.16·50.265/2 = 9,357 N; on 1.651 mm walls of
/// 205 MPa 2·1.8·205·8·1.651/2 = 4,874 N, on 3.2 mm walls of 235 MPa more. The weaker counts.
#[test]
fn a_pin_through_two_tubes_by_hand() {
    let of = Pinned {
        pin_mm: 8.0,
        inner_wall_mm: 1.651,
        inner_yield_mpa: 205.0,
        outer_wall_mm: 3.2,
        outer_yield_mpa: 235.0,
    };
    let strength = allowable(&of);
    assert!((strength.shear_n - 9357.3).abs() < 1.0, "{strength:?}");
    assert!((strength.bearing_n - 4873.8).abs() < 1.0, "{strength:?}");
    assert_eq!(strength.least_n, strength.bearing_n);
    // 6 mm carries 3,655 N by bearing; 4,500 N want 8 mm.
    assert_eq!(thinnest(&of, 3600.0, UnitSystem::Metric), Some(6.0));
    assert_eq!(thinnest(&of, 4500.0, UnitSystem::Metric), Some(8.0));
    assert_eq!(thinnest(&of, 1e6, UnitSystem::Metric), None);
}

/// Hollow strut 44.5 × 2.5 mm, E 200 GPa: 19.76 kN at 2.7 m and 64.04 kN at 1.5 m; bar of 1/2 in, 5 ft, E 30·10⁶ psi: 252.3 lb.
#[test]
fn eulers_load_of_textbook_struts() {
    let strut = Rod { outside_mm: 44.5, bore_mm: 39.5, yield_mpa: 324.0 };
    let kn = |length_mm| euler_n(200_000.0, strut.second_moment_mm4(), length_mm) / 1000.0;
    assert!((kn(2700.0) - 19.76).abs() < 0.01 && (kn(1500.0) - 64.04).abs() < 0.02, "{}", kn(2700.0));
    let bar = Rod { outside_mm: 0.5 * INCH_MM, bore_mm: 0.0, yield_mpa: 250.0 };
    let lbf = euler_n(30_000.0 * KSI_MPA, bar.second_moment_mm4(), 60.0 * INCH_MM) / KIP_N * 1000.0;
    assert!((lbf - 252.3).abs() < 0.1, "{lbf}");
    // What may be carried is never more than Euler's load, nor than the squashed section.
    for length_mm in [100.0, 500.0, 1500.0, 3000.0] {
        let allowed = strut.allowable_n(length_mm);
        assert!(allowed <= euler_n(200_000.0, strut.second_moment_mm4(), length_mm) / 1.67 + 1e-6);
        assert!(allowed <= 324.0 * strut.area_mm2() / 1.67 + 1e-6);
    }
    // Slender: 0.877 of Euler's over 1.67 (E3-3).
    let slender = strut.allowable_n(5000.0);
    assert!(
        (slender / (0.877 * euler_n(200_000.0, strut.second_moment_mm4(), 5000.0) / 1.67) - 1.0).abs() < 1e-9
    );
    let longest = strut.longest_mm(10_000.0).expect("a short piece carries it");
    assert!((strut.allowable_n(longest) - 10_000.0).abs() < 1.0);
}
