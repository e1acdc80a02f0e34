//! What stands on ditched and banked ground is never taken lower than it is: tops and headroom against dense sampling.

use mastwright_engine::drawing::{MapOptions, staking_map};
use mastwright_engine::finding::ground::{GroundRule, OnGuessedGround};
use mastwright_engine::finding::yard::Thing;
use mastwright_engine::finding::{Rule, Severity, Subject};
use mastwright_engine::job::{AnchorLayout, BarrierKind, Job, PathUse, Shape};
use mastwright_engine::plan::{Computed, compute};
use mastwright_engine::quantity::{UnitSystem, Units};
use mastwright_engine::yard::PlacedShape;
use mastwright_engine::yard::approach::{Approach, ChainKind};
use proptest::prelude::*;

use crate::bumpy_yard::{at, bank, fine_bank, fixes, job, thing};

/// Between two samples of the ground, in metres.
const FINE_M: f64 = 0.05;

fn planned(job: &Job) -> Computed {
    compute(job).expect("the job can be placed")
}

fn between(a: [f64; 2], b: [f64; 2], share: f64) -> [f64; 2] {
    [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]
}

fn rope_to(to: Thing) -> Approach {
    Approach::Chain { kind: ChainKind::Rope, to }
}

fn samples(a: [f64; 2], b: [f64; 2]) -> impl Iterator<Item = [f64; 2]> {
    let count = ((b[0] - a[0]).hypot(b[1] - a[1]) / FINE_M).ceil().max(1.0) as u32;
    (0..=count).map(move |i| between(a, b, f64::from(i) / f64::from(count)))
}

/// By hand: a house 2 m high over a bank whose crest runs through its sides at 1.0 m reaches 3.0 m, though the ground
/// is at nought at every corner and in the middle of every side.
#[test]
fn a_roof_over_a_bank_stands_on_the_crest() {
    let mut job = job(&bank(1.5, 0.5, 1.0));
    let outline = fixes(&[[5.0, -3.0], [8.0, -3.0], [8.0, 3.0], [5.0, 3.0]]);
    job.yard.obstacles =
        vec![thing("house", Shape::Building { outline, height_m: 2.0, height_sigma_m: None })];
    let PlacedShape::Building { top_z, height_m, .. } = planned(&job).yard.obstacles[0].shape else {
        panic!("a house")
    };
    assert!((top_z - 3.0).abs() < 1e-9, "{top_z}");
    assert_eq!(height_m, 2.0);
}

/// By hand: a hump of 0.7 m all inside a house 2 m high; along its sides the ground is at nought.
#[test]
fn a_roof_over_a_hump_stands_on_the_hump() {
    let level = [[-12.0, -12.0], [12.0, -12.0], [12.0, 12.0], [-12.0, 12.0]];
    let round_it = [[5.5, -1.0], [7.5, -1.0], [7.5, 1.0], [5.5, 1.0]];
    let mut spots: Vec<[f64; 3]> = level.iter().chain(&round_it).map(|&[x, y]| [x, y, 0.0]).collect();
    spots.push([6.5, 0.0, 0.7]);
    let mut job = job(&spots);
    let outline = fixes(&[[5.0, -3.0], [8.0, -3.0], [8.0, 3.0], [5.0, 3.0]]);
    job.yard.obstacles =
        vec![thing("house", Shape::Building { outline, height_m: 2.0, height_sigma_m: None })];
    let PlacedShape::Building { top_z, .. } = planned(&job).yard.obstacles[0].shape else {
        panic!("a house")
    };
    assert!((top_z - 2.7).abs() < 1e-9, "{top_z}");
}

/// By hand: a wall 1 m high across the same bank: its top over the crest is at 2.0 m.
#[test]
fn a_wall_over_a_bank_stands_on_the_crest() {
    let mut job = job(&bank(1.5, 0.2, 1.0));
    let line = fixes(&[[6.0, -1.0], [6.0, 4.0]]);
    let wall = Shape::Barrier {
        what: BarrierKind::Wall,
        line,
        thickness_m: 0.2,
        height_m: 1.0,
        height_sigma_m: None,
    };
    job.yard.obstacles = vec![thing("wall", wall)];
    let PlacedShape::Barrier { top_z, .. } = planned(&job).yard.obstacles[0].shape else { panic!("a wall") };
    assert!((top_z - 2.0).abs() < 1e-9, "{top_z}");
}

