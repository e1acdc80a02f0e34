//! The crossing of the timbers: how each is halved into the other, and the bolts through both.

use super::seat::Foot;
use super::{CrossingBolts, LapJoint, LapShoulder};
use crate::job::{BasePattern, Job};
use crate::quantity::UnitSystem;
use crate::quantity::convert::INCH_MM;
use crate::round_figures::shop;

/// What the half-lap is called where it is ticked off and measured.
const LAP: &str = "lap";

/// Two cuts that leave the timbers' tops apart by more than a pencil's line: common practice.
pub const FLUSH_WITHIN_MM: f64 = 0.5;

/// Both timbers' cuts, by their sizes as measured; none where they are cut through, or not at all.
pub fn lap(job: &Job) -> Option<LapJoint> {
    let base = &job.rig.base;
    let (depth_mm, timber_mm) = (base.lap_cut_mm(), base.timber_depth_mm);
    if depth_mm <= 0.0 || depth_mm >= timber_mm {
        return None;
    }
    let made_mm = job.workshop.made_mm(LAP);
    let first_mm = made_mm.unwrap_or(depth_mm);
    // The other timber lies across the middle: half its width on either side.
    let shoulder = |leg: &str, reach_m: f64| LapShoulder {
        leg: leg.to_owned(),
        from_tip_m: reach_m - 0.0005 * base.timber_width_mm,
    };
    let mut shoulders = vec![shoulder("front", base.front_reach_m), shoulder("right", base.side_reach_m)];
    if base.pattern == BasePattern::X {
        shoulders.push(shoulder("back", base.back_reach_m.unwrap_or(base.front_reach_m)));
    }
    Some(LapJoint {
        part: LAP.to_owned(),
        length_mm: base.timber_width_mm,
        depth_mm,
        made_mm,
        other_depth_mm: timber_mm - first_mm,
        left_mm: timber_mm - depth_mm,
        shoulders,
    })
}

/// Both timbers at the crossing, one in the other. A cut that came out otherwise is made up for by the other one, so the two are as deep
/// as one timber then.
pub(super) fn thick_mm(job: &Job) -> f64 {
    let base = &job.rig.base;
    match job.workshop.made_mm(LAP) {
        Some(_) => base.timber_depth_mm,
        None => 2.0 * (base.timber_depth_mm - base.lap_cut_mm()).max(0.0),
    }
}

/// Bolts that shops have, the thickest first.
const METRIC_MM: [f64; 4] = [12.0, 10.0, 8.0, 6.0];
const IMPERIAL_IN: [f64; 4] = [0.5, 0.375, 0.3125, 0.25];
/// From a bolt's middle to the timber's edge, in its thicknesses: 1.5 (NDS 2018, table 12.5.1C, from memory).
pub const BOLT_EDGE: f64 = 1.5;
/// A bolt reaches through, a washer on either side and its nut, and shows two threads: common practice.
pub const BOLT_MORE_MM: f64 = 25.0;

fn sold_mm(system: UnitSystem) -> [f64; 4] {
    match system {
        UnitSystem::Metric => METRIC_MM,
        UnitSystem::Imperial => IMPERIAL_IN.map(|inches| inches * INCH_MM),
    }
}

/// The thinnest of them.
pub(super) fn thinnest_mm(system: UnitSystem) -> f64 {
    sold_mm(system).into_iter().fold(f64::INFINITY, f64::min)
}

/// The thickest bolts whose nuts pass the mast's foot and that keep their distance from the timbers' edges.
pub(super) fn bolts(job: &Job, foot: &Foot) -> Option<CrossingBolts> {
    let base = &job.rig.base;
    let half_mm = 0.5 * base.timber_width_mm;
    let fits = |bolt_mm: &f64| {
        let off_mm = half_mm - BOLT_EDGE * bolt_mm;
        // A nut's corners lie 0.87 of the thickness from its middle; a whole one leaves room to turn it.
        off_mm > 0.0 && 2.0_f64.sqrt() * off_mm >= 0.5 * foot.outside_mm + bolt_mm
    };
    let bolt_mm = sold_mm(job.units.system).into_iter().find(fits)?;
    let (from_edge_mm, hole_mm) = (BOLT_EDGE * bolt_mm, bolt_mm + shop::BORED_PLAY.of(job.units.system));
    let from_middle_mm = half_mm - from_edge_mm;
    let side_mm = base.seat_plate_mm.filter(|_| base.seat_height_mm >= 0.0);
    let through_plate = side_mm.is_some_and(|side_mm| 0.5 * side_mm > from_middle_mm - bolt_mm);
    let plate_mm = if through_plate { base.seat_plate_thickness_mm.unwrap_or(0.0) } else { 0.0 };
    let thick_mm = thick_mm(job);
    Some(CrossingBolts {
        count: 2,
        bolt_mm,
        hole_mm,
        least_length_mm: thick_mm + plate_mm + BOLT_MORE_MM,
        from_edge_mm,
        from_middle_mm,
        through_plate,
        plate_edge_mm: side_mm.filter(|_| through_plate).map(|side_mm| 0.5 * side_mm - from_middle_mm),
    })
}
