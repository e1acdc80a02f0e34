//! The turn onto the contour levels the tips of the cross leg on the ground that is really there.

use mastwright_engine::job::Job;
use mastwright_engine::plan::{ContourState, ContourTurn, compute};
use proptest::prelude::*;

use crate::bumpy_yard::{at, bank, fine_bank, job, rows};

fn turn(job: &Job) -> ContourTurn {
    compute(job).expect("the job can be placed").plan.base.contour
}

/// Tips of the cross leg (right, left) and of the front leg, reckoned here by themselves.
fn tips(job: &Job, mast: [f64; 2], front_deg: f64) -> [[f64; 2]; 3] {
    let base = &job.rig.base;
    [(90.0, base.side_reach_m), (-90.0, base.side_reach_m), (0.0, base.front_reach_m)].map(|(by, reach_m)| {
        let (east, north) = f64::to_radians(front_deg + by).sin_cos();
        [mast[0] + reach_m * east, mast[1] + reach_m * north]
    })
}

/// The height of a straight bank by its section, without triangles.
fn section(north: f64, middle_m: f64, half_m: f64, top_m: f64, tilt: f64) -> f64 {
    tilt * north + top_m * (1.0 - (north - middle_m).abs() / half_m).max(0.0)
}

/// A yard that falls to the north by `tilt` as a whole, with a bank whose south slope carries the mast.
fn on_a_bank(tilt: f64) -> Job {
    let tilted = fine_bank(2.5, 1.5, 1.0).into_iter().map(|[e, n, h]| [e, n, h + tilt * n]);
    let mut job = job(&tilted.collect::<Vec<_>>());
    job.placement.mast = at([0.7, 1.8]);
    job
}

/// The bank rises to the north under the base, so the front leg has to point south: on the level yard, whose best plane
/// knows of no fall, and on one that falls to the north as a whole.
#[test]
fn on_a_bank_the_front_leg_points_down_the_bank() {
    for tilt in [0.0, -0.1, -0.3] {
        let job = on_a_bank(tilt);
        let found = turn(&job);
        assert_eq!(found.state, ContourState::Turn, "{tilt}");
        let front_deg = found.front_bearing_deg.expect("a turn");
        let [right, left, front] = tips(&job, [0.7, 1.8], front_deg);
        let height = |p: [f64; 2]| section(p[1], 2.5, 1.5, 1.0, tilt);
        assert!((height(right) - height(left)).abs() < 1e-9, "{tilt}: {front_deg}");
        assert!((front_deg - 180.0).abs() < 1e-6, "{tilt}: {front_deg}");
        assert!(height(front) < height([0.7, 1.8]), "{tilt}");
        // Turned onto it, nothing is left to turn.
        let mut turned = job.clone();
        turned.placement.front_bearing_deg = front_deg;
        assert!(turn(&turned).turn_deg.expect("a turn").abs() < 1e-9);
    }
}

/// On the level top of a dam, 0.4 m from its edge, the cross leg is level at many turns; the front leg reaches over the
/// edge, straight down the slope.
#[test]
fn beside_an_edge_the_front_leg_points_over_it() {
    let section = [(-12.0, 0.0), (0.6, 0.0), (2.0, 2.0), (12.0, 2.0)];
    let columns: Vec<f64> = (-12..=12).map(f64::from).collect();
    let mut job = job(&rows(&section, &columns));
    job.placement.mast = at([0.7, 2.4]);
    let found = turn(&job);
    assert_eq!(found.state, ContourState::Turn);
    let front_deg = found.front_bearing_deg.expect("a turn");
    assert!((front_deg - 180.0).abs() < 1e-6, "{front_deg}");
}

/// The same dam laid askew: whichever way its edge runs, the front leg points square over it.
#[test]
fn over_an_edge_that_runs_askew_it_points_square() {
    let section = [(-12.0, 0.0), (0.6, 0.0), (2.0, 2.0), (12.0, 2.0)];
    let columns: Vec<f64> = (-12..=12).map(f64::from).collect();
    for askew_deg in [35.0_f64, 140.0, 250.0] {
        let (sine, cosine) = askew_deg.to_radians().sin_cos();
        let turned = |[e, n]: [f64; 2]| [e * cosine + n * sine, n * cosine - e * sine];
        let spots: Vec<[f64; 3]> = rows(&section, &columns)
            .into_iter()
            .map(|[e, n, h]| {
                let [e, n] = turned([e, n]);
                [e, n, h]
            })
            .collect();
        let mut job = job(&spots);
        job.placement.mast = at(turned([0.7, 2.4]));
        let found = turn(&job);
        assert_eq!(found.state, ContourState::Turn, "{askew_deg}");
        let front_deg = found.front_bearing_deg.expect("a turn");
        let off_deg = (front_deg - 180.0 - askew_deg + 180.0).rem_euclid(360.0) - 180.0;
        assert!(off_deg.abs() < 1e-6, "askew by {askew_deg}: {front_deg}");
    }
}

#[test]
fn a_level_yard_says_so_on_a_surface_too() {
    // A ditch far off makes it a surface; under the base it is level.
    let mut job = job(&bank(9.0, 0.5, -0.7));
    job.placement.mast = at([0.3, 1.0]);
    let found = turn(&job);
    assert_eq!((found.state, found.turn_deg), (ContourState::Level, None));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn the_tips_stand_on_one_height_after_the_turn(
        spots in prop::collection::vec((-6.0..6.0_f64, -6.0..6.0_f64, -1.0..1.0_f64), 12..40),
        mast in (-2.0..2.0_f64, -2.0..2.0_f64),
        front in 0.0..360.0_f64,
    ) {
        let corners = [[-9.0, -9.0, 0.3], [9.0, -9.0, -0.4], [9.0, 9.0, 0.5], [-9.0, 9.0, -0.1]];
        let spots: Vec<[f64; 3]> = spots.into_iter().map(|(x, y, z)| [x, y, z]).chain(corners).collect();
        let mut job = job(&spots);
        job.placement.mast = at([mast.0, mast.1]);
        job.placement.front_bearing_deg = front;
        let computed = compute(&job).expect("the job can be placed");
        let found = &computed.plan.base.contour;
        prop_assert_eq!(found.state, ContourState::Turn);
        let height = |p: [f64; 2]| computed.ground.height(p);
        let [right, left, down] = tips(&job, [mast.0, mast.1], found.front_bearing_deg.expect("a turn"));
        prop_assert!((height(right) - height(left)).abs() < 1e-8);
        // The other way round the front leg would lie higher: that way it is uphill, or the frame rides on it.
        let [.., up] = tips(&job, [mast.0, mast.1], found.front_bearing_deg.expect("a turn") + 180.0);
        let mut turned = job.clone();
        let mut underside = |by: f64| {
            turned.placement.front_bearing_deg = (found.front_bearing_deg.expect("a turn") + by).rem_euclid(360.0);
            compute(&turned).expect("the job can be placed").plan.base.underside_m
        };
        let (taken, other) = (underside(0.0), underside(180.0));
        prop_assert!(height(down) <= height(up) || taken < other, "{taken} {other}");
    }
}