/// 4 m high, its branches from 2 m up.
fn tree(place: [f64; 2], crown_radius_m: f64) -> Shape {
    Shape::Tree {
        at: at(place),
        trunk_radius_m: 0.2,
        crown_radius_m,
        crown_base_m: 2.0,
        height_m: 4.0,
        height_sigma_m: None,
    }
}

/// By hand: a tree whose trunk stands at the foot of a bank, its crown reaching over the crest at 1.0 m: 4 m high it
/// reaches up to 5.0 m, and its branches, 2 m up, hang down to 2.0 m over the level ground on the other side. A stout
/// post at the same place reaches the bank's slope by its half metre: 0.5 m up it, so 1.0 m higher than its axis stands.
#[test]
fn a_tree_and_a_post_stand_on_the_highest_ground_under_them() {
    let mut job = job(&fine_bank(1.5, 0.5, 1.0));
    let tree = tree([6.0, 0.5], 1.5);
    let post = Shape::Post { at: at([6.0, 1.0]), radius_m: 0.5, height_m: 2.0, height_sigma_m: None };
    job.yard.obstacles = vec![thing("tree", tree), thing("post", post)];
    let placed = planned(&job).yard.obstacles;
    let PlacedShape::Tree { top_z, crown_base_z, .. } = placed[0].shape else { panic!("a tree") };
    assert!((top_z - 5.0).abs() < 1e-9 && (crown_base_z - 2.0).abs() < 1e-9, "{top_z} {crown_base_z}");
    let PlacedShape::Post { top_z, .. } = placed[1].shape else { panic!("a post") };
    assert!((top_z - 3.0).abs() < 1e-9, "{top_z}");
}

/// By hand: on an even slope of 1 in 5 a crown of 2 m radius reaches ground 0.4 m higher, and 0.4 m lower.
#[test]
fn on_a_slope_a_tree_counts_from_both_edges_of_its_crown() {
    let even = [[-12.0, -12.0], [12.0, -12.0], [12.0, 12.0], [-12.0, 12.0]].map(|[x, y]| [x, y, 0.2 * x]);
    let mut job = job(&even);
    job.yard.obstacles = vec![thing("tree", tree([5.0, 0.0], 2.0))];
    let computed = planned(&job);
    assert!(computed.ground.surface.is_none());
    let PlacedShape::Tree { top_z, crown_base_z, .. } = computed.yard.obstacles[0].shape else {
        panic!("a tree")
    };
    assert!((top_z - 5.4).abs() < 1e-6 && (crown_base_z - 2.6).abs() < 1e-6, "{top_z} {crown_base_z}");
}

/// By hand: a guy from (0, 5) to its anchor 9 m east passes over a path from east 4 to 5; the bank's crest under it at
/// east 4.5 leaves less room than the ground at both edges of the path, and the least is there.
#[test]
fn headroom_is_taken_over_the_crest() {
    let turned: Vec<[f64; 3]> = bank(4.5, 0.3, 0.8).into_iter().map(|[e, n, h]| [n, e, h]).collect();
    let mut job = job(&turned);
    let level = &mut job.rig.guy_levels[0];
    level.anchor_layout = AnchorLayout::EqualRadius { radius_m: 9.0 };
    job.placement.guy_turn_deg = 90.0;
    let line = fixes(&[[4.5, -9.0], [4.5, 9.0]]);
    let path = Shape::Path { used_by: PathUse::Foot, line, width_m: 1.0, headroom_m: None };
    job.yard.obstacles = vec![thing("path", path)];
    let computed = planned(&job);
    let row =
        computed.plan.clearances.iter().find(|row| matches!(row.what, Approach::Headroom { .. })).unwrap();
    assert!((row.from_point[0] - 4.5).abs() < 1e-6, "{row:?}");
    assert!((row.from_point[2] - row.distance_m - 0.8).abs() < 1e-6, "{row:?}");
}

