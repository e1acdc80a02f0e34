//! Turning the mast up: each rule by a yard that breaks it and one that just keeps it, with sums by hand on level ground.

use mastwright_engine::finding::raising::{RaisingRule, SweptPart};
use mastwright_engine::finding::{Finding, Quantity, Rule, Severity};
use mastwright_engine::job::{FastBefore, Hinge, Job, StrandsInTilt, read_job_value};
use mastwright_engine::quantity::estimate::COVERAGE_95;
use mastwright_engine::raising::{GuyDoes, GuyRole, RaiseWay, SideHold, raise_ways};
use serde_json::{Value, json};

use crate::cramped_yard::at;
use crate::raising::{computed, find, length, meadow, post, rules, said, these, ways, with};

/// Half of the lower tube's 2.375 in.
const RADIUS_M: f64 = 2.375 * 0.0254 / 2.0;
/// From the ground to the foot, and from there to the top.
const FOOT_M: f64 = 0.1397 + 0.00635;
const TUBES_M: f64 = 2.0 * 3.048 - 0.6096;

fn changed(job: &Job, change: impl FnOnce(&mut Value)) -> Job {
    let mut job = serde_json::to_value(job).unwrap();
    change(&mut job);
    read_job_value(&job).unwrap_or_else(|errors| panic!("{errors}"))
}

/// The meadow with bearings read to so many degrees (one sigma), and its things placed to 5 mm.
fn read_to(sigma_deg: f64) -> Job {
    let mut job = meadow();
    job.yard.instruments.bearing_sigma_deg = sigma_deg;
    job.yard.instruments.sketched_sigma_m = 0.005;
    job
}

fn thing(shape: Value) -> Value {
    json!({ "id": "thing", "name": "Thing", "shape": shape, "keep_off_m": 0.3 })
}

fn has(way: &RaiseWay, rule: &str) -> bool {
    way.findings.iter().any(|it| it.rule == rule)
}

fn half_width(finding: &Finding) -> f64 {
    finding.measured_half_width_95.expect("it has an interval")
}

/// A post 3 m out and 0.5 m beside the way is 0.37 m off: 0.3 m are kept where the bearing is read to half a degree
/// (3 m · 0.5° · 1.96 = 0.05 m), and are in doubt where it is read to two (0.2 m). Such a way is not clear.
#[test]
fn a_bearing_read_badly_puts_a_post_in_doubt() {
    let with_post = |sigma_deg: f64| with(&read_to(sigma_deg), "obstacles", post([3.0, 0.5], 4.0));
    let sure = said(&with_post(0.5));
    assert!(sure.clear && !has(&sure, "tilt_near_post"), "{:?}", sure.findings);
    let job = with_post(2.0);
    let sigma_m = computed(&job).yard.obstacles[0].sigma_m;
    let way = said(&job);
    let found = find(&way.findings, "tilt_near_post");
    assert!(!way.clear && found.severity == Severity::Caution, "{found:?}");
    assert!((length(found) - (0.4 - RADIUS_M)).abs() < 1.5e-3);
    let by_hand = COVERAGE_95 * (3.0 * 2.0_f64.to_radians()).hypot(sigma_m);
    assert!((half_width(found) - by_hand).abs() < 1e-6, "{found:?} {by_hand}");
}

/// The mast lies almost level, 1.5 m up, over a post 1 m high: 0.49 m off by its height as measured; where that is known to
/// 0.1 m the post reaches 0.196 m higher, and 0.3 m are in doubt.
#[test]
fn a_height_known_badly_puts_a_post_in_doubt() {
    let over = |sigma_m: f64| {
        let mut job = read_to(0.01);
        (job.raising.hinge, job.raising.rest_height_m) = (Hinge::Pin { height_m: 1.5 }, 1.5);
        let mut low = post([3.0, 0.0], 1.0);
        low["shape"]["height_sigma_m"] = json!(sigma_m);
        said(&with(&job, "obstacles", low))
    };
    let lying_rad = (RADIUS_M / (FOOT_M + TUBES_M - 1.5)).atan();
    // From the axis to the near edge of the post's top, 2.9 m out and 0.5 m under the pin.
    let by_hand = 2.9 * lying_rad.sin() + 0.5 * lying_rad.cos() - RADIUS_M;
    let sure = over(0.01);
    assert!((sure.lying_deg - lying_rad.to_degrees()).abs() < 1e-6);
    assert!((sure.clearances[0].distance_m - by_hand).abs() < 1.5e-3 && sure.clear, "{:?}", sure.clearances);
    let doubted = over(0.1);
    let found = find(&doubted.findings, "tilt_near_post");
    assert!(
        !doubted.clear && found.severity == Severity::Caution && (length(found) - by_hand).abs() < 1.5e-3
    );
    assert!(half_width(found) >= COVERAGE_95 * 0.1 * 0.99, "{found:?}");
}

