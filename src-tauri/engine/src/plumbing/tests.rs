//! Moves by vectors, and a swaying tube that is plumbed live.

use super::*;
use crate::numerics::random::Random;
use crate::numerics::real::{cos_deg, hypot, sin, sin_deg, tan_deg};
use crate::quantity::bearing::unit;
use crate::survey::hold::{Sample, sway};
use crate::survey::plumb::LeanSide;
use crate::survey::tilt::GravitySign;
use crate::{demo, plan};

fn leaning(lean_deg: f64, towards_deg: f64) -> Lean {
    let phone_sigma_deg = 0.1;
    Lean {
        lean_deg,
        sigma_deg: 0.1,
        towards_deg,
        scatter_deg: 0.2,
        phone_error_deg: [0.0; 2],
        phone_sigma_deg,
    }
}

fn yardstick() -> (plan::Plan, PlumbGeometry) {
    let mut job = demo::yardstick();
    job.tensions.change(|kept| kept.turn_mm = Some(4.0));
    let plan = plan::compute(&job).unwrap().plan;
    let geometry = PlumbGeometry::of(&job, &plan);
    (plan, geometry)
}

#[test]
fn ropes_behind_the_lean_are_taken_in_and_those_before_it_let_out() {
    let (plan, geometry) = yardstick();
    let towards = plan.guys[0].azimuth_deg;
    let found = geometry.plumbing(&leaning(1.0, towards));
    for (rope, guy) in found.ropes.iter().zip(&plan.guys) {
        let [east, north] = unit(towards);
        let [e, n] = unit(guy.azimuth_deg);
        let facing = east * e + north * n;
        assert!(rope.take_in_m * facing < 0.0 || facing.abs() < 0.1, "{rope:?}");
        // Never more than the end of the rope moves.
        let height = guy.attach[2] - plan.mast.foot_m;
        assert!(rope.take_in_m.abs() < height * tan_deg(1.0) + 1e-3);
        assert!((rope.turns.unwrap() - rope.take_in_m / 0.004).abs() < 1e-9);
    }
}

#[test]
fn a_leg_is_raised_by_reach_times_tangent_and_its_foot_face_by_face() {
    let (plan, geometry) = yardstick();
    let front = &plan.base.legs[0];
    let found = geometry.plumbing(&leaning(0.8, front.bearing_deg));
    let by_hand = front.reach_m * tan_deg(0.8);
    assert!((found.blocks[0].raise_m - by_hand).abs() < 1e-9);
    let job = demo::yardstick();
    let thick_m = job.rig.base.foot_thickness_mm / 1000.0;
    let foot = found.feet.iter().find(|foot| foot.leg_id == front.id).unwrap();
    assert!((foot.outer_m - front.gap_outer_m - by_hand).abs() < 1e-9);
    assert!((foot.inner_m - front.gap_inner_m - (front.reach_m - thick_m) * tan_deg(0.8)).abs() < 1e-9);
    assert!(
        (foot.centre_m - front.gap_centre_m.value - (front.reach_m - 0.5 * thick_m) * tan_deg(0.8)).abs()
            < 1e-9
    );
}

