//! Parts of a mast that no rule here covers.

use serde::{Deserialize, Serialize};

use crate::job::Job;

/// What somebody has to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum ByEye {
    Shackles,
    BaseJoints,
    StrandHooks,
    TopperHold,
}

/// The parts that a job's mast has of these.
pub fn look_at_by_eye(job: &Job) -> Vec<ByEye> {
    let parts = [
        (true, ByEye::Shackles),
        (true, ByEye::BaseJoints),
        (job.rig.strands.is_some(), ByEye::StrandHooks),
        (job.rig.topper.is_some(), ByEye::TopperHold),
    ];
    parts.into_iter().filter(|(is_there, _)| *is_there).map(|(_, part)| part).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Shackles and the base's joints are on every mast, hooks and the topper's hold where there are any.
    #[test]
    fn what_no_rule_covers_is_looked_at_where_it_is() {
        use ByEye::{BaseJoints, Shackles, StrandHooks, TopperHold};
        let mut job = crate::demo::yardstick();
        assert_eq!(look_at_by_eye(&job), [Shackles, BaseJoints, StrandHooks, TopperHold]);
        job.rig.topper = None;
        assert_eq!(look_at_by_eye(&job), [Shackles, BaseJoints, StrandHooks]);
        job.rig.strands = None;
        assert_eq!(look_at_by_eye(&job), [Shackles, BaseJoints]);
    }
}
