//! What must hold for every plan: it turns with its yard, it mirrors with it, and its pegs can be found
//! again by their own tapes. These are symmetries of geometry; no publication is needed.

use crate::moved::Move;
use mastwright_engine::demo::lantern_green;
use mastwright_engine::finding::Severity;
use mastwright_engine::job::{BearingReference, Job, PointFix, Side};
use mastwright_engine::plan::{Computed, Plan, compute};
use proptest::prelude::*;

/// The demo with its bearings taken as true, so that it may be turned.
fn demo() -> Job {
    let mut job = lantern_green();
    job.yard.bearings = BearingReference::True;
    job
}

fn computed(job: &Job) -> Computed {
    compute(job).expect("the demo can be placed")
}

fn assert_near(what: &str, left: f64, right: f64, tolerance: f64) {
    assert!((left - right).abs() <= tolerance, "{what}: {left} and {right}");
}

fn assert_same_point(what: &str, moved: [f64; 2], expected: [f64; 2]) {
    assert_near(what, moved[0], expected[0], 1e-6);
    assert_near(what, moved[1], expected[1], 1e-6);
}

/// Lengths stay, points move; `partner` finds the guy that takes this one's place.
fn assert_moved(before: &Plan, after: &Plan, by: Move, partner: impl Fn(usize, usize) -> usize) {
    let mast = |plan: &Plan| [plan.mast.east_m, plan.mast.north_m];
    assert_same_point("mast", mast(after), by.point(mast(before)));
    assert_near("slope", after.ground.slope_deg.value, before.ground.slope_deg.value, 1e-9);
    for (name, mirrored) in [("front", "front"), ("right", "left"), ("left", "right")] {
        let was = if matches!(by, Move::Mirror) { mirrored } else { name };
        let gap = |plan: &Plan, id: &str| {
            plan.base.legs.iter().find(|leg| leg.id == id).map(|leg| leg.gap_centre_m)
        };
        let (now, then) = (gap(after, name).unwrap(), gap(before, was).unwrap());
        assert_near("foot", now.value, then.value, 1e-9);
        assert_near("foot's interval", now.half_width_95, then.half_width_95, 1e-6);
    }
    for (index, guy) in after.guys.iter().enumerate() {
        let was = &before.guys[partner(index, after.guys.len())];
        assert_same_point("anchor", [guy.east_m, guy.north_m], by.point([was.east_m, was.north_m]));
        assert_near("tape", guy.tape_m, was.tape_m, 1e-6);
        assert_near("angle", guy.angle_deg, was.angle_deg, 1e-6);
        assert_near("cut", guy.cut_m.value, was.cut_m.value, 1e-6);
        assert_near("cut's interval", guy.cut_m.half_width_95, was.cut_m.half_width_95, 1e-6);
    }
    let stops =
        |plan: &Plan| plan.findings.iter().filter(|finding| finding.severity == Severity::Stop).count();
    assert_eq!(stops(after), stops(before), "a moved yard has the same conflicts");
    let distances = |plan: &Plan| -> Vec<f64> {
        let mut distances: Vec<f64> = plan.clearances.iter().map(|clearance| clearance.distance_m).collect();
        distances.sort_by(f64::total_cmp);
        distances
    };
    for (now, then) in distances(after).into_iter().zip(distances(before)) {
        assert_near("clearance", now, then, 1e-6);
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn turning_the_yard_turns_the_plan(by_deg in 0.0..360.0f64) {
        let by = Move::Turn { by_deg };
        let (before, after) = (computed(&demo()), computed(&by.job(&demo())));
        assert_moved(&before.plan, &after.plan, by, |index, _| index);
    }

    #[test]
    fn a_mirrored_yard_has_a_mirrored_plan(guy_turn_deg in -180.0..180.0f64, front_bearing_deg in 0.0..360.0f64) {
        let mut job = demo();
        job.placement.guy_turn_deg = guy_turn_deg;
        job.placement.front_bearing_deg = front_bearing_deg;
        let (before, after) = (computed(&job), computed(&Move::Mirror.job(&job)));
        // Of each level the first guy keeps its place; the others come in the opposite order.
        let of_level = usize::from(job.rig.guy_levels[0].count);
        let partner = |index: usize, _| index - index % of_level + (of_level - index % of_level) % of_level;
        assert_moved(&before.plan, &after.plan, Move::Mirror, partner);
    }

    #[test]
    fn every_peg_lands_on_its_own_ties(east_m in -3.0..3.0f64, north_m in -3.0..3.0f64) {
        let mut job = demo();
        let before = computed(&job);
        let at = [before.plan.mast.east_m + east_m, before.plan.mast.north_m + north_m];
        job.placement.mast = PointFix::Coordinates { east_m: at[0], north_m: at[1] };
        let after = computed(&job);
        let mark = |id: &str| after.yard.marks.iter().find(|mark| mark.id == id).expect("a tie names a mark").at;
        let mut tied = 0;
        for peg in &after.plan.pegs {
            let Some(ties) = &peg.ties else { continue };
            let found = intersection(mark(&ties.mark_a), ties.plan_a_m, mark(&ties.mark_b), ties.plan_b_m, ties.side);
            assert_same_point(&peg.name, found, [peg.east_m, peg.north_m]);
            tied += 1;
        }
        prop_assert!(tied >= 4, "the demo's marks serve for the mast and its anchors, found {tied}");
    }
}

/// Where two circles meet, on the stated side of the line from the first centre to the second
/// (plane geometry, written here apart from the engine).
fn intersection(a: [f64; 3], radius_a: f64, b: [f64; 3], radius_b: f64, side: Side) -> [f64; 2] {
    let [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    let span = dx.hypot(dy);
    let along = (span * span + radius_a * radius_a - radius_b * radius_b) / (2.0 * span);
    let across = (radius_a * radius_a - along * along).max(0.0).sqrt();
    let left = match side {
        Side::Left => across,
        Side::Right => -across,
    };
    [a[0] + (along * dx - left * dy) / span, a[1] + (along * dy + left * dx) / span]
}
