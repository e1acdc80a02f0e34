//! The strength of soil by hand: TM 5-818-1 (UFC 3-220-03FA), Table 2-2, clays; EM 1110-2-2504, Table 3-1, granular soils
//! (after Teng). Read. The engine takes the lower end of each band.

use mastwright_engine::anchor::soil::{ClayFeel, SandFeel, Strength};

/// Unconfined compressive strength in tons per square foot at the lower end of the band; half of it is the shear
/// strength.
#[test]
fn clays() {
    const TSF_PA: f64 = 95_760.52;
    for (feel, unconfined_tsf) in [
        (ClayFeel::Soft, 0.25),
        (ClayFeel::Firm, 0.5),
        (ClayFeel::Stiff, 1.0),
        (ClayFeel::VeryStiff, 2.0),
        (ClayFeel::Hard, 4.0),
    ] {
        let Strength::Clay { undrained_pa } = Strength::of_clay(feel) else { panic!("{feel:?}") };
        assert!((2.0 * undrained_pa / TSF_PA - unconfined_tsf).abs() < 1e-6, "{feel:?}");
    }
    assert_eq!(Strength::of_clay(ClayFeel::VerySoft), Strength::Unknown);
}

/// Friction angle in degrees; moist and submerged weight in pounds per cubic foot.
#[test]
fn sands() {
    const PCF_N_PER_M3: f64 = 157.087;
    for (feel, friction, moist, submerged) in [
        (SandFeel::Loose, 28.0, 95.0, 55.0),
        (SandFeel::Medium, 31.0, 110.0, 60.0),
        (SandFeel::Dense, 37.0, 110.0, 65.0),
    ] {
        for (under_water, pcf) in [(false, moist), (true, submerged)] {
            let Strength::Sand { friction_deg, unit_weight_n_per_m3 } = Strength::of_sand(feel, under_water)
            else {
                panic!("{feel:?}")
            };
            assert_eq!(friction_deg, friction);
            assert!((unit_weight_n_per_m3 / PCF_N_PER_M3 - pcf).abs() < 1e-3, "{feel:?}");
        }
    }
}
