//! What must hold for every tube, rope and timber: more of it never carries less, more load is never less used.

use mastwright_engine::resistance::rope::{Breaking, GuyRope, RopeEnd, RopeMaterial, clips_needed};
use mastwright_engine::resistance::threaded::{NPT, moment_nm, under_thread};
use mastwright_engine::resistance::timber::{TimberBearing, Wood, bearing};
use mastwright_engine::resistance::tube::{SteelTube, TubeCode, strength};
use proptest::prelude::*;

const CODES: [TubeCode; 2] = [TubeCode::En1993, TubeCode::Aisc360];

proptest! {
    #[test]
    fn a_tube_gains_with_wall_and_loses_with_length(
        outside_mm in 20.0..120.0, ratio in 10.0..45.0, thicker in 1.0..1.5, yield_mpa in 190.0..380.0,
        length_m in 0.0..6.0, longer in 0.0..3.0, stronger in 1.0..1.2,
    ) {
        let tube = SteelTube { outside_mm, wall_mm: outside_mm / ratio, yield_mpa };
        for code in CODES {
            let base = strength(&tube, Some(length_m), code).unwrap();
            let thick = SteelTube { wall_mm: tube.wall_mm * thicker, ..tube };
            let hard = SteelTube { yield_mpa: yield_mpa * stronger, ..tube };
            // A thicker wall has a slightly smaller radius of gyration, but more area by far.
            let thick = strength(&thick, Some(length_m), code).unwrap();
            prop_assert!(thick.axial_n >= base.axial_n && thick.moment_nm >= base.moment_nm && thick.shear_n >= base.shear_n);
            let hard = strength(&hard, Some(length_m), code);
            if let Ok(hard) = hard {
                // AISC's two branches meet with a step of 0.05 %: 0.658^2.25 = 0.3900, 0.877/2.25 = 0.3898.
                prop_assert!(hard.axial_n >= base.axial_n * (1.0 - 1e-3));
            }
            let long = strength(&tube, Some(length_m + longer), code).unwrap();
            prop_assert!(long.axial_n <= base.axial_n * (1.0 + 1e-12));
            let section = strength(&tube, None, code).unwrap();
            prop_assert!(section.axial_n >= base.axial_n && section.moment_nm == base.moment_nm);
            // Never more than Euler's load.
            let euler = std::f64::consts::PI.powi(2) * 210_000.0 * tube.area_mm2()
                * (tube.radius_of_gyration_mm() / (1000.0 * length_m.max(1e-6))).powi(2);
            prop_assert!(base.axial_n <= euler);
        }
    }

    #[test]
    fn more_load_is_more_use(
        n in 0.0..20e3, m in 0.0..2e3, more_n in 0.0..5e3, more_m in 0.0..500.0, length_m in 0.5..5.0,
    ) {
        let tube = SteelTube { outside_mm: 48.3, wall_mm: 3.2, yield_mpa: 235.0 };
        for code in CODES {
            let strut = strength(&tube, Some(length_m), code).unwrap();
            let base = strut.utilisation(n, m);
            prop_assert!(base >= 0.0);
            prop_assert!(strut.utilisation(n + more_n, m) >= base - 1e-12);
            prop_assert!(strut.utilisation(n, m + more_m) >= base);
            prop_assert!(strut.utilisation(n, -m) == base);
        }
    }

    #[test]
    fn a_thread_never_strengthens(which in 0usize..10, wall_mm in 2.0..9.0, yield_mpa in 190.0..380.0) {
        // Outside diameters of schedule 40 pipe, ASME B36.10M.
        let outside_in = [0.84, 1.05, 1.315, 1.66, 1.9, 2.375, 2.875, 3.5, 4.0, 4.5][which];
        let tube = SteelTube { outside_mm: outside_in * 25.4, wall_mm, yield_mpa };
        if let Ok(root) = under_thread(&tube, &NPT[which]) {
            prop_assert!(root.area_mm2() < tube.area_mm2());
            prop_assert!(moment_nm(&root) < tube.elastic_modulus_mm3() * yield_mpa / 1000.0);
        }
    }

    #[test]
    fn ropes_and_timber_gain_with_size(
        strength_n in 100.0..1e5, more in 1.0..2.0, mm in 1.0..40.0, along in 20.0..200.0, across in 20.0..200.0, grow in 1.0..1.5,
    ) {
        let rope = |breaking, material, end| GuyRope { breaking, material, ends: [end; 2], factor: None }.resistance();
        let carried = |strength_n: f64, end| {
            rope(Breaking::Least { strength_n }, RopeMaterial::Polyester, end).allowable_n().unwrap()
        };
        prop_assert!(carried(strength_n * more, RopeEnd::Knot) >= carried(strength_n, RopeEnd::Knot));
        prop_assert!(carried(strength_n, RopeEnd::FigureEightLoop) > carried(strength_n, RopeEnd::Knot));
        // A fibre that nobody named is not shown, whatever its end: never better than the worst one that is named.
        for end in [RopeEnd::Knot, RopeEnd::FigureEightLoop, RopeEnd::EyeSplice] {
            let unnamed = rope(Breaking::Least { strength_n }, RopeMaterial::Fibre, end);
            prop_assert!(unnamed.allowable_n().is_none());
        }
        let average = rope(Breaking::Average { strength_n }, RopeMaterial::Polyester, RopeEnd::Knot);
        prop_assert!(average.allowable_n().unwrap() < carried(strength_n, RopeEnd::Knot));
        prop_assert!(clips_needed(mm * grow) >= clips_needed(mm));
        let contact = TimberBearing { along_grain_mm: along, across_grain_mm: across, from_end_mm: 300.0, is_wet: true };
        let carried = |contact: TimberBearing| bearing(&contact, Wood::UnknownSoftwood).allowable_n().unwrap();
        let wider = TimberBearing { across_grain_mm: across * grow, ..contact };
        prop_assert!(carried(wider) >= carried(contact));
    }
}
