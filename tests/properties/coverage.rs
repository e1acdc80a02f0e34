//! Whether the plan's 95 % intervals hold what they claim, on five yards.
//!
//! For each draw a yard is measured afresh: the readings of a true, even slope with errors drawn by chance. The plan
//! is computed from them, the work set out by it with further errors, and what is then found in the true yard is held
//! against the plan's interval. This is the experiment that a user makes, by the whole engine; the engine's own
//! simulation (which draws about one set of readings) has to agree with it.

use mastwright_engine::base::foot::gap_at_centre;
use mastwright_engine::base::frame::Frame;
use mastwright_engine::ground::profile::at_tape;
use mastwright_engine::ground::{Ground, Plane};
use mastwright_engine::job::{AnchorLayout, BearingReference, Job, PointFix, Side, SlopeReading, SpotHeight};
use mastwright_engine::numerics::random::Random;
use mastwright_engine::plan::{compute, survey};
use mastwright_engine::spread::yard_spread;
use mastwright_engine::structure::catenary::Span;

use crate::yardstick::yardstick;

/// So many that a true share of 95 % scatters by 0.49 % (one standard deviation, √(0.95·0.05/2000)): the band of
/// 93–97 % lies four of these away on either side.
const DRAWS: usize = 2000;

/// A yard in truth: its slope, its fall and how it is measured.
struct Yard {
    name: &'static str,
    slope_deg: f64,
    fall_deg: f64,
    front_deg: f64,
    /// True bearings along which slopes are read.
    slopes: &'static [f64],
    /// True places of spot heights, taped from two marks.
    spots: &'static [[f64; 2]],
}

const YARDS: [Yard; 5] = [
    Yard {
        name: "Lantern Green's slope",
        slope_deg: 7.0,
        fall_deg: 226.0,
        front_deg: 200.0,
        slopes: &[226.0, 46.0, 181.0, 271.0, 136.0],
        spots: &[[-14.0, -9.0], [-4.0, -24.0], [-21.0, -15.0], [-9.0, -15.0]],
    },
    Yard {
        name: "weak slope",
        slope_deg: 1.5,
        fall_deg: 100.0,
        front_deg: 70.0,
        slopes: &[0.0, 90.0, 45.0, 135.0, 180.0, 270.0],
        spots: &[],
    },
    Yard {
        name: "steep",
        slope_deg: 12.0,
        fall_deg: 310.0,
        front_deg: 280.0,
        slopes: &[310.0, 130.0, 220.0, 40.0],
        spots: &[[-14.0, -9.0], [-4.0, -24.0], [-21.0, -15.0]],
    },
    Yard {
        name: "spot heights only",
        slope_deg: 4.0,
        fall_deg: 180.0,
        front_deg: 150.0,
        slopes: &[],
        spots: &[[-14.0, -9.0], [-4.0, -24.0], [-21.0, -15.0], [-9.0, -15.0], [-3.0, -8.0], [-24.0, -24.0]],
    },
    Yard {
        name: "one pair of slopes",
        slope_deg: 6.0,
        fall_deg: 30.0,
        front_deg: 60.0,
        slopes: &[0.0, 90.0],
        spots: &[],
    },
];

const MARKS: [(&str, [f64; 2]); 3] = [("A", [0.0, 0.0]), ("B", [-25.0, -4.0]), ("C", [-8.0, -30.0])];
const MAST: [f64; 2] = [-10.0, -16.0];

impl Yard {
    fn gradient(&self) -> [f64; 2] {
        let grade = self.slope_deg.to_radians().tan();
        let (sin, cos) = self.fall_deg.to_radians().sin_cos();
        [-grade * sin, -grade * cos]
    }

    fn ground(&self) -> Ground {
        let plane = Plane { height_0_m: 0.0, gradient: self.gradient(), covariance: [[0.0; 3]; 3] };
        Ground { plane, surface: None }
    }

    /// The yard's job without a reading in it.
    fn bare(&self) -> Job {
        let mut job = yardstick();
        job.yard.bearings = BearingReference::True;
        job.yard.measurements.clear();
        job.yard.obstacles.clear();
        job.yard.overhead_lines.clear();
        job.yard.buried_services.clear();
        job.yard.boundary = None;
        job.placement.mast = PointFix::Coordinates { east_m: MAST[0], north_m: MAST[1] };
        job.placement.front_bearing_deg = self.front_deg;
        job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualTape { tape_m: 4.2 };
        job
    }

