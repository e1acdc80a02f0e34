//! The lights' current: every strand with its number, what all of them take by the labels, the lead from the outlet to the mast.
//!
//! Nothing is assumed of what no label has said: it is asked, and what hangs on it is not known. Earthing and wiring are for local
//! rules and a licensed person; nothing here replaces them.

pub mod conductor;
mod findings;
mod lead;
pub mod load;
mod results;
mod slack;
mod strands;
#[cfg(test)]
mod tests;

pub use lead::SPARE;
pub use results::*;

use crate::job::Job;
use crate::plan::{self, Computed};
use crate::workshop::stages::Stages;

/// Works it out for a job as it stands; none where it has no strands.
///
/// # Accuracy
/// The lead is as sure as the outlet's place; all else follows from labels.
pub fn lights(job: &Job, computed: &Computed, stages: &Stages) -> Option<LightsWork> {
    let (of, ring) = (job.rig.strands.as_ref()?, computed.plan.ring.as_ref()?);
    let (held, asked) = (&job.lights, !job.lights.lead.way.is_empty());
    let surveyed = asked.then(|| plan::survey(&job.yard, job.units).ok()).flatten();
    let placed = surveyed.and_then(|surveyed| lead::placed(&held.lead, &surveyed));
    let lead = placed.map(|placed| lead::lay(job, computed, placed));
    let load = load::load(held, usize::from(of.count), lead.as_ref());
    let view_bearing_deg = strands::view_bearing_deg(&job.placement, of, &computed.plan.mast, ring);
    let strands = strands::numbered(of, ring, &computed.plan.mast, view_bearing_deg, held);
    let last_tube = slack::last_tube(job, &computed.plan, stages);
    let mut work = LightsWork { strands, view_bearing_deg, load, lead, last_tube, findings: Vec::new() };
    work.findings = findings::findings(job, computed, &work);
    Some(work)
}
