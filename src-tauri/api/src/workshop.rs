//! Messages and work of the operations of the workshop: what is bought, cut, turned and drilled before anything goes into the
//! yard. A file of this name's folder for each subject.

pub mod buying;

use mastwright_engine::drawing::scene::Scene;
use mastwright_engine::drawing::stages_picture::stages_picture;
use mastwright_engine::finding::Severity;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, WorkshopReport};
use mastwright_engine::workshop::fit::{TubeFit, fit};
use mastwright_engine::workshop::joints::{BaseJoints, joints};
use mastwright_engine::workshop::lift::LiftPlan;
use mastwright_engine::workshop::stages::Stages;
use mastwright_engine::workshop::{lift, stages};
use mastwright_engine::{job, plan};
use serde::Serialize;

use crate::messages::JobRequest;

/// What is made in the workshop.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WorkshopPlan {
    pub fit: TubeFit,
    pub stages: Stages,
    pub lift: LiftPlan,
    pub base: BaseJoints,
    /// What is to be thought of it, the worst of all: `stop`, `unchecked` where something is not known yet, `caution`, `note`.
    pub worst: Option<Severity>,
}

/// The same, with its words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(ts_rs::TS))]
pub struct WorkshopAnswer {
    pub plan: WorkshopPlan,
    pub report: WorkshopReport,
    /// The tubes going up, side by side; none where nothing is cranked up.
    pub picture: Option<Scene>,
}

pub fn workshop(request: &JobRequest) -> Result<WorkshopAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let fit = fit(&job)?;
    let stages = stages::plan(&job, &computed.plan, &fit)?;
    let lift = lift::plan(&job, &computed.plan, &fit, &stages)?;
    let base = joints(&job, &computed, &fit)?;
    let report = report::workshop(&job, &fit, &stages, &lift, &base);
    let all = [&fit.findings, &stages.findings, &lift.findings, &base.findings].into_iter().flatten();
    let worst = all.map(|finding| finding.severity).min();
    let picture = stages_picture(&stages, job.units).map(Scene::rounded);
    Ok(WorkshopAnswer { plan: WorkshopPlan { fit, stages, lift, base, worst }, report, picture })
}
