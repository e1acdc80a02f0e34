//! The plan's own stages for work that stands otherwise than planned: what would be wrong with it then.

use super::checked::{Checked, check_placed};
use super::compute::Extent;
use super::layout::{Layout, PlacedWork, lay_out_at};
use super::points::FixedPoints;
use super::surveyed::Surveyed;
use crate::finding::Finding;
use crate::job::Job;
use crate::quantity::FieldErrors;
use crate::yard::Clearance;

/// Work laid out and held against its yard.
#[derive(Debug, Clone)]
pub struct Trial {
    pub layout: Layout,
    /// Worst margin first.
    pub clearances: Vec<Clearance>,
    pub findings: Vec<Finding>,
}

/// Lays out a job's rig where its parts are said to stand, and checks it.
///
/// # Errors
/// As [`lay_out`](super::lay_out) and [`check`](super::check).
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// let points = plan::FixedPoints::of(&surveyed, &job);
/// let planned = plan::lay_out(&surveyed, &job.rig, &job.placement).expect("it can be placed");
/// let mut moved = planned.placed_work.clone();
/// moved.mast[0] += 0.1;
/// let trial = plan::try_placed(&surveyed, &points, &job, moved).expect("so can this");
/// assert_ne!(trial.layout.mast, planned.mast);
/// ```
pub fn try_placed(
    surveyed: &Surveyed,
    points: &FixedPoints,
    job: &Job,
    placed_work: PlacedWork,
) -> Result<Trial, FieldErrors> {
    let layout = lay_out_at(surveyed, &job.rig, &job.placement, placed_work, Extent::Map)?;
    let Checked { findings: of_yard, clearances, .. } = check_placed(surveyed, points, job, &layout)?;
    let mut findings = layout.findings.clone();
    findings.extend(of_yard);
    Ok(Trial { layout, clearances, findings })
}
