//! How long the yardstick's drawings take. Nothing is asserted of the times:
//! `cargo test --release -p mastwright-tests --test speed drawing -- --ignored --nocapture` prints them.

use std::hint::black_box;
use std::time::Instant;

use mastwright_engine::drawing::sheet::Wanted;
use mastwright_engine::drawing::{MapOptions, Paper, leg_profile, sheets, staking_map};
use mastwright_engine::plan::compute;
use mastwright_engine::report::report;

const RUNS: u32 = 500;

fn time(name: &str, mut run: impl FnMut()) {
    let start = Instant::now();
    (0..RUNS).for_each(|_| run());
    println!("{name}: {:?} each", start.elapsed() / RUNS);
}

#[test]
#[ignore = "prints times; run in release"]
fn drawings_of_the_yardstick() {
    let job = crate::yardstick::yardstick();
    let computed = compute(&job).expect("the yardstick can be placed");
    let options = MapOptions::lettering(0.5);
    let scene = staking_map(&job, &computed, &options);
    assert!(!scene.shapes.is_empty());
    println!("the map has {} shapes", scene.shapes.len());
    time("staking map as a scene", || drop(black_box(staking_map(&job, &computed, &options))));
    time("profile as a scene", || drop(black_box(leg_profile(&job, &computed))));
    time("report", || drop(black_box(report(&job, &computed))));
    let wanted = Wanted::on(Paper::A4);
    time("sheets laid out", || drop(black_box(sheets(&job, &computed, &wanted))));
    time("sheets as SVG", || drop(black_box(sheets(&job, &computed, &wanted).svg())));
}
