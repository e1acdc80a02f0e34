//! The third stage: how far a layout keeps from all that is in the yard.

use super::Clearance;
use super::layout::Layout;
use super::points::FixedPoints;
use super::surveyed::Surveyed;
use crate::finding::Finding;
use crate::ground::Ground;
use crate::guys::spacing;
use crate::job::Job;
use crate::quantity::FieldErrors;
use crate::stakeout::ties::ties;
use crate::yard::PlacedYard;
use crate::yard::asked::Asked;
use crate::yard::clearance::{Work, check as measure};
use crate::yard::cone::{self, StrandCone};
use crate::yard::place::{FoundYard, place};
use crate::yard::sight::FromMast;

/// A layout held against its yard.
#[derive(Debug, Clone)]
pub struct Checked {
    /// The yard as seen from the mast, as that will be pegged out among the marks.
    pub yard: PlacedYard,
    /// Worst margin first.
    pub clearances: Vec<Clearance>,
    /// How far round the work somebody has to look for wires.
    pub look_up_m: f64,
    pub findings: Vec<Finding>,
}

/// Measures a layout against the job's yard. Of the job only the yard, the guys' levels,
/// the units and the times of its log count.
///
/// # Errors
/// Points of the yard that can't be placed, all at once.
///
/// # Examples
/// ```
/// use mastwright_engine::{demo, plan};
///
/// let job = demo::lantern_green();
/// let surveyed = plan::survey(&job.yard, job.units).expect("the marks can be placed");
/// let layout = plan::lay_out(&surveyed, &job.rig, &job.placement).expect("the mast can be placed");
/// let checked = plan::check(&surveyed, &job, &layout).expect("the yard can be placed");
/// let margin = |it: &plan::Clearance| it.distance_m - it.needed_m;
/// assert!(checked.clearances.windows(2).all(|pair| margin(&pair[0]) <= margin(&pair[1])));
/// ```
pub fn check(surveyed: &Surveyed, job: &Job, layout: &Layout) -> Result<Checked, FieldErrors> {
    Ok(check_in(&found_yard(surveyed, job)?, surveyed, job, layout, None))
}

/// What comes too near to the cone of strands where no strand is, and to the ring between two ends: what [`check`] and a drag
/// leave out. `known` is what was found of this layout before.
pub fn surfaces(
    job: &Job,
    layout: &Layout,
    yard: &PlacedYard,
    ground: &Ground,
    known: &[Finding],
) -> (Vec<Finding>, Vec<Clearance>) {
    let cone = job.rig.strands.as_ref().zip(layout.ring.as_ref()).and_then(|(strands, ring)| {
        StrandCone::of(ring, [layout.mast.east_m, layout.mast.north_m], strands.sweep_deg)
    });
    let found = cone.map(|cone| cone::check(yard, &cone, 0.0, ground, known));
    found.unwrap_or_default()
}

/// The same on points that were located before: for one layout of many in the same yard.
///
/// # Errors
/// As [`check`].
pub fn check_placed(
    surveyed: &Surveyed,
    points: &FixedPoints,
    job: &Job,
    layout: &Layout,
) -> Result<Checked, FieldErrors> {
    Ok(check_in(points.yard.as_ref().map_err(Clone::clone)?, surveyed, job, layout, None))
}

/// The same against the obstacles alone that the work comes nearer to than `ample_m` beyond what is kept, or may: for one place
/// of very many. What is left out keeps at least that much, and nothing is found of it.
///
/// # Errors
/// As [`check`].
pub fn check_near(
    surveyed: &Surveyed,
    points: &FixedPoints,
    job: &Job,
    layout: &Layout,
    ample_m: f64,
) -> Result<Checked, FieldErrors> {
    Ok(check_in(points.yard.as_ref().map_err(Clone::clone)?, surveyed, job, layout, Some(ample_m)))
}

/// The job's yard with its points found, for as many layouts in it as wanted.
///
/// # Errors
/// As [`check`].
pub(super) fn found_yard(surveyed: &Surveyed, job: &Job) -> Result<FoundYard, FieldErrors> {
    let (ground, positions) = (&surveyed.fit.ground, &surveyed.positions);
    place(&job.yard, job.units.system, surveyed.marks(&job.yard), positions, ground)
}

fn check_in(
    found: &FoundYard,
    surveyed: &Surveyed,
    job: &Job,
    layout: &Layout,
    ample_m: Option<f64>,
) -> Checked {
    let (ground, positions) = (&surveyed.fit.ground, &surveyed.positions);
    let at = layout.placed_work.mast;
    let ties = ties(at, found.marks(), ground, &surveyed.instruments);
    let tied = ties.as_ref().map(|ties| (ties.mark_a.as_str(), ties.mark_b.as_str()));
    let pegged = positions.pegged(at, &layout.placed_work.mast_fix, tied);
    let from_mast = FromMast { positions, pegged: &pegged, mast: at };
    let (mast, base, guys) = (&layout.mast, &layout.base, &layout.guys);
    let mut findings = spacing::findings(guys, &job.rig.guy_levels, job.yard.soil);
    let work = Work { mast, base, guys, ring: layout.ring.as_ref(), sigma_m: 0.0 };
    let mut yard = match ample_m {
        None => found.seen(&from_mast),
        Some(ample_m) => {
            let reach = work.reach(ample_m, positions.most_sigma_m(&pegged));
            found.seen_near(&from_mast, &reach)
        }
    };
    yard.asked = Asked::of(job);
    let checks = measure(&yard, &work, ground);
    findings.extend(checks.findings);
    findings.extend(super::unmeasured::findings(ground, at, guys, base, &yard));
    Checked { yard, clearances: checks.clearances, look_up_m: checks.look_up_m, findings }
}
