//! The elementary functions of the engine, all from `libm`, so that the desktop and the browser give the
//! same bits. `sqrt` is exact by IEEE 754 everywhere, so `f64::sqrt` stays in use.

pub use libm::{
    acos, asin, asinh, atan, atan2, atanh, cbrt, cos, cosh, erfc, exp, exp2, hypot, lgamma, log as ln, log2,
    pow, sin, sinh, tan, tanh,
};

/// Sine of an angle in degrees.
pub fn sin_deg(angle_deg: f64) -> f64 {
    sin(angle_deg.to_radians())
}

/// Cosine of an angle in degrees.
pub fn cos_deg(angle_deg: f64) -> f64 {
    cos(angle_deg.to_radians())
}

/// Tangent of an angle in degrees.
pub fn tan_deg(angle_deg: f64) -> f64 {
    tan(angle_deg.to_radians())
}

/// Angle in degrees whose tangent is `ratio`, in (−90, 90).
pub fn atan_deg(ratio: f64) -> f64 {
    atan(ratio).to_degrees()
}

/// Angle of the vector (`run`, `rise`) in degrees, in (−180, 180].
pub fn atan2_deg(rise: f64, run: f64) -> f64 {
    atan2(rise, run).to_degrees()
}
