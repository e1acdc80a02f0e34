//! Hoerner, Fluid-Dynamic Drag (1965), ch. 3: long cylinders at a slant (from memory).
//!
//! Hoerner writes drag 1.1·sin³α + 0.02 and lift 1.1·sin²α·cos α; at 45° 0.409 and 0.389. The friction of 0.02 along
//! the cylinder is left out here on purpose: DIFFERENCE of 0.02 in the drag.

use mastwright_engine::wind::member::{Cone, Stream, force_per_length_n_per_m};

#[test]
fn drag_and_lift_at_a_slant() {
    for slant_deg in [5.0_f64, 20.0, 45.0, 70.0, 90.0] {
        let (sin, cos) = slant_deg.to_radians().sin_cos();
        let [drag, side, lift] = force_per_length_n_per_m(1.0, [1.0, 0.0, 0.0], [cos, 0.0, sin], 1.1, 1.0);
        assert!((drag - 1.1 * sin.powi(3)).abs() < 1e-12);
        assert!((-lift - 1.1 * sin.powi(2) * cos).abs() < 1e-12);
        assert_eq!(side, 0.0);
    }
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let [drag, _, lift] = force_per_length_n_per_m(1.0, [1.0, 0.0, 0.0], [half, 0.0, half], 1.1, 1.0);
    assert!((drag + 0.02 - 0.409).abs() < 5e-4 && (-lift - 0.389).abs() < 5e-4);
}

/// A full cone of n strands that lean by β in an even wind: the drag is c·D·q·L·Σ(1 − sin²β·cos²φ)^(3/2), by hand
/// from the cross-flow principle; upwind and downwind strands cancel each other's lift.
#[test]
fn a_full_cone_in_an_even_wind() {
    let (radius, height, count) = (3.0_f64, 4.0, 12);
    let ring: Vec<[f64; 3]> = (0..count)
        .map(|i| f64::from(i) * std::f64::consts::TAU / f64::from(count))
        .map(|turn| [radius * turn.cos(), radius * turn.sin(), 0.0])
        .collect();
    let cone = Cone { top: [0.0, 0.0, height], ring: &ring, diameter_m: 0.004, coefficient: 1.2 };
    let even = |_| 300.0;
    let load = cone.load(&Stream::from_bearing(270.0, 0.0, &even), [0.0; 3]);
    let sin_squared = (radius / 5.0).powi(2);
    let sum: f64 = (0..count)
        .map(|i| (f64::from(i) * std::f64::consts::TAU / f64::from(count)).cos())
        .map(|cos| (1.0 - sin_squared * cos * cos).powf(1.5))
        .sum();
    let expected = 1.2 * 0.004 * 300.0 * 5.0 * sum;
    assert!((load.force_n[0] - expected).abs() < 1e-9);
    assert!(load.force_n[1].abs() < 1e-9 && load.force_n[2].abs() < 1e-9);
    assert!((load.at_upper_n[0] - expected / 2.0).abs() < 1e-9);
}
