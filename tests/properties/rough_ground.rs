//! A map of rough ground stays readable: its contours together are no longer than lines at the asked spacing would be.

use mastwright_engine::drawing::scene::{Geometry, Role};
use mastwright_engine::drawing::{MapOptions, staking_map};
use mastwright_engine::plan::compute;

use crate::rough::rough;

/// Source: the coarea formula (Federer, Geometric Measure Theory (1969), 3.2.11): the length of all contours at a step s
/// is the mean grade times the area over s.
#[test]
fn contours_of_rough_ground_keep_their_distance() {
    const TEXT_M: f64 = 0.5;
    let job = rough(300);
    let scene = staking_map(&job, &compute(&job).expect("it can be placed"), &MapOptions::lettering(TEXT_M));
    let contours = scene.shapes.iter().filter(|it| matches!(it.role, Role::Contour | Role::ContourIndex));
    let lines = contours.filter_map(|it| match &it.geometry {
        Geometry::Line { points } => Some(points),
        _ => None,
    });
    let length_m: f64 = lines
        .flat_map(|points| points.windows(2))
        .map(|pair| (pair[1][0] - pair[0][0]).hypot(pair[1][1] - pair[0][1]))
        .sum();
    // Drawn on 128 m by 128 m at the most; 3.6 letters apart is as near as contours may come.
    let most_m = 128.0 * 128.0 / (3.6 * TEXT_M);
    assert!(length_m > 100.0 && length_m < most_m, "{length_m} m of {most_m}");
    // Fewer shapes than things to tell: 300 heights with a sign and at most a label each, and what a yard has besides.
    assert!(scene.shapes.len() < 1500, "{}", scene.shapes.len());
}
