//! The whole of it on the demo's yard and on changed ones.

use super::*;
use crate::anchor::soil::ClayFeel;
use crate::job::{Hinge, Job, PullLine, SoilFeel};
use crate::numerics::real::{cos_deg, sin_deg};
use crate::plan::{self, Computed};
use crate::quantity::convert::STANDARD_GRAVITY;
use crate::raising;
use crate::{demo, workshop};

fn computed(change: impl Fn(&mut Job)) -> (Job, Computed) {
    let mut job = demo::lantern_green();
    change(&mut job);
    let computed = plan::compute(&job).expect("it can be placed");
    (job, computed)
}

fn work(change: impl Fn(&mut Job)) -> LiftingWork {
    let (job, computed) = computed(change);
    let bench = workshop::bench_work(&job, &computed).expect("every section is known");
    let way = raising::as_said(&job, &computed);
    lifting_work(&job, &computed, &bench, way.as_ref()).expect("every section is known")
}

fn tilt(change: impl Fn(&mut Job)) -> TiltWork {
    work(change).tilt.expect("all of it is said")
}

const LINE: PullLine = PullLine { prop_height_m: 2.0, prop_behind_m: 0.2, pulled_from_m: 8.0, tied_m: 2.4 };

/// Heavier at the top is never easier, in hands, hinge, tubes, line and gust.
#[test]
fn heavier_is_never_easier() {
    for line in [None, Some(LINE)] {
        let with = |more_kg: f64| {
            work(move |job| {
                job.raising.line = line;
                job.cards.change(|it| it.lifters = Some(4));
                job.rig.topper.as_mut().expect("a topper").mass_kg += more_kg;
            })
        };
        let (light, heavy) = (with(0.0), with(4.0));
        let gust = |work: &LiftingWork| work.tilt_gust.limit.as_ref().expect("known").gust_m_per_s;
        assert!(gust(&heavy) <= gust(&light));
        let (light, heavy) = (light.tilt.expect("said"), heavy.tilt.expect("said"));
        assert!(heavy.hardest.force_n > light.hardest.force_n && heavy.kick.most_n > light.kick.most_n);
        if line.is_some() {
            assert!(heavy.line.expect("a line").pull_n > light.line.expect("a line").pull_n);
        }
    }
}

/// A second opinion: virtual work of the weight over a small turn against every force found, at every angle and on both ways up.
#[test]
fn at_every_angle_the_forces_do_the_weight_s_work() {
    for line in [None, Some(LINE)] {
        let (job, computed) = computed(|job| job.raising.line = line);
        let way = raising::as_said(&job, &computed).expect("said");
        let tilt = tilt(|job| job.raising.line = line);
        let weight_nm = tilt.turning.moment_kg_m * STANDARD_GRAVITY;
        assert!(tilt.angles.len() > 80 && (tilt.angles[0].elevation_deg - way.lying_deg).abs() < 1e-12);
        for at in &tilt.angles {
            let rises_nm = weight_nm * cos_deg(at.elevation_deg);
            let arm_m = match &tilt.rigged {
                None => tilt.lie.grip_m(tilt.turning.long_m, at.elevation_deg),
                Some(rigged) => rigged.pull(&tilt.turning, at.elevation_deg).arm_m,
            };
            assert!((at.force_n * arm_m - rises_nm).abs() < 1e-6 * weight_nm, "{at:?}");
            // What is level and what is upright of force and hinge together carry the weight: |hinge on mast| by Pythagoras.
            let down_n = tilt.turning.mass_kg * STANDARD_GRAVITY;
            let up_n = at.lifts_n + down_n;
            let whole = (at.away_n * at.away_n + up_n * up_n).sqrt();
            assert!((whole - at.force_n).abs() < 1e-6 * down_n, "{at:?}");
        }
    }
}

