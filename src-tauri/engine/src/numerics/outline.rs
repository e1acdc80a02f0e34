//! Closed outlines in plan: their sides, and whether a point lies within.

use geo::{Area, Coord, LineString, Polygon};

/// Sides of a closed outline.
pub fn sides(outline: &[[f64; 2]]) -> impl Iterator<Item = ([f64; 2], [f64; 2])> + '_ {
    outline.iter().copied().zip(outline.iter().copied().cycle().skip(1))
}

/// Area of a simple outline, above zero where it runs anticlockwise.
pub fn signed_area(outline: &[[f64; 2]]) -> f64 {
    let ring: LineString<f64> = outline.iter().map(|p| Coord { x: p[0], y: p[1] }).collect();
    Polygon::new(ring, Vec::new()).signed_area()
}

/// Whether a point lies within a simple outline (even–odd rule); on the edge either answer is possible.
pub fn contains(outline: &[[f64; 2]], p: [f64; 2]) -> bool {
    sides(outline).fold(false, |inside, (a, b)| {
        let crosses =
            (a[1] > p[1]) != (b[1] > p[1]) && p[0] < (b[0] - a[0]) * (p[1] - a[1]) / (b[1] - a[1]) + a[0];
        inside != crosses
    })
}
