//! Network adjustment of distances against a textbook trilateration.
//!
//! Source: Ghilani, C. D., *Adjustment Computations: Spatial Data Analysis*, ch. 14, the example of three
//! observed distances to one unknown station (14.1 or 14.2 by edition). The inputs were read in the book's own
//! companion sheet; its printed results were not to be had, so the expected values come from an independent
//! unweighted least-squares solver (SciPy `least_squares`, four starting points agree).
//!
//! Units are feet throughout; the adjustment knows no unit. Tolerance 0.001 ft, as the inputs carry 0.01 ft.

use mastwright_engine::survey::adjustment::{Component, NetworkPoint, Observation, adjust};

fn check(computed: f64, expected: f64, tolerance: f64) {
    assert!((computed - expected).abs() < tolerance, "{computed} is not {expected}");
}

#[test]
fn one_station_from_three_distances() {
    let control = [[865.40, 4527.15], [2432.55, 2047.25], [2865.22, 27.15]];
    let observed = [6049.00, 4736.83, 5446.49];
    let mut points: Vec<NetworkPoint> = control.iter().map(|&at| NetworkPoint { at, fixed: true }).collect();
    points.push(NetworkPoint { at: [6500.0, 3500.0], fixed: false });
    let observations: Vec<Observation> = observed
        .iter()
        .enumerate()
        .map(|(from, &distance_m)| Observation::Distance {
            from,
            to: 3,
            distance_m,
            gradient: [0.0, 0.0],
            sigma_m: 1.0, // unit weights
        })
        .collect();
    let adjusted = adjust(&points, &observations).unwrap();

    check(adjusted.points[3][0], 6861.3168, 0.001);
    check(adjusted.points[3][1], 3727.8186, 0.001);
    // The source has computed minus observed, ours is observed minus computed.
    for (residual, expected) in adjusted.residuals.iter().zip([-0.0374, 0.0768, -0.0474]) {
        assert_eq!(residual.component, Component::DistanceM);
        check(-residual.value, expected, 0.001);
    }
    let factor = adjusted.variance_factor.unwrap();
    check(factor.sqrt(), 0.0977, 0.0001);
    assert_eq!(adjusted.degrees_of_freedom, 1);
    let block = adjusted.block(3);
    check((factor * block[0][0]).sqrt(), 0.0775, 0.0002);
    check((factor * block[1][1]).sqrt(), 0.1542, 0.0002);
}
