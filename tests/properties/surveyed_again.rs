//! Lantern Green surveyed again and again, with readings that scatter by the instruments' own sigmas: the intervals
//! of the ground hold what they claim, and sound surveys are not called contradictory.

use mastwright_engine::job::{BearingReference, Instruments, Job, Measurement, PointFix};
use mastwright_engine::plan::{Plan, compute};

use crate::yardstick::yardstick;

/// Normal deviates that are the same on every run: SplitMix64 (Steele, Lea & Flood 2014) and Box–Muller.
struct Normal(u64);

impl Normal {
    fn uniform(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }

    fn around(&mut self, middle: f64, sigma: f64) -> f64 {
        let (radius, turn) = ((-2.0 * (1.0 - self.uniform()).ln()).sqrt(), self.uniform());
        middle + sigma * radius * (std::f64::consts::TAU * turn).cos()
    }
}

/// The yard as it truly is: the demo's plane and places.
struct Truth {
    gradient: [f64; 2],
    marks: Vec<[f64; 2]>,
    spots: Vec<[f64; 2]>,
}

impl Truth {
    fn of(plan: &Plan) -> Self {
        let at = |prefix: &str| -> Vec<[f64; 2]> {
            let points = plan.points.iter().filter(|point| point.path.starts_with(prefix));
            points.map(|point| [point.east_m, point.north_m]).collect()
        };
        let gradient = [plan.ground.gradient_east, plan.ground.gradient_north];
        Self { gradient, marks: at("/yard/marks"), spots: at("/yard/spot_heights") }
    }

    fn mark(&self, job: &Job, id: &str) -> [f64; 2] {
        self.marks[job.yard.marks.iter().position(|mark| mark.id == id).unwrap()]
    }

    fn rise(&self, [east, north]: [f64; 2]) -> f64 {
        self.gradient[0] * east + self.gradient[1] * north
    }

    fn tape(&self, from: [f64; 2], to: [f64; 2]) -> f64 {
        let d = [to[0] - from[0], to[1] - from[1]];
        d[0].hypot(d[1]).hypot(self.rise(d))
    }
}

fn bearing_deg(from: [f64; 2], to: [f64; 2]) -> f64 {
    (to[0] - from[0]).atan2(to[1] - from[1]).to_degrees().rem_euclid(360.0)
}

fn read_tape(length_m: f64, by: &Instruments, normal: &mut Normal) -> f64 {
    normal.around(length_m, by.tape_sigma_m.hypot(by.tape_sigma_mm_per_m / 1000.0 * length_m))
}

/// The fix of a place with its readings taken anew; a sketch stays as drawn.
fn read_fix(job: &Job, truth: &Truth, fix: &PointFix, at: [f64; 2], normal: &mut Normal) -> PointFix {
    let by = &job.yard.instruments;
    match fix {
        PointFix::BearingTape { from, .. } => {
            let mark = truth.mark(job, from);
            PointFix::BearingTape {
                from: from.clone(),
                bearing_deg: normal.around(bearing_deg(mark, at), by.bearing_sigma_deg).rem_euclid(360.0),
                tape_m: read_tape(truth.tape(mark, at), by, normal),
            }
        }
        PointFix::TwoTapes { from_a, from_b, side, .. } => PointFix::TwoTapes {
            from_a: from_a.clone(),
            tape_a_m: read_tape(truth.tape(truth.mark(job, from_a), at), by, normal),
            from_b: from_b.clone(),
            tape_b_m: read_tape(truth.tape(truth.mark(job, from_b), at), by, normal),
            side: *side,
        },
        // The demo has no other fix for a spot or mark; a sketch stays as drawn.
        other => other.clone(),
    }
}

