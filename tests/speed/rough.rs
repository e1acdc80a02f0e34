//! How the plan and its map grow with rough spot heights. Nothing is asserted of the times:
//! `cargo test --release -p mastwright-tests --test speed rough -- --ignored --nocapture` prints them.

use std::hint::black_box;
use std::time::Instant;

use mastwright_engine::drawing::{MapOptions, staking_map};
use mastwright_engine::job::{Job, read_job};
use mastwright_engine::plan::compute;
use serde_json::{Value, json};

const YARDSTICK: &str = include_str!("../data/yardstick-53a387c.json");

/// The yardstick's yard with this many heights all over it, each up to half a metre off its neighbours.
fn rough(heights: u32) -> Job {
    let mut document: Value = serde_json::from_str(YARDSTICK).expect("it is JSON");
    let place = |i: u32, a: f64, width: f64| (f64::from(i) * a).fract() * width - width / 2.0;
    let spots: Vec<Value> = (1..=heights)
        .map(|i| {
            let at = json!({ "by": "coordinates",
                "east_m": place(i, 0.754_877_666_246_693, 40.0), "north_m": place(i, 0.569_840_290_998_053_3, 40.0) });
            json!({ "id": format!("spot-{i}"), "at": at, "height_m": place(i, 0.618_033_988_749_895, 1.0) })
        })
        .collect();
    document["yard"]["spot_heights"] = Value::Array(spots);
    read_job(&document.to_string()).unwrap_or_else(|errors| panic!("{}", errors.errors[0].sentence()))
}

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