/// A wire that the mast's top passes 3.15 m off, where 3.048 m (10 ft) are to be kept: with the bearing read to 5° its 95 %
/// interval is 4 m · 5° · 1.96 = 0.68 m wide to each side. Near a wire doubt is a stop.
#[test]
fn near_a_wire_doubt_is_a_stop() {
    let reach_m = FOOT_M + TUBES_M - 0.3;
    let off_m = 3.15;
    let out_m = ((reach_m + RADIUS_M + off_m).powi(2) - 5.7_f64.powi(2)).sqrt();
    let support = |north: f64| json!({ "at": at([out_m, north]), "wire_height_m": 6.0 });
    let wire = json!({ "id": "wire", "name": "Wire", "voltage_kv": 0.24,
                       "supports": [support(-30.0), support(30.0)], "sag_m": 0.0, "height_sigma_m": 0.0 });
    let sure = said(&with(&read_to(0.2), "overhead_lines", wire.clone()));
    assert!(sure.clear && !has(&sure, "tilt_near_overhead_line"), "{:?}", sure.findings);
    let job = with(&read_to(5.0), "overhead_lines", wire);
    let sigma_m = computed(&job).yard.overhead_lines[0].sigma_m;
    let way = said(&job);
    let found = find(&way.findings, "tilt_near_overhead_line");
    assert!(matches!(&found.rule, Rule::Raising(RaisingRule::SweepNearLine { in_doubt: true, .. })));
    assert!(
        !way.clear && found.severity == Severity::Stop && (length(found) - off_m).abs() < 2e-3,
        "{found:?}"
    );
    let top_out_m = reach_m * (5.7_f64 / out_m).atan().cos();
    let by_hand = COVERAGE_95 * (top_out_m * 5.0_f64.to_radians()).hypot(sigma_m);
    assert!((half_width(found) - by_hand).abs() < 0.01, "{found:?} {by_hand}");
}

/// A slack rope hangs over what stands in the triangle of its eye, the mast and where its collar lies; over a way there, too.
/// What is carried clear hangs over nothing. The same to the left of the way and to the right.
#[test]
fn slack_ropes_hang_over_what_is_under_them() {
    for (front_deg, guy) in [(0.0, "upper-2"), (60.0, "upper-1")] {
        let mut job = read_to(0.1);
        job.placement.front_bearing_deg = front_deg;
        job.raising.fast_before = FastBefore::AsNeeded;
        let guys = computed(&job).plan.guys;
        let planned = guys.iter().find(|it| it.id == guy).unwrap();
        let [east, north, _] = planned.eye;
        let side = said(&job).guys.iter().find(|it| it.id == guy).unwrap().clone();
        assert!(side.role == GuyRole::Stop && side.on_right == (north < 0.0), "{side:?}");
        let over = |found: &RaiseWay| {
            let ropes = found.findings.iter().filter(|it| it.rule == "slack_rope_over_thing");
            ropes.map(|it| it.subject.clone()).collect::<Vec<_>>()
        };
        let only = [mastwright_engine::finding::Subject::Guy { id: guy.into() }];
        let collar_out_m = 3.9624 + FOOT_M - 0.3;
        let middle = [(east + collar_out_m) / 3.0, north / 3.0];
        // 0.3 m high: the taut rope passes more than 2 m over it.
        let under = said(&with(&job, "obstacles", post(middle, 0.3)));
        assert!(over(&under).contains(&only[0]), "{:?}", under.findings);
        let of_this = |it: &&Finding| it.rule == "slack_rope_over_thing" && it.subject == only[0];
        let found = under.findings.iter().find(of_this).unwrap();
        assert!(found.measured.is_none() && found.severity == Severity::Caution && under.clear, "{found:?}");
        // As far to the other side of the way this rope is not.
        let across = said(&with(&job, "obstacles", post([middle[0], -middle[1]], 0.3)));
        assert!(!over(&across).contains(&only[0]));
        // Beyond the eye, but within 0.3 m of the taut rope.
        let [back_east, back_north] = [0.2, 0.2].map(|m: f64| m / east.hypot(north)).map(|m| 1.0 + m);
        let beyond = said(&with(&job, "obstacles", post([east * back_east, north * back_north], 0.3)));
        assert!(over(&beyond).contains(&only[0]), "{:?}", beyond.findings);
        let line = [at([middle[0] - 0.2, middle[1]]), at([middle[0] + 0.2, middle[1]])];
        let way =
            json!({ "kind": "path", "used_by": "foot", "line": line, "width_m": 0.3, "headroom_m": null });
        assert!(over(&said(&with(&job, "obstacles", thing(way)))).contains(&only[0]));
        // Out where only the lying mast's rope comes: at 45° its collar is 2.7 m out.
        let far = [0.2 * east + 0.7 * collar_out_m, 0.2 * north];
        let line = [at([far[0] - 0.05, far[1]]), at([far[0] + 0.05, far[1]])];
        let way =
            json!({ "kind": "path", "used_by": "foot", "line": line, "width_m": 0.1, "headroom_m": null });
        assert!(over(&said(&with(&job, "obstacles", thing(way)))).contains(&only[0]));
    }
    // Between an untied far guy's eye and the mast: two side guys hold without its help.
    let free = bunch([0.0, 180.0, 270.0]);
    let far = said(&free).guys.iter().find(|it| it.angles[0].does == GuyDoes::Untied).unwrap().id.clone();
    let guys = computed(&free).plan.guys;
    let [east, north, _] = guys.iter().find(|it| it.id == far).unwrap().eye;
    let behind = said(&with(&free, "obstacles", post([east * 0.9, north * 0.9], 2.0)));
    assert!(!has(&behind, "slack_rope_over_thing"), "{:?}", behind.findings);
}

