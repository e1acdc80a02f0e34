//! The collar of each level of guys: what keeps it up, how it is drilled, where its eyes are, how round the steel has to be that the
//! rope bears on.
//!
//! [`collars()`] gathers it of a job as planned. In the wind a collar that somebody has measured is a part of the limit
//! ([`crate::wind_capacity`]). How and how well: `docs/methods/workshop.md`.

mod findings;
mod results;

pub use results::*;

use crate::guys::GuyResult;
use crate::job::{CollarHeld, GuyLevel, Job};
use crate::plan::Plan;
use crate::quantity::FieldErrors;
use crate::resistance::SteelTube;
use crate::resistance::collar::{by_bolt_n, by_shoulder_n};
use crate::resistance::pin::{Pinned, thinnest};
use crate::resistance::tube::SOFTEST_YIELD_MPA;
use crate::round_figures::shop;
use crate::workshop::joints::BOLT_MORE_MM;

/// Steel less round than the rope is thick cuts it: the edge of lifting tackle is called sharp from there on (common practice;
/// DGUV Information 209-013, from memory).
pub const ROUND_AS_THE_ROPE: f64 = 1.0;

/// Every level's collar, the lowest first as the job has them.
///
/// # Errors
/// Where a section is unknown.
pub fn collars(job: &Job, plan: &Plan) -> Result<Collars, FieldErrors> {
    let tubes = job.rig.mast_tubes()?;
    let mut found = Collars { levels: Vec::new(), findings: Vec::new() };
    for level in &job.rig.guy_levels {
        // The outermost tube at that height.
        let on = plan.mast.stages.iter().position(|stage| level.attach_height_m <= stage.top_height_m + 1e-6);
        let part = on.and_then(|index| Some((index, tubes.get(index)?, job.rig.tubes.get(index)?)));
        let Some((index, tube, of_job)) = part else { continue };
        let section = &tube.section;
        let steel = SteelTube {
            outside_mm: section.outside_mm,
            wall_mm: section.wall_mm,
            yield_mpa: of_job.least_yield_mpa(),
        };
        let widest_mm = tube.limits.outside.map_or(section.outside_mm, |range| range.largest_mm);
        let guys: Vec<&GuyResult> = plan.guys.iter().filter(|guy| guy.level_id == level.id).collect();
        found.levels.push(of_level(
            job,
            level,
            &guys,
            &SitsOn { index: index as u32, name: tube.name, steel, widest_mm },
        ));
    }
    found.findings = findings::of(job, &found);
    Ok(found)
}

/// The tube that a collar sits on.
struct SitsOn<'a> {
    index: u32,
    name: &'a str,
    steel: SteelTube,
    widest_mm: f64,
}

fn of_level(job: &Job, level: &GuyLevel, guys: &[&GuyResult], on: &SitsOn) -> CollarWork {
    let (collar, system) = (&level.collar, job.units.system);
    let bolt_mm = collar.bolt_mm.filter(|_| collar.held == CollarHeld::Bolt);
    let wall_mm = collar.wall_mm.filter(|_| collar.held == CollarHeld::Bolt);
    let still_n = down_n(guys, level.tension_n);
    let at_limit_n = level.rope.strength.resistance().allowable_n().map(|each_n| down_n(guys, each_n));
    let first_deg = guys.first().map_or(0.0, |guy| guy.azimuth_deg);
    let angles = || guys.iter().map(|guy| guy.angle_deg);
    let play_mm = shop::BORED_PLAY.of(system);
    CollarWork {
        part: format!("collar:{}", level.id),
        level: level.id.clone(),
        name: level.name.clone(),
        tube: on.name.to_owned(),
        tube_index: on.index,
        height_m: level.attach_height_m,
        held: collar.held,
        bore_mm: on.widest_mm + play_mm,
        bolt_mm,
        bolt_hole_mm: bolt_mm.map(|bolt_mm| bolt_mm + play_mm),
        bolt_length_mm: wall_mm.map(|wall_mm| on.widest_mm + play_mm + 2.0 * wall_mm + BOLT_MORE_MM),
        eye_radius_mm: level.collar_radius_mm,
        eye_turns_deg: guys.iter().map(|guy| (guy.azimuth_deg - first_deg).rem_euclid(360.0)).collect(),
        rope_down_deg: [angles().fold(90.0, f64::min), angles().fold(0.0, f64::max)],
        still_n,
        at_limit_n,
        carries_n: match collar.held {
            CollarHeld::Bolt => {
                bolt_mm.zip(wall_mm).map(|(bolt_mm, wall_mm)| by_bolt_n(bolt_mm, wall_mm, &on.steel))
            }
            CollarHeld::Shoulder => {
                collar.shoulder_mm.map(|shoulder_mm| by_shoulder_n(shoulder_mm, on.steel.outside_mm))
            }
            CollarHeld::Unsaid | CollarHeld::Clamped => None,
        },
        thinnest_bolt_mm: wall_mm.zip(at_limit_n).and_then(|(wall_mm, load_n)| {
            let pinned = Pinned {
                pin_mm: 0.0,
                inner_wall_mm: on.steel.wall_mm,
                inner_yield_mpa: on.steel.yield_mpa,
                outer_wall_mm: wall_mm,
                outer_yield_mpa: SOFTEST_YIELD_MPA,
            };
            thinnest(&pinned, load_n.max(still_n), system)
        }),
        edge_mm: collar.edge_radius_mm,
        least_edge_mm: ROUND_AS_THE_ROPE * level.rope.diameter_mm,
        thimble: collar.thimble,
    }
}

/// What guys with one tension pull their collar down with: each by how steeply it leaves, taken straight.
fn down_n(guys: &[&GuyResult], tension_n: f64) -> f64 {
    guys.iter().map(|guy| tension_n * guy.down_share()).sum()
}
