//! Tapes from two or three marks.

use super::algebra::{Matrix2, add, dot, left_of, minus, outer, plus, scale, scale_matrix, square};
use super::{Followed, Miss, Spare, Start};
use crate::job::Side;
use crate::numerics::real::{atan2_deg, hypot};
use crate::survey::positions::Readings;

/// Below this sine of the crossing the two tapes run along one line and fix nothing across it.
const LEAST_CROSSING_SINE: f64 = 1e-3;

/// A second place that fits three tapes nearly as well as the first is not ruled out while its χ² is larger by less
/// than this: χ² with one degree of freedom at 0.1 %, as in `Baarda`'s test.
const RULED_OUT: f64 = 10.83;

/// A tape from a mark.
#[derive(Clone, Copy)]
pub(super) struct Arm {
    pub from: Start,
    pub tape_m: f64,
}

/// Two tapes along the ground's plane.
///
/// Lengths on the plane are plan lengths in the metric M = I + g·gᵀ. Its root S = I + c·g·gᵀ stretches the
/// plan along the fall line by 1/cos s, in which both tapes are plain circles: they are crossed there and the
/// point is brought back by S⁻¹, exactly and without iteration.
pub(super) fn two(readings: &Readings, a: Arm, b: Arm, side: Side) -> Result<Followed, Miss> {
    let at = crossed(readings, a, b, side)?;
    differentiate(readings, &[a, b], at)
}

fn crossed(readings: &Readings, a: Arm, b: Arm, side: Side) -> Result<[f64; 2], Miss> {
    let g = readings.gradient;
    let steep = (1.0 + dot(g, g)).sqrt();
    let c = 1.0 / (steep + 1.0); // (√(1 + g²) − 1)/g² without the division by zero on level ground
    let stretch = |v: [f64; 2]| plus(v, scale(g, c * dot(g, v)));
    let unstretch = |v: [f64; 2]| plus(v, scale(g, -c / steep * dot(g, v)));

    let line = stretch(minus(b.from.at, a.from.at));
    let apart_m = hypot(line[0], line[1]);
    let from_a = cross_circles(a.tape_m, b.tape_m, apart_m)?;
    let e = scale(line, 1.0 / apart_m);
    let off = match side {
        Side::Left => from_a.off_m,
        Side::Right => -from_a.off_m,
    };
    Ok(plus(a.from.at, unstretch(plus(scale(e, from_a.along_m), scale(left_of(e), off)))))
}

struct Crossing {
    along_m: f64,
    off_m: f64,
}

/// Two circles of radii `a`, `b`, their centres `apart` on one line: the crossing's place along and off it.
fn cross_circles(a: f64, b: f64, apart: f64) -> Result<Crossing, Miss> {
    if apart < 1e-9 {
        return Err(Miss::SameSpot);
    }
    let short = apart - (a + b);
    let over = (a - b).abs() - apart;
    if short > 0.0 {
        return Err(Miss::Short { apart_m: apart, by_m: short });
    }
    if over > 0.0 {
        return Err(Miss::Over { apart_m: apart, by_m: over });
    }
    let along_m = (apart + (a - b) * (a + b) / apart) / 2.0;
    // Heron's form of the height: it keeps its digits where the triangle is flat.
    let off_m = ((a + b + apart) * -short * (apart + (a - b)) * (apart - (a - b))).sqrt() / (2.0 * apart);
    Ok(Crossing { along_m, off_m })
}