/// The rope of a far guy that a helper tends goes over what lies between its eye, the mast and where its collar lies.
#[test]
fn a_tended_far_guys_rope_is_swept_too() {
    // Two anchors behind and one before: both sides are held by the far guys, in helpers' hands.
    let mut job = bunch([90.0, 210.0, 330.0]);
    (job.raising.lies_toward_deg, job.raising.fast_before) = (Some(90.0), FastBefore::AsNeeded);
    job.yard.instruments.sketched_sigma_m = 0.005;
    let far = said(&job).guys.into_iter().find(|it| it.role == GuyRole::Far && it.on_right).unwrap();
    assert_eq!(far.angles[0].does, GuyDoes::Tended);
    // Half way to its eye, low on the ground.
    let (sin, cos) = 210.0_f64.to_radians().sin_cos();
    let way = said(&with(&job, "obstacles", post([2.0 * sin, 2.0 * cos], 0.3)));
    let of_far = |it: &&Finding| {
        it.rule == "slack_rope_over_thing"
            && it.subject == mastwright_engine::finding::Subject::Guy { id: far.id.clone() }
    };
    let found = way.findings.iter().find(of_far).expect("it hangs over the post");
    assert!(found.severity == Severity::Caution && way.clear == said(&job).clear, "{found:?}");
    assert!(way.swept.iter().any(|it| it.part == SweptPart::Rope { guy: far.name.clone() }));
}

/// Strands that hang pass as far beside the way as their upper ends are off the mast: a post 3 m out and 0.8 m beside it,
/// 0.1 m thick, is 0.8 − 0.1 − 0.25 − half a cord off, with the mast where its strands hang over the post.
#[test]
fn strands_that_hang_sweep_beside_the_mast() {
    let mut job = read_to(0.01);
    let strands = job.rig.strands.as_mut().unwrap();
    (strands.top_radius_m, strands.cord.diameter_mm) = (Some(0.25), Some(10.0));
    let top_m = FOOT_M + strands.top_height_m - 0.3;
    let job = with(&job, "obstacles", post([3.0, 0.8], 0.5));
    let without = said(&job);
    assert!(without.clearances[0].part == SweptPart::Mast, "{:?}", without.clearances);
    let mut hung = job.clone();
    (hung.raising.strands, hung.raising.strands_hang) = (StrandsInTilt::Unsaid, true);
    let way = said(&hung);
    let near = &way.clearances[0];
    assert!(
        near.part == SweptPart::Strands && (near.distance_m - (0.8 - 0.1 - 0.25 - 0.005)).abs() < 2e-3,
        "{near:?}"
    );
    let over_deg = (3.0 / top_m).acos().to_degrees();
    assert!((near.elevation_deg - over_deg).abs() < 3.0, "{near:?} {over_deg}");
    // What somebody says of them otherwise counts before it.
    hung.raising.strands = StrandsInTilt::PutOnLater;
    assert_eq!(said(&hung).clearances[0].part, SweptPart::Mast);
}

/// A rope that is not made fast swings round its collar: with the mast lying the collar is 3.8 m nearer to a wire far out
/// than at plumb. It is told with the angle, and not where the plan says so of the standing mast.
#[test]
fn a_loose_rope_near_a_wire_is_told_where_it_is_nearest() {
    let support = |out: f64, north: f64| json!({ "at": at([out, north]), "wire_height_m": 5.0 });
    let wire = |out: f64| {
        json!({ "id": "wire", "name": "Wire", "voltage_kv": 0.24, "sag_m": 0.0,
                                  "supports": [support(out, -30.0), support(out, 30.0)], "height_sigma_m": 0.0 })
    };
    let mut job = bunch([0.0, 180.0, 270.0]);
    job.yard.instruments.bearing_sigma_deg = 0.01;
    job.yard.instruments.sketched_sigma_m = 0.005;
    let way = |out: f64| said(&with(&job, "overhead_lines", wire(out)));
    let loose =
        way(30.0).guys.into_iter().find(|it| it.angles[0].does == GuyDoes::Untied).expect("the far guy");
    let rope_m = computed(&job).plan.guys.iter().find(|it| it.id == loose.id).unwrap().cut_m.value;
    let collar_m = 3.9624 + FOOT_M - 0.3;
    // From the pin: so far out and up. The collar's way round it comes nearest where it points at the wire.
    let out_m = ((collar_m + rope_m + 3.048 - 0.2).powi(2) - 4.7_f64.powi(2)).sqrt();
    let found = way(out_m);
    let told = find(&found.findings, "loose_end_near_overhead_line");
    let by_hand = out_m.hypot(5.0 - 0.3) - collar_m;
    assert!(
        (length(told) - by_hand).abs() < 0.06 && told.severity == Severity::Caution,
        "{told:?} {by_hand}"
    );
    let Rule::Raising(RaisingRule::LooseEndNearLine { at_deg, .. }) = told.rule else { panic!("{told:?}") };
    assert!((at_deg - (4.7 / out_m).atan().to_degrees()).abs() < 1.5, "{at_deg}");
    // 10 m behind it reaches the standing mast's rope, too: that is the plan's to say.
    let behind = with(&job, "overhead_lines", wire(-10.0));
    assert!(computed(&behind).plan.findings.iter().any(|it| it.rule == "loose_guy_reach"));
    assert!(!has(&said(&behind), "loose_end_near_overhead_line"));
    let blocked = |way: &RaiseWay| way.findings.iter().filter(|it| it.severity == Severity::Stop).count();
    assert_eq!(blocked(&found), blocked(&way(30.0)), "it stops nobody");
}

