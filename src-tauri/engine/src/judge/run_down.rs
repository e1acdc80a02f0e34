//! The ropes of the mast run down: guys whose collar comes down with it and that are made fast again run lower over the yard than those of
//! the raised mast, and are held against the same things.

use crate::finding::raising::RaisingRule;
use crate::finding::{Finding, Rule, Severity, Subject};
use crate::job::{AnchorLayout, GuyLevel, Job, PointFix, WhenLowered};
use crate::plan::{Computed, compute};
use crate::wind_capacity::MastHeight;
use crate::wind_capacity::standing::{Standing, StandingGuy};

/// What these ropes come too near to that they keep off from while the mast is raised. Nothing of levels of which nobody has said what is
/// done when it is run down: the wind's page asks for that.
pub(super) fn findings(job: &Job, computed: &Computed) -> Vec<Finding> {
    let Some(lowered) = made_fast_again(job, computed) else { return Vec::new() };
    // Every point of it was placed a moment ago.
    let Ok(lowered) = compute(&lowered) else { return Vec::new() };
    let raised = &computed.plan.findings;
    let is_new = |finding: &Finding| !raised.iter().any(|other| other.is_about_the_same(finding));
    let of_ropes =
        lowered.plan.findings.into_iter().filter(|finding| is_of_a_rope(finding) && is_new(finding));
    of_ropes.map(when_run_down).collect()
}

fn when_run_down(finding: Finding) -> Finding {
    let rule = RaisingRule::WhenRunDown { rule: Box::new(finding.rule) };
    Finding { rule: rule.into(), ..finding }
}

fn is_of_a_rope(finding: &Finding) -> bool {
    matches!(finding.subject, Subject::Guy { .. })
        && matches!(finding.rule, Rule::Yard(_) | Rule::Overhead(_))
        && finding.severity != Severity::Note
}

/// The job with nothing but these guys, from their collars as they stand run down to the anchors that they have; none where no guy is
/// made fast again.
fn made_fast_again(job: &Job, computed: &Computed) -> Option<Job> {
    let standing = Standing::of(job, &computed.layout, MastHeight::Lowered);
    let levels: Vec<GuyLevel> =
        job.rig.guy_levels.iter().filter_map(|level| lowered_level(level, &standing.guys)).collect();
    if levels.is_empty() {
        return None;
    }
    let mut lowered = job.clone();
    lowered.rig.guy_levels = levels;
    lowered.rig.strands = None;
    if let Some(built) = &mut lowered.as_built {
        let kept = |guy: &str| standing.guys.iter().any(|it| it.planned.id == guy && is_made_fast(it));
        built.anchors.retain(|anchor| kept(&anchor.guy));
    }
    Some(lowered)
}

fn is_made_fast(guy: &StandingGuy) -> bool {
    guy.comes_down() && guy.level.when_lowered == WhenLowered::MadeFast
}

fn lowered_level(level: &GuyLevel, guys: &[StandingGuy]) -> Option<GuyLevel> {
    let own: Vec<&StandingGuy> =
        guys.iter().filter(|guy| guy.level.id == level.id && is_made_fast(guy)).collect();
    let attach_height_m = own.first()?.attach_height_m;
    let at = |guy: &&StandingGuy| PointFix::Coordinates {
        east_m: guy.planned.east_m,
        north_m: guy.planned.north_m,
    };
    let anchor_layout = AnchorLayout::Free { anchors: own.iter().map(at).collect() };
    Some(GuyLevel { attach_height_m, anchor_layout, ..level.clone() })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::compute;

    /// What the ropes of the raised mast come too near to is said of those and no second time; what only the ropes of the mast run down
    /// come too near to is told as theirs, each once.
    #[test]
    fn what_is_said_of_the_raised_mast_is_not_said_again() {
        let job = crate::demo::lantern_green();
        let computed = compute(&job).expect("the demo can be placed");
        let lowered = made_fast_again(&job, &computed).expect("its upper guys are made fast again");
        let lowered = compute(&lowered).expect("it can be placed");
        let of_ropes: Vec<Finding> = lowered.plan.findings.into_iter().filter(is_of_a_rope).collect();
        let raised = &computed.plan.findings;
        let again = of_ropes.iter().filter(|it| raised.iter().any(|other| other.is_about_the_same(it)));
        let again = again.count();
        assert!(again > 0, "the demo shows both");
        assert_eq!(findings(&job, &computed).len(), of_ropes.len() - again);
    }
}