/// Three tapes, adjusted by weighted least squares from the crossing of two of them that suits the third best.
///
/// The weights are those of the tapes alone; what the marks' own errors do to the point is in its derivatives.
pub(super) fn three(readings: &Readings, arms: [Arm; 3]) -> Result<Followed, Miss> {
    let mut crossings: Vec<[f64; 2]> = Vec::new();
    let mut miss = Miss::InLine;
    for (i, j) in [(0, 1), (0, 2), (1, 2)] {
        for side in [Side::Left, Side::Right] {
            match crossed(readings, arms[i], arms[j], side) {
                Ok(at) => crossings.push(at),
                Err(why) => miss = why,
            }
        }
    }
    let settled = crossings.iter().map(|&at| settle(readings, &arms, at));
    let mut places: Vec<([f64; 2], f64)> = settled.map(|at| (at, chi_square(readings, &arms, at))).collect();
    places.sort_by(|a, b| a.1.total_cmp(&b.1));
    let Some(&(at, least)) = places.first() else { return Err(miss) };
    let apart = |other: [f64; 2]| hypot(other[0] - at[0], other[1] - at[1]);
    // Two steps from one valley end on one spot; what settled elsewhere and fits as well is the mirror image.
    if places.iter().any(|&(other, fit)| apart(other) > 0.05 && fit - least < RULED_OUT) {
        return Err(Miss::Mirrored);
    }
    let mut followed = differentiate(readings, &arms, at)?;
    followed.spare = spare(readings, &arms, at);
    Ok(followed)
}

fn chi_square(readings: &Readings, arms: &[Arm], at: [f64; 2]) -> f64 {
    let misfit =
        |arm: &Arm| (arm.tape_m - Row::of(readings, arm, at).length_m) / readings.tape_sigma_m(arm.tape_m);
    arms.iter().map(misfit).map(|w| w * w).sum()
}

/// Gauss–Newton from a place that is near: a few steps do.
fn settle(readings: &Readings, arms: &[Arm], start: [f64; 2]) -> [f64; 2] {
    let mut at = start;
    for _ in 0..30 {
        let rows: Vec<Row> = arms.iter().map(|arm| Row::of(readings, arm, at)).collect();
        let Ok(gains) = gains(&rows) else { break };
        let parts =
            gains.iter().zip(&rows).zip(arms).map(|((k, row), arm)| scale(*k, arm.tape_m - row.length_m));
        let step = parts.fold([0.0; 2], plus);
        let next = plus(at, step);
        if chi_square(readings, arms, next) > chi_square(readings, arms, at) {
            break;
        }
        at = next;
        if hypot(step[0], step[1]) < 1e-12 {
            break;
        }
    }
    at
}

/// What one tape sees: its length on the plane, L² = |d|² + (g·d)², with its derivatives.
struct Row {
    length_m: f64,
    by_point: [f64; 2],
    by_gradient: [f64; 2],
    d: [f64; 2],
    sigma_m: f64,
}

impl Row {
    fn of(readings: &Readings, arm: &Arm, at: [f64; 2]) -> Self {
        let g = readings.gradient;
        let d = minus(at, arm.from.at);
        let rise = dot(g, d);
        let length_m = hypot(hypot(d[0], d[1]), rise);
        let by_point = scale(plus(d, scale(g, rise)), 1.0 / length_m);
        let sigma_m = readings.tape_sigma_m(arm.tape_m);
        Row { length_m, by_point, by_gradient: scale(d, rise / length_m), d, sigma_m }
    }
}

/// dP/d(tape i) = (AᵀPA)⁻¹·aᵢ/σᵢ²: weighted least squares, Ghilani ch. 11. For two tapes it is A⁻¹.
fn gains(rows: &[Row]) -> Result<Vec<[f64; 2]>, Miss> {
    let sine = |(a, b): (&Row, &Row)| a.by_point[0] * b.by_point[1] - a.by_point[1] * b.by_point[0];
    let pairs = rows.iter().enumerate().flat_map(|(i, a)| rows[..i].iter().map(move |b| (b, a)));
    let best = pairs.map(sine).map(f64::abs).fold(0.0, f64::max);
    // A tape of no length has no direction and gives NaN.
    if rows.iter().any(|row| row.by_point[0].is_nan()) || best < LEAST_CROSSING_SINE {
        return Err(Miss::InLine);
    }
    if let [a, b] = rows {
        let determinant = sine((a, b));
        let (r_a, r_b) = (a.by_point, b.by_point);
        return Ok(vec![
            scale([r_b[1], -r_b[0]], 1.0 / determinant),
            scale([-r_a[1], r_a[0]], 1.0 / determinant),
        ]);
    }
    let weighted = |row: &Row| scale_matrix(square(row.by_point), 1.0 / (row.sigma_m * row.sigma_m));
    let normal: Matrix2 = rows.iter().map(weighted).fold([[0.0; 2]; 2], add);
    let determinant = normal[0][0] * normal[1][1] - normal[0][1] * normal[1][0];
    let inverse = [[normal[1][1], -normal[0][1]], [-normal[1][0], normal[0][0]]];
    let gain = |row: &Row| {
        let weight = 1.0 / (row.sigma_m * row.sigma_m * determinant);
        scale([dot(inverse[0], row.by_point), dot(inverse[1], row.by_point)], weight)
    };
    Ok(rows.iter().map(gain).collect())
}