/// What was typed is what the map says, though the ground under it differs by metres: a 6' fence, a 19' house.
#[test]
fn a_height_entered_is_the_height_shown() {
    let mut job = job(&bank(1.5, 0.5, 1.0));
    job.units = Units { system: UnitSystem::Imperial, inch_fraction: 16 };
    let line = fixes(&[[-6.0, -4.0], [-6.0, 9.0]]);
    let fence = Shape::Barrier {
        what: BarrierKind::Fence,
        line,
        thickness_m: 0.05,
        height_m: 6.0 * 0.3048,
        height_sigma_m: None,
    };
    let outline = fixes(&[[4.0, -4.0], [11.0, -4.0], [11.0, 4.0], [4.0, 4.0]]);
    let house = Shape::Building { outline, height_m: 19.0 * 0.3048, height_sigma_m: None };
    job.yard.obstacles = vec![thing("Fence", fence), thing("House", house)];
    let map = staking_map(&job, &planned(&job), &MapOptions::lettering(0.2));
    let words = serde_json::to_string(&map).expect("a scene is JSON");
    for said in ["Fence, 6' high\"", "19' high\"", "from its highest ground\""] {
        assert!(words.contains(said), "{said} is not in {words}");
    }
}

/// What stands outside the spot heights is named, each thing by itself, and its interval grows with the distance; the map
/// shows where they end. What stands inside is not named.
#[test]
fn what_stands_outside_the_spot_heights_is_named() {
    // Heights from 12 m west to 12 m east and as far north and south; two anchors of 4 m about a mast at east 10.
    let mut job = job(&bank(1.5, 0.5, 1.0));
    let post =
        |east: f64| Shape::Post { at: at([east, -3.0]), radius_m: 0.1, height_m: 2.0, height_sigma_m: None };
    job.yard.obstacles = vec![thing("near", post(11.0)), thing("far", post(13.0))];
    job.placement.mast = at([10.0, -6.0]);
    job.placement.front_bearing_deg = 90.0;
    job.placement.guy_turn_deg = 0.0;
    job.rig.base.front_reach_m = 2.5;
    let computed = planned(&job);
    let named: Vec<Subject> = computed
        .plan
        .findings
        .iter()
        .filter(|finding| finding.rule == "ground_guessed")
        .map(|finding| finding.subject.clone())
        .collect();
    let expected = [
        Subject::Guy { id: "upper-1".into() },
        Subject::Leg { id: "front".into() },
        Subject::Obstacle { id: "far".into() },
    ];
    assert_eq!(named, expected);
    // With a base that stands inside, the rope to the anchor outside is less sure than the others.
    job.rig.base.front_reach_m = 1.2;
    let inside = planned(&job).plan;
    let guy = |id: &str| inside.guys.iter().find(|guy| guy.id == id).expect("a guy").unstressed_m;
    assert!(guy("upper-1").half_width_95 > 3.0 * guy("upper-2").half_width_95);
    let sigma = |east: f64| computed.ground.difference_sigma([10.0, -6.0], [east, -6.0]);
    assert!(sigma(13.0) < sigma(15.0) && sigma(15.0) < sigma(20.0));
    let map = staking_map(&job, &computed, &MapOptions::lettering(0.2));
    let words = serde_json::to_string(&map).expect("a scene is JSON");
    assert!(words.contains("measured_edge") && words.contains("measured up to here"));
    // A plane by all that was read has no edge.
    let flat =
        crate::bumpy_yard::job(&[[-12.0, -12.0, 0.0], [12.0, -12.0, 0.0], [0.0, 12.0, 0.0], [3.0, 0.0, 0.0]]);
    assert!(planned(&flat).plan.findings.iter().all(|finding| finding.rule != "ground_guessed"));
}

