//! How much stronger a three-second gust is than the mean wind.

/// What the wind has blown over.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Upwind {
    /// Roughly open country and suburbs, away from the sea.
    InLand,
    /// At the coast, wind from the land.
    OffLand,
    /// At the coast, wind from the sea.
    OffSea,
    AtSea,
}

/// Over what time the mean is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mean {
    /// "Sustained" wind of hurricane advisories.
    OneMinute,
    /// Mean wind of United States weather stations.
    TwoMinutes,
    /// The World Meteorological Organization's mean: Beaufort numbers, most forecasts.
    TenMinutes,
}

/// Ratio of the strongest three seconds to the mean.
///
/// Written for tropical cyclones and used here for every strong wind; showers and thunderstorms can exceed it.
///
/// # References
/// WMO/TD-1555 (Harper, Kepert, Ginger 2010), Table 1.1, as carried by a weather office's public script.
pub fn gust_over_mean(upwind: Upwind, mean: Mean) -> f64 {
    match (upwind, mean) {
        (Upwind::InLand, Mean::OneMinute) => 1.49,
        (Upwind::InLand, Mean::TwoMinutes) => 1.55,
        (Upwind::InLand, Mean::TenMinutes) => 1.66,
        (Upwind::OffLand, Mean::OneMinute) => 1.36,
        (Upwind::OffLand, Mean::TwoMinutes) => 1.42,
        (Upwind::OffLand, Mean::TenMinutes) => 1.52,
        (Upwind::OffSea, Mean::OneMinute) => 1.23,
        (Upwind::OffSea, Mean::TwoMinutes) => 1.28,
        (Upwind::OffSea, Mean::TenMinutes) => 1.38,
        (Upwind::AtSea, Mean::OneMinute) => 1.11,
        (Upwind::AtSea, Mean::TwoMinutes) => 1.15,
        (Upwind::AtSea, Mean::TenMinutes) => 1.23,
    }
}

/// Ratio of the three-second gust to the mean over an hour in open country: Durst's curve (ASCE 7-95 fig. C6-1, as
/// read off in a trade newsletter).
pub const DURST_GUST_OVER_HOUR: f64 = 1.53;
