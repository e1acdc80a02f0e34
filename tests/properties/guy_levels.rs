//! Levels of guys may be entered in any order: the plan is the same.

use mastwright_engine::job::{AnchorLayout, GuyLevel, Job, PointFix, read_job};
use mastwright_engine::plan::{Plan, compute};
use proptest::prelude::*;

const YARDSTICK: &str = include_str!("../data/yardstick-53a387c.json");

fn level(of: &GuyLevel, id: &str, attach_height_m: f64, count: u8, anchors: AnchorLayout) -> GuyLevel {
    GuyLevel {
        id: id.into(),
        name: format!("The {id} guys"),
        attach_height_m,
        count,
        anchor_layout: anchors,
        ..of.clone()
    }
}

fn with_levels(levels: Vec<GuyLevel>) -> Job {
    let mut job = read_job(YARDSTICK).expect("the yardstick is a job");
    job.rig.guy_levels = levels;
    job
}

/// The plan without the places in the document from which its points were read: those follow the list.
fn plan(job: &Job) -> Plan {
    let mut plan = compute(job).expect("the job can be planned").plan;
    plan.points.retain(|point| !point.path.starts_with("/rig/guy_levels"));
    plan
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn the_plan_of_two_levels_does_not_depend_on_their_order(
        (one_m, other_m) in (0.5..5.4_f64, 0.5..5.4_f64).prop_filter("two heights", |(a, b)| (a - b).abs() > 0.05),
        radius_m in 1.5..6.0_f64,
        angle_deg in 25.0..65.0_f64,
        count in 3..=4_u8,
        free: bool,
    ) {
        let base = read_job(YARDSTICK).expect("the yardstick is a job").rig.guy_levels.remove(0);
        let at = |east_m: f64, north_m: f64| PointFix::Coordinates { east_m, north_m };
        let anchors = if free {
            AnchorLayout::Free { anchors: vec![at(-1.0, -12.0), at(-6.0, -21.0), at(-10.0, -14.0)] }
        } else {
            AnchorLayout::EqualRadius { radius_m }
        };
        let first = level(&base, "one", one_m, if free { 3 } else { count }, anchors);
        let second = level(&base, "other", other_m, 3, AnchorLayout::EqualAngle { angle_deg });
        let lowest = if one_m < other_m { "one" } else { "other" };
        let plan_a = plan(&with_levels(vec![first.clone(), second.clone()]));
        let plan_b = plan(&with_levels(vec![second, first]));
        prop_assert_eq!(plan_a.guys.first().map(|guy| guy.level_id.as_str()), Some(lowest));
        prop_assert_eq!(plan_a, plan_b);
    }
}
