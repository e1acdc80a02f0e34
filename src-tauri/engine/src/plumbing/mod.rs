//! What to move so that a mast that leans stands plumb: ropes by how much, blocks under the base by how much.

mod geometry;
mod live;

pub use geometry::{PlumbFoot, PlumbGeometry, PlumbGuy, PlumbLeg};
pub use live::{PlumbLive, PlumbState, live, tone_hz};

use crate::finding::mast::{MastRemedy, MastRule, Plumb};
use crate::finding::{Finding, Limit, Quantity, Severity, Subject};
use crate::numerics::real::atan_deg;
use crate::source::SourceKey;
use crate::survey::plumb::Lean;

/// A guyed mast is plumb within 1 part in 400. ANSI/TIA-222 13.3.2 as quoted in a Planning Advisory Notice.
const PLUMB_RATIO: f64 = 1.0 / 400.0;

/// Up to this lean a guyed mast is plumb.
pub fn tolerance_deg() -> f64 {
    atan_deg(PLUMB_RATIO)
}

/// By how much a rope is taken in (positive) or let out.
#[derive(Debug, Clone, PartialEq)]
pub struct RopeMove {
    pub guy_id: String,
    pub name: String,
    pub take_in_m: f64,
    pub sigma_m: f64,
    /// In turns of its turnbuckle; none without one.
    pub turns: Option<f64>,
}

/// By how much the block or foot under a leg is made higher (positive) or lower.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockMove {
    pub leg_id: String,
    pub raise_m: f64,
    pub sigma_m: f64,
}

/// How the cross leg is swung along the slope, the frame turning about the mast.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LegSwing {
    /// Clockwise from above.
    pub turn_deg: f64,
    /// What the right tip goes along the ground by.
    pub tip_m: f64,
    pub sigma_m: f64,
}

/// A leg's foot as it is to be cut so that the mast stands plumb on it.
#[derive(Debug, Clone, PartialEq)]
pub struct PlumbedFoot {
    pub leg_id: String,
    pub centre_m: f64,
    pub inner_m: f64,
    pub outer_m: f64,
    pub left_m: f64,
    pub right_m: f64,
    pub sigma_m: f64,
}

/// How to plumb the mast.
#[derive(Debug, Clone, PartialEq)]
pub struct Plumbing {
    /// How far the top stands to the side.
    pub top_aside_m: f64,
    pub ropes: Vec<RopeMove>,
    /// While no rope is tight yet.
    pub blocks: Vec<BlockMove>,
    /// Of the legs that stand on a foot.
    pub feet: Vec<PlumbedFoot>,
    /// None where the ground is too level for that, or nobody has measured it.
    pub swing: Option<LegSwing>,
    pub verdict: Finding,
}

/// Two sigma either way, the habit of 95 %: a phone can show a lean, but seldom that there is none.
pub(crate) fn verdict(lean: &Lean) -> Finding {
    let limit_deg = tolerance_deg();
    let half = 2.0 * lean.sigma_deg;
    let (severity, shown, remedy) = if lean.lean_deg + half <= limit_deg {
        (Severity::Note, Plumb::Plumb, MastRemedy::Nothing)
    } else if lean.lean_deg - half > limit_deg {
        (Severity::Caution, Plumb::Leans, MastRemedy::MoveWhatIsNamed)
    } else {
        (Severity::Unchecked, Plumb::CannotTell, MastRemedy::HangAPlumbLine)
    };
    Finding {
        measured: Some(Quantity::AngleDeg { value: lean.lean_deg }),
        measured_half_width_95: Some(half),
        limit: Limit::at_most(Quantity::AngleDeg { value: limit_deg }),
        source: SourceKey::TiaGuys,
        ..Finding::rule_of_thumb(severity, MastRule::Plumb { shown }, Subject::Mast, remedy)
    }
}

#[cfg(test)]
mod tests;
