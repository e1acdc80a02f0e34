use crate::demo::yardstick;
use crate::finding::{Severity, Subject};
use crate::job::{AsBuilt, AsBuiltAnchor, AsBuiltLeg, BearingReference, Job, MAST_MARK, PointFix};
use crate::plan::{Plan, compute};

fn demo() -> Job {
    let mut job = yardstick();
    job.yard.bearings = BearingReference::True;
    job
}

fn plan(job: &Job) -> Plan {
    compute(job).unwrap_or_else(|errors| panic!("{errors}")).plan
}

fn from_mast(guy: &str, bearing_deg: f64, tape_m: f64) -> AsBuiltAnchor {
    let at = PointFix::BearingTape { from: MAST_MARK.to_owned(), bearing_deg, tape_m };
    AsBuiltAnchor { guy: guy.to_owned(), at: Some(at), eye_height_m: None }
}

#[test]
fn an_anchor_far_off_is_pointed_out_and_one_within_the_pegging_is_not() {
    let mut job = demo();
    let before = plan(&job);
    let guy = before.guys[0].clone();
    let mut with = |more_m: f64| {
        let anchors = vec![from_mast(&guy.id, guy.azimuth_deg, guy.tape_m + more_m)];
        job.as_built = Some(AsBuilt { anchors, ..AsBuilt::default() });
        plan(&job)
    };
    let near = with(0.02);
    let built = near.as_built.as_ref().expect("something was measured");
    let deviation = built.items[0].deviation.expect("its place was measured");
    // Fixes reduce a tape by the plane of the slopes alone, the plan by the surface: 4 mm apart here.
    assert!(!deviation.out_of_tolerance && (deviation.moved_m - 0.02).abs() < 6e-3, "{deviation:?}");
    let far = with(0.5);
    let built = far.as_built.as_ref().expect("something was measured");
    let at = far.findings.iter().position(|finding| finding.rule == "stands_far_from_plan").expect("noticed");
    assert!(built.new_findings.contains(&(at as u32)));
    assert_eq!(far.findings[at].severity, Severity::Caution);
    assert!(built.items[1].deviation.is_none() && built.items[1].guy.is_some());
    // The way out is along the guy.
    let turn =
        crate::quantity::bearing::turn_deg(guy.azimuth_deg, built.items[0].deviation.unwrap().bearing_deg);
    assert!(turn.abs() < 0.5, "{turn}");
}

#[test]
fn what_is_not_measured_goes_out_from_where_the_mast_stands() {
    let mut job = demo();
    let before = plan(&job);
    let at = [before.mast.east_m + 0.3, before.mast.north_m - 0.2];
    job.as_built = Some(AsBuilt {
        mast: Some(PointFix::Coordinates { east_m: at[0], north_m: at[1] }),
        front_bearing_deg: Some(job.placement.front_bearing_deg + 3.0),
        ..AsBuilt::default()
    });
    let stands = plan(&job);
    let mut chosen = job.clone();
    chosen.as_built = None;
    chosen.placement.mast = PointFix::Coordinates { east_m: at[0], north_m: at[1] };
    chosen.placement.front_bearing_deg += 3.0;
    assert_eq!(stands.guys, plan(&chosen).guys);
    let item = &stands.as_built.expect("something was measured").items[0];
    assert_eq!((&item.subject, item.planned), (&Subject::Mast, [before.mast.east_m, before.mast.north_m]));
    assert!((item.deviation.unwrap().moved_m - 0.13_f64.sqrt()).abs() < 1e-9);
}

#[test]
fn a_measured_gap_takes_the_place_of_the_computed_one() {
    let mut job = demo();
    let legs = vec![AsBuiltLeg { leg: "front".to_owned(), gap_m: 0.2 }];
    job.as_built = Some(AsBuilt { legs, ..AsBuilt::default() });
    let (before, after) = (plan(&demo()), plan(&job));
    let (was, is) = (&before.base.legs[0], &after.base.legs[0]);
    assert!((is.gap_centre_m.value - 0.2).abs() < 1e-12 && is.gap_centre_m.half_width_95 < 0.005);
    // The saw cut stays: inner and outer face differ as before.
    assert!((is.gap_outer_m - is.gap_inner_m - (was.gap_outer_m - was.gap_inner_m)).abs() < 1e-9);
    assert_eq!(after.as_built.expect("measured").legs.len(), 1);
}

#[test]
fn what_belongs_to_nothing_or_has_two_places_says_so() {
    let mut job = demo();
    let open = PointFix::TwoTapes {
        from_a: "A".to_owned(),
        tape_a_m: 24.0,
        from_b: "B".to_owned(),
        tape_b_m: 24.0,
        side: None,
    };
    let anchor = AsBuiltAnchor { guy: "upper-1".to_owned(), at: Some(open), eye_height_m: None };
    let anchors = vec![anchor, from_mast("gone-1", 0.0, 3.0)];
    job.as_built = Some(AsBuilt { anchors, ..AsBuilt::default() });
    let rules: Vec<&str> = plan(&job).findings.iter().map(|finding| finding.rule.name()).collect();
    for rule in ["side_not_known_as_built", "measured_anchor_without_guy"] {
        assert!(rules.contains(&rule), "{rule}: {rules:?}");
    }
}
