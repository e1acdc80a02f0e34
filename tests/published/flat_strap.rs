//! A flat strap on a narrow drum: the area of the ring over the thickness (a question on socratic.org whose asker took radii for
//! diameters) and the sum of its layers (Math Forum, Ask Dr. Math 71269, on the mean line; the answer there takes outer radii).

use std::f64::consts::PI;

use mastwright_engine::workshop::lift::drum::{crank_n, diameter, length, turns};

#[test]
fn strips_on_reels_of_print() {
    // 5 over 3 cm, 0.01 cm thick: 12.57 m.
    let n = (5.0 - 3.0) / (2.0 * 0.01);
    assert!((length(3.0, 0.01, n) - 1256.6).abs() < 0.1);
    assert!((turns(3.0, 0.01, 1256.637) - n).abs() < 1e-4);
    assert!((diameter(3.0, 0.01, n) - 5.0).abs() < 1e-12);
    // Radii 254 and 508 mm, 20 mm thick: 12.7 layers, 30,402.4 mm on the mean line (31,200.4 by outer radii).
    let n = (508.0 - 254.0) / 20.0;
    assert!((length(508.0, 20.0, n) - 30_402.4).abs() < 0.1);
    assert!((PI * n * (508.0 + (n + 1.0) * 20.0) - 31_200.4).abs() < 0.1);
}

/// Whole layers one by one, each as long as its mean circle: another way to the same length. The spiral beside it, each piece of its
/// own radius, comes to the same.
#[test]
fn layer_by_layer_and_as_a_spiral() {
    let (drum, thick) = (40.0, 1.5);
    let layers: f64 = (1..=9).map(|k| PI * (drum + (2.0 * f64::from(k) - 1.0) * thick)).sum();
    assert!((length(drum, thick, 9.0) - layers).abs() < 1e-9);
    let steps = 90_000;
    let spiral: f64 = (0..steps)
        .map(|i| {
            let turned = (f64::from(i) + 0.5) / f64::from(steps) * 9.0;
            2.0 * PI * 9.0 / f64::from(steps) * (0.5 * drum + turned * thick)
        })
        .sum();
    assert!((spiral - layers).abs() < 1e-6 * layers, "{spiral} {layers}");
    assert!((turns(drum, thick, layers) - 9.0).abs() < 1e-9);
}

/// Lobben, Machinists' and Draftsmen's Handbook, p. 325: drum with rope 4 in, pinion 12, wheel 72, crank 18 in, five parts of rope,
/// 4,400 lb: 33 lb nearly for two cranks.
#[test]
fn lobbens_hand_derrick() {
    let force = crank_n(4400.0 / 5.0, 4.0, 18.0, 72.0 / 12.0, 1.0);
    assert!((force - 32.59).abs() < 0.01, "{force}");
}
