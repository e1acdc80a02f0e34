//! The work of the shop in its order, with what has to dry or cure before the next goes on.

use chrono::{Days, NaiveDate};
use serde::Serialize;

use crate::job::{Job, TubeJoint};

use super::items::{Item, Ware};

/// A task of the shop.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WorkTask {
    /// What was bought is measured: it goes before what was planned.
    MeasureWhatWasBought,
    CutTimbers,
    PreserveSawnEnds,
    CutTubes,
    ZincBareSteel,
    MakeUpThreads,
    GlueTheRing,
    CutRopes,
    /// Loosely, on level ground, before it goes into the yard.
    TryTogether,
}

/// A task with its day.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct WorkStep {
    pub task: WorkTask,
    /// Days after the beginning.
    pub after_days: u32,
    /// Its day; none where nobody has said when the work begins.
    #[cfg_attr(feature = "typegen", schemars(with = "Option<String>"), ts(type = "string | null"))]
    pub on: Option<NaiveDate>,
    /// Nothing is done with it before: to dry or to cure. Common practice, a day; what the can says goes before.
    pub waits_days: u32,
}

/// What paint, preservative, sealant and cement are given before they are handled: common practice; the can's own time counts.
const A_DAY: u32 = 1;

/// Tasks of one kind of work, one after the other, each once the one before is dry. The ring is glued where cement is bought: straight
/// sides are joined otherwise.
pub(super) fn steps(job: &Job, items: &[Item], begin: Option<NaiveDate>) -> Vec<WorkStep> {
    let threaded = job.rig.tubes.iter().any(|tube| tube.joint == TubeJoint::Threaded);
    let glued = items.iter().any(|item| item.ware == Ware::PvcCement);
    let tasks = [
        (true, WorkTask::MeasureWhatWasBought, 0, 0),
        (true, WorkTask::CutTimbers, 0, 0),
        (true, WorkTask::PreserveSawnEnds, 0, A_DAY),
        (true, WorkTask::CutTubes, 0, 0),
        (true, WorkTask::ZincBareSteel, 0, A_DAY),
        (threaded, WorkTask::MakeUpThreads, A_DAY, A_DAY),
        (glued, WorkTask::GlueTheRing, A_DAY, A_DAY),
        (true, WorkTask::CutRopes, A_DAY, 0),
    ];
    let at = |after_days: u32| begin.and_then(|day| day.checked_add_days(Days::new(after_days.into())));
    let step = |task, after_days, waits_days| WorkStep { task, after_days, on: at(after_days), waits_days };
    let wanted = tasks.into_iter().filter(|(wanted, ..)| *wanted);
    let mut steps: Vec<WorkStep> = wanted.map(|(_, task, after, waits)| step(task, after, waits)).collect();
    let dry = steps.iter().map(|step| step.after_days + step.waits_days).max().unwrap_or(0);
    steps.push(step(WorkTask::TryTogether, dry, 0));
    steps
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::demo::lantern_green;
    use crate::workshop::shopping::items::{Aisle, Amount, Why};

    /// By hand: from Friday 4 December, zinc and preservative dry until the 5th; threads made up on the 5th cure until the 6th.
    #[test]
    fn nothing_is_put_together_before_it_is_dry() {
        let begin = NaiveDate::from_ymd_opt(2026, 12, 4);
        let mut job = lantern_green();
        job.workshop.ring = None;
        job.rig.tubes.iter_mut().for_each(|tube| tube.joint = TubeJoint::Telescoped);
        let last = |job: &Job| *steps(job, &[], begin).last().unwrap();
        assert_eq!(last(&job).on, NaiveDate::from_ymd_opt(2026, 12, 5));
        job.rig.tubes[1].joint = TubeJoint::Threaded;
        assert_eq!(last(&job).on, NaiveDate::from_ymd_opt(2026, 12, 6));
        let undated = steps(&job, &[], None);
        assert!(undated.iter().all(|step| step.on.is_none()));
        for step in &undated {
            let ready = step.after_days + step.waits_days;
            assert!(ready <= last(&job).after_days, "{:?}", step.task);
        }
    }
    /// A ring of plastic pipe with couplings is glued; one of straight sides, for whose corners no cement is bought, is not.
    #[test]
    fn only_what_cement_is_bought_for_is_glued() {
        let cement = Item {
            part: "pvc cement".to_owned(),
            aisle: Aisle::Paint,
            ware: Ware::PvcCement,
            amount: Amount::Count { count: 1 },
            why: Why::GluesTheRing,
            missing: Vec::new(),
            done: false,
        };
        let glues = |items: &[Item]| {
            let steps = steps(&lantern_green(), items, None);
            steps.iter().any(|step| step.task == WorkTask::GlueTheRing)
        };
        assert!(glues(std::slice::from_ref(&cement)));
        let corners = Item { ware: Ware::RingCorner { turn_deg: 22.5 }, ..cement };
        assert!(!glues(&[corners]));
    }
}