/// The demo's two stakes of 12.7 mm in stiff clay hold its foot; where nobody has said what the soil is, nothing is known; and in no case does a
/// helper's foot count.
#[test]
fn stakes_hold_the_foot_or_nobody_knows() {
    let shown = tilt(|_| ()).kick;
    let held_n = shown.holds_n.expect("stiff clay is known");
    assert!(held_n > shown.most_n && shown.by == HeldBy::EdgeStakes, "{shown:?}");
    let soft = tilt(|job| job.yard.soil = SoilFeel::Clay { feel: ClayFeel::Soft }).kick;
    assert!(soft.holds_n.expect("known") < held_n);
    for soil in [SoilFeel::Unknown, SoilFeel::Loam] {
        let open = tilt(|job| job.yard.soil = soil).kick;
        assert_eq!((open.holds_n, open.source), (None, None));
    }
    let pin = |job: &mut Job| {
        job.raising.hinge = Hinge::Pin { height_m: 0.3 };
        job.raising.lies_toward_deg = Some(45.0);
    };
    assert_eq!(tilt(pin).kick.by, HeldBy::StakedBase);
    assert!(tilt(pin).kick.holds_n.is_some());
}

/// By hand, with a topper of 3 m² so that hands give first: what they have left over the push at their grip, over the moment of the wind on a tube as
/// thick as the bundle and on the topper, even pressure by 1/2·rho·v² at their middles; to 15 %.
#[test]
fn the_gust_is_where_what_holds_is_used_up() {
    let wide = |lifters: u8| {
        move |job: &mut Job| {
            job.cards.change(|it| it.lifters = Some(lifters));
            let topper = job.rig.topper.as_mut().expect("a topper");
            (topper.width_m, topper.height_m, topper.solid_percent) = (5.0, 0.6, 100.0);
        }
    };
    let limit = work(wide(1)).tilt_gust.limit.expect("all is known");
    let more = work(wide(6)).tilt_gust.limit.expect("known");
    assert_eq!(limit.by, GustBy::Hands, "{limit:?}");
    assert!(limit.gust_m_per_s < more.gust_m_per_s);
    let (job, computed) = computed(wide(1));
    let tilt = tilt(wide(1));
    let topper = job.rig.topper.as_ref().expect("a topper");
    let thick_m = 2.0 * raising::radius_as_said(&job, &computed).expect("known");
    let at_deg = limit.at_deg.expect("it turns");
    let push = hands::push(&tilt.turning, &tilt.lie, at_deg);
    let left_nm = (23.0 * 9.80665 - push.force_n) * push.grip_m;
    let (long_m, pressure) = (tilt.turning.long_m, 0.5 * 1.29 * limit.gust_m_per_s * limit.gust_m_per_s);
    // Open country some 3 m up: by ASCE 7's Kz of exposure C below 4.6 m, 0.85 of the pressure at 10 m.
    let tube_nm = 0.85 * pressure * 1.2 * thick_m * long_m * long_m / 2.0 * sin_deg(at_deg) * sin_deg(at_deg);
    let top_nm = 0.85 * pressure * topper.drag * 3.0 * (long_m + 0.3) * sin_deg(at_deg);
    assert!(((tube_nm + top_nm) / left_nm - 1.0).abs() < 0.15, "{} {left_nm} {limit:?}", tube_nm + top_nm);
}

/// A topper of 3 m², and four people, so that hands do not give first.
fn wide(job: &mut Job) {
    job.cards.change(|it| it.lifters = Some(4));
    let topper = job.rig.topper.as_mut().expect("a topper");
    (topper.width_m, topper.height_m, topper.solid_percent) = (5.0, 0.6, 100.0);
}

/// Moment about the hinge of a gust square to the tube, by hand: 1/2·rho·v², 0.85 of it below 4.6 m (ASCE 7's Kz of exposure C), on a bar as thick as the
/// bundle with c 1.2 and on the topper's 3 m².
fn square_wind_nm(job: &Job, computed: &Computed, tilt: &TiltWork, gust_m_per_s: f64) -> f64 {
    let thick_m = 2.0 * raising::radius_as_said(job, computed).expect("known");
    let (long_m, drag) = (tilt.turning.long_m, job.rig.topper.as_ref().expect("a topper").drag);
    let pressure = 0.85 * 0.5 * 1.29 * gust_m_per_s * gust_m_per_s;
    pressure * (1.2 * thick_m * long_m * long_m / 2.0 + drag * 3.0 * (long_m + 0.3))
}

