//! What a search leaves out because it stands too far from a place is what would have said nothing of it.

use mastwright_engine::job::{AnchorLayout, Job, PointFix, Shape};
use mastwright_engine::plan::{self, Checked, FixedPoints, Layout};

use crate::cramped_yard::cramped;
use crate::random_jobs::Chance;
use crate::siting::surveyed;

/// Findings, and the clearances with less than ample room, as they would be told.
fn told(checked: &Checked, ample_m: f64) -> (Vec<String>, Vec<String>) {
    let near = checked.clearances.iter().filter(|it| it.distance_m - it.needed_m < ample_m);
    let mut findings: Vec<String> = checked.findings.iter().map(|finding| format!("{finding:?}")).collect();
    findings.sort();
    (findings, near.map(|it| format!("{it:?}")).collect())
}

fn whole_and_near(job: &Job, layout: &Layout, points: &FixedPoints, ample_m: f64) -> [Checked; 2] {
    let surveyed = surveyed(job);
    let whole = plan::check_placed(&surveyed, points, job, layout).expect("the yard can be placed");
    let near = plan::check_near(&surveyed, points, job, layout, ample_m).expect("so can it be");
    [whole, near]
}

/// Some posts and trees stand where a compass and a pace or two put them: as unsure as that is.
fn unsure(mut job: Job, chance: &mut Chance) -> Job {
    for thing in &mut job.yard.obstacles {
        if let Shape::Post { at, .. } | Shape::Tree { at, .. } = &mut thing.shape {
            *at = PointFix::BearingTape {
                from: "A".into(),
                bearing_deg: chance.between(0.0, 90.0),
                tape_m: chance.between(8.0, 40.0),
            };
        }
    }
    job
}

#[test]
fn what_is_left_out_says_nothing_of_a_place() {
    let (mut left_out, mut found) = (0, 0);
    for seed in 0..60 {
        let mut chance = Chance::new(1000 + seed);
        let job = if seed % 2 == 0 { cramped(seed) } else { unsure(cramped(seed), &mut chance) };
        let mut job = job;
        if seed % 3 == 0 {
            // Farther out than the mast could fall: then anchors and ropes decide what is near.
            let radius_m = chance.between(6.0, 11.0);
            job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m };
        }
        let surveyed = surveyed(&job);
        let points = FixedPoints::of(&surveyed, &job);
        for _ in 0..6 {
            let mut placement = job.placement.clone();
            placement.mast = PointFix::Coordinates {
                east_m: chance.between(0.0, 24.0),
                north_m: chance.between(0.0, 24.0),
            };
            let layout = plan::lay_out_for_map(&surveyed, &job.rig, &placement).expect("it can be placed");
            let [whole, near] = whole_and_near(&job, &layout, &points, 2.0);
            assert_eq!(told(&whole, 2.0), told(&near, 2.0), "yard {seed} at {:?}", placement.mast);
            // Without any room to spare all that is found fault with is still there.
            let [_, bare] = whole_and_near(&job, &layout, &points, 0.0);
            assert_eq!(told(&whole, 0.0), told(&bare, 0.0), "yard {seed} at {:?}", placement.mast);
            let not_there = whole.yard.obstacles.iter().filter(|thing| !near.yard.obstacles.contains(thing));
            left_out += not_there.count();
            found += whole.findings.len();
        }
    }
    // Yards of some twenty metres: much is near, some is not.
    assert!(left_out > 100 && found > 300, "{left_out} {found}");
}

/// A post 1.5 m beyond an anchor, on its line, beside the first mark: it takes a mark from the place, and nothing is found of it.
#[test]
fn what_takes_a_mark_is_still_looked_at() {
    let mut job = cramped(0);
    job.rig.guy_levels[0].anchor_layout = AnchorLayout::EqualRadius { radius_m: 9.0 };
    job.placement.mast = PointFix::Coordinates { east_m: 0.5, north_m: 0.5 };
    let survey = surveyed(&job);
    let layout = plan::lay_out_for_map(&survey, &job.rig, &job.placement).expect("it can be placed");
    let guy = &layout.guys[0];
    let beyond = |mast_m: f64, anchor_m: f64| anchor_m + 1.6 / 9.0 * (anchor_m - mast_m);
    let at = PointFix::Coordinates { east_m: beyond(0.5, guy.east_m), north_m: beyond(0.5, guy.north_m) };
    job.yard.obstacles.truncate(1);
    job.yard.obstacles[0].shape = Shape::Post { at, radius_m: 0.1, height_m: 1.0, height_sigma_m: None };
    job.yard.obstacles[0].keep_off_m = Some(0.0);
    let points = FixedPoints::of(&surveyed(&job), &job);
    let [whole, near] = whole_and_near(&job, &layout, &points, 2.0);
    let margins = whole.clearances.iter().map(|it| it.distance_m - it.needed_m);
    assert!(margins.fold(f64::INFINITY, f64::min) < 1.6 && near.yard.obstacles.len() == 1);
}
