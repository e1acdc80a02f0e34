//! `cargo xtask sweep-wind`: the gust limits of many random jobs, each turned with everything in it by multiples of 5°
//! and compared direction by direction.

// It is not mirrored here.
#[allow(dead_code)]
#[path = "../../tests/support/moved.rs"]
mod moved;
#[path = "../../tests/support/random_jobs.rs"]
mod random_jobs;
#[path = "../../tests/support/yardstick.rs"]
mod yardstick;

use std::process::ExitCode;

use mastwright_engine::finding::wind::Collapse;
use mastwright_engine::job::{Job, read_job};
use mastwright_engine::plan::{Layout, compute};
use mastwright_engine::wind_capacity::air;
use mastwright_engine::wind_capacity::parts::parts;
use mastwright_engine::wind_capacity::rose::{bearings_round, blows_to};
use mastwright_engine::wind_capacity::search::{Search, Windy};
use mastwright_engine::wind_capacity::standing::Standing;
use mastwright_engine::wind_capacity::{MastHeight, WindQuestion, WindTable, wind_table};

use moved::Move;
use random_jobs::random_job;
use yardstick::{SPENT_AT_53A387C, yardstick};

fn word(name: &str) -> Option<String> {
    let given: Vec<String> = std::env::args().collect();
    let at = given.iter().position(|argument| argument == name)?;
    given.get(at + 1).cloned()
}

fn option(name: &str, otherwise: u64) -> u64 {
    word(name).and_then(|word| word.parse().ok()).unwrap_or(otherwise)
}

/// Those of `--seeds 39,54`, otherwise so many from the first on.
fn seeds(jobs: u64, first: u64) -> Vec<u64> {
    match word("--seeds") {
        Some(list) => list.split(',').filter_map(|seed| seed.parse().ok()).collect(),
        None => (first..first + jobs).collect(),
    }
}

/// Processor time of this thread.
fn cpu_ns() -> u64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    told.split(' ').next().and_then(|word| word.parse().ok()).unwrap_or(0)
}

/// Limits from 72 directions, raised and lowered; or why there is no structure.
struct Looked {
    layout: Layout,
    heights: Vec<(MastHeight, Vec<(f64, String)>)>,
    no_structure: Option<String>,
    ms: f64,
    /// In what the demo's limit cost at 53a387c, as the solver counts.
    yardsticks: f64,
}

/// By the search itself: an answer for people holds no figures where some part is not known to hold.
fn looked(job: &Job) -> Looked {
    let layout = compute(job).expect("a place for the mast").layout;
    let mut looked = Looked { layout, heights: Vec::new(), no_structure: None, ms: 0.0, yardsticks: 0.0 };
    let before = cpu_ns();
    for height in [MastHeight::Raised, MastHeight::Lowered] {
        match rose(job, &looked.layout, height) {
            Ok((rose, spent)) => {
                looked.heights.push((height, rose));
                looked.yardsticks += spent as f64 / SPENT_AT_53A387C as f64;
            }
            Err(why) => looked.no_structure = Some(why),
        }
    }
    looked.ms = (cpu_ns() - before) as f64 * 1e-6;
    looked
}

type Rose = Vec<(f64, String)>;

fn rose(job: &Job, layout: &Layout, height: MastHeight) -> Result<(Rose, u64), String> {
    let standing = Standing::of(job, layout, height);
    let parts = parts(&standing);
    let (mut search, mut guess): (Option<Search>, f64) = (None, 100.0);
    let mut found = vec![(0.0, String::new()); 72];
    for from_deg in bearings_round(&standing, 72) {
        let windy = Windy::new(&standing, &air::route(job), blows_to(from_deg));
        let mut windy = windy.map_err(|error| format!("{height:?}: {error}"))?;
        let search = search.get_or_insert_with(|| Search::new(&parts, &mut windy));
        let tried = search.limit(&mut windy, guess);
        guess = if tried.gust_squared > 0.0 { tried.gust_squared } else { guess };
        found[(from_deg / 5.0).round() as usize] =
            (tried.gust_squared.sqrt(), parts[tried.part].part.id.clone());
    }
    Ok((found, search.map_or(0, |search| search.spent())))
}

