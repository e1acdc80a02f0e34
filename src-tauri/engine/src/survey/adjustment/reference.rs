//! The sparse way against the dense orthogonal one, and what both cost.

use super::*;
use crate::numerics::random::Random;

/// A long yard of points in rows of ten, each joined to the next, the one below and a diagonal: about three
/// readings a point, a few of them bearings, numbered as though by chance.
fn grid(count: usize) -> (Vec<NetworkPoint>, Vec<Observation>) {
    let mut chance = Random::seeded(7);
    let mut shuffled: Vec<usize> = (1..count).collect();
    for i in (1..shuffled.len()).rev() {
        shuffled.swap(i, (chance.even() * (i + 1) as f64) as usize);
    }
    let number: Vec<usize> = std::iter::once(0).chain(shuffled).collect();
    let truth = |k: usize| [8.0 * (k % 10) as f64 + (k % 3) as f64, 8.0 * (k / 10) as f64 + (k % 4) as f64];
    let mut points = vec![NetworkPoint { at: [0.0; 2], fixed: true }; count];
    for k in 1..count {
        let [x, y] = truth(k);
        points[number[k]] =
            NetworkPoint { at: [x + chance.even() - 0.5, y + chance.even() - 0.5], fixed: false };
    }
    points[0].at = truth(0);
    let mut observations = vec![];
    let gradient = [0.1, -0.05];
    for k in 0..count {
        let right = (k % 10 < 9).then_some(k + 1);
        for other in [right, Some(k + 10), right.map(|r| r + 10)].into_iter().flatten().filter(|&o| o < count)
        {
            let (a, b) = (truth(k), truth(other));
            let d = [b[0] - a[0], b[1] - a[1]];
            let rise = gradient[0] * d[0] + gradient[1] * d[1];
            let (from, to, sigma_m) = (number[k], number[other], 0.01);
            let distance_m = hypot(hypot(d[0], d[1]), rise) + 0.02 * (chance.even() - 0.5);
            observations.push(Observation::Distance { from, to, distance_m, gradient, sigma_m });
            if observations.len() % 7 == 1 {
                let bearing_deg = bearing::of_vector(d[0], d[1]) + chance.even() - 0.5;
                observations.push(Observation::Bearing { from, to, bearing_deg, sigma_deg: 1.0 });
            }
        }
    }
    (points, observations)
}

/// Every number of the adjustment by the dense way, at the place where the sparse one settled.
fn hold_against_dense(points: &[NetworkPoint], observations: &[Observation]) {
    let unknowns = Unknowns::of(points);
    let sparse = adjust(points, observations).unwrap();
    let mut at: Vec<[f64; 2]> = points.iter().map(|point| point.at).collect();
    let mut rows = linearise(&at, observations).unwrap();
    for _ in 0..12 {
        let step = normal::dense(&rows, &unknowns).unwrap();
        rows = step_down(&mut at, &rows, &step, &unknowns, observations).unwrap().1;
    }
    let step = normal::dense(&rows, &unknowns).unwrap();
    let dense = result(at, &rows, step, &unknowns, Precision::Joint, 0);
    for (ours, theirs) in sparse.points.iter().zip(&dense.points) {
        assert!(hypot(ours[0] - theirs[0], ours[1] - theirs[1]) < 1e-9, "{ours:?} {theirs:?}");
    }
    let (ours, theirs) = (sparse.joint.as_ref().unwrap(), dense.joint.as_ref().unwrap());
    assert!((ours - theirs).amax() < 1e-9 * theirs.amax().max(1.0), "{}", (ours - theirs).amax());
    assert!((&sparse.by_gradient - &dense.by_gradient).amax() < 1e-9 * dense.by_gradient.amax().max(1.0));
    for (ours, theirs) in sparse.residuals.iter().zip(&dense.residuals) {
        assert!(
            (ours.value - theirs.value).abs() < 1e-9 && (ours.redundancy - theirs.redundancy).abs() < 1e-9
        );
        assert!((ours.standardised - theirs.standardised).abs() < 1e-6, "{ours:?} {theirs:?}");
    }
    // The blocks alone are the same blocks, and the same redundancies.
    let large = adjust_large(points, observations).unwrap();
    assert!(large.joint.is_none());
    for (ours, theirs) in
        large.blocks.iter().flatten().flatten().zip(sparse.blocks.iter().flatten().flatten())
    {
        assert!((ours - theirs).abs() < 1e-9);
    }
    for (ours, theirs) in large.residuals.iter().zip(&sparse.residuals) {
        assert!((ours.redundancy - theirs.redundancy).abs() < 1e-9);
    }
}

#[test]
fn the_sparse_way_is_the_dense_way() {
    for count in [20, 50, 90] {
        let (points, observations) = grid(count);
        hold_against_dense(&points, &observations);
    }
}

#[test]
fn a_baseline_a_thousand_times_surer_than_the_rest_keeps_its_digits() {
    let (points, mut observations) = grid(40);
    let Observation::Bearing { from, to, bearing_deg, .. } = observations[1] else { panic!("a bearing") };
    observations.push(Observation::Bearing { from, to, bearing_deg, sigma_deg: 1e-3 });
    observations.push(Observation::Coordinates { point: 20, at: points[20].at, sigma_m: 0.25 });
    hold_against_dense(&points, &observations);
}

/// Run with `cargo test --release -p mastwright-engine growth -- --ignored --nocapture`.
#[test]
#[ignore = "a measurement, for a release build"]
fn growth_to_two_thousand_points() {
    for count in [50, 100, 200, 500, 1000, 2000] {
        let (points, observations) = grid(count);
        let least = |run: &dyn Fn()| {
            let time = || {
                let start = std::time::Instant::now();
                run();
                start.elapsed().as_secs_f64() * 1e3
            };
            (0..7).map(|_| time()).fold(f64::INFINITY, f64::min)
        };
        let blocks = least(&|| drop(adjust_large(&points, &observations).unwrap()));
        let joint = (count <= 1000).then(|| least(&|| drop(adjust(&points, &observations).unwrap())));
        println!(
            "{count} points, {} readings: blocks {blocks:.2} ms, joint {joint:?} ms",
            observations.len()
        );
    }
}
