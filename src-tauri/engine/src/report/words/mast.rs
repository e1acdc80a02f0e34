//! Tubes, and the standing mast.

use crate::finding::mast::{MastRemedy, MastRule, Plumb};
use crate::tube::TubeTable;

pub(super) fn sentence(rule: &MastRule) -> String {
    match rule {
        MastRule::DoesNotGoIn { tube } => {
            format!("The tube {tube} does not go into the tube below: it is too thick.")
        }
        MastRule::MayNotGoIn { tube } => {
            format!(
                "The tube {tube} may not go into the tube below: both may be off by their standards' tolerances."
            )
        }
        MastRule::OverlapShort { tube } => {
            format!("Too little of the tube {tube} stays inside the tube below.")
        }
        MastRule::FitLoose { tube } => {
            format!("The tube {tube} stands loose in the tube below and its top wanders.")
        }
        MastRule::FitTight { tube } => {
            format!("The tube {tube} may jam in the tube below: the gap is hardly more than paint and dents.")
        }
        MastRule::LeansByPlay { tube } => {
            format!("The play lets the tube {tube} lean noticeably in the tube below until the guys hold it.")
        }
        MastRule::Plumb { shown: Plumb::Plumb } => "The tube is plumb, as well as a phone can tell.".into(),
        MastRule::Plumb { shown: Plumb::Leans } => "The tube leans.".into(),
        MastRule::Plumb { shown: Plumb::CannotTell } => {
            "Whether the tube is plumb is finer than this phone can tell.".into()
        }
    }
}

pub(super) fn remedy(remedy: &MastRemedy) -> &'static str {
    match remedy {
        MastRemedy::ThinnerTube => "Choose a thinner tube, or a wider one below it.",
        MastRemedy::TryTheRealTubes => {
            "Try the two real tubes before you buy, or measure both with a calliper and enter that."
        }
        MastRemedy::MoreInside => {
            "Leave more of it inside: twice its outside diameter at the very least, more in wind."
        }
        MastRemedy::FillTheGap => "Fill the gap with a bushing at both ends of the overlap.",
        MastRemedy::TryOverWholeLength => {
            "Try the two real tubes in each other over their whole length before relying on it."
        }
        MastRemedy::MoreInsideOrFill => "Leave more of it inside, or fill the gap with a bushing.",
        MastRemedy::Nothing => "",
        MastRemedy::MoveWhatIsNamed => {
            "Move what is named here, a little at a time, and read the sides again."
        }
        MastRemedy::HangAPlumbLine => {
            "Hang a plumb line beside the tube and look along both from two sides, a quarter turn apart."
        }
    }
}

/// A listed size as the shop calls it: sizes of the same name stand in several tables.
pub(crate) fn tube_size(table: TubeTable, size: &str) -> String {
    let name = match table {
        TubeTable::Rmc => "RMC",
        TubeTable::Imc => "IMC",
        TubeTable::Emt => "EMT",
        TubeTable::Sch40 => "Sch. 40",
        TubeTable::En39 => "EN 39",
        TubeTable::En10255Medium => "EN 10255 medium",
    };
    format!("{name} {size}")
}
