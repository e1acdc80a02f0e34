//! Tubes, their threads and pin holes.

use crate::resistance::{TubeCode, TubeUnshown};

pub(super) fn unshown(reason: TubeUnshown) -> String {
    match reason {
        TubeUnshown::TubeSizeMissing => "The tube's size or yield is missing.".into(),
        TubeUnshown::WallTooThin { code } => {
            let code = match code {
                TubeCode::En1993 => "EN 1993-1-1",
                TubeCode::Aisc360 => "AISC 360",
            };
            format!("The tube's wall is too thin for {code}: it would dent before it yields.")
        }
        TubeUnshown::ThreadUnknown => {
            "The thread of this tube is not known: only listed conduit and pipe have one.".into()
        }
        TubeUnshown::ThreadOfLargerTube => "This thread belongs to a larger tube.".into(),
        TubeUnshown::ThreadLeavesNoWall => {
            "The thread leaves hardly any wall: this tube can't be joined by it.".into()
        }
        TubeUnshown::PinHoleTooWide => {
            "The hole takes more than four tenths of the tube's width: no rule here covers that.".into()
        }
        TubeUnshown::PinHoleUnmeasured => "Nobody has entered how wide the pin's holes are.".into(),
        TubeUnshown::PinUnmeasured => "Nobody has entered how thick the pin is.".into(),
        TubeUnshown::CouplingUnmeasured => "Nobody has measured the coupling over its outside.".into(),
        TubeUnshown::CouplingTooThin => {
            "The coupling is no wider than the tube in it: measure it again.".into()
        }
        TubeUnshown::CollarUnmeasured => {
            "Nobody has entered what keeps the collar from sliding down, and how thick that is.".into()
        }
        TubeUnshown::CollarSqueezed => {
            "The collar only squeezes the tube: nothing shows what that holds.".into()
        }
    }
}
