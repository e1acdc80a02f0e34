//! TM 5-5420-278-10 (U.S. Army), Table 9: holding power of deadmen in loamy soil, with its factors and rules. Read.

use mastwright_engine::anchor::deadman::{Deadman, MilitarySoil, holding_pa, length_for_pull_m};

const PSF_PA: f64 = 47.880_26;
const POUND_N: f64 = 4.448_222;
const FOOT_M: f64 = 0.3048;

const TABLE_9: [(f64, [f64; 4]); 5] = [
    (3.0, [950.0, 1300.0, 1450.0, 1500.0]),
    (4.0, [1750.0, 2200.0, 2600.0, 2700.0]),
    (5.0, [2800.0, 3600.0, 4000.0, 4100.0]),
    (6.0, [3800.0, 5100.0, 5800.0, 6000.0]),
    (7.0, [5100.0, 7000.0, 8000.0, 8400.0]),
];

#[test]
fn twenty_values_and_their_factors() {
    for (depth_ft, row) in TABLE_9 {
        for (run, psf) in [1.0, 2.0, 3.0, 4.0].into_iter().zip(row) {
            for (soil, factor) in [
                (MilitarySoil::Loam, 1.0),
                (MilitarySoil::Hard, 5.0),
                (MilitarySoil::Wet, 0.5),
                (MilitarySoil::Sandy, 0.5),
            ] {
                let value = holding_pa(depth_ft * FOOT_M, run, soil).unwrap() / PSF_PA;
                assert!((value - factor * psf).abs() < 1e-3 * psf, "{depth_ft} ft 1:{run}: {value}");
            }
            assert!(holding_pa(depth_ft * FOOT_M, run, MilitarySoil::Unknown).is_none());
        }
    }
}

/// The manual's rule, worked by hand: 6,000 lb at 4 ft and 1:2 with a face of 0.5 ft: 6000/(2200·0.5) + 1 = 6.45 ft,
/// 12.9 times the thickness, which is too long for a timber; with 0.75 ft 4.64 ft, 6.2 times.
#[test]
fn length_of_a_deadman() {
    let holding = holding_pa(4.0 * FOOT_M, 2.0, MilitarySoil::Loam).unwrap();
    for (face_ft, expected_ft, fits) in [(0.5, 6.4545, false), (0.75, 4.6364, true)] {
        let length_m = length_for_pull_m(6000.0 * POUND_N, holding, face_ft * FOOT_M);
        assert!((length_m / FOOT_M - expected_ft).abs() < 0.001, "{}", length_m / FOOT_M);
        let timber =
            Deadman { length_m, face_m: face_ft * FOOT_M, is_log: false, mean_depth_m: 4.0 * FOOT_M };
        let resistance = timber.resistance(2.0, MilitarySoil::Loam);
        assert_eq!(resistance.allowable_n().is_some(), fits);
        if let Some(allowable_n) = resistance.allowable_n() {
            assert!((allowable_n * 2.0 / POUND_N - 6000.0).abs() < 1.0, "the rule turned round");
        }
    }
}
