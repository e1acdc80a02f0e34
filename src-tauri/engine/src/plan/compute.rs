//! From a job to its plan: the survey, the work laid out and checked as planned, then as it really stands.

use super::as_built::{as_built, placed_as_built};
use super::checked::{Checked, check_placed};
use super::layout::{Layout, PlacedWork, lay_out_at};
use super::points::{FixedPoints, Points};
use super::surveyed::{Surveyed, survey};
use super::{Computed, Plan};
use crate::job::{AsBuilt, Job};
use crate::quantity::FieldErrors;
use crate::stakeout::pegs::{PegInput, pegs};
use crate::verdict::Verdict;
use crate::yard::PlacedYard;

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
/// assert_eq!(computed.plan.guys.len(), 6);
/// ```
pub fn compute(job: &Job) -> Result<Computed, FieldErrors> {
    compute_on(&survey(&job.yard, job.units)?, job)
}

/// The same on a survey of the job's yard that was made before: for another rig or placement in the same yard.
///
/// # Errors
/// As [`compute`].
pub fn compute_on(surveyed: &Surveyed, job: &Job) -> Result<Computed, FieldErrors> {
    compute_on_points(surveyed, &FixedPoints::of(surveyed, job), job)
}

/// The same on points that were located before.
///
/// # Errors
/// As [`compute`].
pub fn compute_on_points(
    surveyed: &Surveyed,
    points: &FixedPoints,
    job: &Job,
) -> Result<Computed, FieldErrors> {
    computed(surveyed, job, points, Extent::Whole)
}

/// The same on points that were located before, without the pegs and without the intervals of the gaps under the legs: what
/// a map shows of another placement of the same job while a finger drags the mast.
///
/// # Errors
/// As [`compute`].
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let mut job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// let points = plan::FixedPoints::of(&surveyed, &job);
/// job.placement.front_bearing_deg += 20.0;
/// let turned = plan::compute_placed(&surveyed, &points, &job).expect("it can be placed").plan;
/// assert!(turned.pegs.is_empty());
/// assert_eq!(turned.guys, plan::compute(&job).expect("so it can alone").plan.guys);
/// ```
pub fn compute_placed(surveyed: &Surveyed, points: &FixedPoints, job: &Job) -> Result<Computed, FieldErrors> {
    computed(surveyed, job, points, Extent::Map)
}

/// Lays out a job's rig as it really stands: where its parts were measured after pegging out, and as planned where
/// nothing was. The same as the layout of [`compute_on`], without holding it against the yard.
///
/// # Errors
/// As [`compute`].
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let mut job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// job.rig.base.seat_height_mm += 40.0;
/// let layout = plan::lay_out_as_built(&surveyed, &job).expect("it can be placed");
/// assert_eq!(layout.mast, plan::compute(&job).expect("so it can alone").plan.mast);
/// ```
pub fn lay_out_as_built(surveyed: &Surveyed, job: &Job) -> Result<Layout, FieldErrors> {
    let placed_work = PlacedWork::planned(surveyed, &job.placement)?;
    let Some(built) = measured(job) else {
        return lay_out_at(surveyed, &job.rig, &job.placement, placed_work, Extent::Whole);
    };
    let planned = lay_out_at(surveyed, &job.rig, &job.placement, placed_work, Extent::Map)?;
    let stands = placed_as_built(job, built, surveyed, &planned)?;
    lay_out_at(surveyed, &job.rig, &job.placement, stands, Extent::Whole)
}

/// What was measured after pegging out, where anything was.
fn measured(job: &Job) -> Option<&AsBuilt> {
    job.as_built.as_ref().filter(|built| **built != AsBuilt::default())
}

/// How much of a plan is wanted.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Extent {
    Whole,
    /// What a map shows: without pegs, and without the intervals of the gaps under the legs.
    Map,
}

fn computed(
    surveyed: &Surveyed,
    job: &Job,
    fixed: &FixedPoints,
    extent: Extent,
) -> Result<Computed, FieldErrors> {
    let as_measured = measured(job);
    // A measured leg is told beside its planned gap with its interval.
    let of_plan = if as_measured.is_some() { Extent::Whole } else { extent };
    let points = fixed.with_mast(surveyed, job);
    let placed_work = PlacedWork::planned(surveyed, &job.placement)?;
    let in_yard = InYard { job, surveyed, fixed };
    let mut built = match as_measured {
        Some(built) => {
            let planned = build(&in_yard, placed_work, points.clone(), of_plan)?;
            as_built(&in_yard, built, &planned, points)?
        }
        None => build(&in_yard, placed_work, points, of_plan)?,
    };
    built.plan.verdict = Verdict::so_far(&built.plan.findings);
    let Built { plan, layout, yard } = built;
    Ok(Computed { plan, layout, yard, ground: surveyed.fit.ground.clone() })
}

/// The work, and the yard as seen from its mast.
#[derive(Debug, Clone)]
pub(super) struct Built {
    pub plan: Plan,
    pub layout: Layout,
    pub yard: PlacedYard,
}

/// What all that is built of one job is built in.
#[derive(Clone, Copy)]
pub(super) struct InYard<'a> {
    pub job: &'a Job,
    pub surveyed: &'a Surveyed,
    pub fixed: &'a FixedPoints,
}

/// The stages in their order, for the work in one place.
pub(super) fn build(
    &InYard { job, surveyed, fixed }: &InYard,
    placed_work: PlacedWork,
    points: Points,
    extent: Extent,
) -> Result<Built, FieldErrors> {
    let layout = lay_out_at(surveyed, &job.rig, &job.placement, placed_work, extent)?;
    let checked = check_placed(surveyed, fixed, job, &layout)?;
    Ok(gathered(surveyed, layout, checked, points, extent))
}

/// The findings of layout and checks join those of the points.
fn gathered(surveyed: &Surveyed, layout: Layout, checked: Checked, of: Points, extent: Extent) -> Built {
    let (mast, base) = (layout.mast.clone(), layout.base.clone());
    let (guys, ring) = (layout.guys.clone(), layout.ring.clone());
    let Checked { yard, clearances, look_up_m, findings: of_yard } = checked;
    let mut findings = of.findings;
    findings.extend(layout.findings.iter().cloned());
    findings.extend(of_yard);
    // A stable sort: findings of one severity stay in the order of the work.
    findings.sort_by_key(|finding| finding.severity);
    let input = PegInput {
        ground: &surveyed.fit.ground,
        marks: &yard.marks,
        instruments: &surveyed.instruments,
        north: &surveyed.north,
        mast: layout.placed_work.mast,
        base: &base,
        guys: &guys,
    };
    let pegs = if extent == Extent::Whole { pegs(&input) } else { Vec::new() };
    let plan = Plan {
        north: surveyed.north_result(),
        ground: surveyed.ground_result(),
        points: of.located,
        open_points: of.open,
        mast,
        base,
        guys,
        ring,
        pegs,
        clearances,
        look_up_m,
        as_built: None,
        findings,
        verdict: None,
    };
    Built { plan, layout, yard }
}
