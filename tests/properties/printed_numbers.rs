//! Each kind of number of a plan on paper, worked apart from the engine: an inclined plane, a mast, three marks, and
//! school geometry. `docs/validation.md` lists which test says what of which kind.

use std::f64::consts::PI;

use mastwright_engine::job::{AnchorLayout, BearingReference, Job, Mark, PointFix, SlopeReading, TapeHeld};
use mastwright_engine::plan::{Peg, Plan, Support, compute};
use proptest::prelude::*;

use crate::yardstick::yardstick;

/// 95 % of a chi-square of two degrees of freedom: −2·ln 0.05.
const CHI_SQUARE: f64 = 5.991_464_547_107_98;

/// Marks that make good and flat crossings.
const MARKS: [[f64; 2]; 3] = [[0.0, 0.0], [14.0, 2.0], [3.0, 16.0]];

#[derive(Debug, Clone)]
struct Site {
    /// Rise per metre to the east and to the north.
    gradient: [f64; 2],
    mast: [f64; 2],
    front_deg: f64,
    turn_deg: f64,
    radius_m: f64,
}

fn sites() -> impl Strategy<Value = Site> {
    let gradient = prop::array::uniform2(-0.15..0.15_f64);
    let mast = [4.0..8.0_f64, 3.0..9.0_f64];
    (gradient, mast, 0.0..360.0_f64, -60.0..60.0_f64, 3.0..6.0_f64).prop_map(
        |(gradient, mast, front_deg, turn_deg, radius_m)| Site {
            gradient,
            mast,
            front_deg,
            turn_deg,
            radius_m,
        },
    )
}

impl Site {
    fn job(&self) -> Job {
        let mut job = yardstick();
        job.yard.bearings = BearingReference::True;
        job.yard.tape_held = TapeHeld::AlongGround;
        job.yard.spot_heights.clear();
        job.yard.measurements.clear();
        job.yard.obstacles.clear();
        job.yard.overhead_lines.clear();
        job.yard.buried_services.clear();
        job.yard.boundary = None;
        let mark = |(i, [east_m, north_m]): (usize, [f64; 2])| Mark {
            id: ["A", "B", "C"][i].to_owned(),
            name: format!("mark {i}"),
            at: if i == 0 { PointFix::Origin } else { PointFix::Coordinates { east_m, north_m } },
        };
        job.yard.marks = MARKS.into_iter().enumerate().map(mark).collect();
        let reading = |id: &str, bearing_deg: f64, grade: f64| SlopeReading {
            id: id.to_owned(),
            bearing_deg,
            slope_deg: grade.atan().to_degrees(),
            sigma_deg: None,
            struck: false,
        };
        job.yard.slopes =
            vec![reading("east", 90.0, self.gradient[0]), reading("north", 0.0, self.gradient[1])];
        job.placement.mast = PointFix::Coordinates { east_m: self.mast[0], north_m: self.mast[1] };
        job.placement.front_bearing_deg = self.front_deg;
        job.placement.guy_turn_deg = self.turn_deg;
        job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m: self.radius_m };
        job
    }

    fn ground(&self, at: [f64; 2]) -> f64 {
        self.gradient[0] * at[0] + self.gradient[1] * at[1]
    }

    /// So far out from the mast's axis on a bearing, and to the right of it.
    fn out(&self, bearing_deg: f64, out_m: f64, right_m: f64) -> [f64; 2] {
        let (sine, cosine) = (bearing_deg * PI / 180.0).sin_cos();
        [self.mast[0] + out_m * sine + right_m * cosine, self.mast[1] + out_m * cosine - right_m * sine]
    }
}

fn planned(job: &Job) -> Plan {
    compute(job).unwrap_or_else(|errors| panic!("{errors}")).plan
}

