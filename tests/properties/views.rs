//! What is seen from a standpoint: what hides what against lines of sight walked step by step, the work moved and turned with
//! whoever looks at it, and that nothing stands up that nobody measured.

use mastwright_engine::drawing::scene::{Geometry, Role, Scene};
use mastwright_engine::drawing::seen::{PictureWish, picture};
use mastwright_engine::finding::Subject;
use mastwright_engine::job::{Job, PointFix, Standpoint, read_job_value};
use mastwright_engine::numerics::outline::contains;
use mastwright_engine::plan::{Computed, survey};
use mastwright_engine::view::{
    FaceKind, HeightOf, LineKind, Look, Seen, Shown, ThingKind, YardToSee, eyes_of,
};
use mastwright_engine::yard::PlacedShape;
use serde_json::{Value, json};

use crate::cramped_yard::at;
use crate::moved::Move;
use crate::raising::{computed, meadow, with};
use crate::random_jobs::Chance;
use crate::yardstick::yardstick;

type P3 = [f64; 3];

fn standpoint(at: [f64; 2], floor_height_m: f64) -> Standpoint {
    Standpoint {
        id: "here".to_owned(),
        name: "here".to_owned(),
        at: PointFix::Coordinates { east_m: at[0], north_m: at[1] },
        floor_height_m,
        eye_height_m: Some(1.6),
        toward_deg: None,
    }
}

fn seen(job: &Job, computed: &Computed, standpoint: &Standpoint) -> Seen {
    let surveyed = survey(&job.yard, job.units).unwrap_or_else(|errors| panic!("{errors}"));
    let eyes =
        eyes_of(&surveyed, standpoint, "/standpoints/0/at").unwrap_or_else(|errors| panic!("{errors}"));
    YardToSee::of(job, computed).seen_from(&eyes)
}

fn thing(kind: &str, name: &str, more: Value) -> Value {
    let mut shape = json!({ "kind": kind, "height_sigma_m": null });
    shape.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
    if kind == "keep_off" {
        shape.as_object_mut().unwrap().remove("height_sigma_m");
    }
    json!({ "id": name, "name": name, "shape": shape, "keep_off_m": 0.1 })
}

fn house(name: &str, corners: &[[f64; 2]], height_m: f64) -> Value {
    let outline: Vec<Value> = corners.iter().map(|&p| at(p)).collect();
    thing("building", name, json!({ "outline": outline, "height_m": height_m }))
}

fn tree(name: &str, place: [f64; 2], height_m: f64) -> Value {
    thing(
        "tree",
        name,
        json!({ "at": at(place), "trunk_radius_m": 0.25, "crown_radius_m": 1.8, "crown_base_m": 0.4 * height_m, "height_m": height_m }),
    )
}

/// A house with a wing, trees, a post and a fence round a mast: on level ground, or over a mound and a ditch.
fn yard(chance: &mut Chance, bumpy: bool) -> Job {
    let mut job = meadow();
    let mut near = |least: f64| {
        let (far, turn) = (chance.between(least, 12.0), chance.between(0.0, std::f64::consts::TAU));
        [far * turn.sin(), far * turn.cos()]
    };
    let [x, y] = near(7.0);
    let wing = [[0.0, 0.0], [5.0, 0.0], [5.0, 2.0], [2.0, 2.0], [2.0, 4.5], [0.0, 4.5]];
    job = with(&job, "obstacles", house("house", &wing.map(|[u, v]| [x + u, y + v]), 3.2));
    job = with(&job, "obstacles", tree("tree", near(4.0), 6.0));
    job = with(&job, "obstacles", tree("shrub", near(4.0), 2.4));
    let post = json!({ "at": at(near(3.0)), "radius_m": 0.2, "height_m": 4.0 });
    job = with(&job, "obstacles", thing("post", "post", post));
    let tank = json!({ "at": at(near(5.0)), "radius_m": 0.9, "height_m": 2.2 });
    job = with(&job, "obstacles", thing("post", "tank", tank));
    if !bumpy {
        let line = [near(6.0), near(6.0)];
        let fence = json!({ "what": "fence", "line": [at(line[0]), at(line[1])], "thickness_m": 0.2, "height_m": 1.9 });
        job = with(&job, "obstacles", thing("barrier", "fence", fence));
        return job;
    }
    let mut document = serde_json::to_value(&job).unwrap();
    let spots: Vec<Value> = (-8..=8)
        .flat_map(|i| (-8..=8).map(move |j| [2.5 * f64::from(i), 2.5 * f64::from(j)]))
        .enumerate()
        .map(|(n, [x, y])| {
            let mound = 2.2 * (-((x - 9.0).powi(2) + (y + 4.0).powi(2)) / 18.0).exp();
            let ditch = -1.2 * (-(x + y + 6.0).powi(2) / 6.0).exp();
            json!({ "id": format!("h{n}"), "at": at([x, y]), "height_m": mound + ditch, "sigma_m": 0.01 })
        })
        .collect();
    document["yard"]["spot_heights"] = json!(spots);
    read_job_value(&document).unwrap_or_else(|errors| panic!("{errors}"))
}