/// By hand: a foot 89 mm wide; the mast leans by 1.2° to the right of the front leg, so its right edge comes up by 44.5·tan 1.2° = 0.932 mm and its
/// left edge goes down by as much, while centre, inner and outer face stay. On the right leg it is a lean outwards: all edges of its foot
/// come up by its reach less half the thickness, times the tangent, and none against the other. Leaning halfway between, both.
#[test]
fn the_edges_of_a_foot_go_by_the_lean_across_its_leg() {
    let (_, mut geometry) = yardstick();
    let legs = ["front", "right"].map(|id| geometry.legs.iter().position(|leg| leg.id == id).unwrap());
    let planned = PlumbFoot {
        thick_m: 0.038,
        wide_m: 0.089,
        centre_m: 0.1,
        inner_m: 0.1,
        outer_m: 0.1,
        left_m: 0.1,
        right_m: 0.1,
    };
    for leg in legs {
        geometry.legs[leg].reach_m = 1.019;
        geometry.legs[leg].foot = Some(planned.clone());
    }
    let front_deg = geometry.legs[legs[0]].bearing_deg;
    assert!((geometry.legs[legs[1]].bearing_deg - front_deg - 90.0).rem_euclid(360.0) < 1e-9);
    let faces = |lean_deg: f64, towards_deg: f64, id: &str| {
        let found = geometry.plumbing(&leaning(lean_deg, towards_deg));
        let foot = found.feet.into_iter().find(|foot| foot.leg_id == id).unwrap();
        [foot.left_m, foot.right_m, foot.inner_m, foot.outer_m, foot.centre_m].map(|m| 1000.0 * m - 100.0)
    };
    let near = |found: [f64; 5], by_hand: [f64; 5]| {
        assert!(found.iter().zip(by_hand).all(|(a, b)| (a - b).abs() < 1e-3), "{found:?} {by_hand:?}");
    };
    near(faces(1.2, front_deg + 90.0, "front"), [-0.9322, 0.9322, 0.0, 0.0, 0.0]);
    // 1000, 1000, 981, 1019, 1000 mm out, times tan 1.2° = 0.0209470.
    near(faces(1.2, front_deg + 90.0, "right"), [20.9470, 20.9470, 20.5490, 21.3450, 20.9470]);
    // Halfway, cos 45° of the tangent each way: 14.8118 along, 0.6591 across.
    near(faces(1.2, front_deg + 45.0, "front"), [14.1527, 15.4709, 14.5304, 15.0933, 14.8118]);
    near(faces(1.2, front_deg + 45.0, "right"), [15.4709, 14.1527, 14.5304, 15.0933, 14.8118]);
}

/// The swung cross leg's tips on the plane, by vectors: their line rises by the tangent of the lean more than before.
#[test]
fn a_swung_leg_takes_the_sideways_lean_out() {
    let (_, mut geometry) = yardstick();
    geometry.gradient = Some([0.06, 0.10]);
    let right = geometry.legs.iter().find(|leg| leg.id == "right").unwrap().clone();
    let rise = |bearing: f64| {
        let [east, north] = unit(bearing);
        0.06 * east + 0.10 * north
    };
    for lean_deg in [-0.9, 0.4, 1.1] {
        let found = geometry.plumbing(&leaning(
            f64::abs(lean_deg),
            right.bearing_deg + if lean_deg < 0.0 { 180.0 } else { 0.0 },
        ));
        let swing = found.swing.unwrap();
        let more = rise(right.bearing_deg + swing.turn_deg) - rise(right.bearing_deg);
        assert!((more - tan_deg(lean_deg)).abs() < 1e-9, "{lean_deg}: {swing:?}");
        assert!((swing.tip_m - right.reach_m * swing.turn_deg.to_radians()).abs() < 1e-12);
    }
    // Level ground takes nothing out, and of ground that nobody measured nothing is said.
    geometry.gradient = Some([0.001, 0.0]);
    assert!(geometry.plumbing(&leaning(0.9, right.bearing_deg)).swing.is_none());
    geometry.gradient = None;
    assert!(geometry.plumbing(&leaning(0.9, right.bearing_deg)).swing.is_none());
}

#[test]
fn the_verdict_is_no_surer_than_the_phone() {
    let of = |lean_deg| verdict(&leaning(lean_deg, 0.0)).severity;
    assert_eq!(of(1.0), Severity::Caution);
    // 1 in 400 is 0.143°: with ± 0.2° nobody can say.
    assert_eq!(of(0.1), Severity::Unchecked);
    let sure = Lean { sigma_deg: 0.01, ..leaning(0.05, 0.0) };
    assert_eq!(verdict(&sure).severity, Severity::Note);
}

/// What a phone with errors of its own, laid on a little askew, feels on one side of a swaying tube. Vectors, as in
/// `survey::plumb`.
fn felt(
    lean: [f64; 2],
    sway_deg: f64,
    facing: f64,
    off: [f64; 2],
    seconds: f64,
    random: &mut Random,
) -> Vec<Sample> {
    let (period_s, start, to) = (1.0 + 1.5 * random.even(), random.even(), 360.0 * random.even());
    let [fe, fn_] = unit(facing);
    let [se, sn] = unit(to);
    (0..(50.0 * seconds) as usize)
        .map(|i| {
            let t = i as f64 / 50.0;
            let wave = sway_deg * sin(2.0 * core::f64::consts::PI * (t / period_s + start));
            let [e, n] = [lean[0] + wave * se, lean[1] + wave * sn];
            // Outwards and sideways as the module's head of `survey::plumb` has them.
            let screen = -(e * fe + n * fn_) - off[0];
            let short = -(-e * fn_ + n * fe) - off[1];
            let noise = || 0.03;
            let felt = [9.81 * sin_deg(short), 9.81 * cos_deg(hypot(screen, short)), 9.81 * sin_deg(screen)];
            let felt = felt.map(|a| a + noise() * random.normal());
            Sample { time_ms: 1000.0 * t, acceleration: felt }
        })
        .collect()
}

