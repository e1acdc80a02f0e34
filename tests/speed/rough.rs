//! How the plan and its map grow with rough spot heights. Nothing is asserted of the times:
//! `cargo test --release -p mastwright-tests --test speed rough -- --ignored --nocapture` prints them.

use std::hint::black_box;
use std::time::Instant;

use crate::rough_yard::rough;
use mastwright_engine::drawing::{MapOptions, staking_map};
use mastwright_engine::plan::compute;

#[test]
#[ignore = "prints times; run in release"]
fn rough_ground() {
    for heights in [125, 250, 500, 1000, 2000, 4000, 8000] {
        let job = rough(heights);
        let start = Instant::now();
        let computed = compute(&job).expect("it can be placed");
        let planned = start.elapsed();
        let start = Instant::now();
        let scene = black_box(staking_map(&job, &computed, &MapOptions::lettering(0.5)));
        let (drawn, shapes) = (start.elapsed(), scene.shapes.len());
        println!("{heights} heights: plan {planned:?}, map {drawn:?} of {shapes} shapes");
    }
}
