//! The strands as a surface and the ring as a line: what reaches in between two strands, by sums by hand on level ground and by
//! dense sampling along the ring.

use mastwright_engine::finding::{Finding, Quantity, Severity, Subject};
use mastwright_engine::job::Job;
use mastwright_engine::judge::judged;
use mastwright_engine::plan::{Clearance, Computed, compute};
use mastwright_engine::yard::cone::StrandCone;
use serde_json::{Value, json};

use crate::cramped_yard::at;
use crate::raising::{meadow, with};
use crate::random_jobs::Chance;

/// Four strands from a point 5.4 m over the foot to a ring of 2.2 m, to the north, east, south and west.
fn four() -> Job {
    let mut job = meadow();
    job.yard.instruments.sketched_sigma_m = 0.005;
    let strands = job.rig.strands.as_mut().unwrap();
    (strands.count, strands.top_radius_m) = (4, Some(0.0));
    job
}

fn thing(shape: Value) -> Value {
    json!({ "id": "thing", "name": "Thing", "shape": shape, "keep_off_m": 0.3 })
}

fn post(far_m: f64, bearing_deg: f64, height_m: f64) -> Value {
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    thing(
        json!({ "kind": "post", "at": at([far_m * sin, far_m * cos]), "radius_m": 0.1, "height_m": height_m,
                  "height_sigma_m": null }),
    )
}

fn whole(job: &Job) -> Computed {
    judged(job).unwrap_or_else(|errors| panic!("{errors}"))
}

/// What is said of the ring and the strands against the thing that was put in.
fn said(computed: &Computed) -> Vec<&Finding> {
    let of = |it: &&Finding| it.subject == Subject::Ring && it.severity <= Severity::Caution;
    computed.plan.findings.iter().filter(of).collect()
}

fn rule(computed: &Computed) -> Vec<(&'static str, Severity)> {
    said(computed).iter().map(|it| (it.rule.name(), it.severity)).collect()
}

fn measured(finding: &Finding) -> f64 {
    let Some(Quantity::LengthM { value }) = finding.measured else { panic!("{finding:?}") };
    value
}

/// Midway between two strands a low post stands 0.2 m outside the ring: the strands pass it 1.5 m off, the cone at the ground.
/// One that stands through the cone is inside of it, and one under a strand is told once, by the strand.
#[test]
fn a_post_between_two_strands_is_told_by_hand() {
    let beside = whole(&with(&four(), "obstacles", post(2.5, 45.0, 0.2)));
    assert_eq!(rule(&beside), [("cone_near_post", Severity::Caution)]);
    let found = said(&beside)[0];
    assert!((measured(found) - 0.2).abs() < 2e-3, "{found:?}");
    let Clearance { from_point, to_point, distance_m, .. } = row(&beside);
    assert!((from_point[0] - 2.2 * 0.5_f64.sqrt()).abs() < 2e-3 && from_point[2].abs() < 1e-6);
    assert!(
        (to_point[0].hypot(to_point[1]) - 2.4).abs() < 2e-3 && (distance_m - measured(found)).abs() < 1e-9
    );
    // A drag's plan is not asked.
    let quick = compute(&with(&four(), "obstacles", post(2.5, 45.0, 0.2))).unwrap();
    assert!(said(&quick).is_empty());
    let through = whole(&with(&four(), "obstacles", post(1.5, 45.0, 4.0)));
    assert_eq!(rule(&through), [("cone_near_post", Severity::Caution)]);
    assert!(measured(said(&through)[0]) <= 0.0);
    let under = whole(&with(&four(), "obstacles", post(2.3, 90.0, 0.5)));
    assert_eq!(rule(&under), [("strand_near_post", Severity::Stop)]);
    // Outside by more than is kept, and inside under the cone: nothing to say.
    for (far_m, height_m) in [(2.7, 4.0), (0.9, 0.5)] {
        let clear = whole(&with(&four(), "obstacles", post(far_m, 45.0, height_m)));
        assert!(said(&clear).is_empty(), "{:?}", said(&clear));
    }
}

fn row(computed: &Computed) -> &Clearance {
    let of_thing = |it: &&Clearance| {
        it.work == Subject::Ring
            && it.to == Subject::Obstacle { id: "thing".into() }
            && it.distance_m < it.needed_m
    };
    computed.plan.clearances.iter().find(of_thing).expect("it is on the map")
}

