//! How long the surface takes from 100,000 spot heights, and a look-up in it. Nothing is asserted of the times:
//! `cargo test --release -p mastwright-tests --test speed ground -- --ignored --nocapture` prints them.

use std::hint::black_box;
use std::time::Instant;

use mastwright_engine::ground::{Ground, Plane, Surface, taut_tape_m};

/// A place of a low-discrepancy sequence over 200 m by 200 m. Source: M. Roberts, R2 sequence (2018).
fn place(i: u32) -> [f64; 2] {
    [0.754_877_666_246_693, 0.569_840_290_998_053_3].map(|a| (f64::from(i) * a).fract() * 200.0)
}

fn bent([x, y]: [f64; 2]) -> f64 {
    0.05 * x - 0.08 * y + 0.3 * (0.1 * x).sin() * (0.07 * y).cos()
}

#[test]
#[ignore = "prints times; run in release"]
fn a_hundred_thousand_spot_heights() {
    let points: Vec<_> = (1..=100_000).map(place).map(|[x, y]| [x, y, bent([x, y])]).collect();
    let grid: Vec<_> = (0..100_000).map(|i| [f64::from(i % 316), f64::from(i / 316), 0.0]).collect();
    for (name, points) in [("scattered", &points), ("regular grid", &grid)] {
        let start = Instant::now();
        let surface = Surface::new(points).unwrap();
        println!("{name}: {} triangles in {:?}", surface.triangles().len(), start.elapsed());
    }
    let surface = Surface::new(&points).unwrap();
    let asked: Vec<_> = (200_000..1_200_000).map(place).collect();
    let start = Instant::now();
    let found = asked.iter().filter(|&&at| black_box(surface.height(at)).is_some()).count();
    println!("look-up: {:?} each, {found} of {} inside", start.elapsed() / asked.len() as u32, asked.len());
    assert!(found > 990_000);
    let plane = Plane { height_0_m: 0.0, gradient: [0.0; 2], covariance: [[0.0; 3]; 3] };
    let ground = Ground { plane, surface: Some(surface) };
    let start = Instant::now();
    for i in 0..1000 {
        black_box(taut_tape_m(&ground, place(i), place(i + 5000)));
    }
    println!("taut tape across it: {:?} each", start.elapsed() / 1000);
}