/// Whether a point of space lies in something solid: by what each shape is, without a plane or a polygon of the view.
fn is_solid(computed: &Computed, p: P3) -> bool {
    let flat = [p[0], p[1]];
    if p[2] < computed.ground.height(flat) - 2e-3 {
        return true;
    }
    let off = |at: &[f64; 2]| ((p[0] - at[0]).powi(2) + (p[1] - at[1]).powi(2)).sqrt();
    computed.yard.obstacles.iter().any(|obstacle| match &obstacle.shape {
        PlacedShape::Building { outline, top_z, .. } => p[2] < *top_z && contains(outline, flat),
        PlacedShape::Post { at, radius_m, top_z, .. } => p[2] < *top_z && off(at) < *radius_m,
        PlacedShape::Tree { at, trunk_radius_m, crown_radius_m, crown_base_z, top_z, .. } => {
            let half = 0.5 * (top_z - crown_base_z);
            let up = (p[2] - (top_z - half)) / half;
            let trunk = off(at) < *trunk_radius_m && p[2] < top_z - half;
            trunk || (off(at) / crown_radius_m).powi(2) + up * up < 1.0
        }
        PlacedShape::Barrier { line, thickness_m, height_m, .. } => {
            let [a, b] = [line[0], line[1]];
            let way = [b[0] - a[0], b[1] - a[1]];
            let square = way[0] * way[0] + way[1] * way[1];
            let along = ((p[0] - a[0]) * way[0] + (p[1] - a[1]) * way[1]) / square;
            let aside = ((p[0] - a[0]) * way[1] - (p[1] - a[1]) * way[0]).abs() / square.sqrt();
            (0.0..=1.0).contains(&along)
                && aside < thickness_m / 2.0
                && p[2] < *height_m + computed.ground.height(flat)
        }
        _ => false,
    })
}

const STEP_M: f64 = 0.015;
/// Where shares of many points are compared: still a fifth of what is thinnest in these yards.
const STRIDE_M: f64 = 0.04;

/// Walks the line of sight to a point.
fn is_hidden(computed: &Computed, eye: P3, p: P3, step_m: f64) -> bool {
    let way: P3 = std::array::from_fn(|i| p[i] - eye[i]);
    let far_m = way.iter().map(|part| part * part).sum::<f64>().sqrt();
    let steps = (far_m / step_m) as u32;
    (1..steps).any(|step| {
        let share = f64::from(step) * step_m / far_m;
        is_solid(computed, std::array::from_fn(|i| eye[i] + share * way[i]))
    })
}

fn on_line(points: &[P3], share: f64) -> P3 {
    let [a, b] = [points[0], points[1]];
    std::array::from_fn(|i| a[i] + share * (b[i] - a[i]))
}

fn length(points: &[P3]) -> f64 {
    points.windows(2).map(|ends| (0..3).map(|i| (ends[1][i] - ends[0][i]).powi(2)).sum::<f64>().sqrt()).sum()
}

