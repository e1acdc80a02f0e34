//! A small computed plan made by hand for the tests of drawings and reports: level rules of thumb on a plane,
//! not the engine's own methods.

use crate::drawing::scene::{Geometry, Scene, SceneShape};
use crate::finding::yard::{Nearness, Thing, WorkPart, YardRemedy, YardRule};
use crate::finding::{Clear, Finding, Limit, Quantity, Severity, Subject};
use crate::ground::fall::fall;
use crate::ground::{Ground, Plane};
use crate::job::*;
use crate::numerics::real::{cos_deg, hypot, sin_deg, tan_deg};
use crate::plan::*;
use crate::quantity::bearing;
use crate::quantity::estimate::Estimate;
use crate::quantity::{UnitSystem, Units};
use crate::source::SourceKey;
use crate::survey::{NorthFrom, PlacedMark};
use crate::tube::TubeTable;
use crate::verdict::Verdict;
use crate::yard::approach::{Approach, ChainKind};
use crate::yard::*;

const MAST: [f64; 2] = [5.6, 4.6];
const FRONT_DEG: f64 = 225.0;
const SLOPE_DEG: f64 = 7.0;

pub(crate) fn sample(system: UnitSystem) -> (Job, Computed) {
    (job(system), computed())
}

fn plane() -> Plane {
    let t = tan_deg(SLOPE_DEG);
    // Falls to 225°: design conventions gE = −tan s·sin a, gN = −tan s·cos a.
    let gradient = [-t * sin_deg(FRONT_DEG), -t * cos_deg(FRONT_DEG)];
    Plane { height_0_m: 0.0, gradient, covariance: [[0.0; 3]; 3] }
}

fn fix(at: [f64; 2]) -> PointFix {
    PointFix::Coordinates { east_m: at[0], north_m: at[1] }
}

fn job(system: UnitSystem) -> Job {
    Job {
        mastwright_job: FORMAT_VERSION,
        mastwright_minor: FORMAT_MINOR,
        name: "Drawing sample".into(),
        notes: String::new(),
        units: Units { system, inch_fraction: 16 },
        yard: Yard {
            place: Some(Place {
                name: "Sample place".into(),
                latitude_deg: 51.5,
                longitude_deg: -0.1,
                altitude_m: 20.0,
            }),
            surveyed_at: chrono::DateTime::parse_from_rfc3339("2026-07-04T10:30:00+01:00").ok(),
            bearings: BearingReference::Magnetic { declination_deg: None },
            tape_held: TapeHeld::AlongGround,
            instruments: Instruments::default(),
            marks: vec![Mark { id: "A".into(), name: "nail".into(), at: PointFix::Origin }],
            measurements: vec![],
            slopes: vec![],
            spot_heights: vec![],
            obstacles: vec![],
            boundary: None,
            overhead_lines: vec![],
            buried_services: vec![],
            soil: SoilFeel::Unknown,
            wet_season: None,
            overhead: Default::default(),
            underground: Default::default(),
            digging: Default::default(),
        },
        rig: rig(),
        placement: Placement { mast: fix(MAST), front_bearing_deg: FRONT_DEG, guy_turn_deg: 0.0 },
        standpoints: Vec::new(),
        raising: Default::default(),
        pegging: Default::default(),
        workshop: Default::default(),
        cards: Default::default(),
        tensions: Default::default(),
        season: Default::default(),
        lights: Default::default(),
        wind: Wind::default(),
        as_built: None,
        log: Vec::new(),
        photos: Vec::new(),
        mastwright_history: None,
    }
}

