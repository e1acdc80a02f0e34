//! Small jobs on ground that is no plane: heights given at places, and what stands on it.

use mastwright_engine::job::{BearingReference, Job, Obstacle, PointFix, Shape, SpotHeight, blank};
use mastwright_engine::quantity::{UnitSystem, Units};

pub fn at([east_m, north_m]: [f64; 2]) -> PointFix {
    PointFix::Coordinates { east_m, north_m }
}

pub fn fixes(points: &[[f64; 2]]) -> Vec<PointFix> {
    points.iter().copied().map(at).collect()
}

/// A job whose ground is known by heights at these places (east, north, height).
pub fn job(spots: &[[f64; 3]]) -> Job {
    let mut job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
    job.yard.bearings = BearingReference::True;
    job.yard.spot_heights = spots
        .iter()
        .enumerate()
        .map(|(i, &[east_m, north_m, height_m])| SpotHeight {
            id: format!("h{i}"),
            at: at([east_m, north_m]),
            height_m,
            sigma_m: None,
            struck: false,
        })
        .collect();
    job
}

pub fn thing(id: &str, shape: Shape) -> Obstacle {
    Obstacle { id: id.into(), name: id.into(), shape, keep_off_m: None, guy_fixing: None }
}

/// Level ground at nought with a bank or ditch along the line north = `middle_m`: straight slopes `half_m` wide up
/// to `top_m`, from 12 m west to 12 m east.
pub fn bank(middle_m: f64, half_m: f64, top_m: f64) -> Vec<[f64; 3]> {
    rows(&bank_section(middle_m, half_m, top_m), &[-12.0, -4.0, 4.0, 12.0])
}

/// The same with heights every metre along it, so that no triangle reaches over one of its edges.
pub fn fine_bank(middle_m: f64, half_m: f64, top_m: f64) -> Vec<[f64; 3]> {
    let columns: Vec<f64> = (-12..=12).map(f64::from).collect();
    rows(&bank_section(middle_m, half_m, top_m), &columns)
}

/// Heights by their north, alike at every east.
pub fn rows(section: &[(f64, f64)], columns: &[f64]) -> Vec<[f64; 3]> {
    section
        .iter()
        .flat_map(|&(north, height)| columns.iter().map(move |&east| [east, north, height]))
        .collect()
}

fn bank_section(middle_m: f64, half_m: f64, top_m: f64) -> [(f64, f64); 5] {
    [(-12.0, 0.0), (middle_m - half_m, 0.0), (middle_m, top_m), (middle_m + half_m, 0.0), (12.0, 0.0)]
}
