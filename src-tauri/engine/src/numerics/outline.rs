//! Closed outlines in plan: their sides, whether these cross, and whether a point lies within.

use geo::line_intersection::{LineIntersection, line_intersection};
use geo::{Area, Coord, Line, LineString, Polygon};

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

/// The first two sides that meet anywhere but at the corner they share. `geo` decides by exact predicates.
pub fn crossing(outline: &[[f64; 2]]) -> Option<(usize, usize)> {
    let count = outline.len();
    let coord = |i: usize| Coord { x: outline[i % count][0], y: outline[i % count][1] };
    let side = |i: usize| Line::new(coord(i), coord(i + 1));
    (0..count).flat_map(|i| (i + 1..count).map(move |j| (i, j))).find(|&(i, j)| {
        let neighbours = j == i + 1 || (i == 0 && j == count - 1);
        match line_intersection(side(i), side(j)) {
            None => false,
            Some(LineIntersection::SinglePoint { .. }) => !neighbours,
            Some(LineIntersection::Collinear { intersection }) => {
                !neighbours || intersection.start != intersection.end
            }
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand: a square, a bow tie, a square with a spike out of a corner and back on itself, one whose corner lies on a side.
    #[test]
    fn sides_that_meet_elsewhere_than_at_their_corner_cross() {
        let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
        assert_eq!(crossing(&square), None);
        assert_eq!(crossing(&[[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]]), Some((0, 2)));
        let spiked = [[0.0, 0.0], [4.0, 0.0], [4.0, 6.0], [4.0, 4.0], [0.0, 4.0]];
        assert_eq!(crossing(&spiked), Some((1, 2)));
        let touching = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [2.0, 0.0], [0.0, 4.0]];
        assert!(crossing(&touching).is_some());
    }
}
