//! Messages and work of the operations of the workshop: what is bought, cut, turned and drilled before anything goes into the
//! yard. A file of this name's folder for each subject.

pub mod buying;

use mastwright_engine::drawing::stages_picture::{StagesPicture, stages_picture};
use mastwright_engine::finding::Severity;
use mastwright_engine::quantity::FieldErrors;
use mastwright_engine::report::{self, WorkshopReport};
use mastwright_engine::workshop::collars::Collars;
use mastwright_engine::workshop::fit::TubeFit;
use mastwright_engine::workshop::joints::BaseJoints;
use mastwright_engine::workshop::lift::LiftPlan;
use mastwright_engine::workshop::stages::Stages;
use mastwright_engine::workshop::{BenchWork, bench_work};
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
    pub collars: Collars,
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
    pub picture: Option<StagesPicture>,
}

pub fn workshop(request: &JobRequest) -> Result<WorkshopAnswer, FieldErrors> {
    let job = job::read_job_value(&request.job)?;
    let computed = plan::compute(&job)?;
    let bench = bench_work(&job, &computed)?;
    let report = report::workshop(&job, &bench);
    let worst = bench.findings().map(|finding| finding.severity).min();
    let picture = stages_picture(&bench.stages, job.units)
        .map(|picture| StagesPicture { scene: picture.scene.rounded(), ..picture });
    let BenchWork { fit, stages, lift, base, collars, .. } = bench;
    Ok(WorkshopAnswer { plan: WorkshopPlan { fit, stages, lift, base, collars, worst }, report, picture })
}