/// In yards in which a twentieth at least of what is looked at is hidden. One in two hundred may be told otherwise: what lies
/// nearer to an edge than the outlines of round things are drawn by corners is left out.
#[test]
fn what_is_hidden_is_so_along_lines_of_sight_walked_step_by_step() {
    let mut chance = Chance::new(41);
    let (mut tried, mut wrong, mut hidden) = (0_u32, Vec::new(), 0_u32);
    for round in 0..10 {
        let job = yard(&mut chance, round % 2 == 1);
        let computed = computed(&job);
        let (far, turn) = (chance.between(9.0, 17.0), chance.between(0.0, std::f64::consts::TAU));
        let place = [far * turn.sin(), far * turn.cos()];
        let seen = seen(&job, &computed, &standpoint(place, if round % 3 == 2 { 2.7 } else { 0.0 }));
        let eye = seen.eyes.position();
        if is_solid(&computed, eye) {
            continue;
        }
        let of_work = seen
            .lines
            .iter()
            .filter(|line| matches!(line.kind, LineKind::Strand | LineKind::Mast | LineKind::Guy));
        for line in of_work.filter(|line| length(&line.points[..2]) > 0.25) {
            for share in [0.15, 0.5, 0.85] {
                let p = on_line(&line.points, share);
                tried += 1;
                hidden += u32::from(line.hidden);
                if is_hidden(&computed, eye, p, STEP_M) != line.hidden {
                    wrong.push((round, line.kind, line.hidden, p));
                }
            }
        }
        // What shows of a flat side is seen a little before its middle; what is round is drawn by a flat area within it.
        let is_round = |kind| matches!(kind, FaceKind::Leaves | FaceKind::Trunk | FaceKind::Post);
        for face in seen.faces.iter().filter(|face| !is_round(face.kind)) {
            let n = face.corners.len() as f64;
            let middle: P3 = std::array::from_fn(|i| face.corners.iter().map(|p| p[i]).sum::<f64>() / n);
            let out = on_line(&[middle, eye], 0.03 / length(&[middle, eye]));
            let edge = face.corners.iter().map(|p| length(&[*p, middle])).fold(f64::INFINITY, f64::min);
            if edge > 0.3 {
                tried += 1;
                if is_hidden(&computed, eye, out, STEP_M) {
                    wrong.push((round, LineKind::Edge, false, middle));
                }
            }
        }
    }
    assert!(tried > 500 && hidden > tried / 20, "{hidden} hidden of {tried}");
    assert!(
        wrong.len() * 200 <= tried as usize,
        "{} of {tried}: {:?}",
        wrong.len(),
        &wrong[..wrong.len().min(8)]
    );
}

/// The share of the lit cone is the share of points, evenly along all strands, that a walked line of sight reaches.
#[test]
fn the_share_of_the_cone_is_that_of_its_points_that_are_reached() {
    let mut chance = Chance::new(7);
    let mut shares = Vec::new();
    for round in 0..6 {
        let job = yard(&mut chance, round % 2 == 0);
        let computed = computed(&job);
        let (far, turn) = (chance.between(8.0, 15.0), chance.between(0.0, std::f64::consts::TAU));
        let seen = seen(&job, &computed, &standpoint([far * turn.sin(), far * turn.cos()], 0.0));
        let eye = seen.eyes.position();
        if is_solid(&computed, eye) {
            continue;
        }
        let ring = computed.plan.ring.as_ref().expect("the yardstick has strands");
        let points =
            ring.tops.iter().zip(&ring.points).flat_map(|(top, end)| {
                (0..24).map(move |i| on_line(&[*top, *end], (f64::from(i) + 0.5) / 24.0))
            });
        let reached: Vec<bool> = points.map(|p| !is_hidden(&computed, eye, p, STRIDE_M)).collect();
        let share = reached.iter().filter(|seen| **seen).count() as f64 / reached.len() as f64;
        let cone = seen.cone.expect("there are strands");
        assert!((cone.share - share).abs() < 0.015, "round {round}: {} and {share}", cone.share);
        let length_m: f64 = ring.strand_lengths_m.iter().sum();
        assert!(
            (cone.length_m - length_m).abs() < 1e-9 && (cone.seen_m / length_m - cone.share).abs() < 1e-12
        );
        shares.push(share);
    }
    assert!(shares.iter().any(|share| *share < 0.9) && shares.iter().any(|share| *share > 0.1), "{shares:?}");
}

