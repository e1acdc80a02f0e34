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