fn rig() -> Rig {
    Rig {
        tubes: vec![Tube {
            name: "lower".into(),
            section: Section::Listed { table: TubeTable::Rmc, size: "2".into() },
            length_m: 3.05,
            overlap_m: 0.0,
            joint: TubeJoint::Telescoped,
            pin_hole_mm: None,
            yield_mpa: None,
            calliper: Default::default(),
        }],
        guy_levels: vec![],
        base: Base {
            pattern: BasePattern::T,
            front_reach_m: 1.42,
            side_reach_m: 0.9,
            back_reach_m: None,
            timber_width_mm: 89.0,
            timber_depth_mm: 89.0,
            seat_height_mm: 10.0,
            foot_thickness_mm: 89.0,
            foot_width_mm: 89.0,
            shim_up_to_mm: 25.0,
            foot_fixing: FootFixing::Pinned,
            wood: Default::default(),
            seat_plate_mm: None,
            seat_plate_thickness_mm: None,
            lap_depth_mm: None,
            joint_pad_mm: None,
            pad_mm: None,
        },
        stakes: Stakes { per_leg: 2, inset_m: 0.1, diameter_mm: 16.0, length_m: 0.6 },
        strands: Some(Strands {
            count: 18,
            top_height_m: 5.2,
            ring_radius_m: 2.6,
            top_radius_m: None,
            sweep_deg: 360.0,
            facing_turn_deg: 0.0,
            cord: Cord::default(),
        }),
        topper: None,
    }
}

fn at(bearing_deg: f64, radius_m: f64) -> [f64; 2] {
    let unit = bearing::unit(bearing_deg);
    [MAST[0] + unit[0] * radius_m, MAST[1] + unit[1] * radius_m]
}

fn on_ground(p: [f64; 2]) -> [f64; 3] {
    [p[0], p[1], plane().height(p)]
}

fn computed() -> Computed {
    let plan = plan();
    Computed { layout: layout(&plan), plan, yard: yard(), ground: Ground { plane: plane(), surface: None } }
}

fn layout(plan: &Plan) -> Layout {
    let placed_work = PlacedWork {
        mast: MAST,
        mast_fix: fix(MAST),
        front_bearing_deg: FRONT_DEG,
        anchors: Default::default(),
        gaps_m: Default::default(),
    };
    Layout {
        placed_work,
        mast: plan.mast.clone(),
        base: plan.base.clone(),
        guys: plan.guys.clone(),
        ring: plan.ring.clone(),
        fall: fall(&plane()),
        findings: vec![],
    }
}

fn plan() -> Plan {
    let ground_m = plane().height(MAST);
    let ellipse = Ellipse { semi_major_m: 0.35, semi_minor_m: 0.06, bearing_deg: 40.0 };
    let guys: Vec<GuyResult> = (0..3).map(guy).collect();
    let pegs = guys.iter().map(peg).collect();
    Plan {
        north: North {
            add_to_reading_deg: 1.2,
            add_to_reading_half_width_95_deg: 0.7,
            from: NorthFrom::DeclinationByModel { declination_deg: 1.2, on: "2026-07-04".into() },
        },
        ground: GroundResult {
            model: GroundModelKind::Plane,
            slope_deg: Estimate { value: SLOPE_DEG, half_width_95: 0.3 },
            grade_percent: 100.0 * tan_deg(SLOPE_DEG),
            fall_bearing_deg: Some(FRONT_DEG),
            fall_reading_deg: Some(FRONT_DEG - 1.2),
            fall_half_width_95_deg: 2.5,
            gradient_east: plane().gradient[0],
            gradient_north: plane().gradient[1],
            gradient_covariance: [[0.0; 2]; 2],
            readings: vec![],
            surface_triangles: vec![],
            surface_vertices: vec![],
        },
        points: vec![LocatedPoint {
            path: "/yard/marks/1/at".into(),
            name: "B".into(),
            east_m: 11.0,
            north_m: 0.6,
            ground_m: 0.0,
            ellipse_95: ellipse,
        }],
        open_points: vec![],
        mast: MastResult {
            east_m: MAST[0],
            north_m: MAST[1],
            ground_m,
            foot_m: ground_m + 0.11,
            raised_height_m: 5.4,
            lowered_height_m: 3.05,
            top_above_ground_m: 5.51,
            fall_radius_m: 5.9,
            mass_kg: 28.4,
            stages: vec![Stage {
                name: "lower".into(),
                outside_mm: 60.3,
                wall_mm: 3.71,
                bottom_height_m: 0.0,
                top_height_m: 3.05,
                mass_kg: 15.8,
                radial_gap_mm: None,
            }],
        },
        base: base(),
        guys,
        ring: Some(RingResult {
            radius_m: 2.6,
            points: (0..18).map(|i| on_ground(at(20.0 * f64::from(i), 2.6))).collect(),
            top_radius_m: 0.0,
            tops: vec![[MAST[0], MAST[1], plane().height(MAST) + 5.4]; 18],
            strand_lengths_m: vec![5.8; 18],
        }),
        pegs,
        clearances: vec![Clearance {
            work: Subject::Guy { id: "upper-2".into() },
            to: Subject::Obstacle { id: "pavilion".into() },
            what: Approach::Chain { kind: ChainKind::Rope, to: Thing::Building },
            distance_m: 0.42,
            needed_m: 0.6,
            from_point: on_ground([3.9, 9.0]),
            to_point: on_ground([3.5, 9.2]),
        }],
        look_up_m: 10.0,
        as_built: None,
        findings: vec![Finding {
            against: Some(Subject::Obstacle { id: "pavilion".into() }),
            measured: Some(Quantity::LengthM { value: 0.42 }),
            measured_half_width_95: Some(0.05),
            limit: Limit::at_least(Quantity::LengthM { value: 0.6 }),
            source: SourceKey::DasAnchors,
            ..too_near_the_pavilion()
        }],
        verdict: Some(Verdict::Stop { stops: 1, missing: vec![], unchecked: 0 }),
    }
}