/// The angle that a thing's top is said to stand at is that of the height that is said beside it: of its middle over level
/// ground, of a house of its nearest corner. With something on the mast its name stands higher than its tubes reach.
#[test]
fn tops_stand_where_their_heights_say() {
    let corners = [[5.0, -3.0], [7.0, -3.0], [7.0, 3.0], [5.0, 3.0]];
    let mut job = with(&meadow(), "obstacles", house("shed", &corners, 4.0));
    job = with(&job, "obstacles", tree("tree", [-4.0, 6.0], 7.0));
    job.rig.topper = yardstick().rig.topper;
    assert!(job.rig.topper.as_ref().is_some_and(|topper| topper.height_m > 0.0), "it has a topper");
    let computed = computed(&job);
    let eyes_at = [13.0, -5.0];
    let seen = seen(&job, &computed, &standpoint(eyes_at, 0.0));
    let mut said = 0;
    for thing in &seen.things {
        let (HeightOf::Known { height_m, .. }, Some(top_deg)) = (thing.height, thing.top_deg) else {
            continue;
        };
        let places: Vec<[f64; 2]> = match thing.kind {
            ThingKind::Mast | ThingKind::Strands => vec![[0.0, 0.0]],
            ThingKind::Building => corners.to_vec(),
            ThingKind::Tree => vec![[-4.0, 6.0]],
            _ => continue,
        };
        let off_m = |p: &[f64; 2]| (p[0] - eyes_at[0]).hypot(p[1] - eyes_at[1]);
        let nearest_m = places.iter().map(off_m).fold(f64::INFINITY, f64::min);
        let by_hand = (height_m - 1.6).atan2(nearest_m).to_degrees();
        assert!((top_deg - by_hand).abs() < 1e-9, "{}: {top_deg} {by_hand}", thing.name);
        said += 1;
    }
    assert_eq!(said, 4, "mast, strands, shed and tree");
}

const WISH: PictureWish = PictureWish { night: false, text: 3.0 };

fn look(toward_deg: f64, pitch_deg: f64) -> Look {
    Look { toward_deg, pitch_deg, field_deg: 60.0, aspect: 1.2 }
}

fn points(scene: &Scene) -> Vec<[f64; 2]> {
    let shapes = scene.shapes.iter().flat_map(|shape| match &shape.geometry {
        Geometry::Line { points } | Geometry::Area { points } => points.clone(),
        Geometry::Words { at, .. } => vec![*at],
        _ => Vec::new(),
    });
    shapes.collect()
}

/// The whole job turned about its origin, and whoever looks at it with it: the same is seen. Bearings of the scale apart.
#[test]
fn a_yard_turned_with_whoever_looks_at_it_is_the_same() {
    let mut chance = Chance::new(3);
    let mut job = yard(&mut chance, false);
    job.standpoints = vec![standpoint([11.0, -6.0], 0.0)];
    let computed_first = computed(&job);
    let first = seen(&job, &computed_first, &job.standpoints[0]);
    let toward_deg = first.mast_deg[2];
    for by_deg in [37.0, 180.0, 251.5] {
        let turned = Move::Turn { by_deg }.job(&job);
        let computed = computed(&turned);
        let other = seen(&turned, &computed, &turned.standpoints[0]);
        let (a, b) = (first.cone.unwrap(), other.cone.unwrap());
        assert!((a.share - b.share).abs() < 1e-4 && a.strands == b.strands, "{a:?} {b:?}");
        for (a, b) in first.things.iter().zip(&other.things) {
            assert!(
                a.name == b.name && a.shown == b.shown && (a.distance_m - b.distance_m).abs() < 1e-6,
                "{a:?} {b:?}"
            );
            assert!((a.share - b.share).abs() < 5e-3, "{a:?} {b:?}");
        }
        let of = |seen: &Seen, deg: f64| {
            let scene = picture(seen, &look(deg, 5.0), &WISH, job.units);
            let work = scene
                .shapes
                .iter()
                .filter(|shape| [Role::SeenStrand, Role::SeenGuy, Role::SeenMast].contains(&shape.role));
            work.filter_map(|shape| match &shape.geometry {
                Geometry::Line { points } => Some(points.clone()),
                _ => None,
            })
            .flatten()
            .collect::<Vec<_>>()
        };
        let (a, b) = (of(&first, toward_deg), of(&other, toward_deg + by_deg));
        assert!(a.len() == b.len() && a.len() > 20, "{} {}", a.len(), b.len());
        let apart =
            a.iter().zip(&b).map(|(p, q)| (p[0] - q[0]).abs().max((p[1] - q[1]).abs())).fold(0.0, f64::max);
        assert!(apart < 0.03, "{apart}");
    }
}

