//! What to look at before a tube is paid for, each with the number that passes.

use super::joint::OVAL_SHARE;
use super::{Play, ShopCheck, ShopLook, TubeDiameters};
use crate::source::SourceKey;

/// A taut line along a tube may stand off by this share of its length: 0.002 L (EN 39, 7.4); of other tubes the habit.
const STRAIGHT_SHARE: f64 = 0.002;

/// The looks at two tubes, one of which slides in the other.
///
/// What stands inwards from one side (a dent, a weld's bead) or bends takes of the play; half of the least play is left to the other
/// tube. Where the play is not known, these hang on it and say so.
pub fn of(inner: &TubeDiameters, outer: &TubeDiameters, play: Option<Play>, length_m: f64) -> Vec<ShopCheck> {
    let half_mm = play.map(|play| (0.5 * play.worst.least_mm).max(0.0));
    let outside_mm = inner.outside_mm;
    let derived = |what, limit_mm| ShopCheck { what, limit_mm, source: SourceKey::Geometry };
    let habit = |what, limit_mm| ShopCheck { what, limit_mm, source: SourceKey::CommonPractice };
    let straight_mm = STRAIGHT_SHARE * length_m * 1000.0;
    vec![
        derived(ShopLook::LargestOutside, outer.bore.map(|bore| bore.least_mm)),
        derived(ShopLook::SmallestBore, inner.outside.map(|outside| outside.largest_mm)),
        habit(ShopLook::Ovality, Some(OVAL_SHARE * outside_mm)),
        // Deeper than a hundredth of the diameter it weakens the tube, whatever slides.
        habit(ShopLook::Dent, half_mm.map(|half_mm| half_mm.min(0.01 * outside_mm))),
        ShopCheck {
            what: ShopLook::Straightness,
            limit_mm: half_mm.map(|half_mm| half_mm.min(straight_mm)),
            source: SourceKey::En39,
        },
        derived(ShopLook::WeldSeam, half_mm),
        habit(ShopLook::Thread, Some(0.0)),
    ]
}