fn too_near_the_pavilion() -> Finding {
    let rule = YardRule::Near {
        part: WorkPart::Rope("Guy 2".into()),
        thing: Thing::Building,
        name: "The pavilion".into(),
        how: Nearness::TooNear,
    };
    let remedy = YardRemedy::MoveGuy { turn: None, clear: Clear { by_m: 0.23, toward_deg: Some(90.0) } };
    Finding::rule_of_thumb(Severity::Stop, rule, Subject::Guy { id: "upper-2".into() }, remedy)
}

fn guy(i: u8) -> GuyResult {
    let azimuth_deg = bearing::wrap_360(FRONT_DEG + 120.0 * f64::from(i));
    let anchor = at(azimuth_deg, 4.8);
    let ground_m = plane().height(anchor);
    let rise = ground_m - plane().height(MAST);
    let attach = [MAST[0], MAST[1], plane().height(MAST) + 4.9];
    let eye = [anchor[0], anchor[1], ground_m];
    let chord_m = hypot(4.8, attach[2] - ground_m);
    GuyResult {
        id: format!("upper-{}", i + 1),
        level_id: "upper".into(),
        name: format!("Guy {}", i + 1),
        shared_with: Vec::new(),
        made_fast: None,
        east_m: anchor[0],
        north_m: anchor[1],
        ground_m,
        azimuth_deg,
        reading_deg: azimuth_deg - 1.2,
        turn_from_front_deg: 120.0 * f64::from(i),
        radius_m: 4.8,
        tape_m: hypot(4.8, rise),
        height_difference_m: rise,
        attach,
        eye,
        chord_m,
        angle_deg: crate::numerics::real::atan2_deg(attach[2] - ground_m, 4.8),
        unstressed_m: Estimate { value: chord_m, half_width_95: 0.03 },
        cut_m: Estimate { value: chord_m + 1.5, half_width_95: 0.03 },
        sag_m: 0.012,
        tension_top_n: 220.0,
        tension_bottom_n: 217.0,
        horizontal_n: 150.0,
        natural_frequency_hz: 3.61,
        landing_95: Ellipse {
            semi_major_m: 0.41,
            semi_minor_m: 0.04,
            bearing_deg: (azimuth_deg + 90.0) % 180.0,
        },
        rope: vec![eye, attach],
    }
}