fn distance(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

/// Degrees by which two bearings differ.
fn apart_deg(a: f64, b: f64) -> f64 {
    let turn = (a - b).rem_euclid(360.0);
    turn.min(360.0 - turn)
}

macro_rules! near {
    ($ours:expr, $by_hand:expr, $within:expr, $what:expr) => {
        let (ours, by_hand): (f64, f64) = ($ours, $by_hand);
        prop_assert!((ours - by_hand).abs() <= $within, "{}: {ours}, by hand {by_hand}", $what);
    };
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(32))]

    /// Legs: bearing, reach, tip, height of the foot at its middle and at its four faces, both saw bevels, what stands
    /// under it. The frame is level at the height of the highest ground under its timbers.
    #[test]
    fn legs_feet_faces_and_bevels(site in sites()) {
        let job = site.job();
        let (base, plan) = (&job.rig.base, planned(&job));
        let half_m = base.timber_width_mm / 2000.0;
        let legs = [("front", 0.0, base.front_reach_m), ("right", 90.0, base.side_reach_m), ("left", 270.0, base.side_reach_m)];
        let corners = legs.iter().flat_map(|(_, turn_deg, reach_m)| {
            let bearing_deg = site.front_deg + turn_deg;
            [[-half_m, -half_m], [*reach_m, -half_m], [*reach_m, half_m], [-half_m, half_m]]
                .map(|[out_m, right_m]| site.ground(site.out(bearing_deg, out_m, right_m)))
        });
        let level_m = corners.fold(f64::NEG_INFINITY, f64::max);
        near!(plan.base.underside_m, level_m, 1e-9, "underside");
        prop_assert_eq!(plan.base.legs.len(), 3);
        for (leg, (id, turn_deg, reach_m)) in plan.base.legs.iter().zip(legs) {
            let bearing_deg = site.front_deg + turn_deg;
            prop_assert_eq!(&leg.id, id);
            prop_assert!(apart_deg(leg.bearing_deg, bearing_deg) < 1e-9);
            near!(leg.reach_m, reach_m, 1e-12, "reach");
            near!(distance(leg.tip, site.out(bearing_deg, reach_m, 0.0)), 0.0, 1e-9, "tip");
            let gap = |out_m: f64, right_m: f64| level_m - site.ground(site.out(bearing_deg, out_m, right_m));
            let (thick_m, wide_m) = (base.foot_thickness_mm / 1000.0, base.foot_width_mm / 1000.0);
            let middle_m = reach_m - thick_m / 2.0;
            near!(leg.gap_centre_m.value, gap(middle_m, 0.0), 1e-9, "middle");
            near!(leg.gap_outer_m, gap(reach_m, 0.0), 1e-9, "outer face");
            near!(leg.gap_inner_m, gap(reach_m - thick_m, 0.0), 1e-9, "inner face");
            near!(leg.gap_left_m, gap(middle_m, -wide_m / 2.0), 1e-9, "left face");
            near!(leg.gap_right_m, gap(middle_m, wide_m / 2.0), 1e-9, "right face");
            let rise = |out_m: f64, right_m: f64| gap(0.0, 0.0) - gap(out_m, right_m);
            near!(leg.bevel_along_deg, rise(1.0, 0.0).atan().to_degrees(), 1e-9, "bevel along");
            near!(leg.bevel_across_deg, rise(0.0, 1.0).atan().to_degrees(), 1e-9, "bevel across");
            let under = match leg.gap_centre_m.value {
                gap_m if gap_m < 0.003 => Support::OnGround,
                gap_m if gap_m <= base.shim_up_to_mm / 1000.0 => Support::Shim,
                _ => Support::Foot,
            };
            prop_assert_eq!(leg.support, under);
        }
        for contact in &plan.base.contacts {
            near!(contact[2], level_m, 1.01e-3, "where it touches");
            near!(site.ground([contact[0], contact[1]]), contact[2], 1e-9, "the ground there");
        }
        // The foot of the mast stands on timber and seat.
        near!(plan.mast.foot_m, level_m + 0.1397 + 0.00635, 1e-9, "foot of the mast");
    }

    /// Stakes touch the timber with their side, the inset in from the tip, one on each side of each leg.
    /// Two tubes of 10 ft of which 2 ft overlap are 18 ft; run down, 10 ft.
    #[test]
    fn the_mast_s_place_and_heights(site in sites()) {
        let job = site.job();
        let mast = planned(&job).mast;
        near!(distance([mast.east_m, mast.north_m], site.mast), 0.0, 1e-9, "place");
        near!(mast.ground_m, site.ground(site.mast), 1e-9, "ground");
        near!(mast.raised_height_m, 18.0 * 0.3048, 1e-9, "raised");
        near!(mast.lowered_height_m, 10.0 * 0.3048, 1e-9, "lowered");
        let above_m = mast.foot_m + 18.0 * 0.3048 - site.ground(site.mast);
        near!(mast.top_above_ground_m, above_m, 1e-9, "top above the ground");
        // Tipped about its foot it reaches no farther than its length; the circle is never less.
        near!(mast.fall_radius_m, above_m, 1e-9, "fall circle");
        prop_assert!(mast.fall_radius_m >= mast.raised_height_m);
    }

    #[test]
    fn stakes_beside_the_legs(site in sites()) {
        let job = site.job();
        let plan = planned(&job);
        let (base, stakes) = (&job.rig.base, &job.rig.stakes);
        let beside_m = base.timber_width_mm / 2000.0 + stakes.diameter_mm / 2000.0;
        let mut by_hand = Vec::new();
        for (id, turn_deg, reach_m) in [("front", 0.0, base.front_reach_m), ("right", 90.0, base.side_reach_m), ("left", 270.0, base.side_reach_m)] {
            for (side, right_m) in [("right", beside_m), ("left", -beside_m)] {
                let at = site.out(site.front_deg + turn_deg, reach_m - stakes.inset_m, right_m);
                by_hand.push((format!("{id}-{side}"), at));
            }
        }
        prop_assert_eq!(plan.base.stakes.len(), by_hand.len());
        for (stake, (id, at)) in plan.base.stakes.iter().zip(by_hand) {
            prop_assert_eq!(&stake.id, &id);
            near!(distance([stake.east_m, stake.north_m], at), 0.0, 1e-9, "stake");
            near!(stake.ground_m, site.ground(at), 1e-9, "ground at the stake");
        }
    }

    /// Every peg: bearing, plan distance, tape along the slope (Pythagoras), difference of height; its two ties with
    /// their tapes, the side, the angle at which they cross (law of cosines) and the 95 % ellipse of the point that they
    /// land: for tapes of σa and σb that cross at γ the axes' squares add up to 5.991·(σa² + σb²)/sin²γ, and their
    /// product is 5.991·σa·σb/sin γ (trace and determinant of the covariance of an intersection of two distances).
    #[test]
    fn pegs_and_their_ties(site in sites()) {
        let job = site.job();
        let plan = planned(&job);
        // Mast, three legs, three anchors, six stakes.
        prop_assert_eq!(plan.pegs.len(), 1 + 3 + 3 + 6);
        for peg in &plan.pegs {
            let at = [peg.east_m, peg.north_m];
            near!(peg.ground_m, site.ground(at), 1e-9, "ground at the peg");
            let rise_m = site.ground(at) - site.ground(site.mast);
            if let Some(from) = &peg.from_mast {
                let plan_m = distance(at, site.mast);
                near!(from.plan_m, plan_m, 1e-9, "plan distance");
                near!(from.tape_m, plan_m.hypot(rise_m), 1e-9, "tape");
                near!(from.height_difference_m, rise_m, 1e-9, "difference of height");
                near!(distance(site.out(from.bearing_deg, plan_m, 0.0), at), 0.0, 1e-9, "bearing");
                prop_assert!(apart_deg(from.reading_deg, from.bearing_deg) < 1e-9, "nothing is added to true bearings");
            } else {
                near!(distance(at, site.mast), 0.0, 1e-9, "only the mast has no offsets from the mast");
            }
            tied(&site, &job, peg)?;
        }
    }

    /// Every guy: its anchor, turn from the front leg, both ends, chord, angle, heights; what it weighs against what its
    /// tension lets it sag (a parabola's W·run/8H, where it is taut), its note (Mersenne), the rope to cut.
    #[test]
    fn guys_lengths_angles_tensions(site in sites()) {
        let job = site.job();
        let (level, plan) = (&job.rig.guy_levels[0], planned(&job));
        prop_assert_eq!(plan.guys.len(), 3);
        let collar_m = level.collar_radius_mm / 1000.0;
        for (guy, turn_deg) in plan.guys.iter().zip([0.0, 120.0, 240.0]) {
            let bearing_deg = site.front_deg + site.turn_deg + turn_deg;
            let at = site.out(bearing_deg, site.radius_m, 0.0);
            near!(distance([guy.east_m, guy.north_m], at), 0.0, 1e-9, "anchor");
            near!(guy.ground_m, site.ground(at), 1e-9, "ground at the anchor");
            prop_assert!(apart_deg(guy.azimuth_deg, bearing_deg) < 1e-9 && apart_deg(guy.reading_deg, bearing_deg) < 1e-9);
            prop_assert!(apart_deg(guy.turn_from_front_deg, site.turn_deg + turn_deg) < 1e-9);
            near!(guy.radius_m, site.radius_m, 1e-9, "radius");
            let fall_m = site.ground(at) - site.ground(site.mast);
            near!(guy.height_difference_m, fall_m, 1e-9, "anchor's height");
            near!(guy.tape_m, site.radius_m.hypot(fall_m), 1e-9, "tape");
            let top_m = plan.mast.foot_m + level.attach_height_m;
            let foot_m = site.ground(at) + level.anchor_eye_height_m;
            let (run_m, rise_m) = (site.radius_m - collar_m, top_m - foot_m);
            near!(distance([guy.attach[0], guy.attach[1]], site.out(bearing_deg, collar_m, 0.0)), 0.0, 1e-9, "collar");
            near!(guy.attach[2], top_m, 1e-9, "upper end");
            near!(guy.eye[2], foot_m, 1e-9, "lower end");
            near!(guy.chord_m, run_m.hypot(rise_m), 1e-9, "chord");
            near!(guy.angle_deg, rise_m.atan2(run_m).to_degrees(), 1e-9, "angle");
            // The tension that was asked for stands at the upper end; below it is less by the rope's weight over the rise.
            let weight_n_per_m = level.rope.mass_g_per_m / 1000.0 * 9.80665;
            near!(guy.tension_top_n, level.tension_n, 1e-6, "tension above");
            near!(guy.tension_top_n - guy.tension_bottom_n, weight_n_per_m * rise_m, 0.02, "tension below");
            near!(guy.horizontal_n, level.tension_n * run_m / guy.chord_m, 0.02 * level.tension_n, "horizontal pull");
            let sag_m = weight_n_per_m * guy.chord_m * run_m / (8.0 * guy.horizontal_n);
            near!(guy.sag_m, sag_m, 0.02 * sag_m, "sag");
            let mean_n = (guy.tension_top_n + guy.tension_bottom_n) / 2.0;
            let note_hz = (mean_n / (level.rope.mass_g_per_m / 1000.0)).sqrt() / (2.0 * guy.chord_m);
            near!(guy.natural_frequency_hz, note_hz, 0.005 * note_hz, "note");
            // Longer than its chord by 8/3·(sag square to it)²/chord, shorter by its stretch: 3 % at 1500 N.
            let across_m = guy.sag_m * run_m / guy.chord_m;
            let arc_m = guy.chord_m + 8.0 / 3.0 * across_m * across_m / guy.chord_m;
            let unstressed_m = arc_m / (1.0 + 0.03 * mean_n / 1500.0);
            near!(guy.unstressed_m.value, unstressed_m, 2e-4, "unstressed");
            near!(guy.cut_m.value, guy.unstressed_m.value + level.upper_end_m + level.lower_end_m, 1e-9, "rope to cut");
        }
    }

    /// The ring's points go round from the front leg's bearing, a part of a ring from end to end of its sweep; each strand
    /// is as long as Pythagoras says in its upright plane.
    #[test]
    fn ring_and_strands(site in sites(), part in prop::option::of(40.0..300.0_f64), facing_deg in -90.0..90.0_f64) {
        let mut job = site.job();
        let strands = job.rig.strands.as_mut().expect("the yardstick has a cone");
        (strands.count, strands.facing_turn_deg, strands.top_radius_m) = (9, facing_deg, Some(0.07));
        strands.sweep_deg = part.unwrap_or(360.0);
        let (ring_m, up_m) = (strands.ring_radius_m, strands.top_height_m);
        let plan = planned(&job);
        let ring = plan.ring.as_ref().expect("a ring");
        prop_assert_eq!((ring.points.len(), ring.strand_lengths_m.len()), (9, 9));
        let (first_deg, step_deg) = part.map_or((0.0, 40.0), |sweep_deg| (-sweep_deg / 2.0, sweep_deg / 8.0));
        for (i, (point, length_m)) in ring.points.iter().zip(&ring.strand_lengths_m).enumerate() {
            let bearing_deg = site.front_deg + facing_deg + first_deg + step_deg * i as f64;
            let at = site.out(bearing_deg, ring_m, 0.0);
            near!(distance([point[0], point[1]], at), 0.0, 1e-9, "point of the ring");
            near!(point[2], site.ground(at), 1e-9, "ground at the ring");
            let rise_m = plan.mast.foot_m + up_m - site.ground(at);
            near!(*length_m, (ring_m - 0.07).hypot(rise_m), 1e-9, "strand");
        }
    }

    /// Slope, grade and fall of the ground.
    #[test]
    fn slope_and_fall(site in sites()) {
        let plan = planned(&site.job());
        let grade = site.gradient[0].hypot(site.gradient[1]);
        let slope = plan.ground.slope_deg.value;
        near!(slope, grade.atan().to_degrees(), 1e-6, "slope");
        near!(plan.ground.grade_percent, 100.0 * grade, 1e-6, "grade");
        if let Some(fall_deg) = plan.ground.fall_bearing_deg {
            let down_deg = (-site.gradient[0]).atan2(-site.gradient[1]).to_degrees();
            prop_assert!(apart_deg(fall_deg, down_deg) < 1e-6, "fall {fall_deg} by hand {down_deg}");
        }
    }
}

