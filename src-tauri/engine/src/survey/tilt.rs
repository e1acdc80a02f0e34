//! Slopes from tilt readings: apparent dip, reversal pairs, and the slope of a phone from its gravity vector.
//!
//! # The phone's axes
//! As in the W3C Device Orientation and Motion specification: x to the right across the screen, y up along the
//! screen (the long edge), z out of the screen towards the user. A resting accelerometer feels the push of
//! the table, so `accelerationIncludingGravity` of a phone flat on its back is about (0, 0, +9.81): the vector
//! points up. Browsers on iOS report the opposite sign; callers say which they have ([`GravitySign`]).
//!
//! # Signs of the edges
//! An edge's slope is the elevation of its axis over the horizontal: the long edge is positive with the top of
//! the phone raised, the short edge with its right side raised. Neither depends on whether the phone lies flat
//! or stands on an edge, nor on a lean about the axis itself: so a phone standing on its long edge on a board
//! gives the board's slope by the same formula as one lying on it.

use crate::numerics::real::{atan_deg, atan2_deg, cos_deg, hypot, sin_deg, tan_deg};
use crate::quantity::bearing::wrap_360;

/// Two readings whose bearings differ from a common line by less than this give no plane.
const LEAST_CROSSING_SINE: f64 = 1e-6;

/// Slope seen along a direction that makes this angle with the steepest one: tan α = tan s · cos β.
///
/// # References
/// Ragan, Structural Geology: apparent dip.
pub fn apparent_slope_deg(true_slope_deg: f64, from_steepest_deg: f64) -> f64 {
    atan_deg(tan_deg(true_slope_deg) * cos_deg(from_steepest_deg))
}

/// The steepest slope from the slope seen along a direction that makes this angle with it; none along the
/// contour, where nothing is seen of it.
///
/// # References
/// Ragan, Structural Geology: apparent dip, solved for the true dip.
pub fn true_slope_deg(apparent_slope_deg: f64, from_steepest_deg: f64) -> Option<f64> {
    let cosine = cos_deg(from_steepest_deg);
    (cosine.abs() > LEAST_CROSSING_SINE).then(|| atan_deg(tan_deg(apparent_slope_deg) / cosine))
}

/// A slope along a bearing, positive where the ground rises that way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SlopeAlong {
    pub bearing_deg: f64,
    pub slope_deg: f64,
}

/// The gradient (dz/dx east, dz/dy north) from slopes along two bearings; none where they are one line.
///
/// # References
/// Ragan, Structural Geology: true dip from two apparent dips; here as two linear equations in the gradient.
pub fn gradient_from_two(a: SlopeAlong, b: SlopeAlong) -> Option<[f64; 2]> {
    let ([ea, na], [eb, nb]) = (direction(a), direction(b));
    let determinant = ea * nb - eb * na;
    if determinant.abs() < LEAST_CROSSING_SINE {
        return None;
    }
    let (ta, tb) = (tan_deg(a.slope_deg), tan_deg(b.slope_deg));
    Some([(ta * nb - tb * na) / determinant, (ea * tb - eb * ta) / determinant])
}

fn direction(slope: SlopeAlong) -> [f64; 2] {
    [sin_deg(slope.bearing_deg), cos_deg(slope.bearing_deg)]
}

/// What a reading and its repeat with the instrument turned end for end give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reversal {
    /// The slope, free of the instrument's zero error.
    pub slope_deg: f64,
    /// What the instrument shows on level ground: take it off every single reading.
    pub zero_error_deg: f64,
}

/// Slope and zero error from a reversal pair: true = (r₁ − r₂)/2, zero error = (r₁ + r₂)/2.
///
/// # References
/// Ghilani & Wolf, Elementary Surveying: elimination of instrumental errors by reversing (from memory).
pub fn reversal(first_deg: f64, turned_deg: f64) -> Reversal {
    Reversal { slope_deg: (first_deg - turned_deg) / 2.0, zero_error_deg: (first_deg + turned_deg) / 2.0 }
}

