//! Ropes and their ends.

use crate::resistance::RopeUnshown;

pub(super) fn unshown(reason: RopeUnshown) -> &'static str {
    match reason {
        RopeUnshown::BreakingStrengthUnknown => {
            "The rope's breaking strength is not known: it stands on the maker's label."
        }
        RopeUnshown::FactorTooSmall => {
            "The strength is divided by less than any rule allows: 5 for fibre rope, 2 for steel guys."
        }
        RopeUnshown::FibreUnnamed => {
            "What fibre the rope is of is not said. It stands on the label: polyester, nylon, polypropylene …"
        }
        RopeUnshown::ReefKnot => {
            "A reef knot, or a knot that joins two ropes, spills and slips: tie a figure-eight loop at an eye."
        }
        RopeUnshown::KnotInHmpe => {
            "Knots slip in this smooth, strong rope (HMPE) at a fifth of its strength: have its eyes spliced."
        }
        RopeUnshown::EndNotForMaterial => "This end is not made in rope of this material.",
        RopeUnshown::NoEndForAMast => "This is no end to hang a mast on.",
    }
}