/// Where part of a ring is open nothing hangs: the same post there is clear.
#[test]
fn what_stands_in_the_open_part_of_a_ring_is_clear() {
    let open = |bearing_deg: f64| {
        let mut job = four();
        let strands = job.rig.strands.as_mut().unwrap();
        // From west over north to east, the front being north.
        strands.sweep_deg = 180.0;
        said(&whole(&with(&job, "obstacles", post(1.5, bearing_deg, 4.0)))).len()
    };
    assert_eq!([open(30.0), open(180.0)], [1, 0]);
}

/// The ring passes over ground to keep off, over a pipe's zone and over the boundary between two ends: told with the nearest
/// point of the circle, by hand.
#[test]
fn the_ring_is_held_between_its_ends() {
    let corners = [[1.4, 1.4], [1.4, 1.8], [1.8, 1.8], [1.8, 1.4]].map(at);
    let bed = whole(&with(&four(), "obstacles", thing(json!({ "kind": "keep_off", "outline": corners }))));
    assert_eq!(rule(&bed), [("ring_in_keep_off", Severity::Caution)]);
    assert!(measured(said(&bed)[0]) <= 1e-9);
    let pipe = json!({ "id": "pipe", "name": "Pipe", "carries": "potable_water", "located": "marked_by_utility",
                       "line": [at([1.5, 4.0]), at([4.0, 1.5])], "width_m": 0.0, "tolerance_m": 1.7 });
    let near = whole(&with(&four(), "buried_services", pipe));
    let found = said(&near);
    let in_zone =
        found.iter().find(|it| it.rule == "ring_in_tolerance_zone" || it.rule.name().contains("ring"));
    // The line x + y = 5.5 is 3.889 m from the mast.
    let by_hand = 5.5 * 0.5_f64.sqrt() - 2.2;
    assert!((measured(in_zone.expect("it is told")) - by_hand).abs() < 2e-3, "{found:?}");
    let mut job = serde_json::to_value(four()).unwrap();
    let edge = [[-40.0, -40.0], [40.0, -40.0], [40.0, 1.5], [1.5, 40.0], [-40.0, 40.0]].map(at);
    let near = |shift: f64| {
        let edge = [[-40.0, -40.0], [40.0, -40.0], [40.0, shift - 40.0], [shift - 40.0, 40.0], [-40.0, 40.0]];
        json!(edge.map(at))
    };
    job["yard"]["boundary"]["outline"] = json!(edge);
    // Here the line x + y = 3 is 2.121 m from the mast: the ring is 0.079 m over it, its ends are inside.
    job["yard"]["boundary"]["outline"] = near(3.0);
    let over = whole(&mastwright_engine::job::read_job_value(&job).unwrap());
    let found = said(&over);
    let outside = found.iter().find(|it| it.rule == "ring_over_boundary").expect("it is told");
    let by_hand = 3.0 * 0.5_f64.sqrt() - 2.2;
    assert!((measured(outside) - by_hand).abs() < 2e-3 && outside.severity == Severity::Stop, "{outside:?}");
}

/// On a slope the surface holds every strand and, midway between two, ends as high as the line between their ends; so it does
/// where part of the ring is open.
#[test]
fn the_surface_holds_the_strands_on_a_slope() {
    for (sweep_deg, gaps) in [(360.0, 4_u32), (180.0, 3)] {
        let mut job = four();
        let slopes = [(0, 12.0), (1, -7.0), (2, 3.4), (3, -12.0)];
        slopes.iter().for_each(|(at, deg)| job.yard.slopes[*at].slope_deg = *deg);
        job.rig.strands.as_mut().unwrap().sweep_deg = sweep_deg;
        let ring = compute(&job).unwrap().plan.ring.expect("it has a ring");
        let cone = StrandCone::of(&ring, [0.0, 0.0], sweep_deg).expect("it has four strands");
        let near = |a: [f64; 3], b: [f64; 3]| (0..3).all(|axis| (a[axis] - b[axis]).abs() < 1e-9);
        let rises = ring.points.iter().map(|end| end[2]).fold(f64::NEG_INFINITY, f64::max);
        assert!(rises > 0.2, "it is no level ring: {rises}");
        for gap in 0..gaps {
            let next = (gap as usize + 1) % 4;
            let [first, second] = [ring.points[gap as usize], ring.points[next]];
            let at = |on: f64| cone.strand(f64::from(gap) + on)[1];
            assert!(near(at(0.0), first) && near(at(1.0), second), "{gap} of {sweep_deg}");
            assert!((at(0.5)[2] - 0.5 * (first[2] + second[2])).abs() < 1e-9, "{gap} of {sweep_deg}");
        }
    }
}

