//! The work on the ground, step by step in the order of the work.

use std::collections::BTreeMap;

use crate::base::{self, BaseInput};
use crate::finding::Finding;
use crate::guys::guy::{FoundAnchor, GuyInput, guys};
use crate::guys::spacing;
use crate::job::{AnchorRule, Fix, Job, Placement};
use crate::quantity::FieldErrors;
use crate::stakeout::pegs::{PegInput, pegs};
use crate::stakeout::ties::ties;
use crate::strands;
use crate::survey::positions::Positions;
use crate::tube::telescope::{Telescope, telescope};
use crate::yard::PlacedYard;
use crate::yard::clearance::{Work, check};
use crate::yard::place::place;
use crate::yard::sight::FromMast;

use super::measured::Measured;
use super::{BaseResult, MastResult, Plan};

/// Where the parts of the work stand, as far as the user chose or measured it.
#[derive(Debug, Clone)]
pub(super) struct Whereabouts {
    /// The mast's axis in plan.
    pub mast: [f64; 2],
    /// How that was found or chosen.
    pub mast_fix: Fix,
    /// True bearing of the front leg.
    pub front_bearing_deg: f64,
    /// Anchors that were measured, by the guy's id; all others follow their rule.
    pub anchors: BTreeMap<String, FoundAnchor>,
    /// Gaps measured under the legs' tips, by the leg's id.
    pub gaps_m: BTreeMap<String, f64>,
}

impl Whereabouts {
    /// As the job's placement has it.
    pub fn planned(job: &Job, measured: &Measured) -> Result<Self, FieldErrors> {
        let mast_fix = job.placement.mast.clone();
        Ok(Self {
            mast: measured.positions.locate(&mast_fix, "/placement/mast")?.at,
            mast_fix,
            front_bearing_deg: job.placement.front_bearing_deg,
            anchors: BTreeMap::new(),
            gaps_m: BTreeMap::new(),
        })
    }
}

/// The work, and the yard as seen from its mast.
#[derive(Debug, Clone)]
pub(super) struct Built {
    pub plan: Plan,
    pub yard: PlacedYard,
    pub whereabouts: Whereabouts,
}

/// Builds the work where it stands. `survey` is what the survey found; the plan's own findings join it.
pub(super) fn build(
    job: &Job,
    measured: &Measured,
    whereabouts: &Whereabouts,
    survey: &[Finding],
) -> Result<Built, FieldErrors> {
    let mut findings = survey.to_vec();
    let (ground, positions) = (&measured.fit.ground, &measured.positions);
    let at = whereabouts.mast;
    let marks = measured.marks(job);
    let ties = ties(at, &marks, ground, &job.yard.instruments);
    let tied = ties.as_ref().map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
    // Everything in the yard as seen from the mast, as it will be pegged out among the marks.
    let pegged = positions.pegged(at, &whereabouts.mast_fix, tied);
    let yard = place(
        &job.yard,
        job.units.system,
        marks,
        &FromMast { positions, pegged: &pegged, mast: at },
        ground,
    )?;

    let telescope = telescope(&job.rig.mast_tubes()?, job.units.system);
    findings.extend(telescope.findings.iter().cloned());
    let base_input = BaseInput {
        base: &job.rig.base,
        stakes: &job.rig.stakes,
        ground,
        mast_at: at,
        front_bearing_deg: whereabouts.front_bearing_deg,
        turning_sigma_deg: job.yard.instruments.bearing_sigma_deg,
        fall_bearing_deg: measured.fall.bearing_deg,
    };
    let mut base = base::base(&base_input);
    base::with_measured_gaps(&mut base, &job.rig.base, &whereabouts.gaps_m);
    let mast = mast(job, at, ground.height(at), &base, telescope);
    let (guys, guy_findings) = guys(&GuyInput {
        ground,
        levels: &job.rig.guy_levels,
        free_anchors: &free_anchors(job, positions)?,
        mast: at,
        foot_m: mast.foot_m,
        contacts: &base.contacts,
        foot_sigma_m: base::turning::level_sigma_by_turning_m(&base_input),
        front_bearing_deg: whereabouts.front_bearing_deg,
        guy_turn_deg: job.placement.guy_turn_deg,
        instruments: &job.yard.instruments,
        north: &measured.north,
        found: &whereabouts.anchors,
    });
    findings.extend(guy_findings);
    findings.extend(spacing::findings(&guys, &job.rig.guy_levels, job.yard.soil));
    let placement = Placement { front_bearing_deg: whereabouts.front_bearing_deg, ..job.placement.clone() };
    let ring = job.rig.strands.as_ref().map(|it| strands::ring(&job.rig, it, &placement, &mast, ground));

    let work = Work { mast: &mast, base: &base, guys: &guys, ring: ring.as_ref(), sigma_m: 0.0 };
    let (clearances, clearance_findings) = check(&yard, &work, ground);
    findings.extend(clearance_findings);
    findings.extend(super::unmeasured::findings(ground, at, &guys, &base, &yard));
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
    let open_points = measured.open_points(job);
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
        as_built: None,
        findings,
        verdict: None,
    };
    Ok(Built { plan, yard, whereabouts: whereabouts.clone() })
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
    if errors.is_empty() { Ok(levels) } else { Err(errors.into()) }
}
