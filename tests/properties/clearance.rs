//! What must hold of clearances whatever the yard: they do not care where the yard lies or which way it faces, nor
//! for left and right; and a bigger obstacle is never further away.

use mastwright_engine::finding::{Finding, Subject};
use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::job::{BarrierKind, Located, PathUse, ServiceKind};
use mastwright_engine::plan::*;
use mastwright_engine::quantity::estimate::Estimate;
use mastwright_engine::yard::approach::{Approach, ChainKind};
use mastwright_engine::yard::clearance::{Checks, check};
use mastwright_engine::yard::*;
use proptest::prelude::*;

/// A turn about the origin, perhaps mirrored first, then a shift.
#[derive(Debug, Clone, Copy)]
struct Move {
    angle: f64,
    mirror: bool,
    shift: [f64; 3],
}

const STAY: Move = Move { angle: 0.0, mirror: false, shift: [0.0; 3] };

impl Move {
    fn turned(&self, v: [f64; 2]) -> [f64; 2] {
        let (sin, cos) = self.angle.sin_cos();
        let x = if self.mirror { -v[0] } else { v[0] };
        [cos * x - sin * v[1], sin * x + cos * v[1]]
    }

    fn flat(&self, p: [f64; 2]) -> [f64; 2] {
        let q = self.turned(p);
        [q[0] + self.shift[0], q[1] + self.shift[1]]
    }

    fn solid(&self, p: [f64; 3]) -> [f64; 3] {
        let q = self.flat([p[0], p[1]]);
        [q[0], q[1], p[2] + self.shift[2]]
    }

    fn line(&self, points: &[[f64; 2]]) -> Vec<[f64; 2]> {
        points.iter().map(|p| self.flat(*p)).collect()
    }

    fn chain(&self, points: &[[f64; 3]]) -> Vec<[f64; 3]> {
        points.iter().map(|p| self.solid(*p)).collect()
    }
}

const GRADIENT: [f64; 2] = [0.08, -0.05];

fn height(p: [f64; 2]) -> f64 {
    GRADIENT[0] * p[0] + GRADIENT[1] * p[1]
}

fn ground(by: Move) -> Ground {
    let gradient = by.turned(GRADIENT);
    let height_0_m = by.shift[2] - gradient[0] * by.shift[0] - gradient[1] * by.shift[1];
    Ground { plane: Plane { height_0_m, gradient, covariance: [[0.0; 3]; 3] }, surface: None }
}

/// How much bigger than drawn everything is, in metres.
fn yard(seed: &Seed, by: Move, bigger_m: f64) -> PlacedYard {
    let [tree, shed, post] = seed.places;
    let outline = |c: [f64; 2], half: f64| {
        let corners = [[-half, -half], [half, -half], [half, half], [-half, half]];
        let turned = |p: &[f64; 2]| {
            let (sin, cos) = seed.turn.sin_cos();
            [c[0] + cos * p[0] - sin * p[1], c[1] + sin * p[0] + cos * p[1]]
        };
        by.line(&corners.iter().map(turned).collect::<Vec<_>>())
    };
    let z = |p: [f64; 2]| height(p) + by.shift[2];
    let obstacle = |id: &str, shape| PlacedObstacle {
        id: id.into(),
        name: id.into(),
        keep_off_m: 0.5,
        shape,
        sigma_m: 0.1,
        height_sigma_m: 0.0,
    };
    let line = by.line(&[[-9.0, seed.offset], [1.0, seed.offset + 2.0], [9.0, seed.offset]]);
    let wire = [[-20.0, 9.0 + seed.offset, 7.0], [0.0, 9.0, 6.4], [20.0, 8.0, 7.5]];
    PlacedYard {
        boundary: Some(by.line(&[[-12.0, -12.0], [12.0, -12.0], [13.0, 11.0], [-11.0, 12.0]])),
        boundary_sigma_m: 0.05,
        obstacles: vec![
            obstacle(
                "tree",
                PlacedShape::Tree {
                    at: by.flat(tree),
                    crown_base_m: 2.0 - bigger_m,
                    height_m: 6.0 + bigger_m,
                    trunk_radius_m: 0.2 + bigger_m,
                    crown_radius_m: 1.5 + bigger_m,
                    crown_base_z: z(tree) + 2.0 - bigger_m,
                    top_z: z(tree) + 6.0 + bigger_m,
                },
            ),
            obstacle(
                "shed",
                PlacedShape::Building {
                    outline: outline(shed, 1.5 + bigger_m),
                    height_m: 2.5 + bigger_m,
                    ground_z: [z(shed); 2],
                    top_z: z(shed) + 2.5 + bigger_m,
                },
            ),
            obstacle(
                "post",
                PlacedShape::Post {
                    at: by.flat(post),
                    radius_m: 0.05 + bigger_m,
                    height_m: 3.0 + bigger_m,
                    top_z: z(post) + 3.0 + bigger_m,
                },
            ),
            obstacle(
                "wall",
                PlacedShape::Barrier {
                    what: BarrierKind::Wall,
                    line: line.clone(),
                    thickness_m: 0.3 + bigger_m,
                    height_m: 1.2 + bigger_m,
                    top_z: by.shift[2] + 4.0,
                },
            ),
            obstacle(
                "way",
                PlacedShape::Path {
                    used_by: PathUse::Foot,
                    outline: flat::widened(&line, 1.4 + bigger_m),
                    line,
                    width_m: 1.4 + bigger_m,
                    headroom_m: 2.03,
                },
            ),
            obstacle("pond", PlacedShape::KeepOff { outline: outline(post, 2.0 + bigger_m) }),
        ],
        overhead_lines: vec![PlacedOverheadLine {
            id: "line".into(),
            name: "line".into(),
            voltage_kv: Some(11.0),
            supports: by.chain(&[wire[0], wire[2]]),
            wire: by.chain(&wire),
            sway_m: bigger_m,
            height_sigma_m: 0.3 + bigger_m,
            sigma_m: 0.1,
        }],
        buried_services: vec![PlacedBuriedService {
            id: "pipe".into(),
            name: "pipe".into(),
            carries: ServiceKind::PotableWater,
            located: Located::MarkedByUtility,
            line: by.line(&[[-15.0, seed.offset], [15.0, -seed.offset]]),
            width_m: 0.1 + bigger_m,
            rule_of_thumb: false,
            tolerance_m: 0.61,
            sigma_m: 0.1,
        }],
        ..PlacedYard::default()
    }
}