/// A post 0.9 m out, whose upper edge, 1.0 m out, is 0.95 m under the surface and so 0.35 m off it: 0.3 m are kept where its height
/// counts as it stands. Known to 0.2 m it may be 0.392 m higher, 0.145 m nearer: in doubt.
#[test]
fn a_height_known_badly_puts_a_post_under_the_cone_in_doubt() {
    // The strands begin 5.4 m over the foot, which is a timber and its seat over the ground.
    let top_m: f64 = 5.4 + 0.1397 + 0.00635;
    let slant = 2.2 / top_m.hypot(2.2);
    let height_m = top_m * (1.0 - 1.0 / 2.2) - 0.35 / slant;
    let told = |sigma_m: Value| {
        let mut low = post(0.9, 45.0, height_m);
        low["shape"]["height_sigma_m"] = sigma_m;
        let computed = whole(&with(&four(), "obstacles", low));
        said(&computed).into_iter().cloned().collect::<Vec<Finding>>()
    };
    assert!(told(Value::Null).is_empty(), "{:?}", told(Value::Null));
    let doubted = told(json!(0.2));
    let found = doubted.iter().find(|it| it.rule == "cone_near_post").expect("it is in doubt");
    assert!((measured(found) - 0.35).abs() < 2e-3 && found.severity == Severity::Caution, "{found:?}");
    let half = found.measured_half_width_95.unwrap();
    assert!(half >= 1.96 * 0.2 * slant - 2e-3 && half < 0.2, "{found:?}");
}

/// A wire of 240 V, 1 m over the ground across the way to the north-east, 2.9 m off the surface between two strands and more than
/// 10 ft off either: a stop.
#[test]
fn a_wire_near_the_cone_alone_is_a_stop() {
    let top_m: f64 = 5.4 + 0.1397 + 0.00635;
    let radius_m = 2.2 * (1.0 - 1.0 / top_m);
    let out_m = radius_m + 2.9 * top_m.hypot(2.2) / top_m;
    let support = |along: f64| {
        let [east, north] = [out_m - along, out_m + along].map(|x: f64| x * 0.5_f64.sqrt());
        json!({ "at": at([east, north]), "wire_height_m": 1.0 })
    };
    let wire = json!({ "id": "wire", "name": "Wire", "voltage_kv": 0.24, "sag_m": 0.0, "height_sigma_m": 0.0,
                       "supports": [support(-30.0), support(30.0)] });
    let computed = whole(&with(&four(), "overhead_lines", wire));
    let found = said(&computed);
    let near: Vec<&&Finding> = found.iter().filter(|it| it.rule.name().contains("near_overhead")).collect();
    assert!(near.len() == 1 && near[0].rule == "cone_near_overhead_line", "{found:?}");
    assert!(near[0].severity == Severity::Stop && (measured(near[0]) - 2.9).abs() < 3e-3, "{near:?}");
}

/// Things that nobody was told of stay clear where more are added, and no finding goes.
#[test]
fn one_thing_more_frees_nothing() {
    let mut chance = Chance::new(23);
    let mut job = four();
    let mut before: Vec<(String, Subject)> = Vec::new();
    for number in 0..12 {
        let mut more = post(chance.between(0.5, 3.5), chance.between(0.0, 360.0), chance.between(0.3, 5.0));
        more["id"] = json!(format!("thing-{number}"));
        job = with(&job, "obstacles", more);
        let computed = whole(&job);
        let now: Vec<(String, Subject)> = said(&computed)
            .iter()
            .map(|it| (it.rule.name().to_owned(), it.against.clone().unwrap()))
            .collect();
        assert!(before.iter().all(|was| now.contains(was)), "{before:?} {now:?}");
        before = now;
    }
    assert!(before.iter().any(|(rule, _)| rule == "cone_near_post"), "{before:?}");
}
