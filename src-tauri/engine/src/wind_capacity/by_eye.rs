//! Parts of a mast that no rule here covers.

use serde::{Deserialize, Serialize};

use crate::job::{CollarHeld, GuyCollar, Job, TubeJoint};

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
        // So for a collar and a coupling.
        (!collars_are_known(job), ByEye::Collars),
        (true, ByEye::Shackles),
        // Where a pin's thickness is entered there is a rule for it: it is a part of the limit.
        (joined(TubeJoint::Telescoped) && !pins_are_known(job), ByEye::Pins),
        (joined(TubeJoint::Threaded) && !couplings_are_known(job), ByEye::Couplings),
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

/// Whether somebody has measured what keeps every collar up, in a way that a rule covers.
fn collars_are_known(job: &Job) -> bool {
    job.rig.guy_levels.iter().all(|level| collar_is_known(&level.collar))
}

/// The same of one.
pub fn collar_is_known(collar: &GuyCollar) -> bool {
    match collar.held {
        CollarHeld::Bolt => collar.bolt_mm.is_some() && collar.wall_mm.is_some(),
        CollarHeld::Shoulder => collar.shoulder_mm.is_some(),
        CollarHeld::Unsaid | CollarHeld::Clamped => false,
    }
}

fn couplings_are_known(job: &Job) -> bool {
    let mut screwed = job.rig.tubes.iter().skip(1).filter(|tube| tube.joint == TubeJoint::Threaded);
    screwed.all(|tube| tube.calliper.coupling_mm.is_some())
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
        job.rig.tubes[1].calliper.coupling_mm = Some(60.0);
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, BaseJoints, StrandHooks]);
        let collar = &mut job.rig.guy_levels[0].collar;
        (collar.held, collar.bolt_mm) = (CollarHeld::Bolt, Some(10.0));
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, BaseJoints, StrandHooks]);
        job.rig.guy_levels[0].collar.wall_mm = Some(3.0);
        assert_eq!(look_at_by_eye(&job), [Shackles, BaseJoints, StrandHooks]);
        job.rig.guy_levels[0].collar.held = CollarHeld::Clamped;
        // The lowest tube stands on the base, whatever its joint is said to be.
        job.rig.tubes.truncate(1);
        job.rig.strands = None;
        assert_eq!(look_at_by_eye(&job), [Collars, Shackles, BaseJoints]);
    }
}
