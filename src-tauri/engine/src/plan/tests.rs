use super::{FixedPoints, compute, compute_placed, survey};
use crate::demo::{lantern_green, yardstick};
use crate::finding::points::PointRule;
use crate::finding::{Finding, Rule, Severity};
use crate::job::{Job, PointFix, Shape};

fn stops(job: &Job) -> Vec<&'static str> {
    let is_stop = |finding: &&Finding| finding.severity == Severity::Stop;
    let plan = compute(job).expect("the demo can be placed").plan;
    plan.findings.iter().filter(is_stop).map(|finding| finding.rule.name()).collect()
}

#[test]
fn the_demo_as_first_placed_has_conflicts() {
    assert_eq!(stops(&lantern_green()), ["anchor_near_path", "path_headroom", "anchor_in_buried_zone"]);
}

#[test]
fn the_demo_has_a_place_without_any() {
    let mut job = lantern_green();
    job.placement.mast = PointFix::Coordinates { east_m: -9.4, north_m: -18.3 };
    job.placement.guy_turn_deg = 32.0;
    assert_eq!(stops(&job), Vec::<&str>::new());
}

#[test]
fn tapes_that_do_not_meet_are_named_all_at_once() {
    let mut job = yardstick();
    let short = |tape_m| PointFix::TwoTapes {
        from_a: "A".to_owned(),
        tape_a_m: tape_m,
        from_b: "B".to_owned(),
        tape_b_m: 1.0,
        side: Some(crate::job::Side::Left),
    };
    job.yard.spot_heights[0].at = short(2.0);
    job.yard.spot_heights[1].at = short(3.0);
    let errors = compute(&job).expect_err("two spots can't be placed").errors;
    let paths: Vec<&str> = errors.iter().map(|error| error.path.as_str()).collect();
    assert_eq!(paths, ["/yard/spot_heights/0/at", "/yard/spot_heights/1/at"]);
}

#[test]
fn a_turn_of_all_marks_at_once_is_no_doubt_about_a_clearance() {
    // The compass turns the demo's marks by degrees, but the path and the mast hang on the same marks by tape.
    let computed = compute(&yardstick()).expect("the demo can be placed");
    let path = computed.yard.obstacles.iter().find(|thing| thing.id == "path").expect("the demo has a path");
    assert!(path.sigma_m < 0.1, "{}", path.sigma_m);
    let far = computed.plan.points.iter().find(|point| point.path == "/yard/marks/2/at").expect("mark C");
    assert!(far.ellipse_95.semi_major_m > 0.5);
}

/// One side left open: the thing is left out and named, all else is planned as before.
#[test]
fn a_side_left_open_does_not_stop_the_plan() {
    let whole = compute(&yardstick()).unwrap().plan;
    let mut job = yardstick();
    let Shape::Tree { at: PointFix::TwoTapes { side, .. }, .. } = &mut job.yard.obstacles[1].shape else {
        panic!("the apple tree is found by two tapes")
    };
    *side = None;
    let computed = compute(&job).unwrap();
    let plan = &computed.plan;
    assert!(computed.yard.obstacles.iter().all(|obstacle| obstacle.id != "apple"));
    assert_eq!(plan.mast, whole.mast);
    assert_eq!(plan.open_points.len(), 1);
    assert_eq!(plan.open_points[0].path, "/yard/obstacles/1/shape/at");
    let truth = whole.points.iter().find(|point| point.path == plan.open_points[0].path).unwrap();
    let [left, _] = plan.open_points[0].candidates[..] else { panic!("two places") };
    assert_eq!(left, [truth.east_m, truth.north_m]);
    let asked: Vec<_> = plan.findings.iter().filter(|finding| finding.rule == "side_not_known").collect();
    assert_eq!(asked.len(), 1);
    assert_eq!(asked[0].severity, Severity::Unchecked);
    let rule = PointRule::SideNotKnown { name: "Old apple tree".to_owned() };
    assert_eq!(asked[0].rule, Rule::from(rule));
}

/// Points that were located once serve every place of the mast; the mast's own is where it is put.
#[test]
fn points_of_the_yard_are_located_once() {
    let mut job = yardstick();
    let surveyed = survey(&job.yard, job.units).unwrap();
    let points = FixedPoints::of(&surveyed, &job);
    for [east_m, north_m] in [[1.25, -2.5], [-3.0, 4.0]] {
        job.placement.mast = PointFix::Coordinates { east_m, north_m };
        let placed = compute_placed(&surveyed, &points, &job).unwrap().plan;
        let mast = placed.points.last().unwrap();
        assert_eq!(mast.path, "/placement/mast");
        assert_eq!([mast.east_m, mast.north_m], [east_m, north_m]);
        let whole = compute(&job).unwrap().plan;
        assert_eq!(placed.points, whole.points);
        assert_eq!(placed.findings, whole.findings);
        assert_eq!(placed.clearances, whole.clearances);
        assert!(placed.pegs.is_empty() && !whole.pegs.is_empty());
        // Nobody has asked how sure the gaps are.
        assert!(placed.base.legs.iter().all(|leg| leg.gap_centre_m.half_width_95 == f64::INFINITY));
    }
}