/// By hand: a helper's 150 N at the collar, r along the tube from the hinge, towards an eye that lies s aside of it, hold 150·r·s/|collar to eye| about the
/// axis square to the tube; of that the weight at a lean of one in ten takes 0.1·W·c·sin θ; the rest holds the wind across. The demo's side guys are
/// all in hands.
#[test]
fn to_the_side_it_holds_what_a_helper_holds_by_hand() {
    let limit = work(wide).tilt_gust.limit.expect("all is known");
    let GustBy::Side { guy } = &limit.by else { panic!("{limit:?}") };
    let (job, computed) = computed(wide);
    let (tilt, way) = (tilt(wide), raising::as_said(&job, &computed).expect("said"));
    let deg = limit.at_deg.expect("it turns");
    // Out along the lying mast, to its right, up, from the hinge.
    let [east, north] = crate::quantity::bearing::unit(way.lies_toward_deg);
    let seen = |at: [f64; 3]| {
        let [x, y, z] = [0, 1, 2].map(|axis| at[axis] - way.hinge[axis]);
        [x * east + y * north, x * north - y * east, z]
    };
    let bench = workshop::bench_work(&job, &computed).expect("every section is known");
    let standing = crate::wind_capacity::standing::Standing::of(
        &job,
        &computed.layout,
        crate::wind_capacity::MastHeight::Lowered,
    );
    assert!(bench.stages.stages.len() == 2);
    let placed = standing
        .guys
        .iter()
        .find(|it| way.guys.iter().any(|tilted| tilted.id == it.planned.id && tilted.name == *guy));
    let placed = placed.expect("the guy");
    let mast = &computed.plan.mast;
    let [off_east, off_north, off_up] = placed.collar_offset_m;
    let up_m = mast.foot_m + placed.attach_height_m + off_up;
    let [out_m, right_m, z_m] = seen([mast.east_m + off_east, mast.north_m + off_north, up_m]);
    // Turned down from plumb by 90° − θ, towards the lying side.
    let (sin, cos) = (sin_deg(deg), cos_deg(deg));
    let collar = [out_m * sin + z_m * cos, right_m, z_m * sin - out_m * cos];
    let eye = seen(placed.planned.eye);
    let run = [0, 1, 2].map(|axis| eye[axis] - collar[axis]);
    let far_m = run.iter().map(|part| part * part).sum::<f64>().sqrt();
    let pull = run.map(|part| 150.0 * part / far_m);
    // About the axis square to the tube in its upright plane: along the tube times sideways, less sideways times along the tube.
    let along = |at: [f64; 3]| at[0] * cos + at[2] * sin;
    let held_nm = (along(collar) * pull[1] - collar[1] * along(pull)).abs();
    let leans_nm = 0.1 * tilt.turning.moment_kg_m * STANDARD_GRAVITY * sin;
    let wind_nm = square_wind_nm(&job, &computed, &tilt, limit.gust_m_per_s);
    assert!((wind_nm / (held_nm - leans_nm) - 1.0).abs() < 0.15, "{wind_nm} {held_nm} {leans_nm} {limit:?}");
}

/// By hand, the second stage of the demo with a topper of 3 m²: all tubes up, no guy fast. Six helpers with 150 N each hold what the level parts of
/// their pulls have at their collars, in the direction in which they hold least (looked for degree by degree); a lean of one in ten takes 0.1·g of
/// every tube at its middle and of what hangs at the top at the top. The wind: 0.85 of 1/2·rho·v² on tubes (c 1.2), topper and half of each strand.
#[test]
fn ropes_in_hands_hold_the_second_stage_by_hand() {
    let (job, computed) = computed(wide);
    let stage = &work(wide).stage_gusts[1];
    let limit = stage.found.limit.as_ref().expect("known");
    assert_eq!((stage.tube, &limit.by), (1, &GustBy::RopesInHands));
    let mast = &computed.plan.mast;
    let top_m = mast.raised_height_m;
    let pulls: Vec<[f64; 2]> = computed
        .plan
        .guys
        .iter()
        .map(|guy| {
            let run = [guy.eye[0] - mast.east_m, guy.eye[1] - mast.north_m, guy.eye[2] - guy.attach[2]];
            let far_m = run.iter().map(|part| part * part).sum::<f64>().sqrt();
            [0, 1].map(|axis| 150.0 * run[axis] / far_m * (guy.attach[2] - mast.foot_m))
        })
        .collect();
    let held_nm = (0..360)
        .map(|deg| {
            let [east, north] = crate::quantity::bearing::unit(f64::from(deg));
            // The most that they give that way with nothing left over square to it: as much as the lesser of both sides.
            let along = |pull: &[f64; 2]| pull[0] * east + pull[1] * north;
            pulls.iter().map(|pull| along(pull).max(0.0)).sum::<f64>()
        })
        .fold(f64::INFINITY, f64::min);
    let bench = workshop::bench_work(&job, &computed).expect("every section is known");
    let tubes_nm: f64 =
        mast.stages.iter().map(|it| it.mass_kg * 0.5 * (it.bottom_height_m + it.top_height_m)).sum();
    let end_kg = bench.lift.stages.iter().filter_map(|it| it.mass_kg).fold(0.0, f64::max);
    let leans_nm = 0.1 * STANDARD_GRAVITY * (tubes_nm + end_kg * top_m);
    let tubes: f64 = mast
        .stages
        .iter()
        .scan(0.0, |low_m: &mut f64, it| {
            let moment =
                1.2 * it.outside_mm / 1000.0 * 0.5 * (it.top_height_m * it.top_height_m - *low_m * *low_m);
            *low_m = it.top_height_m;
            Some(moment)
        })
        .sum();
    let strands = job.rig.strands.as_ref().expect("strands");
    let lengths_m: f64 = computed.plan.ring.as_ref().expect("a ring").strand_lengths_m.iter().sum();
    let hung = 1.2 * 0.005 * 0.5 * lengths_m * strands.top_height_m;
    let topper = job.rig.topper.as_ref().expect("a topper").drag * 3.0 * (top_m + 0.3);
    let wind_nm = 0.85 * 0.5 * 1.29 * limit.gust_m_per_s * limit.gust_m_per_s * (tubes + hung + topper);
    assert!((wind_nm / (held_nm - leans_nm) - 1.0).abs() < 0.15, "{wind_nm} {held_nm} {leans_nm} {limit:?}");
}

