//! From a job to its plan: the survey, the work laid out and checked as planned, then as it really stands.

use super::as_built::as_built;
use super::checked::{Checked, check};
use super::layout::{Layout, PlacedWork, lay_out_at};
use super::surveyed::{Surveyed, survey};
use super::{Computed, LocatedPoint, OpenPoint, Plan};
use crate::finding::document::{DocumentRemedy, DocumentRule};
use crate::finding::{Finding, Severity, Subject};
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
    let points = Points::of(surveyed, job);
    let planned = build(job, surveyed, PlacedWork::planned(surveyed, &job.placement)?, &points)?;
    let mut built = match job.as_built.as_ref().filter(|built| **built != AsBuilt::default()) {
        Some(built) => as_built(job, built, surveyed, &planned, &points)?,
        None => planned,
    };
    built.plan.verdict = Verdict::so_far(&built.plan.findings);
    Ok(Computed { plan: built.plan, yard: built.yard, ground: surveyed.fit.ground.clone() })
}

/// Every point that the job fixes: the same wherever the work is laid out.
pub(super) struct Points {
    located: Vec<LocatedPoint>,
    open: Vec<OpenPoint>,
    /// What is doubtful about the readings, and about how the points hang on them.
    findings: Vec<Finding>,
}

impl Points {
    fn of(surveyed: &Surveyed, job: &Job) -> Self {
        let open = surveyed.open_points(job);
        let mut findings: Vec<Finding> = job.has_newer_fields().then(newer_fields).into_iter().collect();
        findings.extend(surveyed.findings.iter().cloned());
        findings.extend(surveyed.geometry(job));
        findings.extend(super::open::findings(&open));
        Self { located: surveyed.points(job), open, findings }
    }
}

/// The work, and the yard as seen from its mast.
#[derive(Debug, Clone)]
pub(super) struct Built {
    pub plan: Plan,
    pub yard: PlacedYard,
    pub placed_work: PlacedWork,
}

/// The stages in their order, for one set of placed_work.
pub(super) fn build(
    job: &Job,
    surveyed: &Surveyed,
    placed_work: PlacedWork,
    points: &Points,
) -> Result<Built, FieldErrors> {
    let layout = lay_out_at(surveyed, &job.rig, &job.placement, placed_work)?;
    let checked = check(surveyed, job, &layout)?;
    Ok(gathered(surveyed, layout, checked, points))
}

/// Entries that nobody looks at may be any that matters.
fn newer_fields() -> Finding {
    let (rule, remedy) = (DocumentRule::NewerFields, DocumentRemedy::UpdateTheApp);
    Finding::by_habit(Severity::Unchecked, rule, Subject::Job, remedy)
}

/// The findings of layout and checks join those of the points.
fn gathered(surveyed: &Surveyed, layout: Layout, checked: Checked, of: &Points) -> Built {
    let Layout { placed_work, mast, base, guys, ring, findings: of_layout } = layout;
    let Checked { yard, clearances, look_up_m, findings: of_yard } = checked;
    let mut findings = of.findings.clone();
    findings.extend(of_layout);
    findings.extend(of_yard);
    // A stable sort: findings of one severity stay in the order of the work.
    findings.sort_by_key(|finding| finding.severity);
    let pegs = pegs(&PegInput {
        ground: &surveyed.fit.ground,
        marks: &yard.marks,
        instruments: &surveyed.instruments,
        north: &surveyed.north,
        mast: placed_work.mast,
        base: &base,
        guys: &guys,
    });
    let plan = Plan {
        north: surveyed.north_result(),
        ground: surveyed.ground_result(),
        points: of.located.clone(),
        open_points: of.open.clone(),
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
    Built { plan, yard, placed_work }
}
