//! From a job to its plan, step by step in the order of the work.

use crate::base::{self, BaseInput};
use crate::guys::guy::{GuyInput, guys};
use crate::job::{AnchorRule, FieldErrors, Job};
use crate::stakeout::pegs::{PegInput, pegs};
use crate::stakeout::ties::ties;
use crate::strands;
use crate::survey::north::north;
use crate::survey::positions::Positions;
use crate::tube::telescope::{Telescope, telescope};
use crate::yard::clearance::{Work, check};
use crate::yard::place::place;
use crate::yard::sight::FromMast;

use super::measured::Measured;
use super::{BaseResult, Computed, MastResult, Plan};

/// Computes the whole plan of a job.
///
/// # Errors
/// Where a point can't be placed at all, such as two tapes that do not meet: every such field is named.
/// Everything else that is wrong is a finding of the plan.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let computed = plan::compute(&demo::lantern_green()).expect("the demo can be placed");
/// assert_eq!(computed.plan.guys.len(), 3);
/// ```
pub fn compute(job: &Job) -> Result<Computed, FieldErrors> {
    let (north, mut findings) = north(&job.yard);
    let measured = Measured::of(job, north)?;
    findings.extend(measured.findings.iter().cloned());
    findings.extend(measured.geometry(job));
    let open_points = measured.open_points(job);
    findings.extend(super::open::findings(&open_points));
    let (ground, positions) = (&measured.fit.ground, &measured.positions);
    let at = positions.locate(&job.placement.mast, "/placement/mast")?.at;
    let marks = measured.marks(job);
    let ties = ties(at, &marks, ground, &job.yard.instruments);
    let tied = ties.as_ref().map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
    // Everything in the yard as seen from the mast, as it will be pegged out among the marks.
    let pegged = positions.pegged(at, &job.placement.mast, tied);
    let yard = place(&job.yard, marks, &FromMast { positions, pegged: &pegged, mast: at }, ground)?;

    let telescope = telescope(&job.rig)?;
    findings.extend(telescope.findings.iter().cloned());
    let base_input = BaseInput {
        base: &job.rig.base,
        stakes: &job.rig.stakes,
        ground,
        mast_at: at,
        front_bearing_deg: job.placement.front_bearing_deg,
        turning_sigma_deg: job.yard.instruments.bearing_sigma_deg,
        fall_bearing_deg: measured.fall.bearing_deg,
    };
    let base = base::base(&base_input);
    let mast = mast(job, at, ground.height(at), &base, telescope);
    let (guys, guy_findings) = guys(&GuyInput {
        ground,
        levels: &job.rig.guy_levels,
        free_anchors: &free_anchors(job, positions)?,
        mast: at,
        foot_m: mast.foot_m,
        contacts: &base.contacts,
        foot_sigma_m: base::level_sigma_by_turning_m(&base_input),
        front_bearing_deg: job.placement.front_bearing_deg,
        guy_turn_deg: job.placement.guy_turn_deg,
        instruments: &job.yard.instruments,
        north: &measured.north,
    });
    findings.extend(guy_findings);
    let ring = job.rig.strands.as_ref().map(|it| strands::ring(it, &job.placement, at, mast.foot_m, ground));

    let work = Work { mast: &mast, base: &base, guys: &guys, ring: ring.as_ref(), sigma_m: 0.0 };
    let (clearances, clearance_findings) = check(&yard, &work, ground);
    findings.extend(clearance_findings);
    // A stable sort: findings of one severity stay in the order of the work.
    findings.sort_by_key(|finding| finding.severity);
    let pegs = pegs(&PegInput {
        ground,
        marks: &yard.marks,
        instruments: &job.yard.instruments,
        north: &measured.north,
        mast: at,
        base: &base,
        guys: &guys,
    });
    let (north, ground_result, points) =
        (measured.north_result(), measured.ground_result(), measured.points(job));
    let plan = Plan {
        north,
        ground: ground_result,
        points,
        open_points,
        mast,
        base,
        guys,
        ring,
        pegs,
        clearances,
        findings,
    };
    Ok(Computed { plan, yard, ground: measured.fit.ground })
}

fn mast(job: &Job, at: [f64; 2], ground_m: f64, base: &BaseResult, telescope: Telescope) -> MastResult {
    let timbers = &job.rig.base;
    let foot_m = base.underside_m + (timbers.timber_depth_mm + timbers.seat_height_mm) / 1000.0;
    let top_above_ground_m = foot_m + telescope.raised_m - ground_m;
    MastResult {
        east_m: at[0],
        north_m: at[1],
        ground_m,
        foot_m,
        raised_height_m: telescope.raised_m,
        lowered_height_m: telescope.lowered_m,
        top_above_ground_m,
        // Tipping about its foot the mast reaches no farther in plan than its own length; the height above the
        // ground is a little more, and covers a base that tips with it.
        fall_radius_m: top_above_ground_m,
        mass_kg: telescope.mass_kg,
        stages: telescope.stages,
    }
}

/// For each level its anchors where they are free, none otherwise.
fn free_anchors(job: &Job, positions: &Positions) -> Result<Vec<Vec<[f64; 2]>>, FieldErrors> {
    let mut errors = Vec::new();
    let mut levels = Vec::new();
    for (i, level) in job.rig.guy_levels.iter().enumerate() {
        let AnchorRule::Free { anchors } = &level.anchors else {
            levels.push(Vec::new());
            continue;
        };
        let mut found = Vec::new();
        for (j, fix) in anchors.iter().enumerate() {
            match positions.locate(fix, &format!("/rig/guy_levels/{i}/anchors/anchors/{j}")) {
                Ok(located) => found.push(located.at),
                Err(error) => errors.push(error),
            }
        }
        levels.push(found);
    }
    if errors.is_empty() { Ok(levels) } else { Err(FieldErrors { errors }) }
}
