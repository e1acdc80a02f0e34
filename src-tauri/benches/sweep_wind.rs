//! `cargo xtask sweep-wind`: the gust limits of many random jobs, each turned with everything in it by multiples of 5°
//! and compared direction by direction.

// It is not mirrored here.
#[allow(dead_code)]
#[path = "../../tests/support/moved.rs"]
mod moved;
#[path = "../../tests/support/random_jobs.rs"]
mod random_jobs;

use std::process::ExitCode;

use mastwright_engine::job::{Job, read_job};
use mastwright_engine::limit::{GustLimit, GustRose, WindQuestion, gust_limit, wind_table};
use mastwright_engine::plan::{Plan, compute};

use moved::Move;
use random_jobs::random_job;

const YARDSTICK: &str = include_str!("../../tests/data/yardstick-53a387c.json");

fn word(name: &str) -> Option<String> {
    let given: Vec<String> = std::env::args().collect();
    let at = given.iter().position(|argument| argument == name)?;
    given.get(at + 1).cloned()
}

fn option(name: &str, otherwise: u64) -> u64 {
    word(name).and_then(|word| word.parse().ok()).unwrap_or(otherwise)
}

/// Processor time of this thread.
fn cpu_ns() -> u64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    told.split(' ').next().and_then(|word| word.parse().ok()).unwrap_or(0)
}

struct Looked {
    limit: GustLimit,
    plan: Plan,
    ms: f64,
}

fn looked(job: &Job) -> Looked {
    let plan = compute(job).expect("a place for the mast").plan;
    let before = cpu_ns();
    let limit = gust_limit(job, &plan, &mut |_, _, _| true);
    Looked { limit, plan, ms: (cpu_ns() - before) as f64 * 1e-6 }
}

fn roses(looked: &Looked) -> [&GustRose; 2] {
    [&looked.limit.raised, &looked.limit.lowered]
}

fn main() -> ExitCode {
    let (jobs, first) = (option("--jobs", 500), option("--seed", 1));
    let yardstick = read_job(YARDSTICK).expect("the yardstick is a job");
    let cost = |_: u32| looked(&yardstick).ms;
    let mut costs: Vec<f64> = (0..15).map(cost).collect();
    costs.sort_by(f64::total_cmp);
    let yardstick_ms = costs[costs.len() / 2];
    println!("yardstick: {yardstick_ms:.1} ms of processor time");
    if let Some(path) = word("--job") {
        let text = std::fs::read_to_string(&path).expect("a file");
        let here = looked(&read_job(&text).expect("a job"));
        println!("{path}: {:.1} ms, {:.1} yardsticks", here.ms, here.ms / yardstick_ms);
        return ExitCode::SUCCESS;
    }
    let (mut wrong, mut none, mut ratios) = (0, 0, Vec::new());
    for seed in first..first + jobs {
        let job = random_job(seed);
        let here = looked(&job);
        if here.limit.raised.directions.is_empty() || here.limit.lowered.directions.is_empty() {
            none += 1;
            println!("{seed}: no structure: {:?}", here.limit.findings.first().map(|it| &it.rule));
            continue;
        }
        ratios.push((here.ms / yardstick_ms, seed));
        let mut bad: Vec<String> = Vec::new();
        let mut dice = random_jobs::Chance::new(seed ^ 0xABCD);
        for _ in 0..3 {
            let steps = dice.whole(1, 71);
            let turned = looked(&Move::Turn { by_deg: 5.0 * f64::from(steps) }.job(&job));
            for (rose, other) in roses(&here).into_iter().zip(roses(&turned)) {
                for (index, direction) in rose.directions.iter().enumerate() {
                    let seen = &other.directions[(index + steps as usize) % 72];
                    let (a, b) = (direction.gust_m_per_s, seen.gust_m_per_s);
                    if !((a - b).abs() <= 2e-3 * a.max(b)) {
                        let part = |it: &mastwright_engine::limit::DirectionLimit| {
                            it.weakest.as_ref().map_or("nothing".to_owned(), |part| part.id.clone())
                        };
                        bad.push(format!(
                            "{:?} from {}: {a:.3} ({}) turned by {}: {b:.3} ({})",
                            rose.height,
                            direction.from_deg,
                            part(direction),
                            5 * steps,
                            part(seen)
                        ));
                    }
                }
            }
        }
        for rose in roses(&here) {
            for direction in rose.directions.iter().filter(|it| it.gust_m_per_s <= 0.0).take(2) {
                let question = WindQuestion {
                    height: rose.height,
                    gust_m_per_s: 1.0,
                    from_deg: Some(direction.from_deg),
                };
                let table = wind_table(&job, &here.plan, &question).expect("a structure");
                let most = table.parts.iter().filter_map(|part| part.utilisation).fold(0.0, f64::max);
                if table.falls_because.is_none() && most < 0.999 {
                    bad.push(format!(
                        "{:?} from {}: 0, though it stands at 1 m/s",
                        rose.height, direction.from_deg
                    ));
                }
                if table.falls_because.as_deref().is_some_and(|why| why.starts_with("No position was")) {
                    bad.push(format!("{:?} from {}: not settled", rose.height, direction.from_deg));
                }
            }
        }
        if !bad.is_empty() {
            wrong += 1;
            println!("{seed}: {} wrong, such as", bad.len());
            bad.iter().take(3).for_each(|it| println!("    {it}"));
        }
    }
    ratios.sort_by(|a, b| b.0.total_cmp(&a.0));
    println!("{jobs} jobs: {wrong} with something wrong, {none} without a structure");
    println!("dearest, in yardsticks: {:?}", &ratios[..ratios.len().min(12)]);
    if wrong == 0 { ExitCode::SUCCESS } else { ExitCode::FAILURE }
}