/// The check: a swaying tube, the phone's errors and each laying-on drawn by chance; taken from opposite sides, then
/// read live on a third laying.
#[test]
fn a_swaying_tube_is_plumbed_live_within_its_interval() {
    let (_, geometry) = yardstick();
    let mut random = Random::seeded(21);
    let (mut held, mut told) = (0, 0);
    for _ in 0..150 {
        let lean = [1.2 * random.normal(), 1.2 * random.normal()].map(|x| x.clamp(-3.0, 3.0));
        let zero = [random.normal(), random.normal()];
        let sway_deg = 0.6 * random.even();
        let laid = |facing: f64, seconds: f64, random: &mut Random| {
            let off = [zero[0] + 0.2 * random.normal(), zero[1] + 0.2 * random.normal()];
            felt(lean, sway_deg, facing, off, seconds, random)
        };
        let facings = [geometry.front_bearing_deg, geometry.front_bearing_deg + 180.0];
        let taken: Vec<LeanSide> = facings
            .iter()
            .map(|&facing_deg| {
                let held = sway(&laid(facing_deg, 8.0, &mut random), GravitySign::Up).tilt.unwrap();
                LeanSide { facing_deg, held }
            })
            .collect();
        let samples = laid(facings[0], 6.0, &mut random);
        let found = live(&geometry, &taken, facings[0], &samples, GravitySign::Up);
        if found.state != PlumbState::Live {
            continue;
        }
        told += 1;
        let read = found.lean.unwrap();
        for (at, bearing) in [(lean[0], 90.0), (lean[1], 0.0)] {
            held += u32::from((read.along_deg(bearing) - at).abs() <= 1.96 * read.sigma_deg);
        }
        assert!(found.todo.is_some());
    }
    println!("live: truth in {held} of {} intervals", 2 * told);
    assert!(told >= 140 && f64::from(held) >= 0.94 * f64::from(2 * told), "{held} of {}", 2 * told);
}

#[test]
fn nothing_is_told_to_be_moved_before_the_phones_error_is_known() {
    let (_, geometry) = yardstick();
    let mut random = Random::seeded(22);
    let samples = felt([1.0, 0.0], 0.2, 0.0, [0.5, 0.5], 6.0, &mut random);
    let of = |samples: &[Sample]| live(&geometry, &[], 0.0, samples, GravitySign::Up);
    let found = of(&samples);
    assert_eq!((found.state, found.todo.is_none()), (PlumbState::NeedsOppositeSide, true));
    assert!(found.lean.unwrap().sigma_deg >= 1.0 && found.may_take);
    assert_eq!(of(&[]).state, PlumbState::NoReadings);
    assert_eq!(of(&samples[..3]).state, PlumbState::Gathering);
    let lying: Vec<Sample> =
        samples.iter().map(|it| Sample { acceleration: [0.0, 0.0, 9.8], ..*it }).collect();
    assert_eq!(of(&lying).state, PlumbState::NotUpright);
    let wild = felt([0.0, 0.0], 6.0, 0.0, [0.0; 2], 12.0, &mut random);
    assert_eq!(of(&wild).state, PlumbState::SwaysTooMuch);
}

/// Three octaves: 220 Hz at 3° and beyond, 1760 Hz at plumb.
#[test]
fn the_tone_rises_towards_plumb() {
    assert!(
        (tone_hz(0.0) - 1760.0).abs() < 1e-9
            && (tone_hz(3.0) - 220.0).abs() < 1e-9
            && tone_hz(9.0) == tone_hz(3.0)
    );
    assert!(tone_hz(0.5) > tone_hz(0.6) && (tone_hz(1.5) - 622.25).abs() < 0.01);
}
