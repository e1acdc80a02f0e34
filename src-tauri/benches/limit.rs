//! How fast the gust limit of the yardstick is found. The goals are in docs/performance.md.

use divan::{Bencher, black_box};
use mastwright_engine::plan::compute;
use mastwright_engine::wind_capacity::{wind_capacity, wind_changes};

#[path = "../../tests/support/yardstick.rs"]
mod yardstick;
use yardstick::yardstick;

fn main() {
    divan::main();
}

/// 72 directions at two heights, one core. Goal: at most 50 ms.
#[divan::bench]
fn rose_of_the_yardstick(bencher: Bencher) {
    let job = yardstick();
    let plan = compute(&job).expect("the yardstick has a plan").plan;
    bencher.bench(|| wind_capacity(black_box(&job), &plan, &mut |_, _, _| true));
}

/// Everything that could be changed, one after the other.
#[divan::bench(sample_count = 20)]
fn changes_of_the_yardstick(bencher: Bencher) {
    let job = yardstick();
    let plan = compute(&job).expect("the yardstick has a plan").plan;
    bencher.bench(|| wind_changes(black_box(&job), &plan, &mut |_, _| true).expect("it stands"));
}