    /// The job as somebody measures it.
    fn measured(&self, random: &mut Random) -> Job {
        let mut job = self.bare();
        let instruments = job.yard.instruments;
        let mut tape = |from: [f64; 2], to: [f64; 2]| {
            let d = [to[0] - from[0], to[1] - from[1]];
            let rise = self.gradient()[0] * d[0] + self.gradient()[1] * d[1];
            let length_m = (d[0] * d[0] + d[1] * d[1] + rise * rise).sqrt();
            let sigma_m = instruments.tape_sigma_m.hypot(instruments.tape_sigma_mm_per_m / 1000.0 * length_m);
            length_m + sigma_m * random.normal()
        };
        let ab = tape(MARKS[0].1, MARKS[1].1);
        let (ac, bc) = (tape(MARKS[0].1, MARKS[2].1), tape(MARKS[1].1, MARKS[2].1));
        let two = |tape_a_m, tape_b_m, side| PointFix::TwoTapes {
            from_a: "A".to_owned(),
            tape_a_m,
            from_b: "B".to_owned(),
            tape_b_m,
            side: Some(side),
        };
        // All of the yard lies left of A → B, walking west.
        let spots: Vec<PointFix> = self
            .spots
            .iter()
            .map(|&at| two(tape(MARKS[0].1, at), tape(MARKS[1].1, at), side_of_ab(at)))
            .collect();
        let d = MARKS[1].1;
        let true_deg = d[0].atan2(d[1]).to_degrees().rem_euclid(360.0);
        let mut turned = |bearing_deg: f64| {
            (bearing_deg + instruments.bearing_sigma_deg * random.normal()).rem_euclid(360.0)
        };
        job.yard.marks[1].at =
            PointFix::BearingTape { from: "A".to_owned(), bearing_deg: turned(true_deg), tape_m: ab };
        job.yard.marks[2].at = two(ac, bc, side_of_ab(MARKS[2].1));
        job.yard.slopes = self
            .slopes
            .iter()
            .enumerate()
            .map(|(i, &bearing_deg)| {
                // Where the phone really pointed; written down is what it was meant to.
                let really = turned(bearing_deg).to_radians();
                let grade = self.gradient()[0] * really.sin() + self.gradient()[1] * really.cos();
                SlopeReading {
                    id: format!("S{i}"),
                    bearing_deg,
                    slope_deg: grade.atan().to_degrees(),
                    sigma_deg: None,
                    struck: false,
                }
            })
            .collect();
        for slope in &mut job.yard.slopes {
            slope.slope_deg += instruments.slope_sigma_deg * random.normal();
        }
        // Heights are read against the level's reading on the origin mark, which errs like any other.
        let on_origin_m = instruments.spot_height_sigma_m * random.normal();
        job.yard.spot_heights = spots
            .into_iter()
            .zip(self.spots)
            .enumerate()
            .map(|(i, (at, place))| SpotHeight {
                id: format!("H{i}"),
                at,
                height_m: self.gradient()[0] * place[0]
                    + self.gradient()[1] * place[1]
                    + instruments.spot_height_sigma_m * random.normal()
                    - on_origin_m,
                sigma_m: None,
                struck: false,
            })
            .collect();
        job
    }
}

fn side_of_ab(at: [f64; 2]) -> Side {
    let b = MARKS[1].1;
    if b[0] * at[1] - b[1] * at[0] > 0.0 { Side::Left } else { Side::Right }
}

/// Shares of the draws in which the truth lay in the plan's interval.
struct Coverage {
    front: f64,
    guys: f64,
    slope: f64,
    /// Of the fall's bearing, where one was given; how often one was.
    bearing: f64,
    bearing_given: f64,
}