/// A far guy that nobody holds trails: its collar, 3.81 m from the pin, points at a post that far out along the way, whose top is as
/// high as the pin. What is farther than the rope is long is not within reach; a bed on the ground is, by its near edge.
#[test]
fn a_loose_rope_trails_over_what_lies_within_its_length() {
    let anchors = [[0.0, 4.0], [4.0, 0.0], [0.0, -4.0], [-4.0, 0.0]].map(at);
    let mut job = changed(&meadow(), |job| {
        job["rig"]["guy_levels"][0]["count"] = json!(4);
        job["rig"]["guy_levels"][0]["anchor_layout"] = json!({ "rule": "free", "anchors": anchors });
    });
    job.raising.fast_before = FastBefore::AsNeeded;
    let rope_m = computed(&job).plan.guys[3].cut_m.value;
    let collar_m = (3.9624 + FOOT_M - 0.3_f64).hypot(0.04);
    let told = |job: &Job| {
        let way = said(job);
        let found = find(&way.findings, "loose_end_on_ground").clone();
        let Rule::Raising(RaisingRule::TrailsOnGround { what, within }) = &found.rule else {
            panic!("{found:?}")
        };
        assert_eq!(what.as_slice(), [SweptPart::LooseRope { guy: way.guys[3].name.clone() }]);
        assert_eq!(way.score.map(|score| score.corridor), Some(1.0), "it is no worse than another way");
        (found.clone(), within.clone())
    };
    let (free, within) = told(&job);
    assert!(free.severity == Severity::Note && within.is_empty() && free.measured.is_none(), "{free:?}");
    let (near, within) = told(&with(&job, "obstacles", post([9.0, 0.0], 0.3)));
    assert!(near.severity == Severity::Caution && within == ["Post"], "{near:?}");
    assert!((length(&near) - (8.9 - collar_m)).abs() < 2e-3, "{near:?}");
    assert_eq!(near.limit.map(|it| it.quantity), Some(Quantity::LengthM { value: rope_m }));
    let just = told(&with(&job, "obstacles", post([collar_m + rope_m + 0.09, 0.0], 0.3)));
    assert_eq!(just.1, ["Post"]);
    let far = told(&with(&job, "obstacles", post([collar_m + rope_m + 0.11, 0.0], 0.3)));
    assert!(far.1.is_empty() && far.0.severity == Severity::Note);
    let outline = [[8.0, -0.5], [9.0, -0.5], [9.0, 0.5], [8.0, 0.5]].map(at);
    let bed = with(&job, "obstacles", thing(json!({ "kind": "keep_off", "outline": outline })));
    let (found, within) = told(&bed);
    assert!(
        within == ["Thing"] && (length(&found) - (8.0_f64.hypot(0.3) - collar_m)).abs() < 2e-3,
        "{found:?}"
    );
    // A helper's rope does not trail, nor do strands that are put on later.
    assert!(!has(&said(&meadow()), "loose_end_on_ground"));
}

/// A slack rope lies on a bed under it; a taut one, its eye on the hinge line, passes over.
#[test]
fn only_a_slack_rope_lies_on_a_bed() {
    let over = |pin_m: f64| {
        let mut job = read_to(0.1);
        (job.raising.hinge, job.rig.strands) = (Hinge::Pin { height_m: pin_m }, None);
        let outline = [[0.8, 2.0], [1.0, 2.0], [1.0, 2.2], [0.8, 2.2]].map(at);
        let bed = with(&job, "obstacles", thing(json!({ "kind": "keep_off", "outline": outline })));
        let way = said(&bed);
        let side = way.guys.iter().find(|it| it.role == GuyRole::Side).unwrap();
        let own = mastwright_engine::finding::Subject::Guy { id: side.id.clone() };
        let slack = side.angles.iter().any(|it| it.does == GuyDoes::Slack);
        (slack, way.findings.iter().any(|it| it.rule == "slack_rope_over_thing" && it.subject == own))
    };
    assert_eq!([over(0.3), over(0.1)], [(true, true), (false, false)]);
}

/// In plan the mast sweeps a strip as wide as it is thick, from its foot to where its end lies, and all of its way is in it.
#[test]
fn the_swept_ground_is_a_strip_by_hand() {
    let way = said(&meadow());
    let strip = &way.swept.iter().find(|it| it.part == SweptPart::Mast).unwrap().outline;
    let bound =
        |axis: usize, worse: fn(f64, f64) -> f64| strip.iter().map(|p| p[axis]).reduce(worse).unwrap();
    let lying = way.lying_deg.to_radians();
    let end_m = (FOOT_M + TUBES_M - 0.3) * lying.cos();
    // Its end is farthest out where it is level, which it passes on its way up.
    let far_m = if way.lying_deg < 0.0 { FOOT_M + TUBES_M - 0.3 } else { end_m };
    assert!((bound(0, f64::max) - far_m - RADIUS_M).abs() < 0.01, "{strip:?} {far_m}");
    assert!((bound(1, f64::max) - RADIUS_M).abs() < 0.01 && (bound(1, f64::min) + RADIUS_M).abs() < 0.01);
    assert!(bound(0, f64::min) < 0.0 && bound(0, f64::min) > -0.5, "the foot goes back a little");
}

