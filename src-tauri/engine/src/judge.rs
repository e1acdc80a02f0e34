//! A job looked at whole: its plan, with what reaches in between its strands, whether it stands in still air, its ropes
//! when it is run down and how it goes up among the findings, and its verdict.

mod run_down;

use crate::finding::Finding;
use crate::job::Job;
use crate::plan::{Clearance, Computed, Plan, compute, surfaces};
use crate::quantity::FieldErrors;
use crate::raising;
use crate::verdict::Verdict;
use crate::wind_capacity;

/// The plan of a job with its verdict: whether it stands in still air is among its findings, and what stands in its way
/// when it goes up, or what nobody has said of that.
///
/// # Errors
/// As [`compute`].
///
/// # Examples
/// ```
/// use mastwright_engine::job::blank;
/// use mastwright_engine::quantity::{UnitSystem, Units};
/// use mastwright_engine::judge::judged;
/// use mastwright_engine::verdict::Verdict;
///
/// // A job that somebody has just begun: nobody knows yet.
/// let job = blank(Units { system: UnitSystem::Metric, inch_fraction: 16 });
/// let plan = judged(&job).expect("it can be placed").plan;
/// assert!(matches!(plan.verdict, Some(Verdict::NotKnown { missing, .. }) if !missing.is_empty()));
/// ```
pub fn judged(job: &Job) -> Result<Computed, FieldErrors> {
    let mut computed = compute(job)?;
    let (between, nearest) = between_strands(job, &computed);
    with_findings(&mut computed.plan, between);
    with_clearances(&mut computed.plan, nearest);
    let (still, missing) = wind_capacity::still_and_missing(job, &computed.layout);
    with_findings(&mut computed.plan, still);
    let ropes_run_down = run_down::findings(job, &computed);
    with_findings(&mut computed.plan, ropes_run_down);
    let of_raising = raising::findings_as_said(job, &computed);
    with_findings(&mut computed.plan, of_raising);
    computed.plan.verdict = Some(Verdict::of(&computed.plan.findings, missing));
    Ok(computed)
}

/// What reaches in between two strands: not asked while a finger drags.
fn between_strands(job: &Job, computed: &Computed) -> (Vec<Finding>, Vec<Clearance>) {
    let known = &computed.plan.findings;
    surfaces(job, &computed.layout, &computed.yard, &computed.ground, known)
}

fn with_clearances(plan: &mut Plan, more: Vec<Clearance>) {
    let margin = |it: &Clearance| it.distance_m - it.needed_m;
    for clearance in more {
        let at = plan.clearances.partition_point(|other| margin(other) <= margin(&clearance));
        plan.clearances.insert(at, clearance);
    }
}

