//! From a job to its plan: the survey, then the work as planned, then the work as it really stands.

use super::Computed;
use super::as_built::as_built;
use super::build::{Whereabouts, build};
use super::measured::Measured;
use crate::job::{AsBuilt, Job};
use crate::quantity::FieldErrors;
use crate::survey::north::north;
use crate::verdict::Verdict;

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
    let (north, mut findings) = north(&job.yard);
    let measured = Measured::of(job, north)?;
    findings.extend(measured.findings.iter().cloned());
    findings.extend(measured.geometry(job));
    findings.extend(super::open::findings(&measured.open_points(job)));
    let planned = build(job, &measured, &Whereabouts::planned(job, &measured)?, &findings)?;
    let mut built = match job.as_built.as_ref().filter(|built| **built != AsBuilt::default()) {
        Some(built) => as_built(job, built, &measured, &planned, &findings)?,
        None => planned,
    };
    built.plan.verdict = Verdict::so_far(&built.plan.findings);
    Ok(Computed { plan: built.plan, yard: built.yard, ground: measured.fit.ground })
}
