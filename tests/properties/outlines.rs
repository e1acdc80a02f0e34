//! Whether an outline crosses itself is the same as another library's answer, which goes its own way: `geo`'s validation by
//! the DE-9IM relate, of which the engine uses nothing.

use geo::{Area, Coord, LineString, Polygon, Validation};
use mastwright_engine::numerics::outline::{crossing, signed_area};
use proptest::prelude::*;

fn valid(corners: &[[f64; 2]]) -> bool {
    let ring: LineString<f64> = corners.iter().map(|p| Coord { x: p[0], y: p[1] }).collect();
    let outline = Polygon::new(ring, Vec::new());
    // To it a line there and back is valid, of no area.
    outline.is_valid() && outline.unsigned_area() > 0.0
}

fn ours(corners: &[[f64; 2]]) -> bool {
    crossing(corners).is_none() && signed_area(corners).abs() > 0.0
}

proptest! {
    /// On a coarse grid, so that corners lie on sides, sides on sides, and corners on corners.
    #[test]
    fn an_outline_is_refused_where_another_library_refuses_it(
        mut corners in prop::collection::vec((0_i32..5, 0_i32..5), 3..8)
    ) {
        corners.dedup();
        if corners.first() == corners.last() {
            corners.pop();
        }
        prop_assume!(corners.len() >= 3);
        let corners: Vec<[f64; 2]> =
            corners.into_iter().map(|(x, y)| [f64::from(x), f64::from(y)]).collect();
        prop_assert_eq!(ours(&corners), valid(&corners), "{:?}", corners);
    }
}

/// By hand: a square holds, a bow tie and a square with a spike do not.
#[test]
fn outlines_by_hand() {
    let square = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
    let bow_tie = [[0.0, 0.0], [4.0, 4.0], [4.0, 0.0], [0.0, 4.0]];
    let spiked = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [4.0, 6.0], [4.0, 4.0], [0.0, 4.0]];
    for (outline, is_so) in [(&square[..], true), (&bow_tie[..], false), (&spiked[..], false)] {
        assert_eq!((ours(outline), valid(outline)), (is_so, is_so), "{outline:?}");
    }
}