/// The front leg turns up as the mast comes down: its tip, 1.29 m from the edge, passes 1 m up through a crown behind it that begins
/// there, and comes down again to where it lies.
#[test]
fn the_front_leg_goes_up_behind_the_hinge() {
    let way = |crown_base_m: f64| {
        let tree = json!({ "kind": "tree", "at": at([-3.0, 0.0]), "trunk_radius_m": 0.2, "crown_radius_m": 2.3,
                           "crown_base_m": crown_base_m, "height_m": 8.0, "height_sigma_m": null });
        let mut job = edge();
        (job.yard.instruments.sketched_sigma_m, job.yard.instruments.bearing_sigma_deg) = (0.005, 0.1);
        said(&with(&job, "obstacles", thing(tree)))
    };
    let hit = way(0.95);
    let found = find(&hit.findings, "tilt_near_tree");
    let Rule::Raising(RaisingRule::SweepNear { part, at_deg, .. }) = &found.rule else { panic!("{found:?}") };
    assert!(*part == SweptPart::FrontLeg && length(found) <= 0.0 && *at_deg < 60.0, "{found:?}");
    // Its tip goes no higher than it is long: a crown 1 m over that is clear.
    assert!(!has(&way(2.4), "tilt_near_tree"));
}

/// The nearest by what is to be kept comes first, not by the distance: 0.9 m where 0.85 m are asked, before 0.5 m where 0.3 m
/// are.
#[test]
fn the_least_margin_is_told_first() {
    let of = |id: &str, place: [f64; 2], keep_off_m: f64| {
        let mut it = post(place, 4.0);
        (it["id"], it["keep_off_m"]) = (json!(id), json!(keep_off_m));
        it
    };
    let one = with(&read_to(0.1), "obstacles", of("near", [3.0, 0.6 + RADIUS_M], 0.3));
    let both = said(&with(&one, "obstacles", of("far", [3.0, -1.0 - RADIUS_M], 0.85)));
    let listed: Vec<f64> = both.clearances.iter().map(|it| it.needed_m).collect();
    assert_eq!(listed, [0.85, 0.3]);
}

fn edge() -> Job {
    let mut job = meadow();
    (job.raising.hinge, job.placement.front_bearing_deg, job.placement.guy_turn_deg) =
        (Hinge::BaseEdge, 270.0, 90.0);
    job
}

/// A pipe 1 m from the edge's stakes that is 0.7 m thick leaves 0.65 m: less than 0.7 m, more than 0.6 m.
#[test]
fn stakes_of_the_edge_keep_off_the_edge_of_a_pipe() {
    let way = |tolerance_m: f64| {
        let line = [-30.0, 30.0].map(|north| at([0.0254 + 1.0, north]));
        let mut pipe =
            serde_json::to_value(crate::yardstick::yardstick()).unwrap()["yard"]["buried_services"][0]
                .clone();
        (pipe["line"], pipe["width_m"], pipe["tolerance_m"]) = (json!(line), json!(0.7), json!(tolerance_m));
        said(&with(&edge(), "buried_services", pipe))
    };
    let refused = way(0.7);
    let found = find(&refused.findings, "edge_stake_has_no_place");
    assert!(
        (length(found) - 0.65).abs() < 1e-3 && found.severity == Severity::Stop && !refused.clear,
        "{found:?}"
    );
    let kept = way(0.6);
    assert!(
        kept.findings.iter().all(|it| it.rule != "edge_stake_has_no_place" || it.severity != Severity::Stop)
    );
}

/// Tilting with its base it lies opposite to the front leg where nobody has said it, along the level ground but for half a
/// timber under its skin; the base may face 2° beside the bearing that was said, and no more.
#[test]
fn a_mast_fixed_in_its_base_lies_opposite_to_the_front_leg() {
    let facing = |toward_deg: Option<f64>| {
        let mut job = edge();
        job.raising.lies_toward_deg = toward_deg;
        said(&job)
    };
    let own = facing(None);
    assert!((own.lies_toward_deg - 90.0).abs() < 1e-9, "{}", own.lies_toward_deg);
    let by_hand = ((RADIUS_M - 0.01905) / (FOOT_M + TUBES_M)).atan().to_degrees();
    assert!((own.lying_deg - by_hand).abs() < 1e-6, "{} {by_hand}", own.lying_deg);
    assert!(!has(&facing(Some(91.5)), "base_faces_elsewhere"));
    for toward_deg in [93.0, 87.0] {
        let way = facing(Some(toward_deg));
        let found = find(&way.findings, "base_faces_elsewhere");
        let Some(Quantity::AngleDeg { value }) = found.measured else { panic!("{found:?}") };
        let most = found.limit.map(|it| it.quantity);
        assert!((value - 3.0).abs() < 1e-9 && most == Some(Quantity::AngleDeg { value: 2.0 }), "{found:?}");
    }
}

/// About a pin 0.2 m up, the cross leg's upper edge, 0.1397 m up and 1 m out, lifts the mast; obliquely it lies on the leg's
/// nearer corner, or only as far out as its side is still over the leg.
#[test]
fn the_timbers_of_a_base_that_stays_lift_the_mast() {
    let lying = |height_m: f64, toward_deg: f64| {
        let mut job = meadow();
        (job.raising.hinge, job.raising.lies_toward_deg) = (Hinge::Pin { height_m }, Some(toward_deg));
        said(&job).lying_deg
    };
    let on = |out_m: f64, up_m: f64| (up_m.atan2(out_m) + (RADIUS_M / out_m.hypot(up_m)).asin()).to_degrees();
    let up_m = 0.1397 - 0.2;
    assert!((lying(0.2, 90.0) - on(1.0, up_m)).abs() < 1e-6, "{} {}", lying(0.2, 90.0), on(1.0, up_m));
    let (sin, cos) = 2.0_f64.to_radians().sin_cos();
    let corner_m = cos + 0.01905 * sin;
    for toward_deg in [88.0, 92.0] {
        assert!((lying(0.2, toward_deg) - on(corner_m, up_m)).abs() < 1e-6, "{}", lying(0.2, toward_deg));
    }
    // At 5° its side leaves the leg's 0.56 m out.
    let (sin, cos) = 5.0_f64.to_radians().sin_cos();
    let leaves_m = (RADIUS_M * cos + 0.01905) / sin;
    assert!((0.5..0.6).contains(&leaves_m));
    assert!((lying(0.15, 95.0) - on(leaves_m, 0.1397 - 0.15)).abs() < 1e-6, "{}", lying(0.15, 95.0));
}

