//! What is known of the wind, and how much is left in hand.

use serde::{Deserialize, Serialize};

/// The wind and the margins to it. Every field has a default.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(deny_unknown_fields, default)]
pub struct Wind {
    /// What lies upwind; where in doubt the more open one.
    pub terrain: Terrain,
    /// How far houses or wood reach on every side, at least; none where nobody has said. They are counted only where
    /// they reach as far as the rule asks.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 100000)))]
    pub rough_for_m: Option<f64>,
    /// Which gust is held against the limit. From one told for open country, houses and wood take some; never from one
    /// that is already for this place.
    pub gust_told: GustTold,
    /// How a gust becomes pressure.
    pub route: WindRoute,
    /// Of the air: the colder, the heavier it presses.
    #[cfg_attr(feature = "typegen", schemars(range(min = -50, max = 50)))]
    pub temperature_c: f64,
    /// Thickness of ice all round tubes, ropes and strands.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 60)))]
    pub ice_mm: f64,
    /// The gust for which the table is asked, as a forecast tells it.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 80)))]
    pub asked_gust_m_per_s: f64,
    /// How far below the limit one acts, since gusts come stronger than forecast.
    #[cfg_attr(feature = "typegen", schemars(range(min = 0, max = 80)))]
    pub margin_percent: f64,
}

impl Default for Wind {
    fn default() -> Self {
        Self {
            terrain: Terrain::OpenCountry,
            rough_for_m: None,
            gust_told: GustTold::ForThisPlace,
            route: WindRoute::Forecast,
            // Freezing: 5 % heavier than the standard's 15 °C. Common practice, on the safe side of most days.
            temperature_c: 0.0,
            ice_mm: 0.0,
            // Gusts of force 5 inland, 9 m/s in the mean. Only a place to begin.
            asked_gust_m_per_s: 15.0,
            // Forecast gusts are off by a fifth or so, thunderstorms by more. Common practice, from memory.
            margin_percent: 25.0,
        }
    }
}

/// What lies upwind.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Terrain {
    /// Water, or ground as flat and bare as water.
    WaterOrBare,
    /// Meadows and fields with single trees and houses.
    #[default]
    OpenCountry,
    /// Suburb, village, wood.
    BuiltOrWooded,
}

/// What ground a gust was told for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum GustTold {
    /// By a forecast for this place or a station near it: for the ground as it is here.
    #[default]
    ForThisPlace,
    /// For open country, such as an airport.
    ForOpenCountry,
}

/// How a gust becomes pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum WindRoute {
    /// ½·ρ·v² of the forecast gust, brought to height by the terrain.
    #[default]
    Forecast,
    /// ASCE 7-16.
    Asce7_16,
    /// ASCE 7-22, whose numbers are from memory.
    Asce7_22,
    /// EN 1991-1-4.
    En1991_1_4,
}