/// Which way the reported acceleration of a resting phone points.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GravitySign {
    /// Up, as the W3C specification has it and Android reports: flat on its back z ≈ +9.81.
    #[default]
    Up,
    /// Down, as browsers on iOS report: flat on its back z ≈ −9.81.
    Down,
}

/// The elevations of a phone's edges over the horizontal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EdgeSlopes {
    /// Positive with the top of the phone raised, in [−90, 90].
    pub long_edge_deg: f64,
    /// Positive with the right side of the phone raised, in [−90, 90].
    pub short_edge_deg: f64,
    /// Elevation of the way the screen looks: 90 flat on its back, 0 upright or on an edge.
    pub screen_deg: f64,
}

/// The slopes of both edges; none where the vector is no gravity (not finite, or null).
///
/// On a slope each is the apparent dip along its edge's bearing, exactly.
pub fn edge_slopes(acceleration: [f64; 3], sign: GravitySign) -> Option<EdgeSlopes> {
    let [x, y, z] = up(acceleration, sign)?;
    // Elevation of an axis: its upward part over the horizontal rest. atan2 keeps full accuracy near level and
    // near upright, where asin of a rounded ratio would not.
    Some(EdgeSlopes {
        long_edge_deg: atan2_deg(y, hypot(x, z)),
        short_edge_deg: atan2_deg(x, hypot(y, z)),
        screen_deg: atan2_deg(z, hypot(x, y)),
    })
}

/// Which of its six sides a phone rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum RestsOn {
    Back,
    Screen,
    LeftEdge,
    RightEdge,
    Bottom,
    Top,
}

/// The side that points most nearly down; none as in [`edge_slopes`].
pub fn rests_on(acceleration: [f64; 3], sign: GravitySign) -> Option<RestsOn> {
    let [x, y, z] = up(acceleration, sign)?;
    let (right, top, screen) = (x > 0.0, y > 0.0, z > 0.0);
    Some(if z.abs() >= x.abs().max(y.abs()) {
        if screen { RestsOn::Back } else { RestsOn::Screen }
    } else if x.abs() >= y.abs() {
        if right { RestsOn::LeftEdge } else { RestsOn::RightEdge }
    } else if top {
        RestsOn::Bottom
    } else {
        RestsOn::Top
    })
}

/// What an accelerometer would feel at rest, from the angles beta and gamma of an orientation event: up is the
/// third row of the rotation R = Rz(α)·Rx(β)·Ry(γ), whatever α.
///
/// # Units
/// m/s², of [`GravitySign::Up`].
///
/// # References
/// W3C Device Orientation and Motion: the rotation matrix of its worked example.
pub fn gravity_from_orientation(beta_deg: f64, gamma_deg: f64) -> [f64; 3] {
    /// Standard gravity, ISO 80000-3.
    const GRAVITY_M_S2: f64 = 9.806_65;
    [-cos_deg(beta_deg) * sin_deg(gamma_deg), sin_deg(beta_deg), cos_deg(beta_deg) * cos_deg(gamma_deg)]
        .map(|part| GRAVITY_M_S2 * part)
}

/// The acceleration of a phone lying flat whose edges have these slopes, such as after taking off a zero error;
/// of [`GravitySign::Up`] and length 1. None where no phone can lie so.
pub fn lying_flat(long_edge_deg: f64, short_edge_deg: f64, screen_up: bool) -> Option<[f64; 3]> {
    let (x, y) = (sin_deg(short_edge_deg), sin_deg(long_edge_deg));
    let rest = 1.0 - x * x - y * y;
    (rest > 0.0).then(|| [x, y, rest.sqrt().copysign(if screen_up { 1.0 } else { -1.0 })])
}