/// Two guys on one anchor stand on one piece of ground: it is told of once, with both their names.
#[test]
fn a_shared_anchor_outside_the_spot_heights_is_named_once() {
    let mut job = job(&bank(1.5, 0.5, 1.0));
    job.placement.mast = at([10.0, -6.0]);
    (job.placement.front_bearing_deg, job.placement.guy_turn_deg) = (90.0, 0.0);
    let upper = &mut job.rig.guy_levels[0];
    upper.anchor_layout = AnchorLayout::EqualRadius { radius_m: 4.0 };
    let mut lower = upper.clone();
    lower.attach_height_m = 0.6 * upper.attach_height_m;
    (lower.id, lower.name) = ("lower".into(), "Lower".into());
    job.rig.guy_levels.insert(0, lower);
    let plan = planned(&job).plan;
    assert!(plan.guys.iter().all(|guy| guy.shared_with.len() == 1), "by one rule both levels share");
    let of_guys: Vec<&str> = plan
        .findings
        .iter()
        .filter_map(|finding| match &finding.rule {
            Rule::Ground(GroundRule::Guessed { stands: OnGuessedGround::AnchorOf(guys) }) => {
                Some(guys.as_str())
            }
            _ => None,
        })
        .collect();
    let names = |guys: &&str| guys.contains("Upper guy 1") && guys.contains("Lower 1");
    assert!(of_guys.len() == 1 && of_guys.iter().all(names), "{of_guys:?}");
}

/// By hand: a rope passes half a metre clear of a post whose top stands under its middle. A sighted height
/// of ± 0.2 m (one sigma) reaches 0.392 m higher; the rope that clears the post as sighted is then in doubt, the one
/// over a taped post of the same height is not.
#[test]
fn a_sighted_height_keeps_its_doubt_in_clearances() {
    let mut job = job(&[[-12.0, -12.0, 0.0], [12.0, -12.0, 0.0], [0.0, 12.0, 0.0], [3.0, 0.0, 0.0]]);
    job.yard.instruments.bearing_sigma_deg = 0.1;
    job.yard.instruments.sketched_sigma_m = 0.01;
    job.placement.mast = at([0.0, 0.0]);
    job.placement.guy_turn_deg = 0.0;
    let guy = planned(&job).plan.guys[0].clone();
    let at_half: [f64; 2] = std::array::from_fn(|i| 0.5 * (guy.eye[i] + guy.attach[i]));
    let rope_z = 0.5 * (guy.eye[2] + guy.attach[2]);
    // Half a metre under the rope's middle; 0.3 m is kept from posts.
    let post = |height_sigma_m| Shape::Post {
        at: at(at_half),
        radius_m: 0.02,
        height_m: rope_z - 0.75,
        height_sigma_m,
    };
    let found = |job: &Job| {
        let plan = planned(job).plan;
        plan.findings.into_iter().find(|finding| finding.rule == "guy_near_post")
    };
    job.yard.obstacles = vec![thing("post", post(None))];
    assert_eq!(found(&job), None);
    job.yard.obstacles = vec![thing("post", post(Some(0.2)))];
    let doubted = found(&job).expect("the height is in doubt");
    assert_eq!(doubted.severity, Severity::Caution);
    // The slanting rope comes nearer by 0.392 m times the cosine of its angle, about.
    let half_m = doubted.measured_half_width_95.expect("an interval");
    let expected = 1.96 * 0.2 * guy.angle_deg.to_radians().cos();
    assert!((half_m - expected).abs() < 0.05, "{half_m} against {expected}");
    // A job written before the field was there reads as one whose heights count as they stand.
    let mut old = serde_json::to_value(&job).expect("a job is JSON");
    old["yard"]["obstacles"][0]["shape"].as_object_mut().expect("a shape").remove("height_sigma_m");
    let old: Job = serde_json::from_value(old).expect("it still reads");
    assert_eq!(found(&old), None);
}

/// A yard of scattered heights with a ditch or bank across it.
#[derive(Debug, Clone)]
struct Ditched {
    spots: Vec<[f64; 3]>,
    house: Vec<[f64; 2]>,
    wall: [[f64; 2]; 3],
    tree: ([f64; 2], f64),
    post: ([f64; 2], f64),
}

/// How a tree's height is made up: trunk, lowest branches, top.
const TREE_M: [f64; 3] = [0.2, 1.6, 3.8];
const POST_M: f64 = 2.2;