/// Derivatives by the implicit equations L_i(P, mark i, g) = tape i.
pub(super) fn differentiate(readings: &Readings, arms: &[Arm], at: [f64; 2]) -> Result<Followed, Miss> {
    let rows: Vec<Row> = arms.iter().map(|arm| Row::of(readings, arm, at)).collect();
    let gains = gains(&rows)?;
    let mut by_state: Vec<(usize, Matrix2)> = Vec::new();
    let mut by_gradient = [[0.0; 2]; 2];
    let mut own = [[0.0; 2]; 2];
    for ((arm, row), gain) in arms.iter().zip(&rows).zip(&gains) {
        by_state.push((arm.from.state, outer(*gain, row.by_point)));
        by_gradient = add(by_gradient, scale_matrix(outer(*gain, row.by_gradient), -1.0));
        own = add(own, square(scale(*gain, row.sigma_m)));
    }
    by_state.push((0, by_gradient));
    let crossing_deg = best_crossing_deg(&rows);
    Ok(Followed { by_state, own, crossing_deg, ..Followed::known(at, 0.0) })
}

/// Of the plan angles between two tapes at the point the one nearest to square.
fn best_crossing_deg(rows: &[Row]) -> Option<f64> {
    let angle = |(a, b): (&Row, &Row)| atan2_deg((a.d[0] * b.d[1] - a.d[1] * b.d[0]).abs(), dot(a.d, b.d));
    let pairs = rows.iter().enumerate().flat_map(|(i, a)| rows[..i].iter().map(move |b| (b, a)));
    pairs.map(angle).min_by(|a, b| (a - 90.0).abs().total_cmp(&(b - 90.0).abs()))
}

/// What three tapes say too much: c·(tapes − lengths) for the c that no move of the point changes (cᵀA = 0).
fn spare(readings: &Readings, arms: &[Arm; 3], at: [f64; 2]) -> Option<Spare> {
    let rows = arms.map(|arm| Row::of(readings, &arm, at));
    let sine = |i: usize, j: usize| {
        rows[i].by_point[0] * rows[j].by_point[1] - rows[i].by_point[1] * rows[j].by_point[0]
    };
    let c = [sine(1, 2), sine(2, 0), sine(0, 1)];
    // The tape that the others check best stands for the misfit, so its factor is made one.
    let most = (0..3).max_by(|&i, &j| c[i].abs().total_cmp(&c[j].abs()))?;
    let c = c.map(|factor| factor / c[most]);
    let mut by_gradient = [0.0; 2];
    let mut spare = Spare { too_long_m: 0.0, arm: most, by_state: Vec::new(), own_variance: 0.0 };
    for ((arm, row), factor) in arms.iter().zip(&rows).zip(c) {
        spare.too_long_m += factor * (arm.tape_m - row.length_m);
        spare.own_variance += factor * factor * row.sigma_m * row.sigma_m;
        spare.by_state.push((arm.from.state, scale(row.by_point, factor)));
        by_gradient = plus(by_gradient, scale(row.by_gradient, -factor));
    }
    spare.by_state.push((0, by_gradient));
    Some(spare)
}