/// The slope under a phone lying on it, screen up or down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FullTilt {
    /// Steepest slope in [0, 90].
    pub slope_deg: f64,
    /// True bearing in which water would run; none on exactly level ground.
    pub fall_bearing_deg: Option<f64>,
}

/// Slope and fall from one reading of a phone lying flat on the ground or a board, its top pointing along a
/// true bearing. The bearing's own uncertainty goes straight into the fall's. None as in [`edge_slopes`].
///
/// # References
/// Vector geometry, worked out in the comments.
pub fn full_tilt(acceleration: [f64; 3], sign: GravitySign, top_bearing_deg: f64) -> Option<FullTilt> {
    let [x, y, z] = up(acceleration, sign)?;
    let level_part = hypot(x, y);
    // Level frame: y′ the horizontal direction under the long edge, x′ to its right. With u = (x, y, z) the unit
    // vector up, the screen's normal leans away from the rise; the rise has the components y·z along y′ and x
    // along x′, both over the same positive length. Face down the normal is −z, and right is left.
    let turn_deg = atan2_deg(x.copysign(x * z), y * z.abs());
    Some(FullTilt {
        slope_deg: atan2_deg(level_part, z.abs()),
        fall_bearing_deg: (level_part > 0.0).then(|| wrap_360(top_bearing_deg + turn_deg + 180.0)),
    })
}