/// Three anchors in a bunch: what they leave free is not held, and it is told on which side.
fn bunched(bearings_deg: [f64; 3], toward_deg: f64) -> RaiseWay {
    let bunch = bunch(bearings_deg);
    let mut job = bunch;
    (job.raising.lies_toward_deg, job.raising.fast_before) = (Some(toward_deg), FastBefore::AsNeeded);
    said(&job)
}

fn bunch(bearings_deg: [f64; 3]) -> Job {
    changed(&meadow(), |job| {
        let anchors = bearings_deg.map(|deg| {
            let (sin, cos) = deg.to_radians().sin_cos();
            at([4.0 * sin, 4.0 * cos])
        });
        job["rig"]["guy_levels"][0]["anchor_layout"] = json!({ "rule": "free", "anchors": anchors });
    })
}

#[test]
fn who_holds_the_mast_is_told_by_its_side() {
    let side = |way: &RaiseWay| -> Vec<bool> {
        let sides = way.findings.iter().filter_map(|it| match it.rule {
            Rule::Raising(RaisingRule::SideNotHeld { on_right }) => Some(on_right),
            _ => None,
        });
        sides.collect()
    };
    // Lying to the east, north is on its left.
    let north = bunched([20.0, 40.0, 60.0], 90.0);
    assert!(side(&north) == [true] && north.held[0] != SideHold::Nobody && !has(&north, "no_stop_guy"));
    // Whoever tends it has to give and take as much as it is slack at the most.
    let tended = north.guys.iter().find(|it| it.angles[0].does == GuyDoes::Tended).unwrap();
    assert!(tended.most_slack_m > 0.5 && tended.most_short_m < 0.1, "{tended:?}");
    assert_eq!(length(find(&north.findings, "guy_to_be_tended")), tended.most_slack_m);
    let south = bunched([120.0, 140.0, 160.0], 90.0);
    assert!(side(&south) == [false] && south.held[1] != SideHold::Nobody, "{:?}", south.findings);
    // All of them behind: nothing stops it at plumb.
    let behind = bunched([200.0, 270.0, 340.0], 90.0);
    assert!(find(&behind.findings, "no_stop_guy").severity == Severity::Stop && !behind.clear);
    assert!(side(&behind).is_empty());
    // All round, both are told apart.
    let round = ways(&bunch([20.0, 40.0, 60.0]));
    for on_right in [false, true] {
        let rule = Rule::Raising(RaisingRule::SideNotHeld { on_right });
        assert!(round.refusals.iter().any(|it| it.rule == rule), "{:?}", round.refusals);
    }
}

/// A side guy 10° behind the hinge line is too short while the mast lies: a helper has it. It is not among those that are
/// fast as needed, and is refused where the job has it fast.
#[test]
fn a_side_guy_that_gets_too_short_is_tended_and_not_fast() {
    let mut job = meadow();
    job.placement.guy_turn_deg = -10.0;
    job.raising.fast_before = FastBefore::AsNeeded;
    let way = said(&job);
    let guy = way.guys.iter().find(|it| it.role == GuyRole::Side).unwrap();
    assert!(guy.most_short_m > 0.1 && guy.angles[0].does == GuyDoes::Tended, "{guy:?}");
    assert!(way.clear && !has(&way, "guy_too_short_until_plumb"), "{:?}", way.findings);
    let note = find(&way.findings, "guy_to_be_tended");
    assert!(note.severity == Severity::Note);
    job.raising.fast_before = these(&["upper-1", "upper-2"]);
    assert!(has(&said(&job), "guy_too_short_until_plumb"));
}

/// Eyes 2 m up and 2 m out, 20° and 50° off the hinge line, are higher over the pin than they are out: those guys are shorter
/// at plumb than lying. Helpers have them, so it is no fault that they are not fast.
#[test]
fn a_stop_guy_that_gets_too_short_need_not_be_fast() {
    let mut job = changed(&meadow(), |job| {
        let anchors = [20.0_f64, 140.0, 260.0]
            .map(|deg| at([2.0 * deg.to_radians().sin(), 2.0 * deg.to_radians().cos()]));
        job["rig"]["guy_levels"][0]["anchor_layout"] = json!({ "rule": "free", "anchors": anchors });
        job["rig"]["guy_levels"][0]["anchor_eye_height_m"] = json!(2.0);
    });
    job.raising.fast_before = these(&[]);
    let way = said(&job);
    for guy in &way.guys[..2] {
        assert!(guy.role == GuyRole::Stop && guy.most_short_m > 0.1, "{guy:?}");
    }
    assert!(!has(&way, "stop_guy_not_fast") && !has(&way, "guy_too_short_until_plumb"), "{:?}", way.findings);
}