fn surveyed(job: &Job, truth: &Truth, normal: &mut Normal) -> Job {
    let mut again = job.clone();
    let by = &job.yard.instruments;
    for (mark, at) in again.yard.marks.iter_mut().zip(&truth.marks) {
        mark.at = read_fix(job, truth, &mark.at, *at, normal);
    }
    for measurement in &mut again.yard.measurements {
        if let Measurement::Tape { from, to, tape_m, .. } = measurement {
            *tape_m = read_tape(truth.tape(truth.mark(job, from), truth.mark(job, to)), by, normal);
        }
    }
    for slope in &mut again.yard.slopes {
        let along = normal.around(slope.bearing_deg, by.bearing_sigma_deg).to_radians();
        let exact = truth.rise([along.sin(), along.cos()]).atan().to_degrees();
        slope.slope_deg = normal.around(exact, by.slope_sigma_deg);
    }
    // Heights are read against the level's reading on the origin mark, which errs like any other.
    let on_origin_m = normal.around(0.0, by.spot_height_sigma_m);
    for (spot, at) in again.yard.spot_heights.iter_mut().zip(&truth.spots) {
        // A sketched spot was measured somewhere round where it is drawn.
        let off = if matches!(spot.at, PointFix::Coordinates { .. }) { by.sketched_sigma_m } else { 0.0 };
        let measured_at = [normal.around(at[0], off), normal.around(at[1], off)];
        spot.at = read_fix(job, truth, &spot.at, *at, normal);
        spot.height_m = normal.around(truth.rise(measured_at), by.spot_height_sigma_m) - on_origin_m;
    }
    again
}

/// 2,000 surveys; a true share of 95 % scatters by 0.5 %, so the band of 93–97 % lies four of these away. A sound survey
/// is doubted by chance: by one of eleven readings beyond 3.29 (0.1 % each), the plane's χ² (1 %) or that of the spot
/// heights alone (1 %), together 2 % or less as the tests overlap. A true 2 % of 2,000 are 40 ± 6.3, so that more than
/// 60 (3 %) come up in fewer than one seed of a thousand.
#[test]
fn the_ground_s_intervals_hold_what_they_claim() {
    let mut job = yardstick();
    // The declination turns the whole yard; it is another matter.
    job.yard.bearings = BearingReference::True;
    // What stands in the yard is not surveyed again, and old tapes may not meet from new marks.
    (job.yard.obstacles, job.yard.overhead_lines) = (vec![], vec![]);
    (job.yard.buried_services, job.yard.boundary) = (vec![], None);
    let truth = Truth::of(&compute(&job).unwrap().plan);
    let fall_deg = bearing_deg(truth.gradient, [0.0, 0.0]);
    let slope_deg = truth.gradient[0].hypot(truth.gradient[1]).atan().to_degrees();
    let mut normal = Normal(20_261_125);
    let (surveys, mut fall_held, mut slope_held, mut doubted) = (2000, 0, 0, 0);
    for _ in 0..surveys {
        let plan = compute(&surveyed(&job, &truth, &mut normal)).unwrap().plan;
        let off_deg = (plan.ground.fall_bearing_deg.unwrap() - fall_deg + 180.0).rem_euclid(360.0) - 180.0;
        fall_held += i32::from(off_deg.abs() <= plan.ground.fall_half_width_95_deg);
        let slope = plan.ground.slope_deg;
        slope_held += i32::from((slope.value - slope_deg).abs() <= slope.half_width_95);
        doubted += i32::from(plan.findings.iter().any(|finding| {
            ["readings_disagree", "reading_stands_out", "ground_not_plane", "spot_height_stands_out"]
                .contains(&finding.rule.name())
        }));
    }
    let share = |count: i32| f64::from(count) / f64::from(surveys);
    println!("fall {}, slope {}, doubted {}", share(fall_held), share(slope_held), share(doubted));
    assert!((0.93..=0.97).contains(&share(fall_held)), "fall bearing: {}", share(fall_held));
    assert!((0.93..=0.97).contains(&share(slope_held)), "slope: {}", share(slope_held));
    assert!(share(doubted) <= 0.03, "doubted: {}", share(doubted));
}
