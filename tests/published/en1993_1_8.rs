//! EN 1993-1-8, Table 3.3, by a worked example for d₀ 22 mm: 26.4 mm from an end, 48.4 mm apart. What a pair of holes takes of a tube:
//! geometry, by quadrature (SciPy) of the same cut.

use mastwright_engine::workshop::stages::holes::{LEAST_EDGE, LEAST_PITCH, edge_mm, net};

#[test]
fn distances_of_a_hole_of_22_mm() {
    assert!((LEAST_EDGE * 22.0 - 26.4).abs() < 1e-9 && (LEAST_PITCH * 22.0 - 48.4).abs() < 1e-9);
    assert!(edge_mm(22.0) >= LEAST_EDGE * 22.0);
}

/// 2.375 × 0.154 in with 1/2 in and 3/8 in; 48.3 × 4.0 mm with 12 mm.
#[test]
fn what_a_pair_of_holes_leaves() {
    let check = |outside: f64, wall: f64, hole: f64, expect: [f64; 2], tolerance: f64| {
        let net = net(outside, wall, hole).expect("a small hole");
        assert!((net.area_mm2 - expect[0]).abs() < tolerance, "{net:?}");
        assert!((net.second_moment_worst_mm4 - expect[1]).abs() < tolerance, "{net:?}");
        net
    };
    let half = check(2.375, 0.154, 0.5, [0.9192, 0.4771], 6e-5);
    assert!((half.second_moment_best_mm4 - 0.6625).abs() < 6e-5, "{half:?}");
    let three_eighths = check(2.375, 0.154, 0.375, [0.9585, 0.5238], 6e-5);
    assert!((three_eighths.second_moment_best_mm4 - 0.6644).abs() < 6e-5, "{three_eighths:?}");
    let metric = check(48.3, 4.0, 12.0, [459.5, 91_031.0], 0.6);
    assert!((metric.second_moment_best_mm4 - 136_497.0).abs() < 1.0, "{metric:?}");
    assert!(net(48.3, 4.0, 20.0).is_none() && net(48.3, 4.0, 0.0).is_none());
}