struct Rig {
    mast: MastResult,
    base: BaseResult,
    guys: Vec<GuyResult>,
    ring: RingResult,
}

fn estimate(value: f64) -> Estimate {
    Estimate { value, half_width_95: 0.0 }
}

fn rig(by: Move) -> Rig {
    let foot = by.solid([0.0, 0.0, 0.1]);
    let mast = MastResult {
        east_m: foot[0],
        north_m: foot[1],
        ground_m: by.shift[2],
        foot_m: foot[2],
        raised_height_m: 6.0,
        lowered_height_m: 3.0,
        top_above_ground_m: 6.1,
        fall_radius_m: 6.1,
        mass_kg: 20.0,
        stages: Vec::new(),
    };
    let leg = [[-0.05, 0.0], [0.05, 0.0], [0.05, 1.0], [-0.05, 1.0]];
    let base = BaseResult {
        underside_m: by.shift[2],
        legs: vec![LegResult {
            id: "front".into(),
            bearing_deg: 0.0,
            reach_m: 1.0,
            outline: by.line(&leg),
            tip: by.flat([0.0, 1.0]),
            support: Support::OnGround,
            gap_centre_m: estimate(0.0),
            gap_inner_m: 0.0,
            gap_outer_m: 0.0,
            gap_left_m: 0.0,
            gap_right_m: 0.0,
            bevel_along_deg: 0.0,
            bevel_across_deg: 0.0,
        }],
        contacts: Vec::new(),
        stakes: vec![stake("front-left", [-0.1, 0.9], by), stake("front-right", [0.1, 0.9], by)],
        contour: ContourTurn::default(),
    };
    let guys = (0..3).map(|i| guy(i, by)).collect();
    let ends: Vec<[f64; 3]> = (0..8)
        .map(|i| {
            let (s, c) = (f64::from(i) * 0.7).sin_cos();
            [3.0 * s, 3.0 * c, height([3.0 * s, 3.0 * c])]
        })
        .collect();
    let lengths = ends.iter().map(|p| (9.0 + (5.9 - p[2]) * (5.9 - p[2])).sqrt()).collect();
    Rig {
        mast,
        base,
        guys,
        ring: RingResult {
            radius_m: 3.0,
            points: by.chain(&ends),
            top_radius_m: 0.0,
            tops: by.chain(&vec![[0.0, 0.0, 5.9]; ends.len()]),
            strand_lengths_m: lengths,
        },
    }
}

fn stake(id: &str, at: [f64; 2], by: Move) -> StakePoint {
    let p = by.solid([at[0], at[1], height(at)]);
    StakePoint { id: id.into(), east_m: p[0], north_m: p[1], ground_m: p[2] }
}

