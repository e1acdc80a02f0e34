//! Vectors and matrices of the plan: (east, north), rows east and north.

pub(crate) type Matrix2 = [[f64; 2]; 2];

pub(crate) const IDENTITY: Matrix2 = [[1.0, 0.0], [0.0, 1.0]];
pub(crate) const NOTHING: Matrix2 = [[0.0; 2]; 2];

pub(crate) fn dot(a: [f64; 2], b: [f64; 2]) -> f64 {
    a[0] * b[0] + a[1] * b[1]
}

pub(crate) fn plus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] + b[0], a[1] + b[1]]
}

pub(crate) fn minus(a: [f64; 2], b: [f64; 2]) -> [f64; 2] {
    [a[0] - b[0], a[1] - b[1]]
}

pub(crate) fn scale(v: [f64; 2], factor: f64) -> [f64; 2] {
    [v[0] * factor, v[1] * factor]
}

pub(crate) fn outer(a: [f64; 2], b: [f64; 2]) -> Matrix2 {
    [[a[0] * b[0], a[0] * b[1]], [a[1] * b[0], a[1] * b[1]]]
}

pub(crate) fn square(v: [f64; 2]) -> Matrix2 {
    outer(v, v)
}

pub(crate) fn add(a: Matrix2, b: Matrix2) -> Matrix2 {
    [plus(a[0], b[0]), plus(a[1], b[1])]
}

pub(crate) fn scale_matrix(m: Matrix2, factor: f64) -> Matrix2 {
    [scale(m[0], factor), scale(m[1], factor)]
}

/// A quarter turn to the left.
pub(crate) fn left_of(v: [f64; 2]) -> [f64; 2] {
    [-v[1], v[0]]
}
