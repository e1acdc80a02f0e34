//! Parts of a mast that no rule here covers.

use serde::{Deserialize, Serialize};

use crate::job::{Job, TubeJoint};

/// What somebody has to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ByEye {
    Collars,
    Shackles,
    Pins,
    Couplings,
    BaseJoints,
    StrandHooks,
    TopperHold,
}

/// The parts that a job's mast has of these.
pub fn look_at_by_eye(job: &Job) -> Vec<ByEye> {
    let tubes = job.rig.tubes.get(1..).unwrap_or_default();
    let joined = |joint| tubes.iter().any(|tube| tube.joint == joint);
    let parts = [
        (true, ByEye::Collars),
        (true, ByEye::Shackles),
        (joined(TubeJoint::Telescoped), ByEye::Pins),
        (joined(TubeJoint::Threaded), ByEye::Couplings),
        (true, ByEye::BaseJoints),
        (job.rig.strands.is_some(), ByEye::StrandHooks),
        (job.rig.topper.is_some(), ByEye::TopperHold),
    ];
    parts.into_iter().filter(|(is_there, _)| *is_there).map(|(_, part)| part).collect()
}