/// Puts each finding in its place, which is after the others of its severity; the places of what is new since pegging out
/// go on with them.
fn with_findings(plan: &mut Plan, more: Vec<Finding>) {
    for finding in more {
        let at = plan.findings.partition_point(|other| other.severity <= finding.severity);
        plan.findings.insert(at, finding);
        let places = plan.as_built.iter_mut().flat_map(|built| &mut built.new_findings);
        places.filter(|place| **place >= at as u32).for_each(|place| *place += 1);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::guys::{GuyRemedy, GuyRule};
    use crate::finding::wind::WindRemedy;
    use crate::finding::{Severity, Subject};
    use crate::job::{AnchorKind, AnchorLayout, PointFix, SoilFeel};
    use crate::wind_capacity::MissingEntry;

    fn yardstick() -> Job {
        crate::job::read_job(include_str!("../../../tests/data/yardstick-53a387c.json")).unwrap()
    }

    fn verdict(job: &Job) -> Verdict {
        judged(job).unwrap().plan.verdict.unwrap()
    }

    #[test]
    fn not_known_stands_between_stop_and_look() {
        let finding = |severity| {
            Finding::rule_of_thumb(severity, GuyRule::Steep, Subject::Mast, GuyRemedy::AnchorNearer)
        };
        let entry = wind_capacity::missing_of(&blank(), &compute(&blank()).unwrap().layout);
        use Severity::{Caution, Note, Stop, Unchecked};
        let of = |severities: &[Severity], missing: &[MissingEntry]| {
            let findings: Vec<Finding> = severities.iter().copied().map(finding).collect();
            Verdict::of(&findings, missing.to_vec())
        };
        assert_eq!(of(&[], &[]), Verdict::Look { cautions: 0 });
        assert_eq!(of(&[Caution, Note], &[]), Verdict::Look { cautions: 1 });
        assert_eq!(of(&[Unchecked, Caution], &[]), Verdict::NotKnown { missing: vec![], unchecked: 1 });
        assert_eq!(of(&[], &entry), Verdict::NotKnown { missing: entry.clone(), unchecked: 0 });
        let stop = Verdict::Stop { stops: 1, missing: entry.clone(), unchecked: 1 };
        assert_eq!(of(&[Stop, Unchecked], &entry), stop);
    }

    fn blank() -> Job {
        let units = crate::quantity::Units { system: crate::quantity::UnitSystem::Metric, inch_fraction: 16 };
        crate::job::blank(units)
    }

    /// The issue's two masts that cannot stand in still air, and one that can.
    #[test]
    fn what_cannot_stand_in_still_air_is_a_stop_of_the_plan() {
        let stops = |job: &Job| -> Vec<&'static str> {
            let plan = judged(job).unwrap().plan;
            let stops = plan.findings.iter().filter(|finding| finding.severity == Severity::Stop);
            stops.map(|finding| finding.rule.name()).filter(|rule| rule.contains("still_air")).collect()
        };
        assert!(stops(&yardstick()).is_empty());
        let mut one_spot = yardstick();
        let spot = PointFix::Coordinates { east_m: -12.0, north_m: -20.0 };
        one_spot.rig.guy_levels[0].anchor_layout = AnchorLayout::Free { anchors: vec![spot; 3] };
        assert_eq!(stops(&one_spot), ["stands_not_in_still_air"]);
        assert!(verdict(&one_spot).says_stop());
        let mut tight = yardstick();
        tight.rig.guy_levels[0].tension_n = 20_000.0;
        tight.rig.guy_levels[0].rope.strength.minimum_n = Some(7800.0);
        assert!(stops(&tight).contains(&"overloaded_in_still_air"));
        // It stops also where nothing else is known.
        let mut unknown = tight;
        unknown.yard.soil = SoilFeel::Unknown;
        unknown.rig.guy_levels[0].anchor = AnchorKind::Unknown;
        assert!(verdict(&unknown).says_stop());
    }

    /// A finding about the base once led to the page of the tubes, where nothing helps.
    #[test]
    fn what_is_overloaded_in_still_air_leads_to_where_it_is_entered() {
        // Without the board under their joint the timbers to begin with span freely from foot to foot.
        let mut job = blank();
        job.rig.base.joint_pad_mm = None;
        let found = judged(&job).unwrap().plan.findings;
        let timber = found.iter().find(|finding| finding.rule == "overloaded_in_still_air").unwrap();
        assert_eq!(timber.subject, Subject::Base);
        assert_eq!(timber.remedy, WindRemedy::RelieveBaseTimber.into());
    }

    #[test]
    fn what_is_new_since_pegging_out_keeps_its_places() {
        let finding = |severity, rule: GuyRule| {
            Finding::rule_of_thumb(severity, rule, Subject::Mast, GuyRemedy::AnchorNearer)
        };
        let mut plan = compute(&yardstick()).unwrap().plan;
        plan.findings =
            vec![finding(Severity::Stop, GuyRule::DoesNotRise), finding(Severity::Caution, GuyRule::Flat)];
        plan.as_built =
            Some(crate::plan::AsBuiltResult { items: vec![], legs: vec![], new_findings: vec![0, 1] });
        with_findings(&mut plan, vec![finding(Severity::Stop, GuyRule::OnGround)]);
        let new = plan.as_built.unwrap().new_findings;
        let rules: Vec<&str> = new.iter().map(|&at| plan.findings[at as usize].rule.name()).collect();
        assert_eq!(rules, ["guy_does_not_rise", "guy_flat"]);
        assert_eq!(plan.findings[1].rule, "guy_on_ground");
    }
}
