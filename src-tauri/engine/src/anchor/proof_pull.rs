//! The proof pull: what anybody can do where the soil is not known.

use serde::{Deserialize, Serialize};

use crate::quantity::UnitSystem;
use crate::resistance::{Condition, Resistance};
use crate::round_figures::rule;
use crate::source::SourceKey;

/// The pull over the greatest load expected: 1.5 (77 Ill. Adm. Code 870.200 (b) on tie-down anchors of homes, and
/// Caltrans 46-2.01D on ground anchors).
pub const PROOF_FACTOR: f64 = 1.5;
/// How long the pull is held (Caltrans 46-2.01D).
pub const HOLD_MINUTES: f64 = 10.0;

/// A proof pull of one anchor; what to do with these numbers stands in `report::words::cautions`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ProofPull {
    pub load_n: f64,
    pub hold_minutes: f64,
    pub creep_limit_mm: f64,
    pub source: SourceKey,
}

/// The proof pull for an anchor whose guy pulls at most this hard at the gust that the mast stays up in.
pub fn proof_pull(greatest_tension_n: f64, system: UnitSystem) -> ProofPull {
    ProofPull {
        load_n: PROOF_FACTOR * greatest_tension_n,
        hold_minutes: HOLD_MINUTES,
        creep_limit_mm: rule::CREEP.of(system),
        source: SourceKey::IllinoisTies,
    }
}

/// What an anchor is shown to hold by a pull that it withstood.
pub fn proved(held_n: f64) -> Resistance {
    Resistance::shown(held_n, PROOF_FACTOR, SourceKey::IllinoisTies, Condition::ProvedAsItWas)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_asked_for_is_what_is_proved() {
        let pull = proof_pull(800.0, UnitSystem::Metric);
        assert_eq!(pull.load_n, 1200.0);
        assert_eq!(proved(pull.load_n).utilisation(800.0), Some(1.0));
    }
}
