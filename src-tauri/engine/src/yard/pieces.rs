//! Short pieces of a wall or hedge, each as high as its highest ground lets it be.

use super::flat::{P2, along, distance, rectangle};
use crate::ground::Ground;
use crate::ground::highest::range_within;

/// A barrier's top follows the ground in steps of this length.
const STEP_M: f64 = 2.0;

/// A straight piece between two points, half its thickness to either side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WallPiece {
    pub a: P2,
    pub b: P2,
    pub half_m: f64,
}

/// The pieces of a straight wall, in order.
pub(crate) fn wall_pieces(a: P2, b: P2, half_m: f64) -> impl Iterator<Item = WallPiece> {
    let count = (distance(a, b) / STEP_M).ceil().clamp(1.0, 1000.0) as u32;
    let at = move |i: u32| along(a, b, f64::from(i) / f64::from(count));
    (0..count).map(move |i| WallPiece { a: at(i), b: at(i + 1), half_m })
}

impl WallPiece {
    /// The highest ground that it stands on, the half thickness beyond its ends included.
    pub fn ground_z(&self, ground: &Ground) -> f64 {
        let here = ground.height(self.a).max(ground.height(self.b));
        let Some(on) = self.footprint() else { return here };
        range_within(ground, &on).map_or(here, |range| range.highest_m.max(here))
    }

    /// None where it has no length.
    fn footprint(&self) -> Option<Vec<P2>> {
        let length_m = distance(self.a, self.b);
        let beyond = self.half_m / length_m;
        let (a, b) = (along(self.a, self.b, -beyond), along(self.a, self.b, 1.0 + beyond));
        (length_m > 0.0).then(|| rectangle(a, b, self.half_m)).flatten()
    }
}