/// 1 m beside the lying mast and beyond its end is ground that somebody treads.
#[test]
fn what_lies_in_the_corridor_is_told_by_what_it_is() {
    let square = |middle: [f64; 2]| -> Vec<Value> {
        let corner = |[e, n]: [f64; 2]| at([middle[0] + 0.25 * e, middle[1] + 0.25 * n]);
        [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]].map(corner).to_vec()
    };
    let beds = |middle: [f64; 2], sigma_deg: f64| {
        let shape = json!({ "kind": "keep_off", "outline": square(middle) });
        said(&with(&read_to(sigma_deg), "obstacles", thing(shape)))
    };
    // Its near edge is 0.95 m beside the way.
    let bed = beds([3.0, 1.2], 0.1);
    assert!(find(&bed.findings, "lay_down_on_ground_to_keep_off").severity == Severity::Stop && !bed.clear);
    // 1.1 m beside it: free where the bearing is known, and not where it is read to 2° (5.3 m · 2° · 1.96 = 0.37 m).
    let sigma_m = {
        let shape = json!({ "kind": "keep_off", "outline": square([3.0, 1.35 + 0.016]) });
        computed(&with(&read_to(2.0), "obstacles", thing(shape))).yard.obstacles[0].sigma_m
    };
    assert!(COVERAGE_95 * sigma_m < 0.09, "{sigma_m}");
    assert!(beds([3.0, 1.366], 0.1).clear && !beds([3.0, 1.366], 2.0).clear);
    let path = |north: f64| {
        let line = [at([-5.0, north]), at([10.0, north])];
        json!({ "kind": "path", "used_by": "foot", "line": line, "width_m": 0.4, "headroom_m": null })
    };
    let across = said(&with(&read_to(0.1), "obstacles", thing(path(0.5))));
    let found = find(&across.findings, "lay_down_on_ground_to_keep_off");
    assert!(across.clear && found.severity == Severity::Caution, "{found:?}");
    assert!(!has(
        &said(&with(&read_to(0.1), "obstacles", thing(path(2.0)))),
        "lay_down_on_ground_to_keep_off"
    ));
    // Its near edge is 0.3 m beside the lying mast, the bed's 0.95 m, of the 40 in that are asked; one in doubt lies beyond.
    let limit_m = 40.0 * 0.0254;
    let told = |found: &Finding, by_hand: f64| {
        let kept = found.limit.map(|it| it.quantity) == Some(Quantity::LengthM { value: limit_m });
        assert!(kept && length(found) <= by_hand + 1e-9 && length(found) > by_hand - 1e-3, "{found:?}");
    };
    told(found, 0.3);
    told(find(&bed.findings, "lay_down_on_ground_to_keep_off"), 0.95);
    told(find(&beds([3.0, 1.366], 2.0).findings, "lay_down_on_ground_to_keep_off"), 1.116);
    // Beyond the end of the lying mast it is as far from that.
    let end_m = across.corridor[1][0] - limit_m;
    let beyond = said(&with(&read_to(0.1), "obstacles", post([end_m + 0.5, 0.0], 0.5)));
    told(find(&beyond.findings, "lay_down_blocked"), 0.4);
    // 12 in are stepped over, and no more.
    let blocks = |height_m: f64| {
        has(&said(&with(&read_to(0.1), "obstacles", post([2.0, 0.8], height_m))), "lay_down_blocked")
    };
    assert!(!blocks(0.29) && blocks(0.32));
}

/// The lying mast over the boundary is a stop, also where its ends are within and a corner of the neighbour's ground reaches
/// in between; in doubt it is a caution that keeps a way from being clear; trodden ground beyond is a caution alone.
#[test]
fn the_boundary_by_hand() {
    let bounded = |sigma_deg: f64, outline: &[[f64; 2]]| {
        let outline: Vec<Value> = outline.iter().copied().map(at).collect();
        said(&changed(&read_to(sigma_deg), |job| job["yard"]["boundary"] = json!({ "outline": outline })))
    };
    let east_of = |east: f64| [[-40.0, -40.0], [east, -40.0], [east, 40.0], [-40.0, 40.0]];
    let told = |way: &RaiseWay| {
        way.findings.iter().find_map(|it| match it.rule {
            Rule::Raising(RaisingRule::CorridorOverBoundary { mast_too }) => Some((it.severity, mast_too)),
            _ => None,
        })
    };
    let open = said(&read_to(0.01));
    let end_m = (FOOT_M + TUBES_M - 0.3) * open.lying_deg.to_radians().cos();
    let over = bounded(0.01, &east_of(end_m - 0.3));
    assert_eq!(told(&over), Some((Severity::Stop, true)));
    let found = find(&over.findings, "lay_down_over_boundary");
    assert!((length(found) + 0.3).abs() < 1e-3 && !over.clear, "{found:?}");
    let trodden = bounded(0.01, &east_of(end_m + 0.5));
    assert!(told(&trodden) == Some((Severity::Caution, false)) && trodden.clear, "{:?}", trodden.findings);
    let within = bounded(0.01, &east_of(end_m + 1.5));
    assert_eq!(told(&within), None);
    // Read to 5°, its end is within 0.9 m of where it should be.
    let doubted = bounded(5.0, &east_of(end_m + 0.5));
    assert!(told(&doubted) == Some((Severity::Caution, true)) && !doubted.clear, "{:?}", doubted.findings);
    // The neighbour's ground reaches in from the north, 3 m out, as far as this.
    let notched = |sigma_deg: f64, east: f64, to_north: f64| {
        let notch = [[3.2, 40.0], [3.0, to_north], [2.8, 40.0], [-40.0, 40.0]];
        let outline = [&[[-40.0, -40.0], [east, -40.0], [east, 40.0]][..], &notch[..]].concat();
        bounded(sigma_deg, &outline)
    };
    let reached = notched(0.01, 40.0, -0.5);
    assert_eq!(told(&reached), Some((Severity::Stop, true)));
    // Half a metre beyond the mast the notch is 2·0.2·0.5/40.5 m wide there: its sides are half of that from its middle.
    let depth = |way: &RaiseWay| length(find(&way.findings, "lay_down_over_boundary"));
    assert!(
        (depth(&reached) + 0.2 * 0.5 / 40.5).abs() < 1.1e-3 && depth(&reached) <= 0.0,
        "{}",
        depth(&reached)
    );
    assert!(depth(&notched(0.01, 40.0, 0.5)) <= 0.0);
    let beside = notched(0.01, 40.0, 0.5);
    assert!(told(&beside) == Some((Severity::Caution, false)) && beside.clear);
    assert_eq!(told(&notched(0.01, 40.0, 1.5)), None);
    // That its end is in doubt makes what is sure no less so.
    assert_eq!(told(&notched(5.0, end_m + 0.5, -0.5)), Some((Severity::Stop, true)));
}

