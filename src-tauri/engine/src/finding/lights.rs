//! What is wrong with the lights' current, and what of it nobody has read off a label. Things by their names.

use serde::Serialize;

#[derive(Debug, Clone, PartialEq)]
pub enum LightsRule {
    /// Nothing is assumed of these: what hangs on them is not known.
    NotSaid {
        open: Vec<LightsQuestion>,
    },
    /// A point of the lead's way can't be found, or lies in two places.
    LeadNotFound,
    VoltsDiffer {
        plug_volts: f64,
        supply_volts: f64,
    },
    /// Less than what runs on it, the lights with a quarter more. `at_least` where nobody knows what else runs on it.
    BreakerTooSmall {
        needs_amps: f64,
        breaker_amps: f64,
        at_least: bool,
    },
    CordOverloaded {
        amps: f64,
        rated_amps: f64,
    },
    TooManyEndToEnd {
        plugged: u16,
        most: u16,
    },
    CordTooShort,
    /// It reaches or not, as the outlet's place may be off.
    CordBarelyReaches,
    NotForOutdoors {
        part: LightsPart,
    },
    NoResidualCurrentDevice,
    DropsTooMuch {
        percent: f64,
        most_percent: f64,
    },
    /// Somebody walks or drives over it there.
    CrossesWay {
        name: String,
        vehicles: bool,
    },
    /// The way as it was entered goes through a building or over ground to keep off.
    LeadThrough {
        name: String,
    },
    /// By their numbers.
    StayDark {
        strands: Vec<String>,
    },
}

/// What is bought.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LightsPart {
    Strands,
    Lead,
}

/// What is asked of the user.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LightsQuestion {
    StrandLoad,
    StrandVolts,
    EndToEnd,
    EndToEndPlugged,
    StrandsOutdoors,
    SupplyVolts,
    Breaker,
    OtherLoad,
    ResidualCurrentDevice,
    Outlet,
    OutletHeight,
    Feeds,
    CordLength,
    Conductor,
    CordRating,
    CordOutdoors,
    CordMass,
}

impl LightsRule {
    pub fn name(&self) -> &'static str {
        match self {
            Self::NotSaid { .. } => "lights_not_said",
            Self::LeadNotFound => "lights_lead_not_found",
            Self::VoltsDiffer { .. } => "lights_volts_differ",
            Self::BreakerTooSmall { .. } => "lights_breaker_too_small",
            Self::CordOverloaded { .. } => "lights_cord_overloaded",
            Self::TooManyEndToEnd { .. } => "lights_too_many_end_to_end",
            Self::CordTooShort => "lights_cord_too_short",
            Self::CordBarelyReaches => "lights_cord_barely_reaches",
            Self::NotForOutdoors { .. } => "lights_not_for_outdoors",
            Self::NoResidualCurrentDevice => "lights_no_residual_current_device",
            Self::DropsTooMuch { .. } => "lights_drops_too_much",
            Self::CrossesWay { .. } => "lights_crosses_way",
            Self::LeadThrough { .. } => "lights_lead_through",
            Self::StayDark { .. } => "lights_stay_dark",
        }
    }
}

#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum LightsRemedy {
    ReadTheLabels,
    SayWhereTheLeadLies,
    OtherTransformer,
    LessOnTheCircuit,
    ThickerCord,
    MorePlugs,
    LongerCord,
    MeasureTheWay,
    BuyForOutdoors,
    GuardTheCircuit,
    ThickerOrShorter,
    LeadOverTheWay,
    LeadUnderWheels,
    GoRound,
    MendOrLeaveOut,
}
