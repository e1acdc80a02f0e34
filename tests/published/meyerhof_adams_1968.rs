//! Meyerhof & Adams (1968), uplift of a 100 mm square plate in dense sand, as tabulated in Soil Reinforcement for
//! Anchor Plates and Uplift Response (Elsevier 2017), appendix G. Read.
//!
//! Printed: K_u·tan φ 0.92; shape factors, breakout factors and forces below. The sand's weight is not printed in what
//! was read; 17.03 kN/m³ is worked back from the first row, so that the forces of the other three rows test the form.

use mastwright_engine::anchor::Strength;
use mastwright_engine::anchor::plate::{Plate, breakout_factor, shape_factor, uplift};

#[test]
fn four_rows() {
    for (ratio, shape, breakout, force_n) in [
        (1.0, 1.48, 3.70, 63.0),
        (2.0, 1.96, 8.20, 279.0),
        (3.0, 2.44, 14.47, 738.0),
        (4.0, 2.92, 22.51, 1531.0),
    ] {
        assert!((shape_factor(0.48, ratio) - shape).abs() < 1e-9);
        let factor = breakout_factor(ratio, shape, 0.92);
        assert!((factor / breakout - 1.0).abs() < 0.01, "{factor}");
        let force = factor * 17.03e3 * 0.1 * 0.1 * (ratio * 0.1);
        assert!((force / force_n - 1.0).abs() < 0.01, "{force}");
    }
}

/// The whole chain at the friction angle that 0.92 means (K_u 0.95: φ = 44.08°, m 0.472 from the tabulated values, from
/// memory): the printed forces within 2 %.
#[test]
fn from_the_friction_angle() {
    let friction_deg = (0.92_f64 / 0.95).atan().to_degrees();
    let sand = Strength::Sand { friction_deg, unit_weight_n_per_m3: 17.03e3 };
    for (ratio, force_n) in [(1.0, 63.0), (2.0, 279.0), (3.0, 738.0), (4.0, 1531.0)] {
        let held = uplift(Plate::square(0.1, 0.1 * ratio), sand);
        let ultimate_n = held.allowable_n().unwrap() * 2.0;
        assert!((ultimate_n / force_n - 1.0).abs() < 0.02, "{ultimate_n}");
    }
}