fn coverage(yard: &Yard, random: &mut Random) -> Coverage {
    let truth = yard.ground();
    let (mut front, mut guys, mut slope, mut bearing, mut given, mut lengths) = (0, 0, 0, 0, 0, 0);
    for _ in 0..DRAWS {
        let job = yard.measured(random);
        let plan = compute(&job).expect("a plain yard").plan;
        let instruments = &job.yard.instruments;
        // The base is laid in the true yard, turned a little.
        let turn_deg = instruments.bearing_sigma_deg * random.normal();
        let frame = Frame::lay(&job.rig.base, &truth, MAST, yard.front_deg + turn_deg);
        let gap_m = gap_at_centre(&frame.legs[0], &frame, &job.rig.base, &truth);
        let planned = plan.base.legs[0].gap_centre_m;
        front += usize::from((gap_m - planned.value).abs() <= planned.half_width_95);
        let foot_m =
            frame.underside_m + (job.rig.base.timber_depth_mm + job.rig.base.seat_height_mm) / 1000.0;
        let level = &job.rig.guy_levels[0];
        for guy in &plan.guys {
            let azimuth_deg = guy.azimuth_deg + instruments.bearing_sigma_deg * random.normal();
            let sigma_m =
                instruments.tape_sigma_m.hypot(instruments.tape_sigma_mm_per_m / 1000.0 * guy.tape_m);
            let anchor = at_tape(&truth, MAST, azimuth_deg, guy.tape_m + sigma_m * random.normal());
            let span = Span {
                span_m: (anchor[0] - MAST[0]).hypot(anchor[1] - MAST[1]) - level.collar_radius_mm / 1000.0,
                rise_m: foot_m + level.attach_height_m - truth.height(anchor) - level.anchor_eye_height_m,
                weight_n_per_m: level.rope.weight_n_per_m(),
                stiffness_n: level.rope.stiffness_n(),
            };
            let length_m = span.with_upper_tension(level.tension_n).expect("a taut guy").unstressed_m;
            let planned = guy.unstressed_m;
            guys += usize::from((length_m - planned.value).abs() <= planned.half_width_95);
            lengths += 1;
        }
        let ground = &plan.ground;
        slope +=
            usize::from((ground.slope_deg.value - yard.slope_deg).abs() <= ground.slope_deg.half_width_95);
        if let Some(fall_deg) = ground.fall_bearing_deg {
            let off = (fall_deg - yard.fall_deg + 180.0).rem_euclid(360.0) - 180.0;
            given += 1;
            bearing += usize::from(off.abs() <= ground.fall_half_width_95_deg);
        }
    }
    let share = |count: usize, of: usize| count as f64 / of.max(1) as f64;
    Coverage {
        front: share(front, DRAWS),
        guys: share(guys, lengths),
        slope: share(slope, DRAWS),
        bearing: share(bearing, given),
        bearing_given: share(given, DRAWS),
    }
}

/// Every interval on every yard, the weak slope included.
#[test]
fn intervals_hold_what_they_claim_on_five_yards() {
    let mut random = Random::seeded(20);
    for yard in &YARDS {
        let found = coverage(yard, &mut random);
        println!(
            "{}: front foot {:.3}, guys {:.3}, slope {:.3}, fall {:.3} (given {:.3})",
            yard.name, found.front, found.guys, found.slope, found.bearing, found.bearing_given
        );
        for share in [found.front, found.guys, found.slope, found.bearing] {
            assert!((0.93..=0.97).contains(&share), "{}: {share}", yard.name);
        }
        assert!(found.bearing_given > 0.99, "{}: {}", yard.name, found.bearing_given);
    }
}

#[test]
fn the_engines_own_simulation_agrees() {
    let mut random = Random::seeded(21);
    for yard in &YARDS {
        let job = yard.measured(&mut random);
        let found = yard_spread(&job, 4_000, 5, &mut |_| true).expect("a plain yard");
        let guys: Vec<String> = found.guys.iter().map(|guy| format!("{:.3}", guy.share_in_plan)).collect();
        println!("{}: front foot {:.3}, guys {guys:?}", yard.name, found.feet[0].share_in_plan);
        // One set of readings, 4,000 draws: a true share of 95 % scatters by 0.34 %, nearly six of which fit the band.
        for share in found.guys.iter().map(|guy| guy.share_in_plan).chain([found.feet[0].share_in_plan]) {
            assert!((0.93..=0.97).contains(&share), "{}: {share}", yard.name);
        }
    }
}

/// On nearly level ground the fall line is not named at all, rather than named wrongly.
#[test]
fn a_weak_slope_is_honest_about_its_bearing() {
    let mut random = Random::seeded(22);
    for slope_deg in [0.0, 0.2, 0.5, 1.0, 1.9] {
        let yard = Yard { name: "weak", slope_deg, ..YARDS[1] };
        let (mut given, mut wrong, mut widest): (usize, usize, f64) = (0, 0, 0.0);
        for _ in 0..DRAWS {
            let job = yard.measured(&mut random);
            let ground = survey(&job.yard, job.units).expect("a plain yard").ground_result();
            if let Some(fall_deg) = ground.fall_bearing_deg {
                let off = (fall_deg - yard.fall_deg + 180.0).rem_euclid(360.0) - 180.0;
                given += 1;
                widest = widest.max(ground.fall_half_width_95_deg);
                wrong += usize::from(slope_deg == 0.0 || off.abs() > ground.fall_half_width_95_deg);
            } else {
                assert_eq!(ground.fall_half_width_95_deg, 180.0);
            }
        }
        println!("{slope_deg}°: named in {given} of {DRAWS}, wrongly in {wrong}, widest ± {widest:.0}°");
        // At most 5 % wrong of all draws, with three standard deviations of the count (1.5 %).
        assert!((wrong as f64) < (0.05 + 0.015) * DRAWS as f64, "{slope_deg}: {wrong}");
    }
}
