//! All that is made on the bench, each part planned once: what the next one hangs on is handed on.

use super::collars::{Collars, collars};
use super::fit::{TubeDiameters, TubeFit, diameters, fit};
use super::joints::{BaseJoints, joints};
use super::lift::{self, LiftPlan};
use super::stages::{self, Stages};
use crate::finding::Finding;
use crate::job::Job;
use crate::plan::Computed;
use crate::quantity::FieldErrors;

/// Tubes, stages, lift, base and guy collars of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct BenchWork {
    /// Of every tube, the bottom one first.
    pub diameters: Vec<TubeDiameters>,
    pub fit: TubeFit,
    pub stages: Stages,
    pub lift: LiftPlan,
    pub base: BaseJoints,
    pub collars: Collars,
}

/// Plans it, for a job as planned.
///
/// # Errors
/// Where a section is unknown.
pub fn bench_work(job: &Job, computed: &Computed) -> Result<BenchWork, FieldErrors> {
    let (diameters, fit) = (diameters(job)?, fit(job)?);
    let stages = stages::plan(job, &computed.plan, &fit)?;
    let lift = lift::plan(job, &computed.plan, &fit, &stages)?;
    let base = joints(job, computed, &fit)?;
    let collars = collars(job, &computed.plan)?;
    Ok(BenchWork { diameters, fit, stages, lift, base, collars })
}

impl BenchWork {
    /// Of all of them, in the order of the work.
    pub fn findings(&self) -> impl Iterator<Item = &Finding> {
        let Self { fit, stages, lift, base, collars, .. } = self;
        [&fit.findings, &stages.findings, &lift.findings, &base.findings, &collars.findings]
            .into_iter()
            .flatten()
    }
}
