//! The survey log against the job that it is the log of: whatever is done to the job, and in whatever steps the log
//! is brought up to it, playing the log back gives the job's readings, and no entry is ever lost.

use mastwright_engine::job::{Instrument, Job, PointFix};
use mastwright_engine::survey::log::{How, ReadingKey, readings, record, standing};
use proptest::prelude::*;

use crate::yardstick::yardstick;

/// Something that a user does.
#[derive(Debug, Clone)]
enum Edit {
    Slope(usize, f64),
    StrikeSlope(usize),
    RemoveSlope(usize),
    Height(usize, f64),
    StrikeHeight(usize),
    Mark(usize, f64, f64),
    RemoveObstacle(usize),
    Corner(usize, f64, f64),
    Turn,
    Undo,
    Log,
}

fn edits() -> impl Strategy<Value = Vec<Edit>> {
    let number = || -20.0..20.0_f64;
    let one = prop_oneof![
        (0..8_usize, number()).prop_map(|(i, x)| Edit::Slope(i, x)),
        (0..8_usize).prop_map(Edit::StrikeSlope),
        (0..8_usize).prop_map(Edit::RemoveSlope),
        (0..8_usize, number()).prop_map(|(i, x)| Edit::Height(i, x)),
        (0..8_usize).prop_map(Edit::StrikeHeight),
        (0..8_usize, number(), number()).prop_map(|(i, x, y)| Edit::Mark(i, x, y)),
        (0..8_usize).prop_map(Edit::RemoveObstacle),
        (0..8_usize, number(), number()).prop_map(|(i, x, y)| Edit::Corner(i, x, y)),
        Just(Edit::Turn),
        Just(Edit::Undo),
        Just(Edit::Log),
    ];
    prop::collection::vec(one, 1..40)
}

fn pick<T>(list: &mut [T], index: usize) -> Option<&mut T> {
    let count = list.len().max(1);
    list.get_mut(index % count)
}

fn apply(job: &mut Job, edit: &Edit) {
    let yard = &mut job.yard;
    let point = |east_m: f64, north_m: f64| PointFix::Coordinates { east_m, north_m };
    match *edit {
        Edit::Slope(i, slope_deg) => {
            if let Some(slope) = pick(&mut yard.slopes, i) {
                slope.slope_deg = slope_deg;
            }
        }
        Edit::StrikeSlope(i) => {
            if let Some(slope) = pick(&mut yard.slopes, i) {
                slope.struck = !slope.struck;
            }
        }
        Edit::RemoveSlope(i) if !yard.slopes.is_empty() => {
            yard.slopes.remove(i % yard.slopes.len());
        }
        Edit::Height(i, height_m) => {
            if let Some(spot) = pick(&mut yard.spot_heights, i) {
                spot.height_m = height_m;
            }
        }
        Edit::StrikeHeight(i) => {
            if let Some(spot) = pick(&mut yard.spot_heights, i) {
                spot.struck = !spot.struck;
            }
        }
        Edit::Mark(i, x, y) => {
            if let Some(mark) = pick(&mut yard.marks[1..], i) {
                mark.at = point(x, y);
            }
        }
        Edit::RemoveObstacle(i) if !yard.obstacles.is_empty() => {
            yard.obstacles.remove(i % yard.obstacles.len());
        }
        Edit::Corner(i, x, y) => {
            if let Some(corner) = yard.boundary.as_mut().and_then(|boundary| pick(&mut boundary.outline, i)) {
                *corner = point(x, y);
            }
        }
        // The order of a list is nothing to the log.
        Edit::Turn => {
            yard.slopes.reverse();
            yard.obstacles.reverse();
        }
        _ => {}
    }
}

fn log(job: &mut Job) {
    let taken_at = job.yard.surveyed_at.expect("the demo has a date");
    let how =
        How { taken_at, who: String::new(), instrument: Instrument::Typed, captures: vec![], open: vec![] };
    let entries = record(job, &how);
    job.log.extend(entries);
    assert_eq!(record(job, &how), [], "a log brought up to its job lacks nothing");
}

fn assert_replays(job: &Job) {
    let played = standing(&job.log);
    let present = readings(job);
    for reading in &present {
        let latest = &played[&reading.key];
        assert_eq!(
            (&latest.entry.value, latest.struck, latest.removed),
            (&reading.value, reading.struck, false)
        );
    }
    let keys: Vec<&ReadingKey> = present.iter().map(|reading| &reading.key).collect();
    assert!(played.iter().all(|(key, latest)| latest.removed || keys.contains(&key)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_edits_replay(edits in edits()) {
        let mut job = yardstick();
        log(&mut job);
        let mut past: Vec<Job> = Vec::new();
        for edit in &edits {
            let kept = job.log.clone();
            match edit {
                // Undo brings the job back, never its log.
                Edit::Undo => {
                    if let Some(before) = past.pop() {
                        job = Job { log: kept.clone(), ..before };
                    }
                }
                Edit::Log => log(&mut job),
                edit => {
                    past.push(job.clone());
                    apply(&mut job, edit);
                }
            }
            prop_assert!(job.log.starts_with(&kept));
        }
        log(&mut job);
        assert_replays(&job);
        let numbers: Vec<u32> = job.log.iter().map(|entry| entry.number).collect();
        prop_assert!(numbers.iter().zip(1..).all(|(number, place)| *number == place));
    }
}
