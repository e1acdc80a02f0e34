//! Broms (1964), short free-headed piles: cohesive soil as given in Reese & Van Impe, appendix A, and in Fundamentals
//! of Foundation Engineering, 6.24; cohesionless soil as in two public implementations. Read.
//!
//! Neither prints a stake of this size; the two cases are worked by hand from the printed equations. 0.1 %.

use mastwright_engine::anchor::Strength;
use mastwright_engine::anchor::stake::{Stake, passive_coefficient};

const BAR: Stake = Stake { diameter_m: 0.016, embedded_m: 0.9, push_height_m: 0.1, yield_pa: 420e6 };

fn near(value: f64, expected: f64) {
    assert!((value / expected - 1.0).abs() < 1e-3, "{value} is not {expected}");
}

/// c 50 kPa: P 2.1675 kN, f 0.3010 m, g 0.5750 m, largest moment 0.5950 kN·m.
#[test]
fn clay() {
    let push = BAR.push_in_clay(50e3);
    near(push.push_n, 2167.5);
    near(push.depth_to_moment_m, 0.30105);
    near(push.moment_nm, 595.0);
    let g = 0.9 - 1.5 * 0.016 - push.depth_to_moment_m;
    near(g, 0.5750);
    // The moment from below: 2.25·b·g²·c.
    near(push.moment_nm, 2.25 * 0.016 * g * g * 50e3);
}

/// γ 17 kN/m³, φ 32°: K_p 3.2546, P 0.3227 kN, f 0.4951 m, largest moment 0.1388 kN·m.
#[test]
fn sand() {
    near(passive_coefficient(32.0), 3.2546);
    let push = BAR.push_in_sand(32.0, 17e3);
    near(push.push_n, 322.7);
    near(push.depth_to_moment_m, 0.4951);
    near(push.moment_nm, 138.8);
}

/// The bar's own plastic moment, f_y·d³/6 = 0.2867 kN·m: in the clay the bar bends before the soil gives way, in the
/// sand the soil gives way first.
#[test]
fn the_bar_itself() {
    near(BAR.plastic_moment_nm(), 286.7);
    let clay = BAR.resistance(Strength::Clay { undrained_pa: 50e3 }).allowable_n().unwrap();
    near(clay, BAR.bending_push_in_clay_n(50e3) / 2.0);
    assert!(clay < 2167.5 / 2.0);
    let sand = BAR.resistance(Strength::Sand { friction_deg: 32.0, unit_weight_n_per_m3: 17e3 });
    near(sand.allowable_n().unwrap(), 322.7 / 2.0);
}
