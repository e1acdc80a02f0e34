//! The pressure of the wind by the route that the user chose.

use super::{asce7, en1991, forecast};
use crate::source::SourceKey;

/// How a gust is turned into pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Route {
    Forecast(forecast::ForecastSite),
    Asce7(asce7::AsceSite),
    En1991(en1991::En1991Site),
}

impl Route {
    /// Pressure at a height for a three-second *gust* at 10 m in open country, the measure that all routes share.
    /// EN 1991-1-4 starts from a ten-minute mean: the one whose gusts reach it (terrain II).
    ///
    /// It grows with the square of the gust on every route, so that the load on a cone of strands, whose coefficient
    /// stays 1.2, need be reckoned for one gust only.
    ///
    /// # Units
    /// Height above the ground at the mast in metres; below it the pressure of the lowest height holds.
    pub fn pressure_pa(&self, gust_10m_m_per_s: f64, height_m: f64) -> f64 {
        match self {
            Route::Forecast(site) => site.pressure_pa(gust_10m_m_per_s, height_m),
            Route::Asce7(site) => site.design_pressure_pa(gust_10m_m_per_s, height_m),
            Route::En1991(site) => {
                site.peak_pressure_pa(en1991::basic_from_gust_m_per_s(gust_10m_m_per_s), height_m)
            }
        }
    }

    /// The speed of the air whose pressure this is, for the Reynolds number: √(2q/ρ) (EN 1991-1-4, fig. 7.28,
    /// note 2).
    pub fn gust_m_per_s(&self, gust_10m_m_per_s: f64, height_m: f64) -> f64 {
        (2.0 * self.pressure_pa(gust_10m_m_per_s, height_m) / self.density_kg_per_m3()).sqrt()
    }

    /// Density of the air that the route reckons with.
    pub fn density_kg_per_m3(&self) -> f64 {
        match self {
            Route::Forecast(site) => site.density_kg_per_m3,
            Route::Asce7(site) => super::density::SEA_LEVEL_KG_PER_M3 * asce7::ke(site.ground_elevation_m),
            Route::En1991(site) => site.density_kg_per_m3,
        }
    }

    /// Where the route comes from.
    pub fn source(&self) -> SourceKey {
        match self {
            Route::Asce7(asce7::AsceSite { edition: asce7::Edition::Asce7_22, .. }) => SourceKey::Asce7_22,
            Route::Forecast(_) | Route::Asce7(_) => SourceKey::Asce7_16,
            Route::En1991(_) => SourceKey::En1991_1_4,
        }
    }
}