fn ditched() -> impl Strategy<Value = Ditched> {
    let place = (-11.0..11.0_f64, -11.0..11.0_f64).prop_map(|(x, y)| [x, y]);
    (
        prop::collection::vec((-12.0..12.0, -12.0..12.0, -0.3..0.3), 6..16),
        (-9.0..9.0_f64, 0.1..0.8_f64, -1.5..1.5_f64, 0.0..180.0_f64),
        (place.clone(), 0.5..4.0_f64, 0.5..4.0_f64, 0.0..90.0_f64),
        [place.clone(), place.clone(), place.clone()],
        ((place.clone(), 0.1..3.5_f64), (place, 0.0..1.5_f64)),
    )
        .prop_map(
            |(
                rough,
                (off_m, half_m, top_m, turn_deg),
                (centre, wide_m, deep_m, house_deg),
                wall,
                (tree, post),
            )| {
                let turned = |[x, y]: [f64; 2], turn_deg: f64| {
                    let (s, c): (f64, f64) = f64::to_radians(turn_deg).sin_cos();
                    [c * x - s * y, s * x + c * y]
                };
                let mut spots: Vec<[f64; 3]> = rough.into_iter().map(|(x, y, z)| [x, y, z]).collect();
                for [x, y, z] in bank(off_m, half_m, top_m) {
                    let [x, y] = turned([x, y], turn_deg);
                    spots.push([x, y, z]);
                }
                let corners: [[f64; 2]; 4] =
                    [[-wide_m, -deep_m], [wide_m, -deep_m], [wide_m, deep_m], [-wide_m, deep_m]];
                let house =
                    corners.map(|p| turned(p, house_deg)).map(|p| [p[0] + centre[0], p[1] + centre[1]]);
                Ditched { spots, house: house.to_vec(), wall, tree, post }
            },
        )
}

fn ditched_job(yard: &Ditched) -> Job {
    let mut job = job(&yard.spots);
    let house = Shape::Building { outline: fixes(&yard.house), height_m: 2.4, height_sigma_m: None };
    let wall = Shape::Barrier {
        what: BarrierKind::Wall,
        line: fixes(&yard.wall),
        thickness_m: 0.3,
        height_m: 1.1,
        height_sigma_m: None,
    };
    let path =
        Shape::Path { used_by: PathUse::Foot, line: fixes(&yard.wall[..2]), width_m: 1.2, headroom_m: None };
    let ([trunk_radius_m, crown_base_m, height_m], (middle, crown_radius_m)) = (TREE_M, yard.tree);
    let tree = Shape::Tree {
        at: at(middle),
        trunk_radius_m,
        crown_radius_m,
        crown_base_m,
        height_m,
        height_sigma_m: None,
    };
    let (middle, radius_m) = yard.post;
    let post = Shape::Post { at: at(middle), radius_m, height_m: POST_M, height_sigma_m: None };
    job.yard.obstacles = vec![
        thing("house", house),
        thing("wall", wall),
        thing("path", path),
        thing("tree", tree),
        thing("post", post),
    ];
    job.placement.mast = at([0.5, 0.5]);
    job
}

/// From a rope's point to the nearest of many upright lines that reach up to their tops from far below.
fn to_columns(rope: &[[f64; 3]], columns: &[[f64; 3]]) -> f64 {
    let mut nearest = f64::INFINITY;
    for ends in rope.windows(2) {
        for i in 0..=20 {
            let share = f64::from(i) / 20.0;
            let p: [f64; 3] = std::array::from_fn(|k| ends[0][k] + share * (ends[1][k] - ends[0][k]));
            for column in columns {
                let above = (p[2] - column[2]).max(0.0);
                nearest = nearest.min((p[0] - column[0]).hypot(p[1] - column[1]).hypot(above));
            }
        }
    }
    nearest
}