#[test]
fn what_nobody_entered_gives_no_gust() {
    let missing = |change: &dyn Fn(&mut Job)| {
        let found = work(change);
        (
            found.tilt_gust.missing,
            found.stage_gusts.into_iter().flat_map(|it| it.found.missing).collect::<Vec<_>>(),
        )
    };
    let cord = |job: &mut Job| job.rig.strands.as_mut().expect("strands").cord.diameter_mm = None;
    let (tilt, stages) = missing(&cord);
    assert_eq!(tilt, [GustMissing::CordThickness]);
    assert!(stages.contains(&GustMissing::CordThickness) && stages.contains(&GustMissing::PartsInWind));
    let (tilt, _) =
        missing(&|job| job.rig.guy_levels.iter_mut().for_each(|level| level.rope.strength.minimum_n = None));
    assert_eq!(tilt, [GustMissing::RopesAndAnchors]);
    let (_, stages) = missing(&|job| job.workshop.lift.strap_working_n = None);
    assert_eq!(stages, [GustMissing::StrapLabel, GustMissing::StrapLabel]);
    let (tilt, _) = missing(&|job| job.raising.hinge = Hinge::Unsaid);
    assert_eq!(tilt, [GustMissing::HowItTurnsUp]);
}

/// Top tube first: the lower guys stay fast, and the solver follows it; then all guys rise with the middle tube, and three helpers hold.
#[test]
fn each_stage_has_its_own_gust() {
    let stages = work(|_| ()).stage_gusts;
    assert_eq!(stages.iter().map(|it| it.tube).collect::<Vec<_>>(), [2, 1]);
    let limits: Vec<GustLimit> = stages.into_iter().map(|it| it.found.limit.expect("known")).collect();
    assert!(
        matches!(limits[0].by, GustBy::Part { .. } | GustBy::Strap | GustBy::HighWind),
        "{:?}",
        limits[0]
    );
    assert!(limits[1].gust_m_per_s > 5.0);
    // Three square metres at the top: three helpers, each with 150 N, hold that in less.
    let wide = work(|job| {
        let topper = job.rig.topper.as_mut().expect("a topper");
        (topper.width_m, topper.height_m, topper.solid_percent) = (5.0, 0.6, 100.0);
    });
    let by_hands = wide.stage_gusts[1].found.limit.as_ref().expect("known");
    assert_eq!(by_hands.by, GustBy::RopesInHands);
    assert!(by_hands.gust_m_per_s < limits[1].gust_m_per_s);
    // A weak strap governs.
    let weak = work(|job| job.workshop.lift.strap_working_n = Some(120.0)).stage_gusts;
    assert_eq!(weak[1].found.limit.as_ref().expect("known").by, GustBy::Strap);
    assert!(limits.iter().all(|it| it.gust_m_per_s <= 13.4112));
}
