//! What a gust limit costs, counted in the solver's work, so that it is the same on every machine: no legal job more than
//! ten times the demo as it was at 53a387c (docs/performance.md).

use mastwright_engine::demo::lantern_green;
use mastwright_engine::job::{Job, read_job_value};
use mastwright_engine::plan::compute;
use mastwright_engine::wind_capacity::air;
use mastwright_engine::wind_capacity::parts::parts;
use mastwright_engine::wind_capacity::rose::{bearings_round, blows_to};
use mastwright_engine::wind_capacity::search::{Search, Windy};
use mastwright_engine::wind_capacity::standing::Standing;
use mastwright_engine::wind_capacity::{MastHeight, withstand_and_spent};
use serde_json::{Value, json};

use crate::random_jobs::random_job;
use crate::yardstick::{SPENT_AT_53A387C, YARDSTICK, yardstick};

const MOST: u64 = 10 * SPENT_AT_53A387C;

fn yardstick_with(change: impl Fn(&mut Value)) -> Job {
    let mut document: Value = serde_json::from_str(YARDSTICK).expect("JSON");
    change(&mut document);
    read_job_value(&document).expect("a job")
}

/// One spot height of −4.03 m entered as 0: the anchors stand on a hill that is not there.
fn wrong_spot_height() -> Job {
    yardstick_with(|document| {
        let heights = document["yard"]["spot_heights"].as_array_mut().expect("spot heights");
        let wrong = heights.iter_mut().find(|spot| spot["height_m"] == -4.03).expect("the spot");
        wrong["height_m"] = json!(0);
        // Feet that are no too slender posts there, so that a limit is given.
        for side in ["foot_thickness_mm", "foot_width_mm"] {
            document["rig"]["base"][side] = json!(240);
        }
    })
}

fn stretch(percent: f64) -> Job {
    yardstick_with(|document| document["rig"]["guy_levels"][0]["rope"]["stretch_percent"] = json!(percent))
}

fn spent(job: &Job) -> u64 {
    let layout = compute(job).expect("it can be placed").layout;
    let (limit, spent) = withstand_and_spent(job, &layout, &mut |_, _, _| true);
    assert_eq!((limit.missing, limit.raised.directions.len()), (vec![], 72), "all of it was looked at");
    spent
}

/// The same by the search alone: it looks on where an answer for people would say what is missing. Every direction counts,
/// those too in which the mast does not stand in still air.
fn spent_by_search(job: &Job) -> u64 {
    let layout = compute(job).expect("it can be placed").layout;
    let of = |height| {
        let standing = Standing::of(job, &layout, height);
        let parts = parts(&standing);
        let (mut search, mut guess): (Option<Search>, f64) = (None, 100.0);
        for from_deg in bearings_round(&standing, 72) {
            let mut windy = Windy::new(&standing, &air::route(job), blows_to(from_deg)).expect("a structure");
            let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
            let found = search.limit(&mut windy, guess).gust_squared;
            guess = if found > 0.0 { found } else { guess };
        }
        search.map_or(0, |search| search.spent())
    };
    of(MastHeight::Raised) + of(MastHeight::Lowered)
}

fn within_ten_yardsticks(name: &str, spent: u64) {
    let yardsticks = spent as f64 / SPENT_AT_53A387C as f64;
    println!("{name}: {yardsticks:.2}");
    assert!(spent > 0 && spent <= MOST, "{name}: {yardsticks:.1} yardsticks");
}

#[test]
fn the_jobs_that_took_longest_cost_no_more_than_ten_yardsticks() {
    let jobs = [
        ("the yardstick", yardstick()),
        ("the demo", lantern_green()),
        ("a wrong spot height", wrong_spot_height()),
        ("8 % of stretch", stretch(8.0)),
        ("12 % of stretch", stretch(12.0)),
    ];
    for (name, job) in jobs {
        within_ten_yardsticks(name, spent(&job));
    }
}

/// Among them such as fall in still air, raised (4, 13, 37, 55), or up and down (18, 30).
#[test]
fn random_jobs_cost_no_more_than_ten_yardsticks() {
    for seed in [4, 8, 13, 18, 30, 37, 49, 55] {
        within_ten_yardsticks(&format!("job {seed}"), spent_by_search(&random_job(seed)));
    }
}

/// The dearest of five hundred: before, 11 to 30. Tubes run down bowed inside one another near their buckling load, and were
/// followed by halving to where they fell.
#[test]
fn the_dearest_random_jobs_cost_no_more_than_ten_yardsticks() {
    for seed in [349, 320, 197, 171] {
        within_ten_yardsticks(&format!("job {seed}"), spent_by_search(&random_job(seed)));
    }
}

/// All of them, some minutes in release: `cargo test --release -p mastwright-tests --test properties five_hundred -- --ignored
/// --nocapture`.
#[test]
#[ignore = "some minutes; run it after a change of the search"]
fn none_of_five_hundred_random_jobs_costs_more_than_ten_yardsticks() {
    let mut all: Vec<(u64, u64)> = (1..=500).map(|seed| (spent_by_search(&random_job(seed)), seed)).collect();
    all.sort_unstable();
    for &(spent, seed) in all.iter().rev().take(12).rev() {
        within_ten_yardsticks(&format!("job {seed}"), spent);
    }
}

/// The dear job tells how far it is every six directions, and stops when told to: without the work of those left.
#[test]
fn a_dear_job_tells_how_far_it_is_and_stops() {
    let job = wrong_spot_height();
    let layout = compute(&job).expect("it can be placed").layout;
    let mut told = Vec::new();
    let (whole, of_whole) = withstand_and_spent(&job, &layout, &mut |done, of, limit| {
        told.push((done, of, limit.raised.directions.len() + limit.lowered.directions.len()));
        true
    });
    let expected: Vec<_> = (1..=24).map(|batch| (6 * batch, 144, 6 * batch as usize)).collect();
    assert_eq!(told, expected);
    assert!(!whole.stopped);
    let mut asked = 0;
    let (part, of_part) = withstand_and_spent(&job, &layout, &mut |done, _, _| {
        asked += 1;
        done < 12
    });
    assert!(part.stopped && asked == 2 && part.raised.directions.len() == 12);
    assert!(part.lowered.directions.is_empty() && part.raised.least.is_none());
    assert!(5 * of_part < 2 * of_whole, "{of_part} of {of_whole}");
    // What was found so far is no other than in the whole.
    assert!(part.raised.directions.iter().all(|found| whole.raised.directions.contains(found)));
}