/// What has to be asked of the yard before any way is good stands before the ways, and so does a cord that nobody measured.
#[test]
fn what_nobody_looked_for_is_waited_for() {
    let waits = |job: &Job| -> Vec<&'static str> {
        raise_ways(job, &computed(job), &mut |_| false).waits_for.iter().map(|it| it.rule.name()).collect()
    };
    assert!(waits(&meadow()).is_empty(), "{:?}", waits(&meadow()));
    let unbounded = changed(&meadow(), |job| job["yard"]["boundary"] = Value::Null);
    assert_eq!(waits(&unbounded), ["boundary_not_given"]);
    let unseen = changed(&meadow(), |job| job["yard"]["overhead"] = json!({ "kind": "not_looked" }));
    assert!(waits(&unseen).len() == 1, "{:?}", waits(&unseen));
    let mut tied = meadow();
    tied.raising.strands = StrandsInTilt::TiedAlong;
    assert!(waits(&tied).is_empty());
    tied.rig.strands.as_mut().unwrap().cord.diameter_mm = None;
    assert_eq!(waits(&tied), ["raising_strand_thickness_unknown"]);
    // Who says that it is enough gets what there is.
    let mut asked = 0;
    let stopped = raise_ways(&meadow(), &computed(&meadow()), &mut |_| {
        asked += 1;
        asked < 7
    });
    assert_eq!((asked, stopped.bearings.last().map(|run| run.to_deg)), (7, Some(6)));
}

/// The marks of a way by hand, with their weights 3, 3, 2, 1 and 1; none of the others has more than the best.
#[test]
fn marks_by_hand() {
    let marked = |job: &Job| {
        let way = said(job);
        let score = way.score.expect("it is clear");
        let weighed = 3.0 * score.room + 3.0 * score.sides + 2.0 * score.tending + score.lie + score.corridor;
        assert!((score.total - weighed / 10.0).abs() < 1e-12, "{score:?}");
        (way, score)
    };
    // Nothing near it; a side guy fast on the left, the far guy tended on the right; nothing to clear away.
    let (way, score) = marked(&meadow());
    assert_eq!(way.held, [SideHold::Fast, SideHold::Tended]);
    assert!(score.room == 1.0 && (score.sides - 0.7).abs() < 1e-12 && score.tending == 0.5, "{score:?}");
    assert!(way.lying_deg < 0.0 && (score.lie - (1.0 + way.lying_deg / 15.0)).abs() < 1e-12, "{score:?}");
    assert_eq!(score.corridor, 1.0);
    // 0.6 m of room beyond the 0.3 m that are kept, of 1.5 m; the post stands where those walk who walk it up.
    let (_, narrow) = marked(&with(&read_to(0.1), "obstacles", post([3.0, 0.99], 4.0)));
    let room_m = 0.89 - RADIUS_M - 0.3;
    assert!((narrow.room - room_m / 1.5).abs() < 1.5e-3 && narrow.corridor < 1.0, "{narrow:?}");
    let mut job = with(&read_to(0.1), "obstacles", post([3.0, 0.99], 4.0));
    let cautions = rules(&said(&job).findings).len();
    assert!((narrow.corridor - 1.0 / (1.0 + cautions as f64)).abs() < 1e-12);
    let best = ways(&job).best.and_then(|way| way.score).expect("a meadow has a way");
    job.raising.fast_before = FastBefore::AsNeeded;
    let mut worse = 0;
    for degree in (0..360).step_by(12) {
        job.raising.lies_toward_deg = Some(f64::from(degree));
        let Some(score) = said(&job).score else { continue };
        assert!(score.total <= best.total + 1e-9, "{degree} {score:?} {best:?}");
        worse += u32::from(score.total < best.total - 0.01);
    }
    assert!(worse > 3, "{worse}");
}

/// The parts are named for what they are.
#[test]
fn what_comes_near_is_the_part_that_does() {
    let part = |job: &Job| {
        let way = said(job);
        way.clearances[0].part.clone()
    };
    assert_eq!(part(&with(&meadow(), "obstacles", post([3.0, 0.4], 4.0))), SweptPart::Mast);
    assert_eq!(part(&with(&edge(), "obstacles", post([0.0, 1.3], 0.5))), SweptPart::CrossLeg);
}
