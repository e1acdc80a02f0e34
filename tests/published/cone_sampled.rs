//! The cone of strands against a program of its own: how near it comes to things by dense sampling in space.
//! Fixture and versions: `scripts/cone_sampled.py`, `data/cone_sampled.json`.

use mastwright_engine::numerics::certified::WITHIN_M;
use mastwright_engine::strands::RingResult;
use mastwright_engine::yard::cone::StrandCone;
use serde_json::Value;

use crate::raising_shapely::{number, point, solid};

fn ring(cone: &Value) -> RingResult {
    let ends =
        |name: &str| -> Vec<[f64; 3]> { cone[name].as_array().expect("points").iter().map(point).collect() };
    RingResult {
        radius_m: number(&cone["radius_m"]),
        points: ends("points"),
        top_radius_m: number(&cone["top_radius_m"]),
        tops: ends("tops"),
        strand_lengths_m: Vec::new(),
    }
}

/// Sampling never finds less than there is; the engine never says more. Both know it to a few millimetres. Most of the cases are
/// ones that strands alone would have passed by.
#[test]
fn the_cone_is_as_near_as_sampling_finds() {
    const SAMPLED_M: f64 = 4e-3;
    let cases: Value =
        serde_json::from_str(include_str!("data/cone_sampled.json")).expect("the fixture reads");
    let (mut touching, mut between, mut full) = (0, 0, 0);
    for (number_of, case) in cases.as_array().expect("cases").iter().enumerate() {
        let cone = &case["cone"];
        let (ring, sweep_deg) = (ring(cone), number(&cone["sweep_deg"]));
        let surface = StrandCone::of(&ring, point(&cone["middle"]), sweep_deg).expect("two strands or more");
        // Where a strand hangs the surface is the strand.
        for (i, (top, end)) in (0..).zip(ring.tops.iter().zip(&ring.points)) {
            let found = surface.strand(f64::from(i));
            let off = |a: &[f64; 3], b: &[f64; 3]| (0..3).map(|k| (a[k] - b[k]).abs()).fold(0.0, f64::max);
            assert!(off(&found[0], top) < 1e-9 && off(&found[1], end) < 1e-9, "{number_of} {i}");
        }
        let solid = solid(&case["solid"]);
        let bounds = solid.bounds();
        let found_m = surface.near(&[(solid, bounds)], f64::INFINITY).expect("there is a thing").distance_m;
        let least_m = number(&case["least_m"]);
        assert!(
            found_m <= least_m + 1e-4 && found_m >= least_m - SAMPLED_M - WITHIN_M,
            "{number_of}: {found_m} {least_m}\n{case:#}"
        );
        touching += u32::from(found_m <= 0.0);
        between += u32::from(least_m < number(&case["on_strands_m"]) - 0.05);
        full += u32::from(sweep_deg >= 360.0);
    }
    assert!(touching > 10 && between > 20 && full > 20, "{touching} {between} {full}");
}
