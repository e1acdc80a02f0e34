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

#[cfg(test)]
mod tests {
    use super::*;

    /// ASCE 7-16, Table 26.9-1, note 2: 1000 m up the air has e^(−0.0000362·3280.84) = 0.88802 of the density at sea level,
    /// 1.225 kg/m³: 1.08782. The other routes reckon with the density that they are given.
    #[test]
    fn the_air_of_each_route_by_hand() {
        let asce = |ground_elevation_m: f64| {
            Route::Asce7(asce7::AsceSite {
                edition: asce7::Edition::Asce7_16,
                exposure: asce7::Exposure::C,
                topographic: 1.0,
                directionality: 1.0,
                ground_elevation_m,
            })
        };
        assert!((asce(1000.0).density_kg_per_m3() - 1.087_82).abs() < 2e-5);
        assert!((asce(0.0).density_kg_per_m3() - 1.225).abs() < 1e-9);
    }

    /// The air whose pressure it is, stopped, presses by ½·ρ·v², on every route and at every height.
    #[test]
    fn the_speed_is_that_of_the_pressure() {
        let forecast = forecast::ForecastSite {
            exposure: asce7::Exposure::C,
            told: forecast::Told::OpenCountry,
            density_kg_per_m3: 1.1,
        };
        let european = en1991::En1991Site {
            terrain: en1991::TerrainCategory::II,
            orography: 1.0,
            turbulence: 1.0,
            density_kg_per_m3: 1.25,
        };
        for route in [Route::Forecast(forecast), Route::En1991(european)] {
            for height_m in [2.0, 5.0, 12.0] {
                let (pressure_pa, speed) =
                    (route.pressure_pa(20.0, height_m), route.gust_m_per_s(20.0, height_m));
                let stopped_pa = 0.5 * route.density_kg_per_m3() * speed * speed;
                assert!((stopped_pa / pressure_pa - 1.0).abs() < 1e-12, "{route:?} {height_m}");
            }
        }
        // At 10 m in open country the gust is the gust.
        assert!((Route::Forecast(forecast).gust_m_per_s(20.0, 10.0) - 20.0).abs() < 0.01);
    }
}