/// Whichever way one looks, all that is drawn lies in the picture; and what is behind is not drawn.
#[test]
fn nothing_is_drawn_beyond_the_picture_or_from_behind() {
    let mut chance = Chance::new(19);
    let job = yard(&mut chance, true);
    let computed = computed(&job);
    for place in [[0.4, 0.3], [3.0, -2.0], [13.0, 8.0]] {
        let seen = seen(&job, &computed, &standpoint(place, 0.0));
        let [_, _, mast_deg] = seen.mast_deg;
        for turn_deg in (0..360).step_by(24) {
            for pitch_deg in [-40.0, 0.0, 45.0] {
                let scene = picture(&seen, &look(f64::from(turn_deg), pitch_deg), &WISH, job.units);
                for p in points(&scene) {
                    assert!(p.iter().all(|part| part.is_finite()));
                    assert!(
                        p[0].abs() <= 50.01 && p[1].abs() <= 50.0 / 1.2 + 0.01,
                        "{p:?} at {turn_deg}° {pitch_deg}°"
                    );
                }
            }
        }
        let away = picture(&seen, &look((mast_deg + 180.0) % 360.0, 0.0), &WISH, job.units);
        let far_off = (place[0].powi(2) + place[1].powi(2)).sqrt() > 1.0;
        assert!(
            !far_off || away.shapes.iter().all(|shape| shape.role != Role::SeenMast),
            "the mast is behind"
        );
    }
}

/// A height of nothing is none: an outline on the ground, that hides nothing; with one it stands up and hides.
#[test]
fn what_nobody_gave_a_height_does_not_stand_up() {
    let between = [[5.0, -3.0], [7.0, -3.0], [7.0, 3.0], [5.0, 3.0]];
    let from = standpoint([14.0, 0.0], 0.0);
    let of = |height_m: f64| {
        let job = with(&meadow(), "obstacles", house("shed", &between, height_m));
        let computed = computed(&job);
        let seen = seen(&job, &computed, &from);
        let scene = picture(&seen, &look(270.0, 0.0), &WISH, job.units);
        (seen, scene)
    };
    let (unknown, scene) = of(0.0);
    let shed = unknown.things.iter().find(|thing| thing.name == "shed").unwrap();
    assert_eq!((shed.height, shed.kind, shed.top_deg), (HeightOf::NotKnown, ThingKind::Building, None));
    assert!(unknown.faces.is_empty() && (unknown.cone.unwrap().share - 1.0).abs() < 1e-12);
    assert!(scene.shapes.iter().any(|shape| shape.role == Role::SeenUnknown));
    let said = |scene: &Scene| {
        scene.shapes.iter().any(|shape| matches!(&shape.geometry, Geometry::Words { text, .. } if text.contains("height not known yet")))
    };
    assert!(said(&scene));
    let ground_row = points(&scene).len();
    assert!(ground_row > 0);
    let (known, scene) = of(4.0);
    assert!(!known.faces.is_empty() && known.cone.unwrap().share < 0.6, "{:?}", known.cone);
    assert!(!said(&scene) && scene.shapes.iter().any(|shape| shape.role == Role::SeenHidden));
    assert!(scene.shapes.iter().all(|shape| shape.role != Role::SeenUnknown));
}