fn tied(site: &Site, job: &Job, peg: &Peg) -> Result<(), TestCaseError> {
    let Some(ties) = &peg.ties else { return Err(TestCaseError::fail("three marks always serve")) };
    let at = [peg.east_m, peg.north_m];
    let of = |id: &str| MARKS[["A", "B", "C"].iter().position(|mark| *mark == id).expect("a mark")];
    let (a, b) = (of(&ties.mark_a), of(&ties.mark_b));
    let (plan_a_m, plan_b_m, apart_m) = (distance(a, at), distance(b, at), distance(a, b));
    near!(ties.plan_a_m, plan_a_m, 1e-9, "plan distance from the first mark");
    near!(ties.plan_b_m, plan_b_m, 1e-9, "plan distance from the second mark");
    let tape = |mark: [f64; 2], plan_m: f64| plan_m.hypot(site.ground(at) - site.ground(mark));
    near!(ties.tape_a_m, tape(a, plan_a_m), 1e-9, "tape from the first mark");
    near!(ties.tape_b_m, tape(b, plan_b_m), 1e-9, "tape from the second mark");
    let cosine =
        (plan_a_m * plan_a_m + plan_b_m * plan_b_m - apart_m * apart_m) / (2.0 * plan_a_m * plan_b_m);
    let crossing_deg = cosine.clamp(-1.0, 1.0).acos().to_degrees();
    near!(ties.crossing_deg, crossing_deg, 1e-6, "crossing");
    prop_assert_eq!(ties.good, (30.0..=150.0).contains(&ties.crossing_deg));
    let left = (b[0] - a[0]) * (at[1] - a[1]) > (b[1] - a[1]) * (at[0] - a[0]);
    prop_assert_eq!(ties.side == mastwright_engine::job::Side::Left, left);
    let instruments = &job.yard.instruments;
    // A tape's own sigma, laid flat.
    let sigma = |plan_m: f64, tape_m: f64| {
        instruments.tape_sigma_m.hypot(instruments.tape_sigma_mm_per_m / 1000.0 * tape_m) * plan_m / tape_m
    };
    let (sigma_a, sigma_b) = (sigma(plan_a_m, ties.tape_a_m), sigma(plan_b_m, ties.tape_b_m));
    let sine = (1.0 - cosine * cosine).sqrt();
    let (major, minor) = (ties.landing_95.semi_major_m, ties.landing_95.semi_minor_m);
    let squares = CHI_SQUARE * (sigma_a * sigma_a + sigma_b * sigma_b) / (sine * sine);
    near!((major * major + minor * minor) / squares, 1.0, 1e-6, "squares of the ellipse's axes");
    near!(
        major * minor / (CHI_SQUARE * sigma_a * sigma_b / sine),
        1.0,
        1e-6,
        "product of the ellipse's axes"
    );
    Ok(())
}