fn guy(number: u32, by: Move) -> GuyResult {
    let (s, c) = (f64::from(number) * std::f64::consts::TAU / 3.0 + 0.3).sin_cos();
    let foot = [5.0 * s, 5.0 * c];
    let (eye, attach) = ([foot[0], foot[1], height(foot)], [0.0, 0.0, 5.1]);
    let rope: Vec<[f64; 3]> = (0..=16)
        .map(|i| {
            let u = f64::from(i) / 16.0;
            let mut p = [0.0, 1.0, 2.0].map(|k| eye[k as usize] + u * (attach[k as usize] - eye[k as usize]));
            p[2] -= 4.0 * 0.05 * u * (1.0 - u);
            p
        })
        .collect();
    let at = by.solid(eye);
    GuyResult {
        id: format!("upper-{}", number + 1),
        level_id: "upper".into(),
        name: format!("upper {}", number + 1),
        shared_with: Vec::new(),
        made_fast: None,
        east_m: at[0],
        north_m: at[1],
        ground_m: at[2],
        azimuth_deg: 0.0,
        reading_deg: 0.0,
        turn_from_front_deg: 0.0,
        radius_m: 5.0,
        tape_m: 5.0,
        height_difference_m: 0.0,
        attach: by.solid(attach),
        eye: at,
        chord_m: 7.1,
        angle_deg: 45.0,
        unstressed_m: estimate(7.1),
        cut_m: estimate(8.0),
        sag_m: 0.05,
        tension_top_n: 200.0,
        tension_bottom_n: 200.0,
        horizontal_n: 140.0,
        natural_frequency_hz: 5.0,
        landing_95: Ellipse { semi_major_m: 0.2, semi_minor_m: 0.1, bearing_deg: 0.0 },
        rope: by.chain(&rope),
    }
}

#[derive(Debug, Clone)]
struct Seed {
    places: [[f64; 2]; 3],
    turn: f64,
    offset: f64,
}

fn seeds() -> impl Strategy<Value = Seed> {
    let place = || [-8.0..8.0, -8.0..8.0_f64];
    ([place(), place(), place()], 0.0..1.5_f64, -4.0..4.0_f64).prop_map(|(places, turn, offset)| Seed {
        places,
        turn,
        offset,
    })
}

/// Turns that are no multiple of a right angle, shifts of a few hundred metres.
fn moves() -> impl Strategy<Value = Move> {
    (0.0..std::f64::consts::TAU, any::<bool>(), [-300.0..300.0_f64, -300.0..300.0, -50.0..50.0])
        .prop_map(|(angle, mirror, shift)| Move { angle, mirror, shift })
}

fn measured(seed: &Seed, by: Move, bigger_m: f64) -> (Vec<Clearance>, Vec<Finding>) {
    let rig = rig(by);
    let work =
        Work { mast: &rig.mast, base: &rig.base, guys: &rig.guys, ring: Some(&rig.ring), sigma_m: 0.02 };
    let Checks { mut clearances, findings, .. } = check(&yard(seed, by, bigger_m), &work, &ground(by));
    clearances.sort_by_key(key);
    (clearances, findings)
}

/// A rope beside something that stands up, or a wire.
fn is_a_rope(what: Approach) -> bool {
    let kind = ChainKind::Rope;
    matches!(what, Approach::Chain { kind: of, .. } | Approach::ChainToWire { kind: of, .. } if of == kind)
}

fn key(clearance: &Clearance) -> (String, String) {
    (format!("{:?}", clearance.to), format!("{:?}", clearance.what))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn moving_turning_and_mirroring_everything_keeps_every_distance(seed in seeds(), by in moves()) {
        let (here, here_found) = measured(&seed, STAY, 0.0);
        let (there, there_found) = measured(&seed, by, 0.0);
        prop_assert!(here.len() > 20, "every kind of part is measured: {}", here.len());
        prop_assert_eq!(here.len(), there.len());
        for (a, b) in here.iter().zip(&there) {
            prop_assert_eq!(key(a), key(b));
            prop_assert!((a.distance_m - b.distance_m).abs() < 1e-8, "{:?} {:?}", a, b);
        }
        // A margin within rounding of nought may fall on either side.
        let decided = here.iter().all(|c| (c.distance_m - c.needed_m).abs() > 1e-6);
        if decided {
            let rules = |found: &[Finding]| {
                let mut rules: Vec<(&'static str, Subject)> =
                    found.iter().map(|f| (f.rule.name(), f.subject.clone())).collect();
                rules.sort_by_key(|r| format!("{r:?}"));
                rules
            };
            prop_assert_eq!(rules(&here_found), rules(&there_found));
        }
    }

    #[test]
    fn a_bigger_thing_is_never_further_away(seed in seeds(), bigger_m in 0.0..1.5_f64) {
        let (small, _) = measured(&seed, STAY, 0.0);
        let (big, _) = measured(&seed, STAY, bigger_m);
        for a in &small {
            let b = big.iter().find(|b| key(b) == key(a)).expect("what is near stays near");
            prop_assert!(b.distance_m <= a.distance_m + 1e-9, "{:?} {:?}", a, b);
        }
    }

    #[test]
    fn the_two_points_of_a_clearance_lie_its_distance_apart_where_it_is_one_in_space(seed in seeds()) {
        for c in measured(&seed, STAY, 0.0).0.iter().filter(|c| is_a_rope(c.what)) {
            let d: f64 = (0..3).map(|i| (c.from_point[i] - c.to_point[i]).powi(2)).sum();
            prop_assert!((d.sqrt() - c.distance_m).abs() < 1e-9, "{:?}", c);
        }
    }
}
