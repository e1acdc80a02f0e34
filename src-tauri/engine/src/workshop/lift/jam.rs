//! Friction where a tube is pushed beside its axis: it bears on two places a distance L apart, and each of them holds it back.
//!
//! Pushed up by F at an arm a beside the axis, weight W on the axis: moments give N = F·a/L at both bearings, friction there μ·N
//! each, so F = W + 2·μ·F·a/L, and F·(1 − 2·μ·a/L) = W. From L = 2·μ·a down no force moves it (Beer & Johnston, Sample Problem 4.13: a
//! collar holds by friction from x = h/(2μ) on).

use crate::job::Rubbing;

/// The largest friction that is reckoned with: dry steel on steel 0.45 to 0.80, oiled about 0.10 in one book and 0.15 in another, steel
/// on polyamide 0.32 to 0.45 (Gieck and others; print differs five times, so the upper end is taken).
pub fn friction(rubbing: Rubbing) -> f64 {
    match rubbing {
        Rubbing::Unsaid | Rubbing::DrySteel => 0.8,
        Rubbing::OiledSteel => 0.2,
        Rubbing::Plastic => 0.45,
    }
}

/// The bearing distance at which it jams, whatever pushes: 2·μ·a.
pub fn jams_at(friction: f64, arm: f64) -> f64 {
    2.0 * friction * arm
}

/// The push that lifts a weight whose centre lies `weight_arm` beside the axis, on the side away from the push; none where it jams.
/// Arms and bearing distance in one unit.
pub fn push_n(weight_n: f64, friction: f64, [arm, weight_arm]: [f64; 2], bearing: f64) -> Option<f64> {
    let left = 1.0 - jams_at(friction, arm) / bearing;
    (bearing > 0.0 && left > 0.0).then(|| weight_n * (1.0 + 2.0 * friction * weight_arm / bearing) / left)
}
