//! A bearing and a tape from a mark: along the ground, or straight through the air with its vertical angle.

use super::algebra::{IDENTITY, Matrix2, add, dot, outer, plus, scale, square};
use super::{Followed, Start};
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::quantity::bearing;
use crate::survey::positions::{Readings, curve_sigma};

/// How far a tape reaches in plan, and what changes that.
struct Reach {
    plan_m: f64,
    sigma_m: f64,
    by_turn: f64,
    by_gradient: [f64; 2],
}

/// A bearing and a tape that runs along the ground's plane: plan distance d = L·cos s with tan s = g·u the
/// apparent slope along the bearing (apparent dip, Ragan, *Structural Geology*).
pub(super) fn along_ground(readings: &Readings, from: Start, reading_deg: f64, tape_m: f64) -> Followed {
    let g = readings.gradient;
    let u = bearing::unit(readings.true_bearing_deg(reading_deg));
    let slope = dot(g, u);
    let squared = 1.0 + slope * slope;
    let cos_slope = 1.0 / squared.sqrt();
    let by_slope = -tape_m * slope * cos_slope / squared; // dd/d(tan s)
    let reach = Reach {
        plan_m: tape_m * cos_slope,
        sigma_m: readings.tape_sigma_m(tape_m) * cos_slope,
        by_turn: dot(g, clockwise(u)) * by_slope,
        by_gradient: scale(u, by_slope),
    };
    sighted(readings, from, u, &reach)
}

/// A bearing and a tape held straight through the air at a vertical angle: plan distance d = L·cos v
/// (slope taping; `in_plan`).
pub(super) fn through_air(
    readings: &Readings,
    from: Start,
    reading_deg: f64,
    tape_m: f64,
    vertical_deg: f64,
) -> Followed {
    let [plan_m, sigma_m] = in_plan(readings, tape_m, vertical_deg);
    let u = bearing::unit(readings.true_bearing_deg(reading_deg));
    sighted(readings, from, u, &Reach { plan_m, sigma_m, by_turn: 0.0, by_gradient: [0.0; 2] })
}

/// Plan length of a tape at a vertical angle, and its sigma: d = L·cos v, σ² = (cos v·σ_L)² + (L·sin v·σ_v)².
/// Source: Ghilani & Wolf, *Elementary Surveying*, slope distances by vertical angle; GUM 5.1.2.
pub(in crate::survey::positions) fn in_plan(readings: &Readings, tape_m: f64, vertical_deg: f64) -> [f64; 2] {
    let by_tape = cos_deg(vertical_deg);
    let by_angle = tape_m * sin_deg(vertical_deg) * readings.slope_sigma_deg().to_radians();
    [tape_m * by_tape, hypot(by_tape * readings.tape_sigma_m(tape_m), by_angle)]
}

fn sighted(readings: &Readings, from: Start, u: [f64; 2], reach: &Reach) -> Followed {
    let across = clockwise(u); // du/dθ, θ clockwise
    let by_bearing = plus(scale(across, reach.plan_m), scale(u, reach.by_turn));
    let bearing_sigma = readings.bearing_sigma_deg().to_radians();
    let straight: Matrix2 = add(square(scale(u, reach.sigma_m)), square(scale(by_bearing, bearing_sigma)));
    let curve = scale(u, curve_sigma(reach.plan_m, bearing_sigma));
    Followed {
        by_state: vec![(from.state, IDENTITY), (0, outer(u, reach.by_gradient))],
        own: add(straight, square(curve)),
        ..Followed::known(plus(from.at, scale(u, reach.plan_m)), 0.0)
    }
}

fn clockwise(u: [f64; 2]) -> [f64; 2] {
    [u[1], -u[0]]
}