fn peg(guy: &GuyResult) -> Peg {
    let here = [guy.east_m, guy.north_m];
    let tape = |x: f64, y: f64| hypot(here[0] - x, here[1] - y);
    Peg {
        subject: Subject::Guy { id: guy.id.clone() },
        name: format!("anchor of {}", guy.name),
        guys: vec![guy.id.clone()],
        east_m: guy.east_m,
        north_m: guy.north_m,
        ground_m: guy.ground_m,
        fixing_height_m: None,
        from_mast: Some(PolarTape {
            bearing_deg: guy.azimuth_deg,
            reading_deg: guy.reading_deg,
            plan_m: guy.radius_m,
            tape_m: guy.tape_m,
            height_difference_m: guy.height_difference_m,
        }),
        ties: Some(SwingTies {
            mark_a: "A".into(),
            plan_a_m: tape(0.0, 0.0),
            tape_a_m: tape(0.0, 0.0),
            mark_b: "B".into(),
            plan_b_m: tape(11.0, 0.6),
            tape_b_m: tape(11.0, 0.6),
            side: Side::Left,
            crossing_deg: 84.0,
            good: true,
            landing_95: Ellipse { semi_major_m: 0.03, semi_minor_m: 0.02, bearing_deg: 10.0 },
        }),
    }
}

fn base() -> BaseResult {
    let legs = vec![
        leg("front", FRONT_DEG, 1.42, Support::Foot, 0.156),
        leg("right", FRONT_DEG + 90.0, 0.9, Support::OnGround, 0.0),
        leg("left", FRONT_DEG - 90.0, 0.9, Support::OnGround, 0.0),
    ];
    let stakes = legs
        .iter()
        .flat_map(|leg| [("left", -1.0), ("right", 1.0)].map(|(side, sign)| stake(leg, side, sign)))
        .collect();
    BaseResult {
        underside_m: plane().height(MAST) + 0.005,
        legs,
        contacts: vec![],
        stakes,
        contour: ContourTurn {
            state: crate::plan::ContourState::Turn,
            front_bearing_deg: Some(FRONT_DEG),
            turn_deg: Some(0.0),
            foot_after_m: Some(0.156),
        },
    }
}

fn leg(id: &str, bearing_deg: f64, reach_m: f64, support: Support, gap_m: f64) -> LegResult {
    let bearing_deg = bearing::wrap_360(bearing_deg);
    let along = bearing::unit(bearing_deg);
    let across = bearing::unit(bearing_deg + 90.0);
    let corner = |out: f64, side: f64| {
        [MAST[0] + along[0] * out + across[0] * side, MAST[1] + along[1] * out + across[1] * side]
    };
    let half = 0.0445;
    LegResult {
        id: id.into(),
        bearing_deg,
        reach_m,
        outline: vec![corner(0.0, -half), corner(reach_m, -half), corner(reach_m, half), corner(0.0, half)],
        tip: corner(reach_m, 0.0),
        support,
        gap_centre_m: Estimate { value: gap_m - 0.005, half_width_95: 0.009 },
        gap_inner_m: gap_m - 0.0105,
        gap_outer_m: gap_m,
        gap_left_m: gap_m - 0.005,
        gap_right_m: gap_m - 0.005,
        bevel_along_deg: if gap_m > 0.0 { -7.0 } else { 0.0 },
        bevel_across_deg: 0.0,
    }
}

fn stake(leg: &LegResult, side: &str, sign: f64) -> StakePoint {
    let across = bearing::unit(leg.bearing_deg + 90.0);
    let along = bearing::unit(leg.bearing_deg);
    let p = [
        leg.tip[0] - 0.1 * along[0] + sign * 0.07 * across[0],
        leg.tip[1] - 0.1 * along[1] + sign * 0.07 * across[1],
    ];
    StakePoint { id: format!("{}-{side}", leg.id), east_m: p[0], north_m: p[1], ground_m: plane().height(p) }
}

