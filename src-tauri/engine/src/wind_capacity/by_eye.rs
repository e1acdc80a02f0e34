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
        // Where a pin's thickness is entered there is a rule for it: it is a part of the limit.
        (joined(TubeJoint::Telescoped) && !pins_are_known(job), ByEye::Pins),
        (joined(TubeJoint::Threaded), ByEye::Couplings),
        (true, ByEye::BaseJoints),
        (job.rig.strands.is_some(), ByEye::StrandHooks),
        (job.rig.topper.is_some(), ByEye::TopperHold),
    ];
    parts.into_iter().filter(|(is_there, _)| *is_there).map(|(_, part)| part).collect()
}

/// Whether every tube that slides has a hole and a pin whose thickness was entered.
fn pins_are_known(job: &Job) -> bool {
    let mut slide = job.rig.tubes.iter().skip(1).filter(|tube| tube.joint == TubeJoint::Telescoped);
    job.workshop.lift.pin_mm.is_some() && slide.all(|tube| tube.pin_hole_mm.is_some())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Collars, shackles and the base's joints are on every mast; pins where a tube runs in another, couplings where one is
    /// screwed on, hooks and the topper's hold where there are any.
    #[test]
    fn what_no_rule_covers_is_looked_at_where_it_is() {
        use ByEye::{BaseJoints, Collars, Couplings, Pins, Shackles, StrandHooks, TopperHold};
        let mut job = crate::demo::yardstick();
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, Pins, BaseJoints, StrandHooks, TopperHold]);
        (job.workshop.lift.pin_mm, job.rig.tubes[1].pin_hole_mm) = (Some(10.0), Some(10.5));
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, BaseJoints, StrandHooks, TopperHold]);
        job.rig.tubes[1].joint = TubeJoint::Threaded;
        job.rig.topper = None;
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, Couplings, BaseJoints, StrandHooks]);
        // The lowest tube stands on the base, whatever its joint is said to be.
        job.rig.tubes.truncate(1);
        job.rig.strands = None;
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, BaseJoints]);
    }
}
