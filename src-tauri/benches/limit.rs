//! How fast the gust limit of the yardstick is found. The goals are in docs/performance.md.

use divan::{Bencher, black_box};
use mastwright_engine::plan::{compute, compute_on, survey};
use mastwright_engine::wind_capacity::{wind_changes, withstand};

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
    let layout = compute(&job).expect("the yardstick has a plan").layout;
    bencher.bench(|| withstand(black_box(&job), &layout, &mut |_, _, _| true));
}

/// Everything that could be changed, one after the other.
#[divan::bench(sample_count = 20)]
fn changes_of_the_yardstick(bencher: Bencher) {
    let job = yardstick();
    let surveyed = survey(&job.yard, job.units).expect("the yardstick's marks can be placed");
    let layout = compute_on(&surveyed, &job).expect("the yardstick has a plan").layout;
    bencher.bench(|| wind_changes(black_box(&job), &surveyed, &layout, &mut |_, _| true).expect("it stands"));
}