/// Places all over a circle, its rim included.
fn over_circle((middle, radius_m): ([f64; 2], f64)) -> impl Iterator<Item = [f64; 2]> {
    let rings = (radius_m / FINE_M).ceil().max(1.0) as u32;
    (0..=rings).flat_map(move |ring| {
        let out_m = radius_m * f64::from(ring) / f64::from(rings);
        (0..48).map(move |i| {
            let (s, c) = (f64::from(i) * std::f64::consts::PI / 24.0).sin_cos();
            [middle[0] + out_m * s, middle[1] + out_m * c]
        })
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// A tree and a post are as high over every place under them as they are high, and no branch hangs lower.
    #[test]
    fn no_tree_and_no_post_on_ditched_ground_is_taken_too_low(yard in ditched()) {
        let job = ditched_job(&yard);
        let Ok(computed) = compute(&job) else { return Ok(()) };
        let ground = &computed.ground;
        let PlacedShape::Tree { top_z, crown_base_z, .. } = computed.yard.obstacles[3].shape else {
            panic!("a tree")
        };
        let [trunk_m, branches_m, height_m] = TREE_M;
        for p in over_circle((yard.tree.0, yard.tree.1.max(trunk_m))) {
            prop_assert!(ground.height(p) + height_m <= top_z + 1e-9, "{p:?}");
            prop_assert!(ground.height(p) + branches_m >= crown_base_z - 1e-9, "{p:?}");
        }
        let PlacedShape::Post { top_z, .. } = computed.yard.obstacles[4].shape else { panic!("a post") };
        let columns: Vec<[f64; 3]> =
            over_circle(yard.post).map(|p| [p[0], p[1], ground.height(p) + POST_M]).collect();
        prop_assert!(columns.iter().all(|column| column[2] <= top_z + 1e-9));
        // The post as it stands, column by column, is never nearer to a rope than the plan says.
        let listed = computed.plan.clearances.iter().find(|row| row.what == rope_to(Thing::Post));
        let listed_m = listed.map(|row| row.distance_m).expect("ropes and a post");
        for guy in &computed.plan.guys {
            prop_assert!(to_columns(&guy.rope, &columns) >= listed_m - 1e-9, "{}", guy.name);
        }
    }

    #[test]
    fn nothing_on_ditched_ground_is_taken_too_low(yard in ditched()) {
        let job = ditched_job(&yard);
        let Ok(computed) = compute(&job) else { return Ok(()) };
        let ground = &computed.ground;
        let PlacedShape::Building { top_z, .. } = &computed.yard.obstacles[0].shape else { panic!("a house") };
        let [a, b, c, d] = [yard.house[0], yard.house[1], yard.house[2], yard.house[3]];
        for from in samples(a, d) {
            let across = [from[0] + b[0] - a[0], from[1] + b[1] - a[1]];
            for p in samples(from, across) {
                prop_assert!(ground.height(p) + 2.4 <= top_z + 1e-9, "{p:?}");
            }
        }
        prop_assert!(ground.height(c) + 2.4 <= top_z + 1e-9);
        // The wall as it stands, column by column, is never nearer to a rope than the plan says.
        let columns: Vec<[f64; 3]> = yard
            .wall
            .windows(2)
            .flat_map(|ends| samples(ends[0], ends[1]))
            .map(|p| [p[0], p[1], ground.height(p) + 1.1])
            .collect();
        let listed = computed.plan.clearances.iter().find(|row| row.what == rope_to(Thing::Barrier));
        let listed_m = listed.map(|row| row.distance_m).expect("ropes and a wall");
        for guy in &computed.plan.guys {
            prop_assert!(to_columns(&guy.rope, &columns) >= listed_m - 1e-9, "{}", guy.name);
        }
    }

    #[test]
    fn headroom_on_ditched_ground_is_never_overstated(yard in ditched()) {
        let job = ditched_job(&yard);
        let Ok(computed) = compute(&job) else { return Ok(()) };
        let row = computed.plan.clearances.iter().find(|row| row.what == Approach::Headroom { kind: ChainKind::Rope });
        let [a, b] = [yard.wall[0], yard.wall[1]];
        let long = (b[0] - a[0]).hypot(b[1] - a[1]);
        let along = [(b[0] - a[0]) / long, (b[1] - a[1]) / long];
        let over = |p: [f64; 3]| {
            let (dx, dy) = (p[0] - a[0], p[1] - a[1]);
            let out = dx * along[0] + dy * along[1];
            (0.0..=long).contains(&out) && (dx * along[1] - dy * along[0]).abs() <= 0.6
        };
        for guy in &computed.plan.guys {
            for ends in guy.rope.windows(2) {
                for i in 0..=40 {
                    let share = f64::from(i) / 40.0;
                    let p: [f64; 3] = std::array::from_fn(|k| ends[0][k] + share * (ends[1][k] - ends[0][k]));
                    if over(p) {
                        let room_m = p[2] - computed.ground.height([p[0], p[1]]);
                        prop_assert!(row.is_some_and(|row| row.distance_m <= room_m + 1e-9), "{p:?}");
                    }
                }
            }
        }
    }
}
