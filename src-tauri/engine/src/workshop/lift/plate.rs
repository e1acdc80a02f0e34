//! The plate between winch and tube: it stands off the tube so that the rod slides behind it, is held by two clamps round the tube, and
//! carries the winch by its own four holes.
//!
//! The strap pulls down at the drum, e before the plate: P·e turns the winch over, held by its two rows of bolts, T = P·e/along.
//! Between a row and the clamp beside it the plate is bent by T·s, s from row to clamp; across, by half of T over half the difference of
//! bolts and clamps. σ = M/S (Beer & Johnston) with S = b·t²/6, allowed F_y/1.67 (AISC 360-16, F1).

use serde::Serialize;

use super::LiftPlan;
use crate::job::{Job, WinchPlate};
use crate::resistance::tube::CAUTIOUS_YIELD_MPA;
use crate::round_figures::shop;
use crate::workshop::stages::holes::edge_mm;

/// Ω of bending (AISC 360-16, F1).
const FACTOR: f64 = 1.67;
/// Legs of the clamps: 8 mm, 5/16 in; common practice.
const CLAMP_MM: f64 = 8.0;
/// No plate is thinner: it would drum and dent. Common practice.
const THINNEST_MM: f64 = 3.0;

/// The plate to drill.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct PlateWork {
    pub width_mm: f64,
    pub height_mm: f64,
    /// Of the winch, by their middles: across the tube and along it.
    pub holes_mm: [f64; 2],
    pub hole_mm: f64,
    /// Of the clamps.
    pub clamps_mm: [f64; 2],
    pub clamp_hole_mm: f64,
    /// Between tube and plate, on every leg of the clamps.
    pub spacer_mm: f64,
    /// Left for the rod between two spacers as thick as twice their clamp.
    pub room_mm: f64,
    /// What bends it at the most; none where the strap's pull is not known.
    pub moment_nm: Option<f64>,
    pub least_mm: Option<f64>,
    pub thickness_mm: Option<f64>,
}

/// What bends a plate along and across, and over which width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PlateBent {
    pub moment_nmm: f64,
    pub width_mm: f64,
}

/// The thickness that carries a moment: t = √(6·M·Ω/(b·F_y)).
pub fn thickness_mm(of: &PlateBent, yield_mpa: f64) -> f64 {
    (6.0 * of.moment_nmm * FACTOR / (of.width_mm * yield_mpa)).sqrt()
}

/// None where nobody has said how the winch is drilled, or the rod is not known.
pub fn plate(job: &Job, lift: &LiftPlan, tube_outside_mm: f64) -> Option<PlateWork> {
    let own = WinchHoles::of(&job.workshop.winch_plate?)?;
    let off = lift.stand_off.as_ref()?;
    let play_mm = shop::BORED_PLAY.of(job.units.system);
    let clamp_hole_mm = CLAMP_MM + play_mm;
    let rows_mm = edge_mm(own.hole_mm) + edge_mm(clamp_hole_mm);
    let clamps_mm = [tube_outside_mm + CLAMP_MM, own.along_mm + 2.0 * rows_mm];
    let width_mm =
        (own.across_mm + 2.0 * edge_mm(own.hole_mm)).max(clamps_mm[0] + 2.0 * edge_mm(clamp_hole_mm));
    let pull_n = strongest_n(lift);
    let bent = pull_n.zip(off.drum_middle_mm).map(|(pull_n, drum_mm)| {
        let row_n = pull_n * (drum_mm - off.winch_frame_mm).max(0.0) / own.along_mm;
        let along = PlateBent {
            moment_nmm: row_n * rows_mm,
            width_mm: width_mm - 2.0 * own.hole_mm.max(clamp_hole_mm),
        };
        let across = PlateBent {
            moment_nmm: 0.5 * row_n * 0.5 * (own.across_mm - clamps_mm[0]).abs(),
            width_mm: rows_mm,
        };
        let thicker = |a: PlateBent, b: PlateBent| {
            if thickness_mm(&a, CAUTIOUS_YIELD_MPA) >= thickness_mm(&b, CAUTIOUS_YIELD_MPA) { a } else { b }
        };
        thicker(along, across)
    });
    Some(PlateWork {
        width_mm,
        height_mm: clamps_mm[1] + 2.0 * edge_mm(clamp_hole_mm),
        holes_mm: [own.across_mm, own.along_mm],
        hole_mm: own.hole_mm,
        clamps_mm,
        clamp_hole_mm,
        spacer_mm: off.winch_frame_mm,
        room_mm: clamps_mm[0] - 2.0 * CLAMP_MM,
        moment_nm: bent.map(|bent| bent.moment_nmm / 1000.0),
        least_mm: bent.map(|bent| thickness_mm(&bent, CAUTIOUS_YIELD_MPA).max(THINNEST_MM)),
        thickness_mm: own.thickness_mm,
    })
}

/// How the winch in hand is drilled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WinchHoles {
    pub across_mm: f64,
    pub along_mm: f64,
    pub hole_mm: f64,
    pub thickness_mm: Option<f64>,
}

impl WinchHoles {
    /// None while one of its measures is missing.
    pub fn of(measured: &WinchPlate) -> Option<Self> {
        let WinchPlate { across_mm, along_mm, hole_mm, thickness_mm } = *measured;
        Some(Self { across_mm: across_mm?, along_mm: along_mm?, hole_mm: hole_mm?, thickness_mm })
    }
}

/// The strap's largest pull; none where that of one stage is not known.
fn strongest_n(lift: &LiftPlan) -> Option<f64> {
    let all: Option<Vec<f64>> = lift.stages.iter().map(|stage| stage.strap_n).collect();
    all.filter(|all| !all.is_empty()).map(|all| all.into_iter().fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a strip of 50 by 6 mm has S = 300 mm³; bent by 36.8 Nm it is strained with 122.8 MPa, which is 205/1.67.
    #[test]
    fn a_strip_by_hand() {
        let bent = PlateBent { moment_nmm: 300.0 * 205.0 / 1.67, width_mm: 50.0 };
        assert!((thickness_mm(&bent, 205.0) - 6.0).abs() < 1e-9);
        let four_times = PlateBent { moment_nmm: 4.0 * bent.moment_nmm, ..bent };
        assert!((thickness_mm(&four_times, 205.0) - 12.0).abs() < 1e-9);
    }
}