/// The wall of a house of 4 m, 9 m before the eyes, 5 m behind it the mast: by similar triangles all of the mast up to
/// 1.6 + 2.4·14/7 = 6.4 m is hidden by its far edge, 7 m off; and a taller house hides no less.
#[test]
fn a_taller_or_a_further_thing_never_shows_more_of_the_cone() {
    let from = standpoint([14.0, 0.0], 0.0);
    let mut before = f64::INFINITY;
    for height_m in [0.5, 1.5, 2.5, 3.5, 5.0, 8.0] {
        let job = with(
            &meadow(),
            "obstacles",
            house("shed", &[[5.0, -3.0], [7.0, -3.0], [7.0, 3.0], [5.0, 3.0]], height_m),
        );
        let computed = computed(&job);
        let seen = seen(&job, &computed, &from);
        let share = seen.cone.unwrap().share;
        assert!(share <= before + 1e-12, "{share} at {height_m}");
        before = share;
        // The mast: hidden as far up as the line over the near top edge, at 7 m, reaches at 14 m.
        let mast = seen.lines.iter().filter(|line| line.kind == LineKind::Mast && line.hidden);
        let hidden_to =
            mast.flat_map(|line| line.points.iter().map(|p| p[2])).fold(f64::NEG_INFINITY, f64::max);
        let by_hand = (1.6 + (height_m - 1.6) * 2.0)
            .min(computed.plan.mast.foot_m + computed.plan.mast.raised_height_m);
        if height_m > 1.6 {
            assert!((hidden_to - by_hand).abs() < 1e-5, "{hidden_to} {by_hand} at {height_m}");
        }
    }
    assert!(before < 0.3, "{before}");
}

/// Whoever stands in a house looks out of it, wherever its windows are.
#[test]
fn what_one_stands_in_is_around_one_and_hides_nothing() {
    let job = with(
        &meadow(),
        "obstacles",
        house("home", &[[6.0, -3.0], [10.0, -3.0], [10.0, 3.0], [6.0, 3.0]], 6.0),
    );
    let computed = computed(&job);
    let inside = seen(&job, &computed, &standpoint([7.0, 0.0], 2.8));
    let home = inside.things.iter().find(|thing| thing.name == "home").unwrap();
    assert_eq!((home.shown, home.distance_m), (Shown::AroundYou, 0.0));
    assert!((inside.cone.unwrap().share - 1.0).abs() < 1e-12);
    let [_, _, z] = inside.eyes.position();
    assert!((z - computed.ground.height([7.0, 0.0]) - 4.4).abs() < 1e-9, "floor and eyes over the ground");
    let behind = seen(&job, &computed, &standpoint([11.0, 0.0], 0.0));
    assert!(behind.cone.unwrap().share < 0.1, "{:?}", behind.cone);
}

/// By night the strands are lit, hidden parts of the work are not to be seen, and no colour of the day is left.
#[test]
fn a_night_has_its_own_picture() {
    let job =
        with(&meadow(), "obstacles", house("shed", &[[5.0, -3.0], [7.0, -3.0], [7.0, 1.0], [5.0, 1.0]], 4.0));
    let computed = computed(&job);
    let seen = seen(&job, &computed, &standpoint([14.0, 0.0], 0.0));
    let [day, night] = [false, true]
        .map(|night| picture(&seen, &look(270.0, 10.0), &PictureWish { night, ..WISH }, job.units));
    let roles =
        |scene: &Scene| scene.shapes.iter().map(|shape| format!("{:?}", shape.role)).collect::<Vec<_>>();
    assert!(
        roles(&day).iter().all(|role| role.starts_with("Seen"))
            && roles(&day).contains(&"SeenHidden".to_owned())
    );
    assert!(
        roles(&night).iter().all(|role| role.starts_with("Night"))
            && roles(&night).contains(&"NightLit".to_owned())
    );
    let lit = |scene: &Scene, role: Role| {
        let mut lines: Vec<_> = scene
            .shapes
            .iter()
            .filter(|shape| shape.role == role)
            .map(|shape| format!("{:?}", shape.geometry))
            .collect();
        lines.sort();
        lines
    };
    assert_eq!(lit(&day, Role::SeenStrand), lit(&night, Role::NightLit), "the same strands show");
    assert!(night.shapes.iter().any(|shape| shape.subject == Some(Subject::Ring)));
}
