//! What is hidden by any of many things.

use super::camera::{P3, length, sub};
use super::shadow::{Cone, SLIVER_M, Shadow};

/// All that hides something from the eyes.
pub(super) struct Hiders {
    pub(super) eye: P3,
    /// Each with the body that throws it; none for the ground.
    pub(super) shadows: Vec<(Option<usize>, Shadow)>,
}

impl Hiders {
    /// Those that may hide what lies between these points, but for a body's own.
    fn of<'a>(&'a self, points: &[P3], own: Option<usize>) -> impl Iterator<Item = &'a Shadow> + 'a {
        let cone = Cone::around(self.eye, points);
        self.shadows.iter().filter_map(move |(body, shadow)| {
            let may = (own.is_none() || *body != own) && !shadow.cone().is_apart_from(&cone);
            may.then_some(shadow)
        })
    }

    /// The parts of a line that nothing hides, as shares from its first end, in order.
    pub(super) fn shown_along(&self, a: P3, b: P3, own: Option<usize>) -> Vec<[f64; 2]> {
        let mut hidden: Vec<[f64; 2]> =
            self.of(&[a, b], own).filter_map(|shadow| shadow.along(a, b)).collect();
        hidden.sort_by(|one, other| one[0].total_cmp(&other[0]));
        let least = SLIVER_M / length(sub(b, a)).max(SLIVER_M);
        let (mut shown, mut from) = (Vec::new(), 0.0);
        for [begin, end] in hidden {
            if begin > from + least {
                shown.push([from, begin]);
            }
            from = end.max(from);
        }
        if from < 1.0 - least {
            shown.push([from, 1.0]);
        }
        shown
    }

    /// The parts of a flat convex area that nothing hides.
    pub(super) fn shown_of(&self, area: Vec<P3>, own: Option<usize>) -> Vec<Vec<P3>> {
        let hiders: Vec<&Shadow> = self.of(&area, own).collect();
        hiders.into_iter().fold(vec![area], |shown, shadow| {
            shown.into_iter().flat_map(|piece| shadow.taken_from(piece)).collect()
        })
    }
}
