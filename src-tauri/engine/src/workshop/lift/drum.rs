//! A flat strap on a narrow drum: every turn is a layer of its own, and the next one lies on it.

use std::f64::consts::PI;

/// Length in so many turns: the k-th lies at the mean diameter d + (2k − 1)·t, and their sum is π·n·(d + n·t). The same as the area
/// of the ring over the thickness, π·(D² − d²)/(4t) with D = d + 2·n·t, so it holds between whole turns too.
pub fn length(drum: f64, thickness: f64, turns: f64) -> f64 {
    PI * turns * (drum + turns * thickness)
}

/// Turns that a length fills: n² + n·d/t − L/(π·t) = 0.
pub fn turns(drum: f64, thickness: f64, length: f64) -> f64 {
    let half = 0.5 * drum / thickness;
    (half * half + length.max(0.0) / (PI * thickness)).sqrt() - half
}

/// Diameter over so many turns.
pub fn diameter(drum: f64, thickness: f64, turns: f64) -> f64 {
    drum + 2.0 * turns * thickness
}

/// Hand on a crank: F·r/(R·i·η), r the strap's radius, R the crank's arm, i its turns for one of the drum (Lobben, p. 325, there with η = 1).
pub fn crank_n(strap_n: f64, radius: f64, arm: f64, gear: f64, efficiency: f64) -> f64 {
    strap_n * radius / (arm * gear * efficiency)
}
