//! What must hold for every anchor: bigger, deeper, stronger never holds less, and the unknown never passes.

use mastwright_engine::anchor::ballast::{Ballast, sliding_tension_n};
use mastwright_engine::anchor::deadman::{Deadman, MilitarySoil, holding_pa};
use mastwright_engine::anchor::plate::{Plate, uplift};
use mastwright_engine::anchor::screw::{Helix, Screw, Shaft, by_bearing, by_torque};
use mastwright_engine::anchor::stake::Stake;
use mastwright_engine::anchor::{Strength, footing, soil::Soil};
use mastwright_engine::resistance::Resistance;
use proptest::prelude::*;

fn held(resistance: &Resistance) -> f64 {
    resistance.allowable_n().unwrap()
}

fn strength(is_clay: bool, share: f64) -> Strength {
    if is_clay {
        Strength::Clay { undrained_pa: 5e3 + 195e3 * share }
    } else {
        Strength::Sand { friction_deg: 24.0 + 21.0 * share, unit_weight_n_per_m3: 9e3 + 9e3 * share }
    }
}

proptest! {
    #[test]
    fn a_stake_gains_with_size_depth_and_soil(
        is_clay in any::<bool>(), share in 0.0..0.8, firmer in 0.0..0.2,
        diameter_m in 0.008..0.05, thicker in 0.0..0.03, embedded_m in 0.2..1.5, deeper in 0.0..1.0,
        push_height_m in 0.0..0.6, higher in 0.0..0.5, yield_pa in 2e8..6e8,
    ) {
        let stake = Stake { diameter_m, embedded_m, push_height_m, yield_pa };
        let soil = strength(is_clay, share);
        let base = held(&stake.resistance(soil));
        prop_assert!(base > 0.0 && base.is_finite());
        let at_least = |resistance: Resistance| held(&resistance) >= base * (1.0 - 1e-9);
        prop_assert!(at_least(stake.resistance(strength(is_clay, share + firmer))));
        let deep = Stake { embedded_m: embedded_m + deeper, ..stake };
        prop_assert!(at_least(deep.resistance(soil)));
        let harder = Stake { yield_pa: yield_pa * 1.2, ..stake };
        prop_assert!(at_least(harder.resistance(soil)));
        if !is_clay || embedded_m > 10.0 * (diameter_m + thicker) {
            let thick = Stake { diameter_m: diameter_m + thicker, ..stake };
            prop_assert!(at_least(thick.resistance(soil)));
        }
        let above = Stake { push_height_m: push_height_m + higher, ..stake };
        prop_assert!(held(&above.resistance(soil)) <= base * (1.0 + 1e-9));
        prop_assert!(stake.resistance(Strength::Unknown).allowable_n().is_none());
    }

    /// In balance: the soil below the turning point answers push and moment (clay).
    #[test]
    fn a_stake_in_clay_is_in_balance(diameter in 0.01..0.05, embedded in 0.3..1.5, e in 0.0..0.5, cu in 5e3..2e5) {
        let stake = Stake { diameter_m: diameter, embedded_m: embedded, push_height_m: e, yield_pa: 3e8 };
        let push = stake.push_in_clay(cu);
        let (f, p) = (push.depth_to_moment_m, 9.0 * cu * diameter);
        let top = 1.5 * diameter;
        let g = embedded - top - f;
        // Reaction p from `top` to top + f, then p on over g/2, then −p over g/2: forces and moments about the surface.
        prop_assert!((push.push_n - p * f).abs() < 1e-9 * push.push_n);
        let moment = push.push_n * e + p * f * (top + f / 2.0) + p * g / 2.0 * (top + f + g / 4.0)
            - p * g / 2.0 * (top + f + 3.0 * g / 4.0);
        prop_assert!(moment.abs() < 1e-9 * push.push_n * embedded, "{moment}");
    }

    #[test]
    fn plates_and_screws_gain_with_size_depth_and_soil(
        is_clay in any::<bool>(), share in 0.0..0.8, firmer in 0.0..0.2, breadth in 0.05..0.5, ratio in 1.0..12.0, deeper in 0.0..1.0,
    ) {
        let soil = strength(is_clay, share);
        let firm = strength(is_clay, share + firmer);
        let depth_m = breadth * ratio;
        let plate = held(&uplift(Plate::square(breadth, depth_m), soil));
        prop_assert!(held(&uplift(Plate::square(breadth, depth_m + deeper), soil)) >= plate * (1.0 - 1e-12));
        prop_assert!(held(&uplift(Plate::square(breadth, depth_m), firm)) >= plate * (1.0 - 1e-12));
        // Screws are shown from five diameters down.
        let depth_m = breadth * f64::max(ratio, 5.0);
        let helix = Helix { diameter_m: breadth, shaft_m: 0.2 * breadth, depth_m };
        let screw = held(&by_bearing(helix, soil));
        let deep = by_bearing(Helix { depth_m: depth_m + deeper, ..helix }, soil);
        prop_assert!(held(&deep) >= screw * (1.0 - 1e-12));
        prop_assert!(held(&by_bearing(helix, firm)) >= screw * (1.0 - 1e-12));
        let shaft = Shaft::Round { diameter_mm: 20.0 };
        prop_assert!(held(&by_torque(shaft, 300.0 + deeper)) >= held(&by_torque(shaft, 300.0)));
        // With its torque it holds no more than by either alone, wet no more than dry; shallow, nothing is shown.
        let torque_nm = Some(300.0 * (1.0 + deeper));
        let whole = Screw { shaft, torque_nm, helix_m: Some(breadth), depth_m: Some(depth_m) };
        let both = held(&whole.resistance(soil, 1.0));
        let alone = by_bearing(Helix { shaft_m: 0.02, ..helix }, soil);
        prop_assert!(both <= held(&by_torque(shaft, 300.0 * (1.0 + deeper))) && both <= held(&alone) * (1.0 + 1e-12));
        prop_assert!(held(&whole.resistance(soil, 0.5)) <= both);
        let shallow = Screw { depth_m: Some(4.9 * breadth - 0.01), ..whole };
        prop_assert!(shallow.resistance(soil, 1.0).allowable_n().is_none());
    }

    #[test]
    fn a_deadman_gains_with_depth_length_and_a_flatter_pull(
        depth in 0.92..3.0, deeper in 0.0..0.5, run in 1.0..4.5, flatter in 0.0..1.0, face in 0.15..0.4, length in 0.4..1.3,
    ) {
        let power = holding_pa(depth, run, MilitarySoil::Loam).unwrap();
        prop_assert!(holding_pa(depth + deeper, run, MilitarySoil::Loam).unwrap() >= power);
        prop_assert!(holding_pa(depth, run + flatter, MilitarySoil::Loam).unwrap() >= power);
        prop_assert!(holding_pa(depth, run, MilitarySoil::Wet).unwrap() <= power);
        let deadman = Deadman { length_m: length, face_m: face, is_log: false, mean_depth_m: depth };
        let longer = Deadman { length_m: length * 1.03, ..deadman };
        prop_assert!(held(&longer.resistance(run, MilitarySoil::Loam)) >= held(&deadman.resistance(run, MilitarySoil::Loam)));
    }

    /// At the sliding tension friction is just used up; below it the weight lies still.
    #[test]
    fn ballast_slides_at_its_tension_and_not_before(
        slope_deg in 0.0..13.0, turn in -180.0..180.0, elevation in 0.0..80.0, friction in 0.25..0.7, share in 0.0..0.999,
    ) {
        let ballast = Ballast { weight_n: 800.0, slope_deg, pull_from_downhill_deg: turn, pull_elevation_deg: elevation };
        let tension = sliding_tension_n(&ballast, friction);
        prop_assert!(tension > 0.0 && tension.is_finite());
        // Vectors on the slope: x downhill and y across in it, z out of it.
        let spare = |tension: f64| {
            let (s, t, e) = (slope_deg.to_radians(), turn.to_radians(), elevation.to_radians());
            let (level, up) = (tension * e.cos(), tension * e.sin());
            let downhill = level * t.cos() * s.cos() + (800.0 - up) * s.sin();
            let across = level * t.sin();
            let press = (800.0 - up) * s.cos() - level * t.cos() * s.sin();
            friction * press - downhill.hypot(across)
        };
        prop_assert!(spare(tension).abs() < 1e-8 * 800.0 + 1e-9 * tension, "{}", spare(tension));
        prop_assert!(spare(share * tension) > 0.0);
    }

    #[test]
    fn footings_gain_with_area_and_weight(area in 0.001..1.0, weight in 0.0..5000.0, more in 0.0..1.0, which in 0usize..5) {
        let soil = [Soil::CrystallineBedrock, Soil::LayeredRock, Soil::Gravel, Soil::Sand, Soil::Clay][which];
        prop_assert!(held(&footing::bearing(area + more, soil)) >= held(&footing::bearing(area, soil)));
        let slide = |weight, area| held(&footing::sliding(weight, area, soil));
        prop_assert!(slide(weight + 1000.0 * more, area) >= slide(weight, area));
        prop_assert!(slide(weight, area + more) >= slide(weight, area));
    }
}
