//! From a job to its plan: the survey, the work laid out and checked as planned, then as it really stands.

use super::as_built::as_built;
use super::checked::{Checked, check};
use super::layout::{Layout, Whereabouts, lay_out_at};
use super::surveyed::{Surveyed, survey};
use super::{Computed, Plan};
use crate::finding::Finding;
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
    let findings = of_points(surveyed, job);
    let planned = build(job, surveyed, Whereabouts::planned(surveyed, &job.placement)?, &findings)?;
    let mut built = match job.as_built.as_ref().filter(|built| **built != AsBuilt::default()) {
        Some(built) => as_built(job, built, surveyed, &planned, &findings)?,
        None => planned,
    };
    built.plan.verdict = Verdict::so_far(&built.plan.findings);
    Ok(Computed { plan: built.plan, yard: built.yard, ground: surveyed.fit.ground.clone() })
}

/// What is doubtful about the readings, and about how the job's points hang on them.
fn of_points(surveyed: &Surveyed, job: &Job) -> Vec<Finding> {
    let mut findings = surveyed.findings.clone();
    findings.extend(surveyed.geometry(job));
    findings.extend(super::open::findings(&surveyed.open_points(job)));
    findings
}

/// The work, and the yard as seen from its mast.
#[derive(Debug, Clone)]
pub(super) struct Built {
    pub plan: Plan,
    pub yard: PlacedYard,
    pub whereabouts: Whereabouts,
}

/// The stages in their order, for one set of whereabouts. `of_points` is what the survey found; the findings of layout
/// and checks join it.
pub(super) fn build(
    job: &Job,
    surveyed: &Surveyed,
    whereabouts: Whereabouts,
    of_points: &[Finding],
) -> Result<Built, FieldErrors> {
    let layout = lay_out_at(surveyed, &job.rig, &job.placement, whereabouts)?;
    let checked = check(surveyed, job, &layout)?;
    Ok(gathered(job, surveyed, layout, checked, of_points))
}

fn gathered(
    job: &Job,
    surveyed: &Surveyed,
    layout: Layout,
    checked: Checked,
    of_points: &[Finding],
) -> Built {
    let Layout { whereabouts, mast, base, guys, ring, findings: of_layout } = layout;
    let Checked { yard, clearances, look_up_m, findings: of_yard } = checked;
    let mut findings: Vec<Finding> = of_points.to_vec();
    findings.extend(of_layout);
    findings.extend(of_yard);
    // A stable sort: findings of one severity stay in the order of the work.
    findings.sort_by_key(|finding| finding.severity);
    let pegs = pegs(&PegInput {
        ground: &surveyed.fit.ground,
        marks: &yard.marks,
        instruments: &surveyed.instruments,
        north: &surveyed.north,
        mast: whereabouts.mast,
        base: &base,
        guys: &guys,
    });
    let plan = Plan {
        north: surveyed.north_result(),
        ground: surveyed.ground_result(),
        points: surveyed.points(job),
        open_points: surveyed.open_points(job),
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
    Built { plan, yard, whereabouts }
}
