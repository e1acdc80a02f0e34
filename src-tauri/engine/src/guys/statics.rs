//! Which guy takes how much of a horizontal pull at the mast's top: rigid statics, guys that only pull.

use crate::numerics::real::{cos_deg, sin_deg};
use crate::quantity::bearing;

/// Tension in a single guy that holds a horizontal force acting straight away from its anchor.
///
/// # References
/// Resolution of forces: T = F/cos(angle).
pub fn tension_for_horizontal_n(horizontal_n: f64, angle_deg: f64) -> f64 {
    horizontal_n / cos_deg(angle_deg)
}

/// Tensions of weightless, unstretching guys that hold a horizontal force at their attachment, with no
/// tension set beforehand: at most two neighbours pull, the others hang slack.
///
/// `azimuths_deg` are the bearings of the anchors, `force_deg` is the way the force pushes, `angle_deg` the
/// guys' angle to the horizontal. Answers none where no two guys can hold the force (all anchors on one side).
///
/// # References
/// Equilibrium of three forces in the horizontal plane.
pub fn tensions_n(azimuths_deg: &[f64], angle_deg: f64, force_n: f64, force_deg: f64) -> Option<Vec<f64>> {
    let mut tensions = vec![0.0; azimuths_deg.len()];
    if force_n == 0.0 {
        return Some(tensions);
    }
    // The guys must pull together against the force: into the bearing force + 180°.
    let pull_deg = bearing::wrap_360(force_deg + 180.0);
    let turn = |azimuth: f64| bearing::turn_deg(pull_deg, azimuth);
    // The nearest anchor on each side of that bearing.
    let nearest = |side: f64| {
        let on_side = |&(_, t): &(usize, f64)| t * side >= 0.0;
        let turns = azimuths_deg.iter().map(|&a| turn(a)).enumerate();
        turns.filter(on_side).min_by(|a, b| a.1.abs().total_cmp(&b.1.abs()))
    };
    let ((right, clockwise), (left, anticlockwise)) = (nearest(1.0)?, nearest(-1.0)?);
    let between_deg = clockwise - anticlockwise;
    let cos_angle = cos_deg(angle_deg);
    if right == left || between_deg < 1e-9 {
        // An anchor lies straight against the force.
        *tensions.get_mut(right)? = force_n / cos_angle;
        return Some(tensions);
    }
    if between_deg >= 180.0 {
        return None;
    }
    // Lami's theorem: each guy by the sine of the angle between the pull and the other one.
    let sin_between = sin_deg(between_deg);
    *tensions.get_mut(right)? = force_n * sin_deg(-anticlockwise) / sin_between / cos_angle;
    *tensions.get_mut(left)? = force_n * sin_deg(clockwise) / sin_between / cos_angle;
    Some(tensions)
}
