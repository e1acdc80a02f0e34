//! Points by right angles and turns: square off a line between two marks, and on along a wall from two corners.

use super::algebra::{IDENTITY, add, dot, left_of, minus, outer, plus, scale, scale_matrix, square};
use super::{Followed, Miss, Start};
use crate::numerics::real::{cos_deg, hypot, sin_deg};
use crate::survey::positions::Readings;

/// Nearer than this two points give no direction.
const SAME_SPOT_M: f64 = 1e-9;

/// A plan length along a unit vector `e` for a tape along the plane of gradient `g`: L/√(1 + (g·e)²).
struct Laid {
    plan_m: f64,
    by_tape: f64,
    /// By a turn of `e` to the left.
    by_turn: f64,
    by_rise: f64,
}

fn laid(g: [f64; 2], e: [f64; 2], tape_m: f64) -> Laid {
    let (rise, rise_left) = (dot(g, e), dot(g, left_of(e)));
    let longer = hypot(1.0, rise);
    let by_rise = -tape_m * rise / (longer * longer * longer);
    Laid { plan_m: tape_m / longer, by_tape: 1.0 / longer, by_turn: by_rise * rise_left, by_rise }
}

/// Along the line `from` → `toward`, then square off it: to the left where `left_m` is positive.
pub(super) fn offset(
    readings: &Readings,
    from: Start,
    toward: Start,
    along_m: f64,
    left_m: f64,
) -> Result<Followed, Miss> {
    let line = minus(toward.at, from.at);
    let line_m = hypot(line[0], line[1]);
    if line_m < SAME_SPOT_M {
        return Err(Miss::SameSpot);
    }
    let u = scale(line, 1.0 / line_m);
    let n = left_of(u);
    let g = readings.gradient;
    let (along, left) = (laid(g, u, along_m), laid(g, n, left_m));
    let off_moves = plus(scale(u, -left.plan_m), scale(n, left.by_turn)); // by a turn of n alone
    let by_turn = plus(plus(scale(n, along.plan_m), scale(u, along.by_turn)), off_moves);
    let by_toward = scale_matrix(outer(by_turn, n), 1.0 / line_m);
    let by_gradient = add(scale_matrix(square(u), along.by_rise), scale_matrix(square(n), left.by_rise));
    let own = [
        scale(u, along.by_tape * readings.tape_sigma_m(along_m)),
        scale(n, left.by_tape * readings.tape_sigma_m(left_m.abs())),
        scale(off_moves, readings.square_sigma()),
    ];
    Ok(Followed {
        by_state: vec![
            (from.state, add(IDENTITY, scale_matrix(by_toward, -1.0))),
            (toward.state, by_toward),
            (0, by_gradient),
        ],
        own: own.into_iter().map(square).fold([[0.0; 2]; 2], add),
        ..Followed::known(plus(from.at, plus(scale(u, along.plan_m), scale(n, left.plan_m))), 0.0)
    })
}

/// How far the foot of an offset moves along its line, by the tape there, for each radian that the right angle is out.
pub(in crate::survey::positions) fn foot_m(
    readings: &Readings,
    from: Start,
    toward: Start,
    left_m: f64,
) -> f64 {
    let line = minus(toward.at, from.at);
    let u = scale(line, 1.0 / hypot(line[0], line[1]).max(SAME_SPOT_M));
    let off = laid(readings.gradient, left_of(u), left_m);
    off.plan_m * hypot(1.0, dot(readings.gradient, u))
}

/// On from the corner `last`, to which one came from the corner `before`: turned to the left by `left_deg`, then a
/// tape along the ground.
pub(in crate::survey::positions) fn next_corner(
    readings: &Readings,
    before: Start,
    last: Start,
    left_deg: f64,
    tape_m: f64,
) -> Result<Followed, Miss> {
    let wall = minus(last.at, before.at);
    let wall_m = hypot(wall[0], wall[1]);
    if wall_m < SAME_SPOT_M {
        return Err(Miss::SameSpot);
    }
    let u = scale(wall, 1.0 / wall_m);
    let n = left_of(u);
    let e = plus(scale(u, cos_deg(left_deg)), scale(n, sin_deg(left_deg)));
    let tape = laid(readings.gradient, e, tape_m);
    let by_turn = plus(scale(left_of(e), tape.plan_m), scale(e, tape.by_turn));
    let by_wall = scale_matrix(outer(by_turn, n), 1.0 / wall_m);
    let own = [
        scale(e, tape.by_tape * readings.tape_sigma_m(tape_m)),
        scale(by_turn, readings.turn_sigma(left_deg)),
    ];
    Ok(Followed {
        by_state: vec![
            (before.state, scale_matrix(by_wall, -1.0)),
            (last.state, add(IDENTITY, by_wall)),
            (0, scale_matrix(square(e), tape.by_rise)),
        ],
        own: own.into_iter().map(square).fold([[0.0; 2]; 2], add),
        ..Followed::known(plus(last.at, scale(e, tape.plan_m)), 0.0)
    })
}
