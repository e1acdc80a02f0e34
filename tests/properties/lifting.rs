//! Forces and gusts of the day do not hang on how the yard is turned.

use mastwright_engine::job::{BearingReference, Job, PullLine};
use mastwright_engine::lifting::{LiftingWork, lifting_work};
use mastwright_engine::{demo, plan, raising, workshop};

use crate::moved::Move;

fn work(job: &Job) -> LiftingWork {
    let computed = plan::compute(job).expect("it can be placed");
    let bench = workshop::bench_work(job, &computed).expect("every section is known");
    let way = raising::as_said(job, &computed);
    lifting_work(job, &computed, &bench, way.as_ref()).expect("every section is known")
}

fn numbers(job: &Job) -> Vec<f64> {
    let work = work(job);
    let tilt = work.tilt.expect("all of it is said");
    let mut numbers =
        vec![tilt.hardest.force_n, tilt.level_hardest_n, tilt.kick.most_n, tilt.lie.along, tilt.lie.across];
    numbers.extend(tilt.kick.holds_n);
    numbers.extend(tilt.bend.map(|bend| bend.utilisation));
    numbers.extend(tilt.line.map(|line| line.pull_n));
    numbers.extend(tilt.angles.iter().flat_map(|at| [at.force_n, at.away_n, at.lifts_n]));
    numbers.extend(work.tilt_gust.limit.map(|limit| limit.gust_m_per_s));
    let stages = work.stage_gusts.into_iter();
    numbers.extend(stages.map(|stage| stage.found.limit.expect("all is known").gust_m_per_s));
    numbers
}

/// The demo, with a topper wide enough for hands and ropes to give first, walked up and pulled up.
#[test]
fn a_turned_yard_has_the_same_forces_and_gusts() {
    let line = PullLine { prop_height_m: 2.0, prop_behind_m: 0.2, pulled_from_m: 8.0, tied_m: 2.4 };
    for line in [None, Some(line)] {
        let mut job = demo::lantern_green();
        job.yard.bearings = BearingReference::True;
        job.raising.line = line;
        job.cards.change(|it| it.lifters = Some(2));
        let topper = job.rig.topper.as_mut().expect("a topper");
        (topper.width_m, topper.solid_percent) = (3.0, 100.0);
        let here = numbers(&job);
        assert!(here.len() > 250 && here.iter().all(|number| number.is_finite()));
        let there = numbers(&Move::Turn { by_deg: 90.0 }.job(&job));
        assert_eq!(here.len(), there.len());
        for (place, (a, b)) in here.iter().zip(&there).enumerate() {
            assert!((a - b).abs() <= 2e-3 * a.abs().max(1.0), "{place}: {a}, then {b}");
        }
    }
}
