//! What north, a compass and a phone's zero error can be found fault with.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum NorthRule {
    CompassWeak,
    CompassUseless,
    DeclinationOutOfDate,
    /// Magnetic bearings, without what true north needs.
    TrueNorthUnknown {
        no_place: bool,
        no_date: bool,
    },
    /// The compass alone does not give a bearing as this yard counts them.
    BearingWithoutReference,
    SteelNearby {
        shows: SteelShows,
    },
    ZeroUnknown,
    ZeroOld,
    ZeroLarge,
    ZeroDrifted,
}

/// By what steel beside a compass shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SteelShows {
    /// A line read from both of its ends.
    AtOneEnd,
    /// The field is stronger or weaker than the Earth's.
    ByStrength,
    /// Repeated readings that do not agree.
    BySpread,
}

impl NorthRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::CompassWeak => "compass_weak",
            Self::CompassUseless => "compass_useless",
            Self::DeclinationOutOfDate => "declination_out_of_date",
            Self::TrueNorthUnknown { .. } => "true_north_unknown",
            Self::BearingWithoutReference => "bearing_without_reference",
            Self::SteelNearby { .. } => "steel_nearby",
            Self::ZeroUnknown => "zero_unknown",
            Self::ZeroOld => "zero_old",
            Self::ZeroLarge => "zero_large",
            Self::ZeroDrifted => "zero_drifted",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NorthRemedy {
    UseABaseline,
    CheckTheDate,
    EnterPlaceAndDate,
    /// Before a bearing can be taken by the compass.
    EnterPlaceAndDateFirst,
    /// The yard's bearings count from the line between these marks.
    SightAlong {
        from: String,
        to: String,
    },
    StandAwayFromSteel,
    MoveAwayAndReadAgain,
    SetTheCompass,
    MeasureTurnedAround,
    TurnEndForEnd,
    DoBothAgain,
    DoThePairOnceMore,
}
