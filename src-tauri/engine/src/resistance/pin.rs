//! What a pin through two tubes carries, by AISC 360-16 (J3.6, J7, F11), allowable strength.

use std::f64::consts::PI;

use crate::quantity::convert::KSI_MPA;

/// Nominal shear stress of a pin without papers: that of an A307 bolt, 27 ksi (Table J3.2).
pub const PLAIN_SHEAR_MPA: f64 = 27.0 * KSI_MPA;
/// Yield of such steel: A36, 36 ksi.
pub const PLAIN_YIELD_MPA: f64 = 36.0 * KSI_MPA;
/// Ω of bolts in shear and of pins in bearing (J3.6, J7).
pub const FACTOR: f64 = 2.0;
/// Ω of bending (F1).
const BENDING_FACTOR: f64 = 1.67;

/// Nominal shear of one cross section: F_nv·A (J3-1).
pub fn shear_n(stress_mpa: f64, pin_mm: f64) -> f64 {
    stress_mpa * 0.25 * PI * pin_mm * pin_mm
}

/// Nominal bearing of a pin on one wall: 1.8·F_y·d·t (J7-1).
pub fn bearing_n(yield_mpa: f64, pin_mm: f64, wall_mm: f64) -> f64 {
    1.8 * yield_mpa * pin_mm * wall_mm
}

/// Nominal moment of a round pin: F_y·Z with Z = d³/6, which is below 1.6·F_y·S (F11-1: Z/S = 1.70, so 1.6·F_y·S governs).
pub fn moment_nmm(yield_mpa: f64, pin_mm: f64) -> f64 {
    let cube = pin_mm * pin_mm * pin_mm;
    (yield_mpa * cube / 6.0).min(1.6 * yield_mpa * PI * cube / 32.0)
}

/// A pin through the two walls of two tubes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pinned {
    pub pin_mm: f64,
    pub inner_wall_mm: f64,
    pub inner_yield_mpa: f64,
    pub outer_wall_mm: f64,
    pub outer_yield_mpa: f64,
}

/// What it may carry in use.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PinStrength {
    /// Cut through twice.
    pub shear_n: f64,
    /// On both walls of the weaker tube.
    pub bearing_n: f64,
    pub least_n: f64,
}

/// What a pin of plain steel may carry between two tubes.
pub fn allowable(of: &Pinned) -> PinStrength {
    let shear_n = 2.0 * shear_n(PLAIN_SHEAR_MPA, of.pin_mm) / FACTOR;
    let bearing = |yield_mpa, wall_mm| 2.0 * bearing_n(yield_mpa, of.pin_mm, wall_mm) / FACTOR;
    let bearing_n =
        bearing(of.inner_yield_mpa, of.inner_wall_mm).min(bearing(of.outer_yield_mpa, of.outer_wall_mm));
    PinStrength { shear_n, bearing_n, least_n: shear_n.min(bearing_n) }
}

/// What the end of a pin that sticks out by an arm may carry: the rod hangs there.
pub fn sticking_out_n(pin_mm: f64, arm_mm: f64) -> f64 {
    moment_nmm(PLAIN_YIELD_MPA, pin_mm) / BENDING_FACTOR / arm_mm.max(pin_mm * 0.5)
}

/// Pins that shops have, in millimetres and in inches.
const METRIC_MM: [f64; 6] = [6.0, 8.0, 10.0, 12.0, 16.0, 20.0];
const IMPERIAL_IN: [f64; 6] = [0.25, 0.3125, 0.375, 0.5, 0.625, 0.75];

/// The thinnest pin of the shop's that carries a load between these walls; none where none of them does.
pub fn thinnest(of: &Pinned, load_n: f64, system: crate::quantity::UnitSystem) -> Option<f64> {
    let all = match system {
        crate::quantity::UnitSystem::Metric => METRIC_MM,
        crate::quantity::UnitSystem::Imperial => IMPERIAL_IN.map(|inch| inch * 25.4),
    };
    all.into_iter().find(|&pin_mm| allowable(&Pinned { pin_mm, ..*of }).least_n >= load_n)
}
