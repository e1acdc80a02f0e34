//! What a part can safely carry, with its factor and its source, or why nobody can say.

use serde::Serialize;

use super::condition::{Condition, GroundClass};
use super::unshown::{NumberUnshown, Unshown};
use crate::source::{Confidence, SourceKey};

/// What a part can safely carry, as far as it can be shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "verdict", rename_all = "snake_case")]
pub enum Resistance {
    Shown(ShownResistance),
    /// Not shown to hold: the numbers that the rule needs are unknown or outside what its publication covers.
    NotShown {
        reason: Unshown,
    },
}

/// A resistance with what it rests on.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
pub struct ShownResistance {
    /// At which the part is expected to give way or to hold no more, by the publication.
    pub ultimate_n: f64,
    /// By which the above is divided for daily use.
    pub factor: f64,
    /// The ground it was reckoned for; none for parts above the ground.
    pub soil: Option<GroundClass>,
    pub source: SourceKey,
    /// How sure the least sure number in it is.
    pub confidence: Confidence,
    /// What must hold for the number to be true.
    pub conditions: Vec<Condition>,
}

impl ShownResistance {
    /// What the part may carry in use.
    pub fn allowable_n(&self) -> f64 {
        self.ultimate_n / self.factor
    }
}

impl Resistance {
    /// A resistance above the ground or in it, with its source's own confidence.
    pub fn shown(ultimate_n: f64, factor: f64, source: SourceKey, condition: Condition) -> Self {
        if !(ultimate_n.is_finite() && ultimate_n >= 0.0 && factor.is_finite() && factor > 0.0) {
            return Self::not_shown(NumberUnshown::MissingNumber);
        }
        let confidence = source.source().confidence;
        Resistance::Shown(ShownResistance {
            ultimate_n,
            factor,
            soil: None,
            source,
            confidence,
            conditions: vec![condition],
        })
    }

    pub fn not_shown(reason: impl Into<Unshown>) -> Self {
        Resistance::NotShown { reason: reason.into() }
    }

    /// The same, said to be in this soil.
    pub fn in_soil(mut self, soil: GroundClass) -> Self {
        if let Resistance::Shown(shown) = &mut self {
            shown.soil = Some(soil);
        }
        self
    }

    /// The same, with one more condition.
    pub fn noting(mut self, more: Condition) -> Self {
        if let Resistance::Shown(shown) = &mut self {
            shown.conditions.push(more);
        }
        self
    }

    /// The same, marked from memory because one of its inputs is.
    pub fn from_memory(mut self) -> Self {
        if let Resistance::Shown(shown) = &mut self {
            shown.confidence = Confidence::FromMemory;
        }
        self
    }

    /// What the part may carry in use; none where that is not shown.
    pub fn allowable_n(&self) -> Option<f64> {
        match self {
            Resistance::Shown(shown) => Some(shown.allowable_n()),
            Resistance::NotShown { .. } => None,
        }
    }

    /// Load over what the part may carry: 1 is the limit. None where it is not shown to hold, which is never a pass.
    pub fn utilisation(&self, load_n: f64) -> Option<f64> {
        let allowable_n = self.allowable_n()?;
        if load_n <= 0.0 {
            return Some(0.0);
        }
        (allowable_n > 0.0).then(|| load_n / allowable_n)
    }

    /// The weaker of two parts that both must hold; one that is not shown makes the whole not shown.
    pub fn weaker(self, other: Self) -> Self {
        match (self.allowable_n(), other.allowable_n()) {
            (None, _) => self,
            (_, None) => other,
            (Some(a), Some(b)) if a <= b => self,
            _ => other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::resistance::GroundUnshown;

    #[test]
    fn what_is_not_shown_never_passes() {
        let unknown = Resistance::not_shown(GroundUnshown::SoilUnknown);
        assert_eq!(unknown.utilisation(0.0), None);
        let known = Resistance::shown(1000.0, 2.0, SourceKey::Geometry, Condition::NewRope);
        assert_eq!(known.utilisation(250.0), Some(0.5));
        assert_eq!(known.clone().weaker(unknown.clone()), unknown);
        assert_eq!(unknown.clone().weaker(known), unknown);
        assert!(
            Resistance::shown(f64::NAN, 2.0, SourceKey::Geometry, Condition::NewRope).allowable_n().is_none()
        );
        assert!(
            Resistance::shown(0.0, 2.0, SourceKey::Geometry, Condition::NewRope).utilisation(1.0).is_none()
        );
    }
}