fn main() -> ExitCode {
    let (jobs, first) = (option("--jobs", 500), option("--seed", 1));
    let yardstick = yardstick();
    let cost = |_: u32| looked(&yardstick).ms;
    let mut costs: Vec<f64> = (0..15).map(cost).collect();
    costs.sort_by(f64::total_cmp);
    let yardstick_ms = costs[costs.len() / 2];
    let counted = looked(&yardstick).yardsticks;
    println!("yardstick: {yardstick_ms:.1} ms of processor time, counted {counted:.2} of 53a387c's");
    if let Some(path) = word("--job") {
        let text = std::fs::read_to_string(&path).expect("a file");
        let here = looked(&read_job(&text).expect("a job"));
        println!("{path}: {:.1} ms, counted {:.2} yardsticks of 53a387c", here.ms, here.yardsticks);
        return ExitCode::SUCCESS;
    }
    let (mut wrong, mut none, mut ratios) = (0, 0, Vec::new());
    let (seeds, shown) = (seeds(jobs, first), option("--show", 3) as usize);
    let jobs = seeds.len();
    for (done, &seed) in seeds.iter().enumerate() {
        if done > 0 && done.is_multiple_of(10) {
            println!("{done} of {jobs} jobs done, {wrong} with something wrong");
        }
        let job = random_job(seed);
        let here = looked(&job);
        if let Some(why) = &here.no_structure {
            none += 1;
            println!("{seed}: no structure: {why}");
            continue;
        }
        ratios.push((here.yardsticks, seed));
        let mut bad: Vec<String> = Vec::new();
        let mut dice = random_jobs::Chance::new(seed ^ 0xABCD);
        for _ in 0..3 {
            let steps = dice.whole(1, 71) as usize;
            let turned = looked(&Move::Turn { by_deg: 5.0 * steps as f64 }.job(&job));
            for ((height, rose), (_, other)) in here.heights.iter().zip(&turned.heights) {
                for (index, (a, part)) in rose.iter().enumerate() {
                    let (b, other_part) = &other[(index + steps) % 72];
                    if (a - b).abs() > 2e-3 * a.max(*b) {
                        let (from, by) = (5 * index, 5 * steps);
                        bad.push(format!(
                            "{height:?} from {from}: {a:.3} ({part}) turned by {by}: {b:.3} ({other_part})"
                        ));
                    }
                }
            }
        }
        for (height, rose) in &here.heights {
            for (index, _) in rose.iter().enumerate().filter(|(_, (gust, _))| *gust <= 0.0).take(2) {
                let (height, from_deg) = (*height, 5.0 * index as f64);
                let table = |gust_m_per_s: f64| {
                    let question = WindQuestion { height, gust_m_per_s, from_deg: Some(from_deg) };
                    wind_table(&job, &here.layout, &question).expect("a structure")
                };
                let is_full = |table: &WindTable| {
                    let uses = table.parts.iter().filter_map(|part| part.utilisation);
                    table.falls_because.is_some() || uses.fold(0.0, f64::max) >= 0.999
                };
                // A little wind may relieve what still air fully uses.
                let (still, table) = (table(0.0), table(1.0));
                if !is_full(&table) && !is_full(&still) {
                    bad.push(format!("{height:?} from {from_deg}: 0, though it stands at 1 m/s"));
                }
                if table.falls_because == Some(Collapse::NotSettled) {
                    bad.push(format!("{height:?} from {from_deg}: not settled"));
                }
            }
        }
        if !bad.is_empty() {
            wrong += 1;
            println!("{seed}: {} wrong, such as", bad.len());
            bad.iter().take(shown).for_each(|it| println!("    {it}"));
        }
    }
    ratios.sort_by(|a, b| b.0.total_cmp(&a.0));
    println!("{jobs} jobs: {wrong} with something wrong, {none} without a structure");
    let dear = ratios.iter().filter(|(yardsticks, _)| *yardsticks > 10.0).count();
    println!("{dear} cost more than ten yardsticks of 53a387c, counted; the dearest:");
    for (yardsticks, seed) in ratios.iter().take(24) {
        println!("    {yardsticks:.2} job {seed}");
    }
    if wrong == 0 && none == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