/// The unit vector up in the phone's axes.
fn up([x, y, z]: [f64; 3], sign: GravitySign) -> Option<[f64; 3]> {
    let length = hypot(hypot(x, y), z);
    let scale = match sign {
        GravitySign::Up => 1.0 / length,
        GravitySign::Down => -1.0 / length,
    };
    (length.is_finite() && length > 0.0).then_some([x * scale, y * scale, z * scale])
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::bearing::unit;

    const G: f64 = 9.81;

    fn check_edges(acceleration: [f64; 3], long_deg: f64, short_deg: f64) {
        for (sign, factor) in [(GravitySign::Up, 1.0), (GravitySign::Down, -1.0)] {
            let found = edge_slopes(acceleration.map(|a| factor * a), sign).unwrap();
            assert!((found.long_edge_deg - long_deg).abs() < 1e-9, "{found:?}");
            assert!((found.short_edge_deg - short_deg).abs() < 1e-9, "{found:?}");
        }
    }

    #[test]
    fn edges_by_the_axes_of_the_specification() {
        check_edges([0.0, 0.0, G], 0.0, 0.0);
        check_edges([0.0, G, 0.0], 90.0, 0.0);
        // Flat, top raised by 8°.
        check_edges([0.0, G * sin_deg(8.0), G * cos_deg(8.0)], 8.0, 0.0);
        // Standing on the left long edge on a board that rises 8° towards the top, leaning 3° forward.
        let side = G * cos_deg(8.0);
        let found =
            edge_slopes([side * cos_deg(3.0), G * sin_deg(8.0), side * sin_deg(3.0)], GravitySign::Up);
        assert!((found.unwrap().long_edge_deg - 8.0).abs() < 1e-9);
    }

    #[test]
    fn the_side_it_rests_on() {
        let on = |a: [f64; 3]| rests_on(a, GravitySign::Up).unwrap();
        assert_eq!(on([0.3, -0.2, G]), RestsOn::Back);
        assert_eq!(on([0.3, -0.2, -G]), RestsOn::Screen);
        assert_eq!(on([G, 1.0, 2.0]), RestsOn::LeftEdge);
        assert_eq!(on([-G, 1.0, 2.0]), RestsOn::RightEdge);
        assert_eq!(on([1.0, G, 2.0]), RestsOn::Bottom);
        assert_eq!(rests_on([0.0, G, 0.0], GravitySign::Down), Some(RestsOn::Top));
        assert_eq!(rests_on([0.0; 3], GravitySign::Up), None);
    }

    /// By the axes: top raised is beta above zero, the left side raised (right down) is gamma above zero.
    #[test]
    fn orientation_angles_give_the_same_gravity() {
        for (beta, gamma) in [(8.0, 0.0), (0.0, -5.0), (20.0, 30.0), (-12.0, 4.0)] {
            let felt = edge_slopes(gravity_from_orientation(beta, gamma), GravitySign::Up).unwrap();
            assert!((felt.long_edge_deg - beta).abs() < 1e-9, "{felt:?}");
            let across = crate::numerics::real::asin(cos_deg(beta) * sin_deg(-gamma)).to_degrees();
            assert!((felt.short_edge_deg - across).abs() < 1e-9, "{felt:?}");
        }
    }

    #[test]
    fn edges_make_their_vector_again() {
        let at = lying_flat(7.0, -4.0, true).unwrap();
        let again = edge_slopes(at, GravitySign::Up).unwrap();
        assert!((again.long_edge_deg - 7.0).abs() < 1e-12 && (again.short_edge_deg + 4.0).abs() < 1e-12);
        assert_eq!(lying_flat(60.0, 60.0, true), None);
    }

    #[test]
    fn no_gravity_no_slope() {
        for bad in [[0.0; 3], [f64::NAN, 0.0, 9.8], [f64::INFINITY, 0.0, 0.0]] {
            assert_eq!(edge_slopes(bad, GravitySign::Up), None);
            assert_eq!(full_tilt(bad, GravitySign::Up, 0.0), None);
        }
    }

    /// Up in the axes of a phone that lies on a plane of this gradient, its top pointing along a bearing.
    fn lying(gradient: [f64; 2], bearing_deg: f64, face_up: bool) -> [f64; 3] {
        let [e, n] = unit(bearing_deg);
        let normal = [-gradient[0], -gradient[1], 1.0];
        let top = [e, n, gradient[0] * e + gradient[1] * n];
        let z = if face_up { normal } else { normal.map(|v| -v) };
        // x = y × z for a right-handed set.
        let x = [top[1] * z[2] - top[2] * z[1], top[2] * z[0] - top[0] * z[2], top[0] * z[1] - top[1] * z[0]];
        [x, top, z].map(|axis| G * axis[2] / hypot(hypot(axis[0], axis[1]), axis[2]))
    }

    #[test]
    fn one_reading_flat_gives_slope_and_fall() {
        for fall in [0.0, 40.0, 133.0, 225.0, 310.0] {
            let [e, n] = unit(fall);
            let gradient = [-tan_deg(12.0) * e, -tan_deg(12.0) * n];
            for (top, face_up) in [(0.0, true), (75.0, true), (200.0, true), (20.0, false), (290.0, false)] {
                let found = full_tilt(lying(gradient, top, face_up), GravitySign::Up, top).unwrap();
                assert!((found.slope_deg - 12.0).abs() < 1e-9);
                assert!((found.fall_bearing_deg.unwrap() - fall).abs() < 1e-7, "{fall} {top} {found:?}");
                let edges = edge_slopes(lying(gradient, top, face_up), GravitySign::Up).unwrap();
                let seen = apparent_slope_deg(12.0, top - fall - 180.0);
                assert!((edges.long_edge_deg - seen).abs() < 1e-9);
            }
        }
        assert_eq!(full_tilt([0.0, 0.0, G], GravitySign::Up, 10.0).unwrap().fall_bearing_deg, None);
    }

    #[test]
    fn along_the_contour_nothing_is_seen() {
        assert_eq!(true_slope_deg(3.0, 90.0), None);
        assert!((true_slope_deg(apparent_slope_deg(20.0, 50.0), 50.0).unwrap() - 20.0).abs() < 1e-12);
        let a = SlopeAlong { bearing_deg: 10.0, slope_deg: 3.0 };
        assert_eq!(gradient_from_two(a, SlopeAlong { bearing_deg: 190.0, slope_deg: -3.0 }), None);
    }
}
