//! What a part carries: why that is not shown, and what must hold for its number.

mod conditions;
mod ground;
mod mast;
mod rope;
mod timber;
mod tube;

pub(crate) use conditions::conditions;

use crate::quantity::UnitSystem;
use crate::resistance::{NumberUnshown, Unshown};

/// Why a part is not shown to hold, for a neighbour.
pub(crate) fn unshown(reason: Unshown, system: UnitSystem) -> String {
    match reason {
        Unshown::Number(NumberUnshown::MissingNumber) => {
            "One of the numbers is missing or makes no sense.".into()
        }
        Unshown::Tube(reason) => tube::unshown(reason),
        Unshown::Rope(reason) => rope::unshown(reason).into(),
        Unshown::Timber(reason) => timber::unshown(reason).into(),
        Unshown::Ground(reason) => ground::unshown(reason, system),
        Unshown::Mast(reason) => mast::unshown(reason).into(),
    }
}
