//! The yardstick's yard on rough ground.

use mastwright_engine::job::{Job, read_job};
use serde_json::{Value, json};

const YARDSTICK: &str = include_str!("../data/yardstick-53a387c.json");

/// The yardstick's yard with this many heights all over it, each up to half a metre off its neighbours.
pub fn rough(heights: u32) -> Job {
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
