//! The mast as a whole.

use crate::resistance::MastUnshown;

pub(super) fn unshown(reason: MastUnshown) -> &'static str {
    match reason {
        MastUnshown::StrandThicknessUnknown => {
            "How thick a strand is, is not known, and so not how hard the wind pulls at the mast."
        }
        MastUnshown::StrandMassUnknown => {
            "What a strand weighs is not known, and so not what hangs on the mast."
        }
        MastUnshown::RunDownUnsaid => {
            "How guys are made fast when the mast is run down is not said, and so not what holds it then."
        }
        MastUnshown::FootHoldsTurning => {
            "No rule here covers how timber joints hold a turning moment: the mast leans on it unshown."
        }
        MastUnshown::StrandsAsGuys => {
            "The strands count as side guys, but nobody shows what their wires and hooks hold."
        }
    }
}