fn yard() -> PlacedYard {
    let z = |p: [f64; 2]| plane().height(p);
    let obstacle = |id: &str, name: &str, shape| PlacedObstacle {
        id: id.into(),
        name: name.into(),
        keep_off_m: 0.6,
        shape,
        sigma_m: 0.1,
        height_sigma_m: 0.0,
    };
    PlacedYard {
        system: UnitSystem::Metric,
        boundary: Some(vec![[-4.0, -4.0], [16.0, -3.0], [17.0, 15.0], [-3.0, 14.0]]),
        boundary_sigma_m: 0.1,
        obstacles: vec![
            obstacle(
                "pavilion",
                "Pavilion",
                PlacedShape::Building {
                    outline: vec![[-2.5, 9.2], [3.5, 9.2], [3.5, 13.0], [-2.5, 13.0]],
                    height_m: 3.4,
                    ground_z: [z([0.0, 11.0]); 2],
                    top_z: z([0.0, 11.0]) + 3.4,
                },
            ),
            obstacle("oak", "Oak", tree([13.2, 9.5], 2.6, z([13.2, 9.5]))),
            obstacle("plum", "Plum", tree([11.6, 4.0], 0.9, z([11.6, 4.0]))),
            obstacle(
                "hedge",
                "Hedge",
                PlacedShape::Barrier {
                    what: BarrierKind::Hedge,
                    line: vec![[-3.5, -3.4], [15.6, -2.5]],
                    thickness_m: 0.7,
                    height_m: 1.4,
                    top_z: 1.4,
                },
            ),
            obstacle(
                "path",
                "Gravel path",
                PlacedShape::Path {
                    used_by: PathUse::Foot,
                    line: vec![[-3.4, 1.5], [2.0, -0.6], [15.0, -0.9]],
                    width_m: 1.2,
                    outline: crate::drawing::geometry::band(&[[-3.4, 1.5], [2.0, -0.6], [15.0, -0.9]], 0.6),
                    headroom_m: 2.032,
                },
            ),
        ],
        overhead_lines: vec![PlacedOverheadLine {
            id: "road".into(),
            name: "Road line".into(),
            voltage_kv: Some(11.0),
            supports: vec![[20.5, -6.0, 7.5], [21.0, 18.0, 8.0]],
            wire: vec![[20.5, -6.0, 7.5], [20.75, 6.0, 7.0], [21.0, 18.0, 8.0]],
            sway_m: 0.0,
            height_sigma_m: 0.5,
            sigma_m: 0.25,
        }],
        buried_services: vec![PlacedBuriedService {
            id: "water".into(),
            name: "Water pipe".into(),
            carries: ServiceKind::PotableWater,
            located: Located::Guessed,
            line: vec![[-3.0, 8.0], [8.0, 8.6], [16.8, 12.0]],
            width_m: 0.05,
            rule_of_thumb: false,
            tolerance_m: 0.6,
            sigma_m: 0.3,
        }],
        marks: vec![
            PlacedMark {
                id: "A".into(),
                name: "nail".into(),
                at: [0.0, 0.0, 0.0],
                covariance: [[0.0; 2]; 2],
            },
            PlacedMark {
                id: "B".into(),
                name: "gate post".into(),
                at: on_ground([11.0, 0.6]),
                covariance: [[0.01, 0.0], [0.0, 0.01]],
            },
        ],
        spot_heights: vec![
            PlacedSpot { id: "s1".into(), at: [9.5, 11.5], height_m: z([9.5, 11.5]) },
            PlacedSpot { id: "s2".into(), at: [1.5, 3.5], height_m: z([1.5, 3.5]) },
        ],
        asked: Default::default(),
    }
}

fn tree(at: [f64; 2], crown_radius_m: f64, ground_z: f64) -> PlacedShape {
    PlacedShape::Tree {
        at,
        height_m: 8.0,
        crown_base_m: 2.2,
        trunk_radius_m: 0.2,
        crown_radius_m,
        crown_base_z: ground_z + 2.2,
        top_z: ground_z + 8.0,
    }
}

/// Words and signs that a frame would cut off could not be read on paper.
pub(crate) fn assert_within_bounds(scene: &Scene, of: impl Fn(&SceneShape) -> bool) {
    let mut words = 0;
    for shape in scene.shapes.iter().filter(|shape| of(shape)) {
        let at = match &shape.geometry {
            Geometry::Words { at, .. } | Geometry::Sign { at, .. } => *at,
            _ => continue,
        };
        words += 1;
        let inside = |axis: usize| (scene.bounds.min[axis]..=scene.bounds.max[axis]).contains(&at[axis]);
        assert!(inside(0) && inside(1), "{shape:?} outside {:?}", scene.bounds);
    }
    assert!(words > 0, "nothing is named");
}
