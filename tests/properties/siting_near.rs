//! What a search leaves out because it stands too far from a place is what would have said nothing of it.

use mastwright_engine::job::{Job, PointFix, Shape};
use mastwright_engine::plan::{self, Checked, FixedPoints, Layout};

use crate::cramped_yard::cramped;
use crate::random_jobs::Chance;
use crate::siting::surveyed;

const AMPLE_M: f64 = 2.0;

/// Findings, and the clearances with less than ample room, as they would be told.
fn told(checked: &Checked) -> (Vec<String>, Vec<String>) {
    let near = checked.clearances.iter().filter(|it| it.distance_m - it.needed_m < AMPLE_M);
    let mut findings: Vec<String> = checked.findings.iter().map(|finding| format!("{finding:?}")).collect();
    findings.sort();
    (findings, near.map(|it| format!("{it:?}")).collect())
}

fn whole_and_near(job: &Job, layout: &Layout, points: &FixedPoints) -> [Checked; 2] {
    let surveyed = surveyed(job);
    let whole = plan::check_placed(&surveyed, points, job, layout).expect("the yard can be placed");
    let near = plan::check_near(&surveyed, points, job, layout, AMPLE_M).expect("so can it be");
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
        let surveyed = surveyed(&job);
        let points = FixedPoints::of(&surveyed, &job);
        for _ in 0..4 {
            let mut placement = job.placement.clone();
            placement.mast = PointFix::Coordinates {
                east_m: chance.between(0.0, 24.0),
                north_m: chance.between(0.0, 24.0),
            };
            let layout = plan::lay_out_for_map(&surveyed, &job.rig, &placement).expect("it can be placed");
            let [whole, near] = whole_and_near(&job, &layout, &points);
            assert_eq!(told(&whole), told(&near), "yard {seed} at {:?}", placement.mast);
            let not_there = whole.yard.obstacles.iter().filter(|thing| !near.yard.obstacles.contains(thing));
            left_out += not_there.count();
            found += whole.findings.len();
        }
    }
    // Yards of some twenty metres: much is near, some is not.
    assert!(left_out > 100 && found > 300, "{left_out} {found}");
}
