//! Vectors of three numbers, 3 × 3 matrices and turns in space, as plain arrays.

pub type Vector = [f64; 3];
/// Row by row.
pub type Matrix = [[f64; 3]; 3];
/// A unit quaternion: scalar part first.
pub type Rotation = [f64; 4];

pub const NO_TURN: Rotation = [1.0, 0.0, 0.0, 0.0];

#[inline(always)]
pub fn add(a: Vector, b: Vector) -> Vector {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

#[inline(always)]
pub fn subtract(a: Vector, b: Vector) -> Vector {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

#[inline(always)]
pub fn scale(a: Vector, factor: f64) -> Vector {
    [a[0] * factor, a[1] * factor, a[2] * factor]
}

/// a + factor·b.
#[inline(always)]
pub fn add_scaled(a: Vector, b: Vector, factor: f64) -> Vector {
    [a[0] + factor * b[0], a[1] + factor * b[1], a[2] + factor * b[2]]
}

#[inline(always)]
pub fn dot(a: Vector, b: Vector) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

#[inline(always)]
pub fn cross(a: Vector, b: Vector) -> Vector {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}

#[inline(always)]
pub fn norm(a: Vector) -> f64 {
    dot(a, a).sqrt()
}

/// `to` += factor·a·bᵀ.
#[inline(always)]
pub fn add_outer(to: &mut Matrix, a: Vector, b: Vector, factor: f64) {
    for r in 0..3 {
        let share = factor * a[r];
        for c in 0..3 {
            to[r][c] += share * b[c];
        }
    }
}

/// `to` += factor·(a·bᵀ + b·aᵀ).
#[inline(always)]
pub fn add_both_outer(to: &mut Matrix, a: Vector, b: Vector, factor: f64) {
    for r in 0..3 {
        let (share_a, share_b) = (factor * a[r], factor * b[r]);
        for c in 0..3 {
            to[r][c] += share_a * b[c] + share_b * a[c];
        }
    }
}

/// `to` += factor·identity.
#[inline(always)]
pub fn add_identity(to: &mut Matrix, factor: f64) {
    to[0][0] += factor;
    to[1][1] += factor;
    to[2][2] += factor;
}

/// `to` += factor·\[a×\], the matrix of the cross product with a.
#[inline(always)]
pub fn add_cross(to: &mut Matrix, a: Vector, factor: f64) {
    let [x, y, z] = scale(a, factor);
    to[0][1] -= z;
    to[0][2] += y;
    to[1][0] += z;
    to[1][2] -= x;
    to[2][0] -= y;
    to[2][1] += x;
}

/// One turn after another: the quaternion product `second`·`first`.
#[inline(always)]
pub fn then(first: Rotation, second: Rotation) -> Rotation {
    let ([a, b, c, d], [e, f, g, h]) = (second, first);
    [
        a * e - b * f - c * g - d * h,
        a * f + b * e + c * h - d * g,
        a * g - b * h + c * e + d * f,
        a * h + b * g - c * f + d * e,
    ]
}

#[inline(always)]
pub fn back(turn: Rotation) -> Rotation {
    [turn[0], -turn[1], -turn[2], -turn[3]]
}

/// `turn`, then turned further about the axis and by about the angle of `spin` (2·atan(|spin|/2), which is
/// |spin| but for its cube and needs no sine).
#[inline(always)]
pub fn turn_further(turn: Rotation, spin: Vector) -> Rotation {
    let t = then(turn, [1.0, 0.5 * spin[0], 0.5 * spin[1], 0.5 * spin[2]]);
    let length = (t[0] * t[0] + t[1] * t[1] + t[2] * t[2] + t[3] * t[3]).sqrt();
    t.map(|part| part / length)
}

/// The vector `a`, turned: a + 2·q₀·(q×a) + 2·q×(q×a).
#[inline(always)]
pub fn turned(turn: Rotation, a: Vector) -> Vector {
    let q = [turn[1], turn[2], turn[3]];
    let once = cross(q, a);
    add_scaled(add_scaled(a, once, 2.0 * turn[0]), cross(q, once), 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::numerics::real::tan;

    #[test]
    fn a_quarter_turn_about_up_takes_east_to_north() {
        // turn_further turns by 2·atan(|spin|/2).
        let quarter = turn_further(NO_TURN, [0.0, 0.0, 2.0 * tan(std::f64::consts::FRAC_PI_8)]);
        let half = then(quarter, quarter);
        for (turn, expected) in
            [(half, [0.0, 1.0, 0.0]), (then(half, back(quarter)), turned(quarter, [1.0, 0.0, 0.0]))]
        {
            let off = subtract(turned(turn, [1.0, 0.0, 0.0]), expected);
            assert!(norm(off) < 1e-15, "{off:?}");
        }
        assert!((turned(quarter, [1.0, 0.0, 0.0])[0] - std::f64::consts::FRAC_1_SQRT_2).abs() < 1e-15);
    }

    #[test]
    fn matrices_do_what_the_vectors_do() {
        let (a, b, x) = ([1.0, -2.0, 0.5], [0.3, 0.7, -1.1], [2.0, 3.0, 5.0]);
        let apply = |m: Matrix| [dot(m[0], x), dot(m[1], x), dot(m[2], x)];
        let mut crossing = [[0.0; 3]; 3];
        add_cross(&mut crossing, a, 2.0);
        assert_eq!(apply(crossing), scale(cross(a, x), 2.0));
        let mut outer = [[0.0; 3]; 3];
        add_both_outer(&mut outer, a, b, 1.0);
        add_outer(&mut outer, a, b, -1.0);
        let expected = scale(b, dot(a, x));
        assert!(norm(subtract(apply(outer), expected)) < 1e-12);
    }
}
